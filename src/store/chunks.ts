// Chunks: the positions of many endings stored column by column, so that a question about a million positions
// reads some millions of bytes and looks at nothing it does not ask about.
//
// Chunks are derived from `plies` and may be missing: a run builds what is not in one yet when it ends, and a run
// that was killed leaves endings outside, which are then read from `plies`. A chunk is dropped whole when one of its
// endings goes.

import { POSITION_COLUMNS, PositionColumns } from "../endings/position-columns.js";
import { type StoredBlob, blobChecksum, wholeBlob } from "./checksums.js";
import type { Connection } from "./connection.js";

/** Positions that a chunk holds at least, the last one aside. */
const CHUNK = 1 << 16;

export interface ChunkRow {
  readonly id: number;
  readonly first_ending: number;
  readonly last_ending: number;
  readonly positions: number;
}

/** Every chunk, in the order of their endings. */
export const chunksOf = (db: Connection): ChunkRow[] =>
  db.prepare("SELECT * FROM chunks ORDER BY first_ending").all() as ChunkRow[];

function dropChunk(db: Connection, id: number): void {
  db.prepare("DELETE FROM columns WHERE chunk_id = ?").run(id);
  db.prepare("DELETE FROM chunks WHERE id = ?").run(id);
}

/** Drops the chunks that hold endings of a source. */
export function dropChunksOf(db: Connection, source: number): void {
  const ids = db
    .prepare(
      `SELECT DISTINCT c.id FROM chunks c JOIN endings e ON e.id BETWEEN c.first_ending AND c.last_ending
       JOIN games g ON g.id = e.game_id WHERE g.source_id = ?`,
    )
    .pluck()
    .all(source) as number[];
  for (const id of ids) dropChunk(db, id);
}

/** Drops every chunk. */
export function dropAllChunks(db: Connection): void {
  db.transaction(() => {
    db.prepare("DELETE FROM columns").run();
    db.prepare("DELETE FROM chunks").run();
  }).immediate();
}

/** Writes a chunk of endings that follow each other. */
function writeChunk(db: Connection, ids: readonly number[]): void {
  const read = db.prepare("SELECT data, checksum FROM plies WHERE ending_id = ?");
  const parts = ids.map((id) =>
    PositionColumns.from(wholeBlob(read.get(id) as StoredBlob, db, `ending ${id}`)),
  );
  const positions = parts.reduce((sum, part) => sum + part.count, 0);
  const { lastInsertRowid } = db
    .prepare("INSERT INTO chunks VALUES (NULL, ?, ?, ?)")
    .run(ids[0], ids[ids.length - 1], positions);
  const insert = db.prepare("INSERT INTO columns VALUES (?, ?, ?, ?)");
  POSITION_COLUMNS.forEach(({ name, width }, n) => {
    const data = Buffer.allocUnsafe(positions * width);
    let offset = 0;
    for (const { columns } of parts) {
      const { buffer, byteOffset, byteLength } = columns[n];
      data.set(new Uint8Array(buffer, byteOffset, byteLength), offset);
      offset += byteLength;
    }
    insert.run(lastInsertRowid, name, data, blobChecksum(data));
  });
}

/** Gathers the endings that are in no chunk yet. A last chunk that is not full is written again with them. */
export function buildChunks(db: Connection): void {
  db.transaction(() => {
    const outside = `SELECT e.id, e.positions FROM endings e
      WHERE NOT EXISTS (SELECT 1 FROM chunks c WHERE e.id BETWEEN c.first_ending AND c.last_ending) ORDER BY e.id`;
    if (db.prepare(`${outside} LIMIT 1`).get() === undefined) return;
    for (const { id, positions } of chunksOf(db)) if (positions < CHUNK) dropChunk(db, id);
    const chunks = chunksOf(db);
    let ids: number[] = [];
    let positions = 0;
    let next = 0;
    const flush = () => {
      if (ids.length > 0) writeChunk(db, ids);
      ids = [];
      positions = 0;
    };
    for (const one of db.prepare(outside).all() as { id: number; positions: number }[]) {
      // a chunk covers every ending from its first to its last
      for (; next < chunks.length && chunks[next].last_ending < one.id; ++next) flush();
      ids.push(one.id);
      positions += one.positions;
      if (positions >= CHUNK) flush();
    }
    flush();
  }).immediate();
}

// Looking at a whole database: what is hurt, in which file's games, and what can be made again.

import { POSITION_BYTES } from "../endings/position-columns.js";
import { GameChecksums, type StoredBlob, blobChecksum } from "./checksums.js";
import { chunksOf } from "./chunks.js";
import type { Connection } from "./connection.js";

export interface Hurt {
  /** In words: "the positions of ending 12". */
  readonly what: string;
  /** The number of the game's row, and its file; null where it is only what is derived from others, which is made again. */
  readonly game: number | null;
  readonly source: { readonly id: number; readonly name: string; readonly path: string } | null;
}

export interface Checked {
  readonly games: number;
  readonly endings: number;
  readonly chunks: number;
  readonly hurt: readonly Hurt[];
  /** What SQLite itself finds wrong with the file; nothing can be trusted then. */
  readonly file: readonly string[];
}

/** Looks at everything in a database. */
export function checkDatabase(db: Connection): Checked {
  const hurt: Hurt[] = [];
  let file: string[];
  try {
    file = (db.prepare("PRAGMA integrity_check").pluck().all() as string[]).filter((line) => line !== "ok");
  } catch (thrown) {
    file = [(thrown as Error).message];
  }
  if (file.length > 0) return { games: 0, endings: 0, chunks: 0, hurt, file };
  const sources = new Map(
    (db.prepare("SELECT id, name, path FROM sources").all() as NonNullable<Hurt["source"]>[]).map((one) => [
      one.id,
      one,
    ]),
  );
  const checksums = new GameChecksums(db);
  let games = 0;
  for (const { id, source, number, checksum } of db
    .prepare("SELECT id, source_id AS source, number, checksum FROM games ORDER BY id")
    .all() as { id: number; source: number; number: number; checksum: number }[]) {
    ++games;
    if (checksums.of(id) !== checksum)
      hurt.push({
        what: `game ${number} of ${sources.get(source)?.name ?? "no file"}`,
        game: id,
        source: sources.get(source) ?? null,
      });
  }
  let endings = 0;
  const plies = db.prepare(
    `SELECT e.id, e.positions, g.id AS game, g.source_id AS source, p.data, p.checksum FROM endings e
     JOIN games g ON g.id = e.game_id LEFT JOIN plies p ON p.ending_id = e.id ORDER BY e.id`,
  );
  for (const { id, positions, game, source, data, checksum } of plies.iterate() as IterableIterator<
    Partial<StoredBlob> & { id: number; positions: number; game: number; source: number }
  >) {
    ++endings;
    if (!data || data.length !== positions * POSITION_BYTES || blobChecksum(data) !== checksum)
      hurt.push({ what: `the positions of ending ${id}`, game, source: sources.get(source) ?? null });
  }
  const chunks = chunksOf(db);
  const columns = db.prepare("SELECT name, data, checksum FROM columns WHERE chunk_id = ?");
  for (const chunk of chunks)
    for (const { name, data, checksum } of columns.all(chunk.id) as (StoredBlob & { name: string })[])
      if (blobChecksum(data) !== checksum)
        hurt.push({ what: `a chunk of the column ${name}`, game: null, source: null });
  return { games, endings, chunks: chunks.length, hurt, file };
}

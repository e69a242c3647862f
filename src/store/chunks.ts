// Chunks: the positions of many endings, column by column, each column packed. A question about a million positions reads some
// millions of bytes, and looks at nothing it does not ask about.
//
// While a run writes, positions that do not fill a chunk are loose: one value for each ending, since a run may be killed at
// any moment and must have lost nothing that was written. They are gathered into a chunk as soon as they fill one, and when
// the run ends. A chunk whose endings are not all to stay is loosened first. Numbers of endings rise from chunk to chunk.

import {
  type ColumnArray,
  POSITION_COLUMNS,
  PositionColumns,
  PositionReader,
  type Width,
  noneOf,
} from "../endings/position-columns.js";
import { LongsideError } from "../errors.js";
import { GEOMETRY } from "../geometry/facts.js";
import { type StoredBlob, wholeBlob } from "./checksums.js";
import type { Connection } from "./connection.js";
import { type Bounds, type ColumnValues, roomForColumn, unpackColumn } from "./packing.js";

/** A chunk, and where in it the positions of each ending lie. */
export interface Chunk {
  readonly id: number;
  readonly firstEnding: number;
  readonly lastEnding: number;
  readonly positions: number;
  /** Numbers of the endings, how many positions each has, and its first ply and half-move count. */
  readonly ids: Int32Array;
  readonly counts: Int32Array;
  readonly firstPlies: Int32Array;
  readonly firstHalfmoves: Int32Array;
}

/** A chunk's row. */
export interface ChunkRow extends StoredBlob {
  readonly id: number;
  readonly first_ending: number;
  readonly last_ending: number;
  readonly positions: number;
}

/** An ending's positions on their way into a chunk. */
export interface Part {
  readonly id: number;
  readonly firstPly: number;
  readonly firstHalfmoves: number;
  readonly positions: PositionReader;
}

const whatIs = (chunk: Pick<ChunkRow, "first_ending" | "last_ending">): string =>
  `the chunk of endings ${chunk.first_ending} to ${chunk.last_ending}`;

/** What a chunk's row tells. Throws `database-damaged`. */
export function readChunk(db: Connection, row: ChunkRow): Chunk {
  const bytes = wholeBlob(row, db, whatIs(row));
  const length = new DataView(bytes.buffer).getUint32(0, true);
  const numbers = unpackColumn(bytes.subarray(4), 4, 4 * length) as Int32Array;
  const [ids, counts, firstPlies, firstHalfmoves] = [0, 1, 2, 3].map((n) =>
    numbers.subarray(n * length, (n + 1) * length),
  );
  return {
    id: row.id,
    firstEnding: row.first_ending,
    lastEnding: row.last_ending,
    positions: row.positions,
    ids: ids.map((id) => id + row.first_ending),
    counts,
    firstPlies,
    firstHalfmoves,
  };
}

/** Every chunk, in the order of their endings, or the one of a number. Throws `database-damaged`. */
export function chunksOf(db: Connection, id?: number): Chunk[] {
  const rows =
    id === undefined
      ? db.prepare("SELECT * FROM chunks ORDER BY first_ending").all()
      : db.prepare("SELECT * FROM chunks WHERE id = ?").all(id);
  return (rows as ChunkRow[]).map((row) => readChunk(db, row));
}

/** The chunk that an ending is in, if it is in one. */
function chunkOf(db: Connection, ending: number): Chunk | undefined {
  const row = db
    .prepare(
      "SELECT * FROM chunks WHERE first_ending <= ? AND last_ending >= ? ORDER BY first_ending DESC LIMIT 1",
    )
    .get(ending, ending) as ChunkRow | undefined;
  const chunk = row && readChunk(db, row);
  return chunk?.ids.includes(ending) ? chunk : undefined;
}

type ColumnRow = StoredBlob & Bounds;

/** Stands for a column of facts from the other edge that differs nowhere from that of the first. */
export const AS_FROM_THE_FIRST = "as from the first edge";

/** What is stored of a column of a chunk; undefined where it is not there. Throws `database-damaged`. */
function storedColumn(
  db: Connection,
  chunk: number,
  name: string,
  width: Width,
  count: number,
): ColumnValues | typeof AS_FROM_THE_FIRST | undefined {
  const row = db
    .prepare("SELECT least, absent, data, checksum FROM columns WHERE name = ? AND chunk_id = ?")
    .get(name, chunk) as ColumnRow | undefined;
  if (!row) return undefined;
  const bytes = wholeBlob(row, db, `a chunk of the column ${name}`);
  if (bytes.length > 0) return unpackColumn(bytes, width, count);
  if (row.least === null && row.absent === 0) return AS_FROM_THE_FIRST;
  return roomForColumn(width, count).fill(row.least ?? noneOf(width));
}

/** The values of a column, by its place in `POSITION_COLUMNS`; undefined where the chunk is there no longer. Throws `database-damaged`. */
export function readColumn(
  db: Connection,
  { id, positions }: Chunk,
  column: number,
): ColumnValues | undefined {
  const { name, width } = POSITION_COLUMNS[column];
  return storedColumn(db, id, name, width, positions) as ColumnValues | undefined;
}

/** What a column of facts from the other edge is called. */
export const fromOtherEdge = (name: string): string => `${name} from the other edge`;

/**
 * A fact of the geometry, by its place in `GEOMETRY`, seen from the other of two equally near edges, in the positions of a
 * chunk that have two, of which there are `count`; undefined where the chunk is there no longer. Throws `database-damaged`.
 */
export const readFromOtherEdge = (db: Connection, { id }: Chunk, fact: number, count: number) =>
  storedColumn(db, id, fromOtherEdge(GEOMETRY[fact].name), 1, count);

/** Places of the positions in which the defender's king is as near to two edges, by the columns of its rank and its file. */
export function twoEdgesIn(ranks: ColumnArray, files: ColumnArray): Int32Array {
  let count = 0;
  for (let n = 0; n < ranks.length; ++n) if (ranks[n] === files[n]) ++count;
  const found = new Int32Array(count);
  for (let n = 0, row = 0; row < count; ++n) if (ranks[n] === files[n]) found[row++] = n;
  return found;
}

/** What every chunk's part of a column holds at least and at most, by the numbers of the chunks. */
export function boundsByChunk(db: Connection, name: string): Map<number, Bounds> {
  const rows = db
    .prepare("SELECT chunk_id AS id, least, greatest, absent FROM columns WHERE name = ?")
    .all(name) as (Bounds & { id: number })[];
  return new Map(rows.map(({ id, ...bounds }) => [id, bounds]));
}

/** The positions of an ending that is in no chunk. Throws `database-damaged`. */
export function readLoose(db: Connection, ending: number): PositionReader | undefined {
  const row = db.prepare("SELECT data, checksum FROM loose WHERE ending_id = ?").get(ending) as
    StoredBlob | undefined;
  return row && PositionColumns.from(wholeBlob(row, db, `the positions of ending ${ending}`));
}

/** The positions of each ending of a chunk, which are read as they are asked for. `read` gives the chunk's columns. */
export function partsOf(chunk: Chunk, read: (column: number) => ColumnArray): Part[] {
  let start = 0;
  return [...chunk.ids].map((id, n) => {
    const [from, to] = [start, (start += chunk.counts[n])];
    return {
      id,
      firstPly: chunk.firstPlies[n],
      firstHalfmoves: chunk.firstHalfmoves[n],
      positions: new PositionReader(to - from, (column) => read(column).subarray(from, to)),
    };
  });
}

/** Reads a chunk's columns, each once. Throws `database-damaged`. */
export function columnsRead(db: Connection, chunk: Chunk): (column: number) => ColumnArray {
  const known: ColumnArray[] = [];
  return (column) => (known[column] ??= readColumn(db, chunk, column) ?? gone(db));
}

function gone(db: Connection): never {
  throw new LongsideError("database-changed", { path: db.name });
}

/** The positions of an ending, wherever they lie now. Throws `database-damaged`, `database-changed`. */
export function positionsOf(db: Connection, ending: number): PositionReader {
  const loose = readLoose(db, ending);
  if (loose) return loose;
  const chunk = chunkOf(db, ending);
  // a run may have gathered it between the two looks
  if (!chunk) return readLoose(db, ending) ?? gone(db);
  const at = chunk.ids.indexOf(ending);
  return partsOf(chunk, columnsRead(db, chunk))[at].positions;
}

/** An ending whose positions are in no chunk. */
export interface LooseEnding {
  readonly id: number;
  readonly positions: number;
  readonly firstPly: number;
  readonly firstHalfmoves: number;
}

/** Every ending whose positions are in no chunk, by number. */
export const looseEndings = (db: Connection): LooseEnding[] =>
  db
    .prepare(
      `SELECT e.id, e.positions, e.first_ply AS firstPly, e.first_halfmoves AS firstHalfmoves
       FROM loose l JOIN endings e ON e.id = l.ending_id ORDER BY e.id`,
    )
    .all() as LooseEnding[];

// Chunks: the positions of many endings, column by column, each column packed. A question about a million positions reads some
// millions of bytes, and looks at nothing it does not ask about.
//
// While a run writes, positions that do not fill a chunk are loose: one value for each ending, since a run may be killed at
// any moment and must have lost nothing that was written. They are gathered into a chunk as soon as they fill one, and when
// the run ends. A chunk whose endings are not all to stay is loosened first. Numbers of endings rise from chunk to chunk.

import type { Material } from "../chess/material.js";
import { placementAt } from "../chess/placement.js";
import {
  type ColumnArray,
  FIRST_FACT,
  KING_FILE,
  KING_RANK,
  PLACEMENT,
  POSITION_COLUMNS,
  PositionColumns,
  PositionReader,
  type Width,
  columnArray,
  noneOf,
  storedFact,
} from "../endings/position-columns.js";
import { LongsideError } from "../errors.js";
import { GEOMETRY, Geometer } from "../geometry/facts.js";
import { type StoredBlob, blobChecksum, wholeBlob } from "./checksums.js";
import type { Connection } from "./connection.js";
import {
  type Bounds,
  type ColumnValues,
  boundsOf,
  packColumn,
  roomForColumn,
  unpackColumn,
} from "./packing.js";

/** Positions that fill a chunk. */
export const CHUNK = 1 << 16;

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

interface ChunkRow extends StoredBlob {
  readonly id: number;
  readonly first_ending: number;
  readonly last_ending: number;
  readonly positions: number;
}

/** An ending's positions on their way into a chunk. */
interface Part {
  readonly id: number;
  readonly firstPly: number;
  readonly firstHalfmoves: number;
  readonly positions: PositionReader;
}

const whatIs = (chunk: Pick<ChunkRow, "first_ending" | "last_ending">): string =>
  `the chunk of endings ${chunk.first_ending} to ${chunk.last_ending}`;

function readChunk(db: Connection, row: ChunkRow): Chunk {
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
const fromOtherEdge = (name: string): string => `${name} from the other edge`;

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
function readLoose(db: Connection, ending: number): PositionReader | undefined {
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

/** Drops a chunk, with the positions of its endings. */
export function dropChunk(db: Connection, id: number): void {
  const drop = db.prepare("DELETE FROM columns WHERE name = ? AND chunk_id = ?");
  for (const { name } of POSITION_COLUMNS) drop.run(name, id);
  for (const { name } of GEOMETRY) drop.run(fromOtherEdge(name), id);
  db.prepare("DELETE FROM chunks WHERE id = ?").run(id);
}

/** Takes a chunk apart: its endings are loose then, but for those that are not there any more. */
function loosen(db: Connection, chunk: Chunk): void {
  const isThere = db.prepare("SELECT 1 FROM endings WHERE id = ?");
  for (const { id, positions } of partsOf(chunk, columnsRead(db, chunk)))
    if (isThere.get(id)) addLoose(db, id, PositionColumns.copyOf(positions).bytes);
  dropChunk(db, chunk.id);
}

/** Loosens the chunks that hold some endings, given by their numbers, which rise. */
function loosenThoseOf(db: Connection, endings: readonly number[]): void {
  let next = 0;
  for (const row of db.prepare("SELECT * FROM chunks ORDER BY first_ending").all() as ChunkRow[]) {
    while (next < endings.length && endings[next] < row.first_ending) ++next;
    if (endings[next] <= row.last_ending) loosen(db, readChunk(db, row));
  }
}

const ENDINGS_OF = "SELECT e.id FROM endings e JOIN games g ON g.id = e.game_id";

/** Loosens the chunks that hold endings of a source. Throws `database-damaged`. */
export const loosenSource = (db: Connection, source: number): void =>
  loosenThoseOf(
    db,
    db.prepare(`${ENDINGS_OF} WHERE g.source_id = ? ORDER BY e.id`).pluck().all(source) as number[],
  );

/** Loosens the chunk that holds endings of a game. Throws `database-damaged`. */
export const loosenGame = (db: Connection, game: number): void =>
  loosenThoseOf(db, db.prepare(`${ENDINGS_OF} WHERE g.id = ? ORDER BY e.id`).pluck().all(game) as number[]);

/** Stores the positions of an ending that are in no chunk. */
export function addLoose(db: Connection, ending: number, bytes: Uint8Array): void {
  db.prepare("INSERT INTO main.loose VALUES (?, ?, ?)").run(ending, bytes, blobChecksum(bytes));
}

/** An ending that has just been written, with the bytes of its positions (see `PositionColumns`). */
export interface NewEnding extends Omit<Part, "positions"> {
  readonly count: number;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

/**
 * Stores the positions of new endings, whose numbers rise from above those of all others: in chunks where they fill some,
 * else loose. Gives the number of positions that are loose.
 */
export function addPositions(db: Connection, target: Material, endings: readonly NewEnding[]): number {
  const write = (some: readonly NewEnding[]) =>
    writeChunk(
      db,
      target,
      some.map(({ bytes, ...ending }) => ({ ...ending, positions: PositionColumns.from(bytes) })),
    );
  let first = 0;
  let positions = 0;
  endings.forEach(({ count }, n) => {
    positions += count;
    if (positions < CHUNK) return;
    write(endings.slice(first, n + 1));
    first = n + 1;
    positions = 0;
  });
  const rest = endings.slice(first);
  // a chunk that is half full stays as it is
  if (2 * positions >= CHUNK) {
    write(rest);
    return 0;
  }
  for (const { id, bytes } of rest) addLoose(db, id, bytes);
  return positions;
}

/** Writes a chunk of endings that follow each other. */
function writeChunk(db: Connection, target: Material, parts: readonly Part[]): void {
  const first = parts[0].id;
  const positions = parts.reduce((sum, part) => sum + part.positions.count, 0);
  const numbers = Int32Array.from([
    ...parts.map(({ id }) => id - first),
    ...parts.map((part) => part.positions.count),
    ...parts.map(({ firstPly }) => firstPly),
    ...parts.map(({ firstHalfmoves }) => firstHalfmoves),
  ]);
  const length = Buffer.alloc(4);
  length.writeUInt32LE(parts.length);
  const data = Buffer.concat([length, packColumn(numbers)]);
  const { lastInsertRowid: chunk } = db
    .prepare("INSERT INTO chunks VALUES (NULL, ?, ?, ?, ?, ?)")
    .run(first, parts[parts.length - 1].id, positions, data, blobChecksum(data));
  const insert = db.prepare("INSERT INTO columns VALUES (?, ?, ?, ?, ?, ?, ?)");
  const write = (name: string, bounds: Bounds, column: Buffer) =>
    insert.run(chunk, name, bounds.least, bounds.greatest, bounds.absent, column, blobChecksum(column));
  const written = POSITION_COLUMNS.map(({ name, width }, n) => {
    const values = columnArray(width, new ArrayBuffer(width * positions), 0, positions);
    let at = 0;
    for (const part of parts) {
      values.set(part.positions.column(n), at);
      at += part.positions.count;
    }
    const bounds = boundsOf(values);
    write(name, bounds, packedUnlessSame(values, bounds));
    return values;
  });
  const geometer = new Geometer(target);
  const rows = twoEdgesIn(written[KING_RANK], written[KING_FILE]);
  const facts = GEOMETRY.map(() => new Int8Array(rows.length));
  rows.forEach((at, n) => {
    const values = geometer.valuesFromOtherEdge(placementAt(written[PLACEMENT][at], target.men))!;
    for (let fact = 0; fact < facts.length; ++fact) facts[fact][n] = storedFact(values[fact]);
  });
  GEOMETRY.forEach(({ name }, fact) => {
    const own = written[FIRST_FACT + fact];
    const same = facts[fact].every((value, n) => value === own[rows[n]]);
    const bounds = same ? { least: null, greatest: null, absent: 0 } : boundsOf(facts[fact]);
    write(fromOtherEdge(name), bounds, same ? Buffer.alloc(0) : packedUnlessSame(facts[fact], bounds));
  });
}

/** A column's bytes, none where all its values are the same. */
function packedUnlessSame(values: ColumnArray, { least, greatest, absent }: Bounds): Buffer {
  const same = absent === values.length || (absent === 0 && least === greatest);
  return same ? Buffer.alloc(0) : packColumn(values);
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

/**
 * Gathers loose endings into chunks: those that fill one, or, at the end of a run, all; then chunks that are not half full
 * are gathered again with what comes beside them. `full` is how many positions fill one; another for tests.
 */
export function gatherLoose(db: Connection, target: Material, all: boolean, full = CHUNK): void {
  db.transaction(() => gather(db, target, all, full)).immediate();
}

function gather(db: Connection, target: Material, all: boolean, full: number): void {
  const chunks = db.prepare("SELECT * FROM chunks ORDER BY first_ending").all() as ChunkRow[];
  let group: (LooseEnding | ChunkRow)[] = [];
  let positions = 0;
  const flush = () => {
    const worth = all ? group.length > 1 || group.some((one) => !("data" in one)) : positions >= full;
    if (worth) writeGroup(db, target, group);
    group = [];
    positions = 0;
  };
  let next = 0;
  const passChunks = (before: number) => {
    for (; next < chunks.length && chunks[next].first_ending < before; ++next) {
      const chunk = chunks[next];
      if (all && 2 * chunk.positions < full) {
        group.push(chunk);
        positions += chunk.positions;
      } else flush();
      if (positions >= full) flush();
    }
  };
  for (const one of looseEndings(db)) {
    passChunks(one.id);
    group.push(one);
    positions += one.positions;
    if (positions >= full) flush();
  }
  passChunks(Infinity);
  flush();
}

/** Writes loose endings and small chunks that follow each other as one chunk. */
function writeGroup(db: Connection, target: Material, group: readonly (LooseEnding | ChunkRow)[]): void {
  const parts = group.flatMap((one): Part[] => {
    if (!("data" in one)) return [{ ...one, positions: readLoose(db, one.id)! }];
    const chunk = readChunk(db, one);
    return partsOf(chunk, columnsRead(db, chunk));
  });
  const drop = db.prepare("DELETE FROM loose WHERE ending_id = ?");
  // they are read as they are written, so that what they came from goes afterwards
  writeChunk(db, target, parts);
  for (const one of group) {
    if ("data" in one) dropChunk(db, one.id);
    else drop.run(one.id);
  }
}

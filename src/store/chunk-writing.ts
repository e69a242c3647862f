// Writing chunks: the positions of new endings, gathering what is loose, and taking chunks apart. What a chunk is, chunks.ts says.

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
  columnArray,
  storedFact,
} from "../endings/position-columns.js";
import { GEOMETRY, Geometer } from "../geometry/facts.js";
import { blobChecksum } from "./checksums.js";
import type { Connection } from "./connection.js";
import { type Bounds, boundsOf, packColumn } from "./packing.js";
import {
  type Chunk,
  type ChunkRow,
  type Part,
  type LooseEnding,
  readChunk,
  readLoose,
  fromOtherEdge,
  twoEdgesIn,
  partsOf,
  columnsRead,
  looseEndings,
} from "./chunks.js";

/** Positions that fill a chunk. */
export const CHUNK = 1 << 16;

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

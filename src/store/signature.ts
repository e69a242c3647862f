// A signature of what a database holds: equal for equal content, whatever the order in which it came and the numbers
// that its rows have got.

import { type Hash, createHash } from "node:crypto";

import { POSITION_BYTES, POSITION_COLUMNS, type Width } from "../endings/position-columns.js";
import { type ColumnStore, columnStoreOf } from "./column-store.js";
import type { Connection } from "./connection.js";
import { unpackMoves } from "./packing.js";

/** Columns of a table, less those that depend on the order of work or on the place of the files. */
function columnsOf(db: Connection, table: string): string {
  const local = new Set([
    "id",
    "source_id",
    "game_id",
    "ending_id",
    "duplicate_of",
    "checksum",
    "path",
    "modified",
    "file_part",
    "file_parts",
  ]);
  const columns = db.prepare(`PRAGMA table_info(${table})`).all() as { name: string; type: string }[];
  return columns
    .filter(({ name }) => !local.has(name))
    .map(({ name, type }) =>
      name === "moves" ? `moves(t.${name})` : type === "BLOB" ? `digits(t.${name})` : `t.${name}`,
    )
    .join(", ");
}

/** The two digits of each byte, as the characters lie in memory. */
const DIGITS = Uint16Array.from({ length: 256 }, (_, byte) => {
  const text = Buffer.from(byte.toString(16).toUpperCase().padStart(2, "0"));
  return text.readUInt16LE(0);
});

/** Writes values of one byte from `start` up to and without `end`; gives the place behind them. */
function writeBytes(digits: Uint16Array, at: number, values: Int8Array, start: number, end: number): number {
  for (let p = start; p < end; ++p) digits[at++] = DIGITS[values[p] & 255];
  return at;
}

/** The same of values of some bytes each, the lowest first. */
function writeNumbers(
  digits: Uint16Array,
  at: number,
  values: ArrayLike<number>,
  width: Width,
  start: number,
  end: number,
): number {
  for (let p = start; p < end; ++p)
    for (let shift = 0; shift < 8 * width; shift += 8) digits[at++] = DIGITS[(values[p] >> shift) & 255];
  return at;
}

/**
 * Adds the positions of endings, by their numbers: of each ending all bytes of all columns as digits, in JSON. Written into one
 * piece of memory that is used again, since of a large database it is gigabytes.
 */
function addPositions(hash: Hash, store: ColumnStore, ids: readonly number[]): void {
  const [before, behind] = [Buffer.from('["'), Buffer.from('"]\n')];
  let room = Buffer.alloc(0);
  let slice: ColumnStore | undefined;
  let columns: { readonly values: ArrayLike<number>; readonly width: Width }[] = [];
  for (const id of ids) {
    const place = store.placeOf(id)!;
    if (!slice || place < slice.from || place >= slice.to) {
      const one = (slice = store.sliceOf(place));
      columns = POSITION_COLUMNS.map(({ name, width }) => ({ values: one.column(name).values, width }));
    }
    const [start, end] = [slice.starts[place - slice.from], slice.starts[place - slice.from + 1]];
    const size = 2 * POSITION_BYTES * (end - start);
    if (room.length < before.length + size + behind.length)
      room = Buffer.alloc(2 * (before.length + size + behind.length));
    before.copy(room);
    const digits = new Uint16Array(room.buffer, room.byteOffset + before.length, size / 2);
    let at = 0;
    for (const { values, width } of columns)
      at =
        values instanceof Int8Array
          ? writeBytes(digits, at, values, start, end)
          : writeNumbers(digits, at, values, width, start, end);
    behind.copy(room, before.length + size);
    hash.update(room.subarray(0, before.length + size + behind.length));
  }
}

/** SHA-256 of the sources, games, endings, positions and skipped games, each in an order of its own. */
export function contentSignature(db: Connection): string {
  db.function("moves", { deterministic: true }, (bytes: unknown) => unpackMoves(bytes as Buffer));
  db.function("digits", { deterministic: true }, (bytes: unknown) =>
    bytes === null ? null : (bytes as Buffer).toString("hex"),
  );
  const hash = createHash("sha256");
  const write = (row: unknown) => hash.update(`${JSON.stringify(row)}\n`);
  const add = (sql: string) => {
    for (const row of db.prepare(sql).raw().iterate()) write(row);
  };
  const columns = (table: string) => columnsOf(db, table);
  const games = "JOIN games g ON g.id = e.game_id JOIN sources s ON s.id = g.source_id";
  const order = "s.name, g.number, g.part, e.first_ply";
  add(`SELECT t.name, ${columns("sources")} FROM sources t ORDER BY t.name`);
  add(
    `SELECT s.name, ${columns("games")}, (SELECT os.name || ':' || o.number || ':' || o.part
       FROM games o JOIN sources os ON os.id = o.source_id WHERE o.id = t.duplicate_of)
     FROM games t JOIN sources s ON s.id = t.source_id ORDER BY s.name, t.number, t.part`,
  );
  add(`SELECT ${columns("endings")} FROM endings t JOIN endings e ON e.id = t.id ${games} ORDER BY ${order}`);
  const ids = db.prepare(`SELECT e.id FROM endings e ${games} ORDER BY ${order}`).pluck().all() as number[];
  addPositions(hash, columnStoreOf(db), ids);
  add(
    `SELECT s.name, ${columns("skipped")} FROM skipped t JOIN sources s ON s.id = t.source_id ORDER BY s.name, t.number, t.part`,
  );
  return hash.digest("hex");
}

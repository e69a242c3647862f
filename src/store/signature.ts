// A signature of what a database holds: equal for equal content, whatever the order in which it came and the numbers
// that its rows have got.

import { type Hash, createHash } from "node:crypto";

import { POSITION_BYTES, POSITION_COLUMNS, type Width } from "../endings/position-columns.js";
import { type ColumnStore, type Values, columnStoreOf } from "./column-store.js";
import type { Connection } from "./connection.js";

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
    .map(({ name, type }) => (type === "BLOB" ? `hex(t.${name})` : `t.${name}`))
    .join(", ");
}

/** Writes values of one byte from `start` up to and without `end`; gives the place behind them. Most lists are too short to be copied faster. */
function writeBytes(room: Uint8Array, at: number, values: Int8Array, start: number, end: number): number {
  for (let p = start; p < end; ++p) room[at++] = values[p];
  return at;
}

/** The same of values of some bytes each, the lowest first. */
function writeNumbers(
  room: Uint8Array,
  at: number,
  values: Int32Array,
  width: Width,
  start: number,
  end: number,
): number {
  for (let p = start; p < end; ++p)
    for (let shift = 0; shift < 8 * width; shift += 8) room[at++] = values[p] >> shift;
  return at;
}

/**
 * Adds the positions of endings, by their numbers: of each ending the bytes of all columns, one column after the other, the lowest
 * byte of a value first. Written into one piece of memory that is used again, since of a large database it is gigabytes.
 */
function addPositions(hash: Hash, store: ColumnStore, ids: readonly number[]): void {
  let room = new Uint8Array(0);
  let slice: ColumnStore | undefined;
  let columns: { readonly values: Values["values"]; readonly width: Width }[] = [];
  for (const id of ids) {
    const place = store.placeOf(id)!;
    if (!slice || place < slice.from || place >= slice.to) {
      const one = (slice = store.sliceOf(place));
      columns = POSITION_COLUMNS.map(({ name, width }) => ({ values: one.column(name).values, width }));
    }
    const [start, end] = [slice.starts[place - slice.from], slice.starts[place - slice.from + 1]];
    const size = POSITION_BYTES * (end - start);
    if (room.length < size) room = new Uint8Array(2 * size);
    let at = 0;
    for (const { values, width } of columns)
      at =
        values instanceof Int8Array
          ? writeBytes(room, at, values, start, end)
          : writeNumbers(room, at, values as Int32Array, width, start, end);
    // how many bytes there are, so that no two lists of endings give the same
    hash.update(`${size}\n`);
    hash.update(room.subarray(0, size));
  }
}

/** SHA-256 of the sources, games, endings, positions and skipped games, each in an order of its own. */
export function contentSignature(db: Connection): string {
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

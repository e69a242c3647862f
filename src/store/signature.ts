// A signature of what a database holds: equal for equal content, whatever the order in which it came and the numbers
// that its rows have got.

import { createHash } from "node:crypto";

import { POSITION_COLUMNS, type Width } from "../endings/position-columns.js";
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

/** The bytes of a column's values from one place to another, as the column stores them. */
function bytesOf({ values, width }: Column, from: number, to: number): Uint8Array {
  const part = values.subarray(from, to);
  // values of two bytes are read into four
  const { buffer, byteOffset, byteLength } = width === 2 ? Int16Array.from(part) : part;
  return new Uint8Array(buffer, byteOffset, byteLength);
}

interface Column {
  readonly values: Values["values"];
  readonly width: Width;
}

/**
 * Digests of the positions of endings, by their numbers: one of each column, ending after ending. How many positions each ending
 * has is told elsewhere. What lies side by side is taken at once.
 */
function positionDigests(store: ColumnStore, ids: readonly number[]): string[] {
  const hashes = POSITION_COLUMNS.map(() => createHash("sha256"));
  let slice: ColumnStore | undefined;
  let columns: Column[] = [];
  /** Positions of the slice that are to be taken. */
  let [from, to] = [0, 0];
  const take = () => {
    if (to > from) columns.forEach((column, n) => hashes[n].update(bytesOf(column, from, to)));
  };
  for (const id of ids) {
    const place = store.placeOf(id)!;
    const isInside = slice !== undefined && place >= slice.from && place < slice.to;
    if (!isInside) {
      take();
      const one = (slice = store.sliceOf(place));
      columns = POSITION_COLUMNS.map(({ name, width }) => ({ values: one.column(name).values, width }));
    }
    const at = place - slice!.from;
    const start = slice!.starts[at];
    if (!isInside || start !== to) {
      if (isInside) take();
      from = start;
    }
    to = slice!.starts[at + 1];
  }
  take();
  return hashes.map((hash) => hash.digest("hex"));
}

/** Rows that are hashed at once. */
const ROWS = 500;

/** SHA-256 of the sources, games, endings, positions and skipped games, each in an order of its own. */
export function contentSignature(db: Connection): string {
  const hash = createHash("sha256");
  const add = (sql: string) => {
    let rows: string[] = [];
    const flush = () => {
      hash.update(rows.join(""));
      rows = [];
    };
    for (const row of db.prepare(sql).raw().iterate())
      if (rows.push(`${JSON.stringify(row)}\n`) === ROWS) flush();
    flush();
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
  hash.update(positionDigests(columnStoreOf(db), ids).join("\n"));
  add(
    `SELECT s.name, ${columns("skipped")} FROM skipped t JOIN sources s ON s.id = t.source_id ORDER BY s.name, t.number, t.part`,
  );
  return hash.digest("hex");
}

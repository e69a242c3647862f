// A signature of what a database holds: equal for equal content, whatever the order in which it came and the numbers
// that its rows have got.

import { createHash } from "node:crypto";

import { PositionColumns } from "../endings/position-columns.js";
import { columnStoreOf } from "./column-store.js";
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
  const store = columnStoreOf(db);
  for (const id of db
    .prepare(`SELECT e.id FROM endings e ${games} ORDER BY ${order}`)
    .pluck()
    .all() as number[]) {
    const { bytes } = PositionColumns.copyOf(store.positionsAt(store.placeOf(id)!));
    write([Buffer.from(bytes.buffer).toString("hex").toUpperCase()]);
  }
  add(
    `SELECT s.name, ${columns("skipped")} FROM skipped t JOIN sources s ON s.id = t.source_id ORDER BY s.name, t.number, t.part`,
  );
  return hash.digest("hex");
}

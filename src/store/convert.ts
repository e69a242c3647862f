// Bringing a database of an older schema up to this one, in one transaction: nothing is lost, and a run that is killed in
// between leaves what was there.

import type { Material } from "../chess/material.js";
import { gatherLoose } from "./chunk-writing.js";
import { GameChecksums } from "./checksums.js";
import type { Connection } from "./connection.js";
import { packMoves } from "./packing.js";
import { CHUNK_TABLES, GAMES_TABLE, SCHEMA_VERSION, SOURCES_TABLE } from "./schema.js";

/** The oldest schema that can be brought up to this one. */
export const OLDEST_SCHEMA = 8;

/** Converts a database of a schema from `OLDEST_SCHEMA` on. */
export function convert(db: Connection, found: number, target: Material): void {
  // a table that others refer to is put in the place of another
  db.exec("PRAGMA foreign_keys = OFF");
  db.transaction(() => {
    if (found === 8) fromEight(db);
    db.exec(`PRAGMA user_version = ${SCHEMA_VERSION}`);
  }).immediate();
  db.exec("PRAGMA foreign_keys = ON");
  gatherLoose(db, target, true);
  // the pages are written anew, and those that are free given back
  db.exec("PRAGMA auto_vacuum = INCREMENTAL");
  db.exec("VACUUM");
}

/** Schema 8 kept positions twice, and moves and digests as text. */
function fromEight(db: Connection): void {
  db.function("packed", { deterministic: true }, (moves: unknown) => packMoves(moves as string));
  db.function("bytes", { deterministic: true }, (digits: unknown) =>
    digits === null ? null : Buffer.from(digits as string, "hex"),
  );
  const names = (db.prepare("PRAGMA table_info(games)").all() as { name: string }[]).map(({ name }) => name);
  const value = (name: string) =>
    name === "moves" ? "packed(moves)" : DIGESTS.includes(name) ? `bytes(${name})` : name;
  const indexes = db
    .prepare("SELECT name FROM sqlite_schema WHERE type = 'index' AND tbl_name = 'games' AND sql IS NOT NULL")
    .pluck()
    .all() as string[];
  for (const index of indexes) db.exec(`DROP INDEX ${index}`);
  db.exec(`
    DROP TABLE columns;
    DROP TABLE chunks;
    ALTER TABLE plies RENAME TO loose;
    ${CHUNK_TABLES}
    CREATE TEMP TABLE before AS SELECT * FROM games;
    DROP TABLE games;
    ${GAMES_TABLE}
    INSERT INTO games (${names.join(", ")}) SELECT ${names.map(value).join(", ")} FROM before;
    DROP TABLE before;
    CREATE TEMP TABLE before AS SELECT *, 1 AS file_part, 1 AS file_parts FROM sources;
    DROP TABLE sources;
    ${SOURCES_TABLE}
    INSERT INTO sources SELECT * FROM before;
    DROP TABLE before;
  `);
  const checksums = new GameChecksums(db);
  const seal = db.prepare("UPDATE games SET checksum = ? WHERE id = ?");
  for (const id of db.prepare("SELECT id FROM games").pluck().all() as number[])
    seal.run(checksums.of(id), id);
}
const DIGESTS = ["digest", "opening", "long"];

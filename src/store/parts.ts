// Files that several runs, or machines, have read in parts: when all parts of one are there, they become one file again, as
// if it had been read in one go.

import { combinedDigest } from "../pgn/files/digest.js";
import { GameChecksums } from "./checksums.js";
import type { Connection } from "./connection.js";
import type { Duplicates } from "./duplicates.js";
import { type SourceRow, WHOLE, nameOfPart, partOf, shownName } from "./sources.js";

/** The name of the file that a source is, or is a part of. */
export const plainName = (source: SourceRow): string => {
  const { name } = source;
  const part = nameOfPart("", partOf(source));
  return name.endsWith(part) ? name.slice(0, name.length - part.length) : name;
};

const SHA256_DIGITS = 64;

/** The digest of a file from those of its parts, each of which is a list of digests in hexadecimal digits. */
function digestOf(parts: readonly SourceRow[]): string {
  const digits = parts.map(({ hash }) => hash ?? "").join("");
  const digests: Uint8Array[] = [];
  for (let at = 0; at < digits.length; at += SHA256_DIGITS)
    digests.push(Buffer.from(digits.slice(at, at + SHA256_DIGITS), "hex"));
  return combinedDigest(digests);
}

/** Joins the parts of every file of which all are there, read to their ends and of the same state. */
export function joinParts(db: Connection, duplicates: Duplicates): void {
  const rows = db
    .prepare("SELECT * FROM sources WHERE file_parts > 1 AND complete = 1 ORDER BY path, file_part")
    .all() as SourceRow[];
  const groups = new Map<string, SourceRow[]>();
  for (const row of rows) {
    const key = JSON.stringify([row.path, row.file_parts, row.size, row.modified]);
    groups.set(key, [...(groups.get(key) ?? []), row]);
  }
  for (const parts of groups.values())
    if (parts.length === parts[0].file_parts) db.transaction(() => join(db, duplicates, parts)).immediate();
}

function join(db: Connection, duplicates: Duplicates, parts: readonly SourceRow[]): void {
  const [first, ...others] = parts;
  const games = db.prepare("SELECT id FROM games WHERE source_id = ?").pluck();
  const checksums = new GameChecksums(db);
  const seal = db.prepare("UPDATE games SET checksum = ? WHERE id = ?");
  // games are counted from the beginning of the file
  let before = first.numbers;
  for (const { id, numbers } of others) {
    const moved = games.all(id) as number[];
    for (const table of ["games", "skipped"])
      db.prepare(`UPDATE ${table} SET number = number + ?, source_id = ? WHERE source_id = ?`).run(
        before,
        first.id,
        id,
      );
    for (const game of moved) seal.run(checksums.of(game), game);
    db.prepare("DELETE FROM sources WHERE id = ?").run(id);
    before += numbers;
  }
  const sum = (of: (row: SourceRow) => number) => parts.reduce((total, row) => total + of(row), 0);
  db.prepare(
    `UPDATE sources SET name = ?, hash = ?, done = ?, numbers = ?, games = ?, replayed = ?, file_part = 1, file_parts = 1
     WHERE id = ?`,
  ).run(
    shownName(db, { name: plainName(first), path: first.path }, WHOLE, first.id),
    digestOf(parts),
    first.size,
    before,
    sum((row) => row.games),
    sum((row) => row.replayed),
    first.id,
  );
  duplicates.linkFile(first.id);
}

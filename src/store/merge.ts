// Merging databases: what they hold together, as if all had been indexed in one go. Rows keep their order and get new numbers,
// each the old one and what was the greatest here before; chunks are taken over as they are.

import { LongsideError } from "../errors.js";
import { PositionColumns } from "../endings/position-columns.js";
import { addLoose } from "./chunk-writing.js";
import { chunksOf, columnsRead, partsOf } from "./chunks.js";
import type { Connection } from "./connection.js";
import { openForReading, targetOf } from "./database.js";
import { IndexWriter } from "./writer.js";
import { type SourceRow, partOf } from "./sources.js";
import { plainName } from "./parts.js";

export interface MergeSummary {
  /** Files taken over. */
  readonly taken: number;
  /** Files left, since the same or a newer state of them is there already. */
  readonly left: number;
}

const columnsOf = (db: Connection, table: string, but: readonly string[]): string =>
  (db.prepare(`PRAGMA table_info(${table})`).all() as { name: string }[])
    .map(({ name }) => name)
    .filter((name) => !but.includes(name))
    .join(", ");

/** Whether what is stored of a file is to stay when another database offers a state of it. */
const isBetter = (stored: SourceRow, offered: SourceRow): boolean =>
  stored.complete !== offered.complete
    ? stored.complete > offered.complete
    : stored.hash === offered.hash
      ? stored.done >= offered.done
      : stored.modified >= offered.modified;

const greatest = (db: Connection, table: string): number =>
  db.prepare(`SELECT coalesce(max(id), 0) FROM main.${table}`).pluck().get() as number;

/**
 * Takes over the positions of the endings that have just been copied from another database, which is attached as `other`: their
 * numbers have grown by `shift`. Chunks that are here whole stay as they are; of others the endings that are here come loose.
 */
function copyChunks(db: Connection, other: Connection, shift: number): void {
  db.prepare(
    `INSERT INTO main.loose SELECT l.ending_id + @shift, l.data, l.checksum FROM other.loose l
     JOIN main.endings e ON e.id = l.ending_id + @shift`,
  ).run({ shift });
  const here = db.prepare("SELECT count(*) FROM main.endings WHERE id BETWEEN ? AND ?").pluck();
  const chunks = chunksOf(other);
  const whole = chunks.filter(
    ({ ids, firstEnding, lastEnding }) => here.get(firstEnding + shift, lastEnding + shift) === ids.length,
  );
  const insert = db.prepare(
    `INSERT INTO main.chunks SELECT NULL, first_ending + @shift, last_ending + @shift, positions, data, checksum
     FROM other.chunks WHERE id = @id`,
  );
  db.exec("CREATE TEMP TABLE copied (old INTEGER PRIMARY KEY, new INTEGER NOT NULL)");
  const note = db.prepare("INSERT INTO temp.copied VALUES (?, ?)");
  for (const { id } of whole) note.run(id, insert.run({ shift, id }).lastInsertRowid);
  db.prepare(
    `INSERT INTO main.columns SELECT t.new, c.name, c.least, c.greatest, c.absent, c.data, c.checksum
     FROM other.columns c JOIN temp.copied t ON t.old = c.chunk_id`,
  ).run();
  db.exec("DROP TABLE temp.copied");
  const isHere = db.prepare("SELECT 1 FROM main.endings WHERE id = ?");
  for (const chunk of chunks) {
    if (whole.includes(chunk)) continue;
    for (const { id, positions } of partsOf(chunk, columnsRead(other, chunk))) {
      if (isHere.get(id + shift)) addLoose(db, id + shift, PositionColumns.copyOf(positions).bytes);
    }
  }
}

/** Takes over sources with all that they hold, from the database that `other` reads and that is attached as `other`. */
function takeOver(db: Connection, writer: IndexWriter, other: Connection, rows: readonly SourceRow[]): void {
  db.exec("CREATE TEMP TABLE taken (old INTEGER PRIMARY KEY, new INTEGER NOT NULL)");
  const note = db.prepare("INSERT INTO temp.taken VALUES (?, ?)");
  const update = db.prepare(
    "UPDATE main.sources SET complete = ?, hash = ?, done = ?, numbers = ?, games = ?, replayed = ? WHERE id = ?",
  );
  for (const row of rows) {
    const { complete, hash, done, numbers, games, replayed } = row;
    const { id } = writer.begin({ ...row, name: plainName(row) }, false, partOf(row));
    update.run(complete, hash, done, numbers, games, replayed, id);
    note.run(row.id, id);
  }
  const [game, ending] = [greatest(db, "games"), greatest(db, "endings")];
  const copy = (
    table: string,
    links: Readonly<Record<string, string>>,
    but: readonly string[],
    from: string,
  ) => {
    const columns = columnsOf(db, table, [...Object.keys(links), ...but]);
    db.prepare(
      `INSERT INTO main.${table} (${Object.keys(links).join(", ")}, ${columns})
       SELECT ${Object.values(links).join(", ")}, ${columns.replace(/(^|, )/g, "$1o.")} FROM other.${table} o ${from}`,
    ).run();
  };
  copy(
    "games",
    { id: `o.id + ${game}`, source_id: "t.new" },
    ["duplicate_of"],
    "JOIN temp.taken t ON t.old = o.source_id ORDER BY o.id",
  );
  copy(
    "endings",
    { id: `o.id + ${ending}`, game_id: `o.game_id + ${game}` },
    [],
    "JOIN other.games g ON g.id = o.game_id JOIN temp.taken t ON t.old = g.source_id ORDER BY o.id",
  );
  copy("skipped", { source_id: "t.new" }, [], "JOIN temp.taken t ON t.old = o.source_id");
  copyChunks(db, other, ending);
  for (const id of db
    .prepare("SELECT id FROM main.games WHERE id > ? ORDER BY id")
    .pluck()
    .all(game) as number[])
    writer.duplicates.link(id);
  db.exec("DROP TABLE temp.taken");
}

/**
 * Adds the contents of other databases to `db` (at `path`), each in one transaction. Throws `other-target`,
 * `database-busy`, and what opening throws.
 */
export function mergeDatabases(db: Connection, path: string, others: readonly string[]): MergeSummary {
  const target = targetOf(db);
  const writer = new IndexWriter(db, path);
  let taken = 0;
  let left = 0;
  try {
    for (const from of others) {
      const other = openForReading(from);
      try {
        const offered = targetOf(other);
        if (offered.id !== target.id)
          throw new LongsideError("other-target", { path: from, found: offered.name, wanted: target.name });
        const rows = other.prepare("SELECT * FROM sources ORDER BY name").all() as SourceRow[];
        const wanted = rows.filter((row) => {
          const stored = writer.source(row.path, partOf(row));
          return !stored || !isBetter(stored, row);
        });
        left += rows.length - wanted.length;
        if (wanted.length === 0) continue;
        db.prepare("ATTACH DATABASE ? AS other").run(from);
        try {
          db.transaction(() => takeOver(db, writer, other, wanted)).immediate();
        } finally {
          db.exec("DETACH DATABASE other");
        }
        taken += wanted.length;
      } finally {
        other.close();
      }
    }
    return { taken, left };
  } finally {
    writer.release();
  }
}

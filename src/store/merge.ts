// Merging databases: what they hold together, as if all had been indexed in one go.

import { LongsideError } from "../errors.js";
import type { Connection } from "./connection.js";
import { openForReading, targetOf } from "./database.js";
import { IndexWriter, type SourceRow } from "./writer.js";

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

/** Copies rows of one source from the database attached as `other`. */
class Copier {
  constructor(
    private readonly db: Connection,
    private readonly writer: IndexWriter,
  ) {}

  private insert(table: string, links: readonly string[], but: readonly string[], from: string) {
    const columns = columnsOf(this.db, table, [...links, ...but]);
    return this.db.prepare(
      `INSERT INTO ${table} (${[...links, columns].join(", ")})
       SELECT ${links.map(() => "?").join(", ")}, ${columns} FROM other.${table} WHERE ${from}`,
    );
  }

  /** Takes over a source with all that it holds. */
  source(row: SourceRow): void {
    const { db, writer } = this;
    const source = writer.begin(row, false);
    const { complete, hash, done, numbers, games, replayed } = row;
    db.prepare(
      "UPDATE sources SET complete = ?, hash = ?, done = ?, numbers = ?, games = ?, replayed = ? WHERE id = ?",
    ).run(complete, hash, done, numbers, games, replayed, source.id);
    const game = this.insert("games", ["source_id"], ["id", "duplicate_of"], "id = ?");
    const ending = this.insert("endings", ["game_id"], ["id"], "id = ?");
    const plies = this.insert("plies", ["ending_id"], [], "ending_id = ?");
    const ids = (sql: string, id: unknown) => db.prepare(sql).pluck().all(id) as number[];
    for (const id of ids("SELECT id FROM other.games WHERE source_id = ? ORDER BY number, part", row.id)) {
      const gameId = game.run(source.id, id).lastInsertRowid;
      for (const one of ids("SELECT id FROM other.endings WHERE game_id = ? ORDER BY first_ply", id))
        plies.run(ending.run(gameId, one).lastInsertRowid, one);
      writer.duplicates.link(gameId);
    }
    this.insert("skipped", ["source_id"], [], "source_id = ?").run(source.id, row.id);
  }
}

/** Whether what is stored of a file is to stay when another database offers a state of it. */
const isBetter = (stored: SourceRow, offered: SourceRow): boolean =>
  stored.complete !== offered.complete
    ? stored.complete > offered.complete
    : stored.hash === offered.hash
      ? stored.done >= offered.done
      : stored.modified >= offered.modified;

/**
 * Adds the contents of the database at `from` to `db` (at `path`), file by file, each in one transaction. Throws
 * `other-target`, `database-busy`, and what opening throws.
 */
export function mergeDatabase(db: Connection, path: string, from: string): MergeSummary {
  const reading = openForReading(from);
  const offered = targetOf(reading);
  reading.close();
  const target = targetOf(db);
  if (offered.id !== target.id)
    throw new LongsideError("other-target", { path: from, found: offered.name, wanted: target.name });
  const writer = new IndexWriter(db, path);
  try {
    db.prepare("ATTACH DATABASE ? AS other").run(from);
    try {
      const copier = new Copier(db, writer);
      let taken = 0;
      let left = 0;
      for (const row of db.prepare("SELECT * FROM other.sources ORDER BY name").all() as SourceRow[]) {
        const stored = writer.source(row.path);
        if (stored && isBetter(stored, row)) {
          ++left;
          continue;
        }
        db.transaction(() => copier.source(row)).immediate();
        ++taken;
      }
      return { taken, left };
    } finally {
      db.exec("DETACH DATABASE other");
    }
  } finally {
    writer.release();
  }
}

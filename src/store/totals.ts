// What a database has to say of itself after a run: how much it holds, and which games were not read.

import type { Fault } from "../pgn/game/replay.js";
import type { Connection } from "./connection.js";

/** What a database holds in all. */
export interface Totals {
  readonly endings: number;
  readonly positions: number;
  readonly duplicates: number;
  readonly passing: number;
  readonly gamesWithEndings: number;
}

/** A game that could not be read, or not to its end. */
export interface SkippedRow {
  readonly file: string;
  readonly game: number;
  readonly part: number;
  readonly byte: number;
  readonly ply: number | null;
  readonly reason: Fault;
  readonly detail: string;
}

/** Counts of a whole database. */
export const totalsOf = (db: Connection): Totals =>
  db
    .prepare(
      `SELECT count(*) AS endings, coalesce(sum(e.positions), 0) AS positions, count(g.duplicate_of) AS duplicates,
         coalesce(sum(e.passing), 0) AS passing, count(DISTINCT g.id) AS gamesWithEndings
       FROM endings e JOIN games g ON g.id = e.game_id`,
    )
    .get() as Totals;

/** How many games were skipped. */
export const skippedCount = (db: Connection): number =>
  db.prepare("SELECT count(*) FROM skipped").pluck().get() as number;

/** Skipped games in the order of the files and their bytes: all, or `size` of them without the first `from`. */
export const skippedOf = (db: Connection, from = 0, size = -1): SkippedRow[] =>
  db
    .prepare(
      `SELECT s.name AS file, k.number AS game, k.part, k.byte, k.ply, k.reason, k.detail
       FROM skipped k JOIN sources s ON s.id = k.source_id ORDER BY k.source_id, k.byte LIMIT ? OFFSET ?`,
    )
    .all(size, from) as SkippedRow[];

/** How many games were read from how many files, and the years of those with an ending; null where none is known. */
export interface SourceTotals {
  readonly files: number;
  readonly games: number;
  readonly firstYear: number | null;
  readonly lastYear: number | null;
}

/** What a database was made from. */
export const sourceTotals = (db: Connection): SourceTotals =>
  db
    .prepare(
      `SELECT count(*) AS files, coalesce(sum(games), 0) AS games,
         (SELECT min(year) FROM games) AS firstYear, (SELECT max(year) FROM games) AS lastYear FROM sources`,
    )
    .get() as SourceTotals;

/** A file that a database was made from. */
export interface SourceHeld {
  readonly name: string;
  readonly bytes: number;
  /** See pgn/files/digest.ts; null where the file was not read to its end. */
  readonly hash: string | null;
  readonly games: number;
  readonly complete: boolean;
}

/** Every file, by name. */
export const sourcesHeld = (db: Connection): SourceHeld[] =>
  (
    db.prepare("SELECT name, size AS bytes, hash, games, complete FROM sources ORDER BY name").all() as (Omit<
      SourceHeld,
      "complete"
    > & { complete: number })[]
  ).map((row) => ({ ...row, complete: row.complete === 1 }));

/**
 * For each ending, in their order: its game's number and part, and for a copy the number of the first ending of the game that
 * counts.
 */
export const gamesOfEndings = (db: Connection): [game: number, part: number, original: number | null][] =>
  db
    .prepare(
      `SELECT g.number, g.part, (SELECT min(o.id) FROM endings o WHERE o.game_id = g.duplicate_of)
       FROM endings e JOIN games g ON g.id = e.game_id ORDER BY e.id`,
    )
    .raw()
    .all() as [number, number, number | null][];

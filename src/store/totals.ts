// What a database has to say of itself after a run: how much it holds, and which games were not read.

import type { Color } from "chessops";

import type { Fault } from "../pgn/faults.js";
import type { Connection } from "./connection.js";
import { getMeta } from "./database.js";

/** What a database holds in all. */
export interface Totals {
  readonly endings: number;
  readonly positions: number;
  readonly duplicates: number;
  readonly passing: number;
  readonly gamesWithEndings: number;
  /** The year of the newest game with an ending; null where no year is known. */
  readonly newest: number | null;
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
         coalesce(sum(e.passing), 0) AS passing, count(DISTINCT g.id) AS gamesWithEndings, max(g.year) AS newest
       FROM endings e JOIN games g ON g.id = e.game_id`,
    )
    .get() as Totals;

/** What is not in a database though it should be: files of a run that was stopped, and files that could not be read. */
export interface Missing {
  /** Files read to their end, of those that the last run was to read; both 0 where it came to its end. */
  readonly read: number;
  readonly expected: number;
  /** Files that the last run could not read. */
  readonly failed: number;
}

/** What a database is missing. */
export function missingIn(db: Connection): Missing {
  const expected = JSON.parse(getMeta(db, "expected") ?? "[]") as string[];
  const complete = new Set(
    db.prepare("SELECT path FROM sources WHERE complete = 1").pluck().all() as string[],
  );
  return {
    read: expected.filter((path) => complete.has(path)).length,
    expected: expected.length,
    failed: Number(getMeta(db, "failed") ?? 0),
  };
}

/** The same in a sentence; undefined where nothing is missing. */
export function missingInWords(db: Connection): string | undefined {
  const { read, expected, failed } = missingIn(db);
  const parts = [
    ...(read < expected
      ? [
          `the last run was stopped with ${read.toLocaleString("en")} of ${expected.toLocaleString("en")} files read; index again to go on`,
        ]
      : []),
    ...(failed > 0
      ? [`${failed.toLocaleString("en")} ${failed === 1 ? "file" : "files"} could not be read`]
      : []),
  ];
  return parts.length === 0 ? undefined : `This database is not complete: ${parts.join("; ")}.`;
}

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

/** For each ending, in their order: the attacker's colour, and the counts of half-moves and moves with which it begins. */
export const startsOfEndings = (db: Connection): [attacker: Color, halfmoves: number, fullmove: number][] =>
  db.prepare("SELECT attacker, first_halfmoves, first_fullmove FROM endings ORDER BY id").raw().all() as [
    Color,
    number,
    number,
  ][];

/** A file whose games are held. */
export interface HeldFile {
  /** As it is called where games are shown. */
  readonly name: string;
  /** Games in it, those of them that are held, and their endings. */
  readonly games: number;
  readonly held: number;
  readonly endings: number;
  /** Whether it has been read to its end. */
  readonly complete: boolean;
}

/** Files whose games are held, by name, from one of them on. */
export const heldFiles = (db: Connection, from: number, size: number): HeldFile[] =>
  (
    db
      .prepare(
        `SELECT s.name, s.games, s.complete,
           (SELECT count(*) FROM games g WHERE g.source_id = s.id) AS held,
           (SELECT count(*) FROM endings e JOIN games g ON g.id = e.game_id WHERE g.source_id = s.id) AS endings
         FROM sources s ORDER BY s.name LIMIT ? OFFSET ?`,
      )
      .all(size, from) as (Omit<HeldFile, "complete"> & { complete: number })[]
  ).map((row) => ({ ...row, complete: row.complete === 1 }));

/** How many files these are. */
export const heldFileCount = (db: Connection): number =>
  db.prepare("SELECT count(*) FROM sources").pluck().get() as number;

// Duplicates: which stored games are one game. All copies are kept; one of them counts.
//
// At the length of these games the moves decide: whoever plays the same eighty half-moves from the same start has played
// one game, however names, dates and last moves are written. A shorter score is a copy if it is the beginning of
// another (or the same), and the names agree. The longest counts, of equal ones the first by file and number, so that
// neither the order of indexing nor a merge changes anything. Only games that count are compared with, so that a thousand
// copies cost a thousand comparisons.

import { createHash } from "node:crypto";

import type { Connection } from "./connection.js";
import { namesAgree } from "./names-agree.js";

/** Half-moves by which copies of short scores are looked up; a shorter one has copies only of its own length. */
const OPENING_PLIES = 40;
/** Half-moves that no two games share, other than copies of one. */
const LONG_PLIES = 80;

interface StoredGame {
  readonly id: number;
  readonly white: string | null;
  readonly black: string | null;
  readonly opening: Buffer;
  readonly long: Buffer | null;
  /** Equal for equal scores. */
  readonly digest: Buffer;
  readonly plies: number;
  readonly source: string;
  readonly number: number;
  readonly part: number;
  readonly original: number | null;
}

/** What copies of a game have in common: `opening` all, `long` those of long scores. */
export function copyKeys({ start, moves }: { readonly start: string | null; readonly moves: string }): {
  readonly opening: Buffer;
  readonly long: Buffer | null;
} {
  const all = moves === "" ? [] : moves.split(" ");
  const key = (plies: number) =>
    createHash("sha256")
      .update(`${start ?? ""} ${all.slice(0, plies).join(" ")}`)
      .digest()
      .subarray(0, 12);
  return { opening: key(OPENING_PLIES), long: all.length < LONG_PLIES ? null : key(LONG_PLIES) };
}

const comesFirst = (a: StoredGame, b: StoredGame): number =>
  b.plies - a.plies ||
  (a.source < b.source ? -1 : a.source > b.source ? 1 : a.number - b.number || a.part - b.part);

export class Duplicates {
  private readonly one;
  private readonly longOriginals;
  private readonly originals;
  private readonly shortScores;
  private readonly moves;
  private readonly mark;
  private readonly hand;

  constructor(private readonly db: Connection) {
    const columns =
      "g.id, g.white, g.black, g.opening, g.long, g.digest, g.plies, s.name AS source, g.number, g.part, g.duplicate_of AS original FROM games g JOIN sources s ON s.id = g.source_id";
    this.one = db.prepare(`SELECT ${columns} WHERE g.id = ?`);
    this.longOriginals = db.prepare(
      `SELECT ${columns} WHERE g.long = @long AND g.duplicate_of IS NULL AND g.id <> @id`,
    );
    this.originals = db.prepare(
      `SELECT ${columns} WHERE g.opening = @opening AND g.duplicate_of IS NULL AND g.id <> @id`,
    );
    this.shortScores = db.prepare(
      `SELECT ${columns} WHERE g.opening = @opening AND g.long IS NULL AND g.id <> @id`,
    );
    this.moves = db.prepare("SELECT moves FROM games WHERE id = ?").pluck();
    this.mark = db.prepare("UPDATE games SET duplicate_of = ? WHERE id = ?");
    this.hand = db.prepare("UPDATE games SET duplicate_of = @to WHERE duplicate_of = @from OR id = @from");
  }

  /** Finds the game that a stored game is a copy of, or its copies, and marks all but the one that counts. */
  link(id: number | bigint): void {
    const game = this.one.get(id) as StoredGame;
    if (game.original !== null) this.mark.run(null, id);
    if (game.long === null) this.linkShort(game);
    else this.linkLong(game);
  }

  private linkLong(game: StoredGame): void {
    const [first] = (this.longOriginals.all(game) as StoredGame[]).sort(comesFirst);
    if (first && comesFirst(first, game) < 0) {
      this.hand.run({ from: game.id, to: first.id });
      return;
    }
    if (first) this.hand.run({ from: first.id, to: game.id });
    // scores that break off early, unless they are the beginning of another game that comes first
    for (const short of this.shortScores.all(game) as StoredGame[]) {
      if (!this.isBeginning(short, game)) continue;
      const now = short.original === null ? undefined : (this.one.get(short.original) as StoredGame);
      if (!now || comesFirst(game, now) < 0) this.mark.run(game.id, short.id);
    }
  }

  private linkShort(game: StoredGame): void {
    const copies = (this.originals.all(game) as StoredGame[]).filter(
      (other) => this.isBeginning(game, other) || this.isBeginning(other, game),
    );
    if (copies.length === 0) return;
    const [first, ...others] = [game, ...copies].sort(comesFirst);
    if (first.id !== game.id) this.hand.run({ from: game.id, to: first.id });
    // whatever is no longer than this score is the beginning of the first one too
    for (const other of others)
      if (other.plies <= game.plies && other.id !== game.id) this.hand.run({ from: other.id, to: first.id });
  }

  /** Whether one score is the beginning of the other, or both are the same, by players whose names agree. */
  private isBeginning(short: StoredGame, long: StoredGame): boolean {
    if (!namesAgree(short.white, long.white) || !namesAgree(short.black, long.black)) return false;
    if (short.digest.equals(long.digest)) return true;
    if (short.plies >= long.plies) return false;
    const [beginning, moves] = [short, long].map(({ id }) => this.moves.get(id) as Buffer);
    return moves.subarray(0, beginning.length).equals(beginning);
  }

  /** Looks again at a file's games and their copies: which one counts depends on the names of files and the numbers in them. */
  linkFile(source: number): void {
    const games = this.db.prepare("SELECT id FROM games WHERE source_id = ?").pluck().all(source) as number[];
    for (const id of [...games, ...this.heirsOf(source)]) this.link(id);
  }

  /** Games of other files that are marked as copies of a file's, freed of that mark. */
  heirsOf(source: number): number[] {
    const heirs = this.db
      .prepare(
        `SELECT d.id FROM games d JOIN games g ON g.id = d.duplicate_of
         WHERE g.source_id = ? AND d.source_id <> g.source_id ORDER BY d.id`,
      )
      .pluck()
      .all(source) as number[];
    for (const heir of heirs) this.mark.run(null, heir);
    return heirs;
  }
}

// Duplicates: which stored games are one game. All copies are kept; one of them counts.
//
// Games are one if they have the same start, players whose names agree, and moves of which the shorter is the beginning
// of the longer: the same score, or one that breaks off early. The longest counts, of equal ones the first by file and
// number, so that neither the order of indexing nor a merge changes anything.

import type { Connection } from "./connection.js";

/** Half-moves by which copies are looked up; a shorter game has copies only of its own length. */
export const OPENING_PLIES = 40;

interface StoredGame {
  readonly id: number;
  readonly white: string | null;
  readonly black: string | null;
  /** Equal for equal scores. */
  readonly digest: string;
  readonly plies: number;
  readonly source: string;
  readonly number: number;
  readonly part: number;
}

/** Names agree if one is missing in both, or if they share a word of three letters or more ("Adler, T" and "Tom Adler"). */
function sameName(a: string | null, b: string | null): boolean {
  if (a === null || b === null) return a === b;
  const words = (name: string) => name.toLowerCase().match(/[\p{L}\d]{3,}/gu) ?? [name.toLowerCase()];
  const other = new Set(words(b));
  return words(a).some((word) => other.has(word));
}

const comesFirst = (a: StoredGame, b: StoredGame): number =>
  b.plies - a.plies ||
  (a.source < b.source ? -1 : a.source > b.source ? 1 : a.number - b.number || a.part - b.part);

export class Duplicates {
  private readonly one;
  private readonly copies;
  private readonly moves;
  private readonly mark;

  constructor(private readonly db: Connection) {
    const columns =
      "g.id, g.white, g.black, g.digest, g.plies, s.name AS source, g.number, g.part FROM games g JOIN sources s ON s.id = g.source_id";
    this.one = db.prepare(`SELECT ${columns} WHERE g.id = ?`);
    this.copies = db.prepare(
      `SELECT ${columns} WHERE g.opening = (SELECT opening FROM games WHERE id = ?) AND g.id <> ?`,
    );
    this.moves = db.prepare("SELECT moves FROM games WHERE id = ?").pluck();
    this.mark = db.prepare("UPDATE games SET duplicate_of = ? WHERE id = ?");
  }

  /** Finds the copies of a game that has just been stored, and marks all but the one that counts. */
  link(id: number | bigint): void {
    const game = this.one.get(id) as StoredGame;
    const copies = (this.copies.all(id, id) as StoredGame[]).filter(
      (other) =>
        sameName(game.white, other.white) &&
        sameName(game.black, other.black) &&
        (this.begins(game, other) || this.begins(other, game)),
    );
    if (copies.length === 0) return;
    const [first, ...others] = [game, ...copies].sort(comesFirst);
    this.mark.run(null, first.id);
    for (const other of others) if (this.begins(other, first)) this.mark.run(first.id, other.id);
  }

  /** Whether one score is the beginning of the other, or both are the same. */
  private begins(short: StoredGame, long: StoredGame): boolean {
    if (short.digest === long.digest) return true;
    if (short.plies >= long.plies) return false;
    const [beginning, moves] = [short, long].map(({ id }) => this.moves.get(id) as string);
    return moves.startsWith(beginning) && (beginning === "" || moves[beginning.length] === " ");
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

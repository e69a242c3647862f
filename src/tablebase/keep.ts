// What the loser of a half can keep, and where the winner's moves lead: the retrograde iteration of the solver, held to a set
// of placements that is given.
//
// A set is a plane of bits, one for each placement with the winner to move: a word of 64 bits for each pair of kings and
// squares of all pieces but the last, one bit for each square of that piece.

import type { Half } from "./half.js";
import { type PackedSlice, type Prepared, type Segment, packPlane, prepare } from "./solve.js";
import { ones } from "./bits.js";
import { BLOCK } from "./codec.js";
import { KING_PAIRS, kingNumbering, kingsOfPairs } from "./solver-kernel.js";
import { IMAGES } from "../chess/squares.js";
import type { Square } from "../chess/units.js";

/**
 * What the loser holds out against: with "quiet moves" a check may be answered by any move that is not lost, and what comes of
 * it is not asked; with "checks too" only by one after which the set is come back to, for ever.
 */
export type Against = "quiet moves" | "checks too";

/** A plane of bits: two numbers of 32 bits for each word, the low one first. */
export type Plane = Uint32Array;

/** Words of a half's planes. */
export const wordsOf = (half: Half): number => KING_PAIRS * 64 ** (half.pieces - 1);

/** No pawnless ending of five men takes more moves. */
const LONGEST = 252;

/** Where a placement is in a plane: its word, and its bit there. */
export interface BitPlace {
  readonly word: number;
  readonly bit: number;
}

/** The place of a placement in a half's planes: kings, then the winner's pieces, then the loser's. */
export function bitOf(winnerKing: Square, loserKing: Square, pieces: readonly Square[]): BitPlace {
  const { pairs, symmetries } = kingNumbering();
  const kings = winnerKing * 64 + loserKing;
  const image = symmetries[kings] * 64;
  let word = pairs[kings];
  for (let n = 0; n + 1 < pieces.length; ++n) word = word * 64 + IMAGES[image + pieces[n]];
  return { word, bit: IMAGES[image + pieces[pieces.length - 1]] };
}

export const hasBit = (plane: Plane, { word, bit }: BitPlace): boolean =>
  ((plane[2 * word + (bit >> 5)] >>> (bit & 31)) & 1) === 1;

/** How many twins each word's placements stand for: 8, or 4 with both kings on the long diagonal, which are stored twice. */
export function weights(): Uint8Array {
  return Uint8Array.from(kingsOfPairs(), (kings) =>
    kings.every((square) => square >> 3 === (square & 7)) ? 4 : 8,
  );
}

/** Placements in a plane, each counted with all its twins; those of them that are in another plane too, if one is given. */
export function countPlane(plane: Plane, within?: Plane): number {
  const of = weights();
  const each = plane.length / KING_PAIRS;
  let count = 0;
  for (let pair = 0; pair < KING_PAIRS; ++pair) {
    let bits = 0;
    for (let n = pair * each, end = n + each; n < end; ++n) {
      const value = within ? plane[n] & within[n] : plane[n];
      if (value !== 0) bits += ones(value);
    }
    count += bits * of[pair];
  }
  return count;
}

/** Iterates over one half; its kernel and memory serve one question after the other. */
export class KeepSolver {
  private readonly prepared: Prepared;
  /** The second and third set hold what every question of `keep` begins with. */
  private begun = false;

  /** `sets`: how many sets beside one the kernel keeps room for: `keep` needs two, `forced` one, `countMoves` its own. */
  constructor(
    readonly half: Half,
    sets = 0,
  ) {
    this.prepared = prepare(half, 1 + sets);
  }

  private view(address: number): Plane {
    return new Uint32Array(this.prepared.kernel.memory.buffer, address, this.prepared.words * 2);
  }

  /** Writes a plane into one of the kernel's sets. */
  private load(plane: Plane, n: number): number {
    const address = this.prepared.sets[n];
    this.view(address).set(plane);
    return address;
  }

  /** Empties the log for another iteration, and forgets what the sets hold. */
  private reset(): void {
    this.begun = false;
    this.prepared.kernel.resetLog();
  }

  /** Begins an iteration with the mates and what captures decide. Returns where the log begins. */
  private begin(): number {
    const { kernel } = this.prepared;
    this.reset();
    const begin = kernel.logTop();
    kernel.legal();
    kernel.conversionStart();
    return begin;
  }

  /** The placements with the winner to move that are legal, and those of them that are not won. */
  planes(): { readonly legal: Plane; readonly notWon: Plane } {
    const { kernel } = this.prepared;
    kernel.legal();
    const legal = this.view(kernel.winsAddress()).slice();
    this.eachStep(this.begin(), 1);
    return { legal, notWon: this.view(kernel.winsAddress()).slice() };
  }

  /**
   * What is won with the winner to move, and lost with the loser to move, in at most so many moves to conversion: a set for each
   * limit, in rising order.
   */
  decided(limits: readonly number[]): BothTurns[] {
    const { words } = this.prepared;
    const empty = () => new Uint32Array(words * 2);
    const sets = limits.map((): BothTurns => ({ winner: empty(), loser: empty() }));
    this.eachStep(this.begin(), 1, (turn, from, to, distance) =>
      this.eachEntry(from, to, (word, low, high) => {
        for (let n = 0; n < limits.length; ++n) {
          if (distance > limits[n]) continue;
          const plane = sets[n][turn];
          plane[2 * word] |= low;
          plane[2 * word + 1] |= high;
        }
      }),
    );
    this.reset();
    return sets;
  }

  /**
   * Iterates from the losses that the log holds from `begin` on, and calls `look` with each part of the log that holds what is
   * won or lost in so many moves; of wins only before their losses are found. `first`: the number of the first step, which
   * takes captures if it is 1. With `forgetful` the log holds no more than one step.
   */
  private eachStep(
    begin: number,
    first: number,
    look: (turn: keyof BothTurns, from: number, to: number, distance: number) => void = () => {},
    forgetful = false,
  ): void {
    const { kernel } = this.prepared;
    let from = begin;
    look("loser", from, kernel.logTop(), 0);
    for (let distance = 1; distance <= LONGEST; ++distance) {
      const start = kernel.logTop();
      if (kernel.conversionWins(first + distance - 1, from, start) === 0) break;
      look("winner", start, kernel.logTop(), distance);
      // the losses take the place of the wins
      kernel.conversionLosses(start);
      look("loser", start, kernel.logTop(), distance);
      if (forgetful) kernel.dropSegment(from, start);
      else from = start;
    }
  }

  /** Calls `look` with each entry of a part of the log: a word, and its placements by squares 0 to 31 and 32 to 63. */
  private eachEntry(from: number, to: number, look: (word: number, low: number, high: number) => void): void {
    const log = new Int32Array(this.prepared.kernel.memory.buffer);
    for (let n = from >> 2; n < to >> 2; n += 3) look(log[n], log[n + 1], log[n + 2]);
  }

  /**
   * From where the winner can force one of the placements of `goal` (won for whoever is to move), and in how many moves at
   * most: an attractor. With `or` "a win", a conversion before it is as good, so that it can be forced from all that is won;
   * with "nothing", the loser is taken not to step into mate or give a piece away at once as long as it has another move, and
   * where it has none the goal is not reached. `count` is told of each part of the log. The kernel must have two sets.
   */
  forced(
    goal: BothTurns,
    or: "a win" | "nothing",
    count: (turn: keyof BothTurns, word: number, low: number, high: number, distance: number) => void,
  ): () => Generator<PackedSlice> {
    const { kernel } = this.prepared;
    const sets = [this.load(goal.winner, 0), this.load(goal.loser, 1)];
    const begin = this.begin();
    if (or === "nothing") {
      // mates, and what is lost or won by the next capture, are no way to the goal
      const before = kernel.logTop();
      kernel.conversionWins(1, begin, before);
      kernel.conversionLosses(before);
      this.reset();
    }
    // the first losses are logged in three parts, each of which is in order
    const bounds = [begin, kernel.logTop()];
    kernel.reachLosses(sets[1]);
    const wins = kernel.logTop();
    kernel.reachWins(sets[0]);
    this.eachEntry(wins, kernel.logTop(), (word, low, high) => count("winner", word, low, high, 0));
    kernel.conversionLosses(wins);
    bounds.push(wins, kernel.logTop());
    const segments: Segment[] = [];
    this.eachStep(begin, or === "nothing" ? 2 : 1, (turn, from, to, distance) => {
      this.eachEntry(from, to, (word, low, high) => count(turn, word, low, high, distance));
      if (turn === "winner") return;
      const parts = distance === 0 ? bounds : [from, to];
      for (let n = 1; n < parts.length; ++n)
        segments.push({ metric: "conversion", turn, distance, from: parts[n - 1], to: parts[n] });
    });
    return () => packPlane({ kernel, segments }, this.half, "conversion", BLOCK);
  }

  /**
   * Those of a set that the loser can keep for ever: whatever quiet move the winner makes, some reply leads back into what is
   * kept; for checks see `Against`. A check that the loser gives does not leave the set, so that placements with the winner in
   * check are among what is kept. A capture that leads to an ending that is not lost, and stalemate, end it well. It is the
   * greatest such set.
   */
  kept(inside: Plane, against: Against): Plane {
    return this.keep(
      against,
      (set) => set.set(inside),
      (kept) => kept.slice(),
    );
  }

  /**
   * The same without planes of one's own: `fill` writes a whole set, of which those that are won are left out, and `read` is
   * shown what is kept of it; both see the kernel's memory, which is used again.
   */
  keep<Result>(against: Against, fill: (set: Plane) => void, read: (kept: Plane) => Result): Result {
    const { kernel } = this.prepared;
    const [set, wins, losses] = this.prepared.sets;
    if (!this.begun) {
      this.eachStep(this.begin(), 1, undefined, true);
      kernel.keepOpen(wins, losses);
      this.begun = true;
    }
    fill(this.view(set));
    kernel.keepInside(set, wins, losses, against === "checks too");
    return read(this.view(set));
  }

  /**
   * For each of some sets: the winner's quiet moves from its placements, counted by where the replies can lead: all of them,
   * those after which some reply leads back into the set, of the others those that a capture saves, of the rest those after
   * which a reply leads into each of the others (in the order of `sets`), and those after which none of these is so. Each placement counts
   * with all its twins. The last piece must be the loser's. The kernel must have one set more than these.
   */
  countMoves(sets: readonly (() => Plane)[]): MoveCounts[] {
    const { kernel, sets: rooms } = this.prepared;
    this.reset();
    kernel.legal();
    sets.forEach((plane, n) => {
      const from = this.load(plane(), 0);
      kernel.leadInto(from, rooms[1 + n]);
    });
    const captures = rooms[1 + sets.length];
    kernel.saveByCapture(captures);
    return sets.map((unpacked, own) => {
      const plane = unpacked();
      const from = this.load(plane, 0);
      kernel.beginCount(captures);
      kernel.countInto(rooms[1 + own]);
      const others = sets.map((_, n) => n).filter((n) => n !== own);
      for (const n of others) kernel.countInto(rooms[1 + n]);
      kernel.countMoves(from);
      const counts = new Float64Array(kernel.memory.buffer, kernel.countsAddress(), sets.length + 3);
      const into = sets.map(() => 0);
      others.forEach((n, place) => (into[n] = counts[3 + place]));
      return {
        placements: countPlane(plane),
        all: counts[0],
        stay: counts[1],
        captures: counts[2],
        into,
        none: counts[sets.length + 2],
      };
    });
  }
}

/** A set of placements with each side to move. */
export interface BothTurns {
  readonly winner: Plane;
  readonly loser: Plane;
}

/** What the winner's quiet moves from the placements of a set leave to the loser (see `countMoves`). */
export interface MoveCounts {
  /** Placements of the set. */
  readonly placements: number;
  readonly all: number;
  readonly stay: number;
  readonly into: readonly number[];
  readonly captures: number;
  readonly none: number;
}

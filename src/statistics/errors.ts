// Where moves go wrong: errors per hundred moves, beside those of random moves.

import type { Question } from "../query/language/ast.js";
import { type Proportion, proportion } from "./estimators.js";
import type { SideName, Study } from "./moves-made.js";
import { type Key, type Split, compareKeys, keyShown, keysOf } from "../query/engine/splits.js";

/** Moves that had something to lose, and what became of them; `count` is all that gave anything away. */
export interface ErrorGroup extends Proportion {
  readonly side: SideName;
  /** Value of the split; null where it is unknown, or there is none. */
  readonly value: string | number | null;
  readonly half: number;
  readonly full: number;
  /** Errors to be expected of a player who chooses among the legal moves at random: the sum of blunder potentials. */
  readonly expected: number;
}

/**
 * Errors of each side, split by a fact of positions or of endings; not split where `split` is undefined. Only moves in
 * positions that meet `within` count, where it is given.
 */
export function errorsBy(study: Study, split?: Split, within?: Question): ErrorGroup[] {
  const mask = within && study.evaluation.positions(within);
  const keys = split && keysOf(study.db, study.evaluation, split, "position");
  const groups = new Map<
    string,
    { side: SideName; key: Key; moves: number; half: number; full: number; expected: number }
  >();
  study.eachMove((p, { side, error, atRandom }) => {
    if (mask && !mask[p]) return;
    for (const key of keys ? keys(p) : [null]) {
      const name = JSON.stringify([side, key]);
      let group = groups.get(name);
      if (!group) groups.set(name, (group = { side, key, moves: 0, half: 0, full: 0, expected: 0 }));
      ++group.moves;
      if (error === 1) ++group.half;
      if (error === 2) ++group.full;
      group.expected += atRandom;
    }
  });
  return [...groups.values()]
    .sort((a, b) => (a.side === b.side ? compareKeys(a.key, b.key) : a.side === "defender" ? -1 : 1))
    .map(({ side, key, moves, half, full, expected }) => ({
      side,
      value: split ? keyShown(split, key) : null,
      half,
      full,
      expected,
      ...proportion(half + full, moves),
    }));
}

/** How often a piece stood on each square when the defender had a draw to lose, and how often it was lost there. */
export interface SquareCounts {
  /** By square of the frame, a1 = 0 to h8 = 63. */
  readonly moves: readonly number[];
  readonly errors: readonly number[];
}

/** Where the defender's king and rook stood, seen in the frame, when the defender moved in a drawn position. */
export function squaresOfErrors(study: Study): Record<"king" | "rook", SquareCounts> {
  const count = (file: string, rank: string): SquareCounts => {
    const files = study.column(file);
    const ranks = study.column(rank);
    const moves = new Array<number>(64).fill(0);
    const errors = new Array<number>(64).fill(0);
    study.eachMove((p, { side, verdict, error }) => {
      if (side !== "defender" || verdict !== 0) return;
      const square = 8 * (ranks[p] - 1) + files[p] - 1;
      // a side without a rook has no square for it
      if (!(square >= 0 && square < 64)) return;
      ++moves[square];
      if (error > 0) ++errors[square];
    });
    return { moves, errors };
  };
  return { king: count("king-file", "king-rank"), rook: count("rook-file", "rook-rank") };
}

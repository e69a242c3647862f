// Where moves go wrong: errors per hundred moves that had something to lose, beside those of random moves.

import type { Question } from "../query/language/ast.js";
import { type Key, type Split, compareKeys, keyShown, keysOf } from "../query/engine/splits.js";
import type { SideName, Standing, Study } from "./moves-made.js";
import { STANDINGS } from "./moves-made.js";
import { ClusteredTally, playersOf } from "./players.js";
import type { Proportion } from "./proportion.js";

/** Moves that had something to lose, and what became of them; `count` is all that gave anything away. */
export interface ErrorGroup extends Proportion {
  readonly side: SideName;
  /** What the mover had: a win or a draw. */
  readonly stood: Standing;
  /** Value of the split; null where it is unknown, or there is none. */
  readonly value: string | number | null;
  readonly half: number;
  readonly full: number;
  /** Errors to be expected of a player who chooses among the legal moves at random: the sum of blunder potentials. */
  readonly expected: number;
}

interface Tally {
  readonly side: SideName;
  readonly stood: Standing;
  readonly key: Key;
  readonly shares: ClusteredTally;
  half: number;
  full: number;
  expected: number;
}

/**
 * Errors of each side, from won and from drawn positions, split by a fact of positions or of endings; not split where
 * `split` is undefined. Only moves in positions that meet `within` count, where it is given.
 */
export function errorsBy(study: Study, split?: Split, within?: Question): ErrorGroup[] {
  const mask = within && study.evaluation.positions(within);
  const keys = split && keysOf(study.evaluation, split, "position");
  const tallies = new Map<string, Tally>();
  study.eachMove((p, ending, { side, stood, error, keeping, legal }) => {
    if (mask && !mask[p]) return;
    for (const key of keys ? keys(p) : [null]) {
      const name = JSON.stringify([side, stood, key]);
      let tally = tallies.get(name);
      if (!tally) {
        tally = { side, stood, key, shares: new ClusteredTally(), half: 0, full: 0, expected: 0 };
        tallies.set(name, tally);
      }
      tally.shares.add(ending, error > 0 ? 1 : 0);
      if (error === 1) ++tally.half;
      if (error === 2) ++tally.full;
      tally.expected += (legal - keeping) / legal;
    }
  });
  const players = playersOf(study.db);
  const place = ({ side, stood }: Tally) => 2 * (side === "defender" ? 0 : 1) + STANDINGS.indexOf(stood);
  return [...tallies.values()]
    .sort((a, b) => place(b) - place(a) || compareKeys(a.key, b.key))
    .map(({ side, stood, key, shares, half, full, expected }) => ({
      side,
      stood,
      value: split ? keyShown(split, key) : null,
      half,
      full,
      expected,
      ...shares.proportion(players),
    }));
}

/** Errors under the fifty-move rule and on paper: how many are both, and how many only one of them. */
export interface RuleErrors {
  readonly side: SideName;
  readonly both: number;
  /** They cost nothing, since the win comes too late to be claimed against. */
  readonly paperOnly: number;
  /** Too slow: the win is still there on paper, but no longer in time. */
  readonly ruleOnly: number;
}

/** Every move of the study that is an error by one of the two. */
export function errorsByRule(study: Study): RuleErrors[] {
  const turn = study.column("attacker-to-move");
  const paper = study.column("error");
  const fifty = study.column("fifty-error");
  const rows = { defender: [0, 0, 0], attacker: [0, 0, 0] };
  study.eachPosition((p) => {
    const row = rows[turn[p] === 1 ? "attacker" : "defender"];
    if (paper[p] > 0 && fifty[p] > 0) ++row[0];
    else if (paper[p] > 0) ++row[1];
    else if (fifty[p] > 0) ++row[2];
  });
  return (["defender", "attacker"] as const).map((side) => ({
    side,
    both: rows[side][0],
    paperOnly: rows[side][1],
    ruleOnly: rows[side][2],
  }));
}

/** How often a piece stood on each square when the defender had a draw to lose, and how often it was lost there. */
export interface SquareCounts {
  /** By square of the frame, a1 = 0 to h8 = 63. */
  readonly moves: readonly number[];
  readonly errors: readonly number[];
}

/** Where the defender's king and rook stood, seen in the frame, when the defender moved and had a draw to lose. */
export function squaresOfErrors(study: Study): Record<"king" | "rook", SquareCounts> {
  const count = (file: string, rank: string): SquareCounts => {
    const files = study.column(file);
    const ranks = study.column(rank);
    const moves = new Array<number>(64).fill(0);
    const errors = new Array<number>(64).fill(0);
    study.eachMove((p, _ending, { side, verdict, error }) => {
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

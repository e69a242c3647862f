// Where moves go wrong: errors per hundred moves that had something to lose, beside those of random moves.

import type { Question } from "../query/language/ast.js";
import { type Key, type Split, compareKeys, factsOf, keyShown, keysOf } from "../query/engine/splits.js";
import { type Gathering, MOVERS, type SideName, type Standing, type Study } from "./moves-made.js";
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
  readonly mover: number;
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
export function errorsBy(study: Study, split?: Split, within?: Question): Gathering<ErrorGroup[]> {
  /** By number of the mover. */
  const tallies = MOVERS.map(() => new Map<Key, Tally>());
  const tallyOf = (mover: number, key: Key): Tally => {
    let tally = tallies[mover].get(key);
    if (!tally) {
      tally = { mover, key, shares: new ClusteredTally(), half: 0, full: 0, expected: 0 };
      tallies[mover].set(key, tally);
    }
    return tally;
  };
  return {
    facts: factsOf(split),
    look(part) {
      const mask = within && part.evaluation.positions(within);
      const keys = split && keysOf(part.evaluation, split, "position");
      const legal = part.column("legal");
      const { moves, errors, keeping, from } = part;
      /** The tallies of each list of keys and each mover. */
      const known: (readonly Tally[])[] = [];
      for (let n = 0; n < moves.count; ++n) {
        const p = moves.positions[n];
        if (mask && !mask[p]) continue;
        const mover = moves.movers[n];
        const list = keys ? keys.numbers[p] : 0;
        const some = (known[list * MOVERS.length + mover] ??= (keys ? keys.lists[list] : [null]).map((key) =>
          tallyOf(mover, key),
        ));
        const error = errors[p];
        const chance = (legal[p] - keeping[p]) / legal[p];
        for (const tally of some) {
          tally.shares.add(from + moves.endings[n], error > 0 ? 1 : 0);
          if (error === 1) ++tally.half;
          if (error === 2) ++tally.full;
          tally.expected += chance;
        }
      }
    },
    result() {
      const players = playersOf(study.db);
      return tallies
        .flatMap((byKey) => [...byKey.values()])
        .sort((a, b) => b.mover - a.mover || compareKeys(a.key, b.key))
        .map(({ mover, key, shares, half, full, expected }) => ({
          ...MOVERS[mover],
          value: split ? keyShown(split, key) : null,
          half,
          full,
          expected,
          ...shares.proportion(players),
        }));
    },
  };
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
export function errorsByRule(): Gathering<RuleErrors[]> {
  const rows = { defender: [0, 0, 0], attacker: [0, 0, 0] };
  return {
    look(part) {
      const turn = part.column("attacker-to-move");
      const paper = part.column("error");
      const fifty = part.column("fifty-error");
      part.eachPosition((p) => {
        const row = turn[p] === 1 ? rows.attacker : rows.defender;
        if (paper[p] > 0 && fifty[p] > 0) ++row[0];
        else if (paper[p] > 0) ++row[1];
        else if (fifty[p] > 0) ++row[2];
      });
    },
    result: () =>
      (["defender", "attacker"] as const).map((side) => ({
        side,
        both: rows[side][0],
        paperOnly: rows[side][1],
        ruleOnly: rows[side][2],
      })),
  };
}

/** How often a piece stood on each square when the defender had a draw to lose, and how often it was lost there. */
export interface SquareCounts {
  /** By square of the frame, a1 = 0 to h8 = 63. */
  readonly moves: readonly number[];
  readonly errors: readonly number[];
}

/** Where the defender's king and rook stood, seen in the frame, when the defender moved and had a draw to lose. */
export function squaresOfErrors(): Gathering<Record<"king" | "rook", SquareCounts>> {
  const none = () => ({ moves: new Array<number>(64).fill(0), errors: new Array<number>(64).fill(0) });
  const counts = { king: none(), rook: none() };
  return {
    look(part) {
      const { moves, errors, verdicts } = part;
      const turn = part.column("attacker-to-move");
      for (const piece of ["king", "rook"] as const) {
        const files = part.column(`${piece}-file`);
        const ranks = part.column(`${piece}-rank`);
        const count = counts[piece];
        for (let n = 0; n < moves.count; ++n) {
          const p = moves.positions[n];
          if (turn[p] === 1 || verdicts[p] !== 0) continue;
          const square = 8 * (ranks[p] - 1) + files[p] - 1;
          // a side without a rook has no square for it
          if (!(square >= 0 && square < 64)) continue;
          ++count.moves[square];
          if (errors[p] > 0) ++count.errors[square];
        }
      }
    },
    result: () => counts,
  };
}

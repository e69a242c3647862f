// How hard people find positions, and how players do beside that: the errors to be expected by what a position asks, fitted on
// all moves of the study, and each player's own.

import jStat from "jstat";

import { Growing, growingInts } from "../growing.js";
import { type LogisticFit, fitLogistic, rowsIn } from "./logistic.js";
import { type Gathering, MOVERS, type SideName, type Standing, type Study } from "./moves-made.js";
import { type Players, playersOf } from "./players.js";
import type { Interval } from "./proportion.js";

/** Players with fewer moves that had something to lose are not shown. */
const LEAST_MOVES = 30;

/** A player's errors beside those that all players together would have made in the same positions. */
export interface PlayerErrors extends Interval {
  readonly name: string;
  readonly side: SideName;
  readonly moves: number;
  readonly observed: number;
  readonly expected: number;
  /** Observed by expected, with limits exact for a Poisson count (Breslow & Day, Statistical Methods in Cancer Research II, 1987). */
  readonly ratio: number;
}

/** What is to be expected of the moves of one side from one kind of position. */
export interface Difficulty {
  readonly side: SideName;
  readonly stood: Standing;
  readonly fit: LogisticFit | undefined;
}

/** 95 % limits of the mean of a Poisson count, by the chi-square distribution. */
export const poissonLimits = (count: number): Interval => ({
  low: count === 0 ? 0 : jStat.chisquare.inv(0.025, 2 * count) / 2,
  high: jStat.chisquare.inv(0.975, 2 * count + 2) / 2,
});

/** The terms of the difficulty of a move: how many moves hold, of how many, and whether it answers a check. */
export const DIFFICULTY_TERMS = ["constant", "log2 of moves that hold", "log2 of legal moves", "in check"];

/** Counts of moves are below this: a byte holds them. */
const MOST = 128;

/** The moves of one side from one kind of position. */
class MovesOf {
  /** What each asks, as one number: how many moves hold, of how many, and whether it answers a check. */
  private readonly tasks = new Growing((length) => new Uint16Array(length));
  private readonly errors = new Growing((length) => new Uint8Array(length));
  private readonly endings = growingInts();

  add(ending: number, error: number, keeping: number, legal: number, check: number): void {
    this.tasks.push((keeping * MOST + legal) * 2 + check);
    this.errors.push(error);
    this.endings.push(ending);
  }

  /** Fits their errors, and adds each to the total of its player, with what is to be expected of it. */
  fit({ attackers, defenders }: Players, players: Int32Array, totals: Totals): LogisticFit | undefined {
    const endings = this.endings.values;
    const errors = this.errors.values;
    const { rows, rowOf } = this.rows();
    const fit = fitLogistic({
      terms: DIFFICULTY_TERMS,
      rows: rowsIn(rows, DIFFICULTY_TERMS.length),
      rowOf,
      happened: errors,
      clusters: [endings.map((ending) => attackers[ending]), endings.map((ending) => defenders[ending])],
    });
    const all = errors.reduce((sum, error) => sum + error, 0);
    const expected = Float64Array.from({ length: rows.length / DIFFICULTY_TERMS.length }, (_, row) => {
      // where nothing can be fitted, the share of errors is what is to be expected
      if (!fit) return all / errors.length;
      const values = rows.subarray(row * DIFFICULTY_TERMS.length);
      return (
        1 / (1 + Math.exp(-fit.coefficients.reduce((sum, { estimate }, n) => sum + estimate * values[n], 0)))
      );
    });
    for (let n = 0; n < errors.length; ++n) totals.add(players[endings[n]], errors[n], expected[rowOf[n]]);
    return fit;
  }

  /** Each different task as a row of `DIFFICULTY_TERMS`, and the number of the row of each move. */
  private rows(): { rows: Float64Array; rowOf: Uint16Array } {
    const known = new Int32Array(2 * MOST * MOST).fill(-1);
    const rows: number[] = [];
    const rowOf = this.tasks.values.map((task) => {
      if (known[task] < 0) {
        known[task] = rows.length / DIFFICULTY_TERMS.length;
        const counts = task >> 1;
        rows.push(1, Math.log2(Math.floor(counts / MOST)), Math.log2(counts % MOST), task & 1);
      }
      return known[task];
    });
    return { rows: Float64Array.from(rows), rowOf };
  }
}

/** What the moves of each player of one side come to, by their numbers. */
class Totals {
  readonly moves: Int32Array;
  readonly observed: Int32Array;
  readonly expected: Float64Array;

  constructor(players: number) {
    this.moves = new Int32Array(players);
    this.observed = new Int32Array(players);
    this.expected = new Float64Array(players);
  }

  add(player: number, error: number, expected: number): void {
    ++this.moves[player];
    this.observed[player] += error;
    this.expected[player] += expected;
  }

  /** The players with enough moves, of those whose names are known. */
  shown(side: SideName, names: readonly (string | null)[]): PlayerErrors[] {
    const { moves, observed, expected } = this;
    return names.flatMap((name, n) => {
      if (name === null || moves[n] < LEAST_MOVES) return [];
      const { low, high } = poissonLimits(observed[n]);
      return [
        {
          name,
          side,
          moves: moves[n],
          observed: observed[n],
          expected: expected[n],
          ratio: observed[n] / expected[n],
          low: low / expected[n],
          high: high / expected[n],
        },
      ];
    });
  }
}

export interface DifficultyFound {
  readonly fits: readonly Difficulty[];
  readonly players: readonly PlayerErrors[];
}

/** Fits the difficulty of each side's moves, and compares every player with enough of them. */
export function difficultyOf(study: Study): Gathering<DifficultyFound> {
  /** By number of the mover, in the order in which they come up. */
  const moves = new Map<number, MovesOf>();
  return {
    look(part) {
      const check = part.column("in-check");
      const legal = part.column("legal");
      const { moves: made, errors, keeping, from } = part;
      const known = MOVERS.map((_, mover) => moves.get(mover));
      for (let n = 0; n < made.count; ++n) {
        const p = made.positions[n];
        const mover = made.movers[n];
        let some = known[mover];
        if (!some) moves.set(mover, (some = known[mover] = new MovesOf()));
        some.add(from + made.endings[n], errors[p] > 0 ? 1 : 0, keeping[p], legal[p], check[p]);
      }
    },
    result() {
      const players = playersOf(study.db);
      const { attackers, defenders, names } = players;
      const totals = { attacker: new Totals(names.length), defender: new Totals(names.length) };
      const fits = [...moves].map(([mover, some]): Difficulty => {
        const { side, stood } = MOVERS[mover];
        const whose = side === "attacker" ? attackers : defenders;
        return { side, stood, fit: some.fit(players, whose, totals[side]) };
      });
      return {
        fits,
        players: [
          ...totals.defender.shown("defender", names),
          ...totals.attacker.shown("attacker", names),
        ].sort((a, b) => a.ratio - b.ratio || b.moves - a.moves || (a.name < b.name ? -1 : 1)),
      };
    },
  };
}

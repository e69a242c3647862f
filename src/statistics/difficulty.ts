// How hard people find positions, and how players do beside that: the errors to be expected by what a position asks, fitted on
// all moves of the study, and each player's own.

import jStat from "jstat";

import { type SideName, type Standing, type Study } from "./moves-made.js";
import { type LogisticFit, fitLogistic } from "./logistic.js";
import { playersOf } from "./players.js";
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

interface Move {
  readonly ending: number;
  readonly row: readonly number[];
  readonly error: boolean;
}

/** 95 % limits of the mean of a Poisson count, by the chi-square distribution. */
export const poissonLimits = (count: number): Interval => ({
  low: count === 0 ? 0 : jStat.chisquare.inv(0.025, 2 * count) / 2,
  high: jStat.chisquare.inv(0.975, 2 * count + 2) / 2,
});

/** The terms of the difficulty of a move: how many moves hold, of how many, and whether it answers a check. */
export const DIFFICULTY_TERMS = ["constant", "log2 of moves that hold", "log2 of legal moves", "in check"];

/** Fits the difficulty of each side's moves, and compares every player with enough of them. */
export function difficultyOf(study: Study): { fits: Difficulty[]; players: PlayerErrors[] } {
  const check = study.column("in-check");
  const moves = new Map<string, { side: SideName; stood: Standing; all: Move[] }>();
  study.eachMove((p, ending, { side, stood, error, keeping, legal }) => {
    const key = `${side} ${stood}`;
    let group = moves.get(key);
    if (!group) moves.set(key, (group = { side, stood, all: [] }));
    group.all.push({ ending, row: [1, Math.log2(keeping), Math.log2(legal), check[p]], error: error > 0 });
  });
  const { attackers, defenders, names } = playersOf(study.db);
  const fits: Difficulty[] = [];
  const totals = new Map<
    string,
    { player: number; side: SideName; moves: number; observed: number; expected: number }
  >();
  for (const { side, stood, all } of moves.values()) {
    const fit = fitLogistic({
      terms: DIFFICULTY_TERMS,
      rows: all.map(({ row }) => row),
      happened: all.map(({ error }) => error),
      clusters: all.map(({ ending }) => [attackers[ending], defenders[ending]]),
    });
    fits.push({ side, stood, fit });
    // where nothing can be fitted, the share of errors is what is to be expected
    const share = all.filter(({ error }) => error).length / all.length;
    for (const { ending, row, error } of all) {
      const sum = fit?.coefficients.reduce((total, { estimate }, n) => total + estimate * row[n], 0);
      const expected = sum === undefined ? share : 1 / (1 + Math.exp(-sum));
      const player = (side === "attacker" ? attackers : defenders)[ending];
      const key = `${side} ${player}`;
      let total = totals.get(key);
      if (!total) totals.set(key, (total = { player, side, moves: 0, observed: 0, expected: 0 }));
      ++total.moves;
      if (error) ++total.observed;
      total.expected += expected;
    }
  }
  const players = [...totals.values()]
    .filter(({ player, moves: made }) => made >= LEAST_MOVES && names[player] !== null)
    .map(({ player, side, moves: made, observed, expected }): PlayerErrors => {
      const { low, high } = poissonLimits(observed);
      return {
        name: names[player]!,
        side,
        moves: made,
        observed,
        expected,
        ratio: observed / expected,
        low: low / expected,
        high: high / expected,
      };
    })
    .sort((a, b) => a.ratio - b.ratio || b.moves - a.moves || (a.name < b.name ? -1 : 1));
  return { fits, players };
}

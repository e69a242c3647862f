// How hard an exercise is: the share of players expected to fail, by a model and by what people did in the games.

import { type Placement } from "../chess/placement.js";
import type { Moves } from "../chess/units.js";
import type { Score } from "../chess/verdict.js";
import { Likeness } from "../geometry/likeness.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { exclusionsOf } from "../statistics/exclusions.js";
import { type Growing, growingInts } from "../growing.js";
import type { PeopleRecord } from "./exercise.js";

/** Least difficulty of the grades from 2 to 5. */
const GRADES = [0.05, 0.12, 0.22, 0.35];
/** The grade of a difficulty from 0 to 1: 1 easy to 5 hard. */
export const gradeOf = (difficulty: number): number =>
  1 + GRADES.filter((least) => difficulty >= least).length;

/** Cases that the model counts for, beside what people did. */
const MODEL_CASES = 10;
/** Positions with at most this many king's steps between them are similar. */
const SIMILAR_STEPS = 2;

/**
 * The share of players expected to fail: a logistic model of how good players erred in some 5,800 positions of real
 * games with something to lose (own fit by maximum likelihood): harder with more moves that fail for each that keeps,
 * easier where every answer is a check, and for wins harder the longer they take.
 */
export function expectedFailure(
  legal: number,
  keeping: number,
  checks: boolean,
  winsIn: Moves | null,
): number {
  const odds = Math.log((legal - keeping + 0.5) / (keeping + 0.5));
  const logit =
    winsIn === null
      ? -4.65 + 1.62 * odds - (checks ? 1.14 : 0)
      : -3.93 + 0.77 * odds - (checks ? 0.79 : 0) + 0.59 * Math.log(1 + winsIn);
  return 1 / (1 + Math.exp(-logit));
}

/** The share of players expected to fail, 0 to 1, by the model's expectation and what people did. */
export const difficultyOf = (expected: number, record: PeopleRecord | null): number =>
  (MODEL_CASES * expected + (record?.failed ?? 0)) / (MODEL_CASES + (record?.met ?? 0));

/** A position of which one wants to know what people did in it. */
export interface Met {
  readonly placement: Placement;
  readonly verdict: Score;
}

const groupKey = (attackerToMove: boolean, verdict: number) => 4 * Number(attackerToMove) + verdict + 1;

/** Who of the endings met a position, and who failed: each counts once, a game that goes to and fro too. */
class RecordCount {
  private met = 0;
  private failed = 0;
  private last = -1;
  private hasFailed = false;

  /** Moves must come ending by ending. */
  add(ending: number, failed: boolean): void {
    if (ending !== this.last) {
      this.last = ending;
      this.hasFailed = false;
      ++this.met;
    }
    if (!failed || this.hasFailed) return;
    this.hasFailed = true;
    ++this.failed;
  }

  record(): PeopleRecord {
    return { met: this.met, failed: this.failed };
  }
}

/**
 * How often people in a database had each of some placements, or a similar one with the same verdict, and gave something away.
 */
export function recordsOf(
  db: Connection,
  leaveOut: readonly Exclusion[],
  asked: readonly Met[],
): PeopleRecord[] {
  const excluded = exclusionsOf(db, leaveOut);
  const sought = asked.map(({ placement, verdict }) => ({
    likeness: new Likeness(placement, false),
    key: groupKey(placement.attackerToMove, verdict),
    count: new RecordCount(),
  }));
  for (const slice of sought.length > 0 ? columnStoreOf(db).slices() : []) {
    const placements = slice.column("placement").values;
    const verdicts = slice.column("verdict").values;
    const { values: errors, none } = slice.column("error");
    const turns = slice.column("attacker-to-move").values;
    const endings = slice.endingOf();
    const groups = new Map<number, Growing<Int32Array>>();
    for (let p = 0; p < slice.positions; ++p) {
      if (errors[p] === none || excluded[slice.from + endings[p]] >= 0) continue;
      const key = groupKey(turns[p] === 1, verdicts[p]);
      let group = groups.get(key);
      if (!group) groups.set(key, (group = growingInts()));
      group.push(p);
    }
    for (const { likeness, key, count } of sought)
      for (const p of groups.get(key)?.values ?? [])
        if (likeness.of(placements[p], SIMILAR_STEPS) <= SIMILAR_STEPS)
          count.add(slice.from + endings[p], errors[p] > 0);
  }
  return sought.map(({ count }) => count.record());
}

// How hard an exercise is: the share of players expected to fail, by a model and by what people did in the games.

import { type Placement } from "../chess/placement.js";
import type { Moves } from "../chess/units.js";
import type { Score } from "../chess/verdict.js";
import { Likeness } from "../geometry/likeness.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { exclusionsOf } from "../statistics/exclusions.js";
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

/** Moves of people in positions with one verdict and one side to move: what each list holds at `n` is about move `n`. */
interface PeopleMoves {
  readonly endings: number[];
  /** Numbers of the placements. */
  readonly placements: number[];
  /** Whether the move gave something away. */
  readonly failed: boolean[];
}

const groupKey = (attackerToMove: boolean, verdict: Score) => `${Number(attackerToMove)} ${verdict}`;

/** What people did in the endings of a database; read when it is first asked for. */
export class PeopleRecords {
  private groups: Map<string, PeopleMoves> | undefined;

  constructor(
    private readonly db: Connection,
    private readonly leaveOut: readonly Exclusion[],
  ) {}

  private read(): Map<string, PeopleMoves> {
    const excluded = exclusionsOf(this.db, this.leaveOut);
    const groups = new Map<string, PeopleMoves>();
    for (const slice of columnStoreOf(this.db).slices()) {
      const placements = slice.column("placement").values;
      const verdicts = slice.column("verdict").values;
      const { values: errors, none } = slice.column("error");
      const turns = slice.column("attacker-to-move").values;
      const { starts, endings, from } = slice;
      for (let n = 0; n < endings; ++n) {
        if (excluded[from + n] >= 0) continue;
        for (let p = starts[n]; p < starts[n + 1]; ++p) {
          if (errors[p] === none) continue;
          const key = groupKey(turns[p] === 1, verdicts[p] as Score);
          let group = groups.get(key);
          if (!group) groups.set(key, (group = { endings: [], placements: [], failed: [] }));
          group.endings.push(from + n);
          group.placements.push(placements[p]);
          group.failed.push(errors[p] > 0);
        }
      }
    }
    return groups;
  }

  /** How often people had the placement or a similar one with the same verdict, and gave something away. */
  of(placement: Placement, verdict: Score): PeopleRecord {
    this.groups ??= this.read();
    const group = this.groups.get(groupKey(placement.attackerToMove, verdict));
    const likeness = new Likeness(placement, false);
    // a game that goes to and fro is one case
    const met = new Set<number>();
    const failed = new Set<number>();
    group?.placements.forEach((number, n) => {
      if (likeness.of(number, SIMILAR_STEPS) > SIMILAR_STEPS) return;
      met.add(group.endings[n]);
      if (group.failed[n]) failed.add(group.endings[n]);
    });
    return { met: met.size, failed: failed.size };
  }
}

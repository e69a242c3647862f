// Counting: how often, out of how many, split by one or two facts, and in what share of each something else is true.

import type { Connection } from "../store/connection.js";
import { EXCLUSIONS, type Exclusion } from "../store/exclusions.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { Evaluation, type Unit } from "../query/engine/evaluate.js";
import { type LeftOut, nothingLeftOut, exclusionsOf } from "./exclusions.js";
import { type Proportion, proportion } from "./estimators.js";
import {
  type Key,
  type Split,
  compareKeys,
  isOfPositions,
  keyShown,
  keysOf,
} from "../query/engine/splits.js";

export interface CountOptions {
  readonly by: readonly Split[];
  readonly unit: Unit;
  readonly leaveOut: readonly Exclusion[];
  /** What the share is of; where it is left out, each group's share of all that match. */
  readonly share?: Question;
}

/** A group's proportion: of what matches, how much is in it; or of what is in it, how much meets `share`. */
export interface Group extends Proportion {
  /** A value for each split; null where it is unknown. */
  readonly values: readonly (string | number | null)[];
}

export interface Count {
  readonly unit: Unit;
  /** What answers the question, of all there are; both after leaving out what is left out. */
  readonly matching: number;
  readonly of: number;
  /** Left out of both. */
  readonly leftOut: LeftOut;
  /** Of what answers the question, what meets `share`, where that was asked. */
  readonly share: Proportion | null;
  readonly groups: readonly Group[];
}

export const unitFor = (by: readonly Split[]): Unit => (by.some(isOfPositions) ? "position" : "ending");

/** What has been counted of one combination of values. */
interface Tally {
  readonly keys: readonly Key[];
  count: number;
  met: number;
}

/** Counts by the values of one or two splits: a row with several values of a split counts for each of them. */
class Tallies {
  private readonly found = new Map<string, Tally>();

  constructor(private readonly keys: readonly ((row: number) => readonly Key[])[]) {}

  add(row: number, met: number): void {
    if (this.keys.length === 0) return;
    const [first, second] = this.keys.map((key) => key(row));
    for (const one of first) {
      for (const other of second ?? [undefined]) {
        const keys = other === undefined ? [one] : [one, other];
        const name = JSON.stringify(keys);
        let tally = this.found.get(name);
        if (!tally) this.found.set(name, (tally = { keys, count: 0, met: 0 }));
        ++tally.count;
        tally.met += met;
      }
    }
  }

  sorted(): Tally[] {
    return [...this.found.values()].sort(
      (a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null),
    );
  }
}

/** Counts what answers a question. An evaluation that has seen it, or parts of it, need not work them out again. */
export function count(
  db: Connection,
  question: Question,
  options: CountOptions,
  evaluation: Evaluation = new Evaluation(db),
): Count {
  const { unit, by, leaveOut, share } = options;
  const { starts, endings } = columnStoreOf(db);
  const excluded = exclusionsOf(db, leaveOut);
  const maskOf = (asked: Question) =>
    unit === "ending" ? evaluation.endings(asked) : evaluation.positions(asked);
  const mask = maskOf(question);
  const met = share && maskOf(share);
  const tallies = new Tallies(by.map((split) => keysOf(db, evaluation, split, unit)));
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let meeting = 0;
  let of = 0;
  const add = (row: number) => {
    const meets = met?.[row] ?? 0;
    ++matching;
    meeting += meets;
    tallies.add(row, meets);
  };
  for (let n = 0; n < endings; ++n) {
    const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
    if (excluded[n] >= 0) {
      leftOut[EXCLUSIONS[excluded[n]].name] += size;
      continue;
    }
    of += size;
    if (unit === "ending") {
      if (mask[n]) add(n);
    } else {
      for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p);
    }
  }
  return {
    unit,
    matching,
    of,
    leftOut,
    share: share ? proportion(meeting, matching) : null,
    groups: tallies.sorted().map((tally) => ({
      values: by.map((split, n) => keyShown(split, tally.keys[n])),
      ...(share ? proportion(tally.met, tally.count) : proportion(tally.count, matching)),
    })),
  };
}

// Counting: how often, out of how many, split by one or two facts, and in what share of each something else is true.

import type { Connection } from "../store/connection.js";
import { EXCLUSIONS, type Exclusion } from "../store/exclusions.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { Evaluation, type Unit } from "../query/engine/evaluate.js";
import { type LeftOut, nothingLeftOut, exclusionsOf } from "./exclusions.js";
import { ClusteredTally, playersOf } from "./players.js";
import { type Proportion, proportion } from "./proportion.js";
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
  /** How many of them meet the share, where that was asked. */
  readonly shares: ClusteredTally | undefined;
}

/** Counts by the values of one or two splits: a row with several values of a split counts for each of them. */
class Tallies {
  private readonly found = new Map<string, Tally>();

  constructor(
    private readonly keys: readonly ((row: number) => readonly Key[])[],
    private readonly sharing: boolean,
  ) {}

  add(row: number, ending: number, met: number): void {
    if (this.keys.length === 0) return;
    const [first, second] = this.keys.map((key) => key(row));
    for (const one of first) {
      for (const other of second ?? [undefined]) {
        const keys = other === undefined ? [one] : [one, other];
        const name = JSON.stringify(keys);
        let tally = this.found.get(name);
        if (!tally) {
          tally = { keys, count: 0, shares: this.sharing ? new ClusteredTally() : undefined };
          this.found.set(name, tally);
        }
        ++tally.count;
        tally.shares?.add(ending, met);
      }
    }
  }

  sorted(): Tally[] {
    return [...this.found.values()].sort(
      (a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null),
    );
  }
}

const flat = (question: Question): readonly Question[] =>
  question.kind === "and" ? question.parts : [question];

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
  // what is asked of positions is asked of the same ones as the question's
  const met = share && maskOf({ kind: "and", parts: [question, share].flatMap(flat) });
  const tallies = new Tallies(
    by.map((split) => keysOf(db, evaluation, split, unit)),
    share !== undefined,
  );
  const shares = share && new ClusteredTally();
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let of = 0;
  const add = (row: number, ending: number) => {
    const meets = met?.[row] ?? 0;
    ++matching;
    shares?.add(ending, meets);
    tallies.add(row, ending, meets);
  };
  for (let n = 0; n < endings; ++n) {
    const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
    if (excluded[n] >= 0) {
      leftOut[EXCLUSIONS[excluded[n]].name] += size;
      continue;
    }
    of += size;
    if (unit === "ending") {
      if (mask[n]) add(n, n);
    } else {
      for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p, n);
    }
  }
  return {
    unit,
    matching,
    of,
    leftOut,
    share: shares ? shares.proportion(playersOf(db)) : null,
    groups: tallies.sorted().map((tally) => ({
      values: by.map((split, n) => keyShown(split, tally.keys[n])),
      ...(tally.shares ? tally.shares.proportion(playersOf(db)) : proportion(tally.count, matching)),
    })),
  };
}

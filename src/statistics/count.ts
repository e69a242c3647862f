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
  type Keys,
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
export class Tallies {
  /** By the value of the first split, then by that of the second; `undefined` where there is none. */
  private readonly found = new Map<Key, Map<Key | undefined, Tally>>();

  constructor(private readonly sharing: boolean) {}

  /** Gives a function that counts a row of a part of the store, whose splits' keys are given; `ending` is the place among all. */
  of([first, second]: readonly Keys[]): (row: number, ending: number, met: number) => void {
    if (first === undefined) return () => undefined;
    /** The tallies of each pair of lists of keys. */
    const known = new Map<number, readonly Tally[]>();
    return (row, ending, met) => {
      const one = first.numbers[row];
      const other = second === undefined ? 0 : second.numbers[row];
      const place = other * first.lists.length + one;
      let some = known.get(place);
      if (!some) known.set(place, (some = this.talliesOf(first.lists[one], second?.lists[other])));
      for (const tally of some) {
        ++tally.count;
        tally.shares?.add(ending, met);
      }
    };
  }

  private talliesOf(first: readonly Key[], second?: readonly Key[]): Tally[] {
    return first.flatMap((one) => (second ?? [undefined]).map((other) => this.tallyOf(one, other)));
  }

  private tallyOf(one: Key, other: Key | undefined): Tally {
    let inner = this.found.get(one);
    if (!inner) this.found.set(one, (inner = new Map<Key | undefined, Tally>()));
    let tally = inner.get(other);
    if (!tally) {
      const keys = other === undefined ? [one] : [one, other];
      tally = { keys, count: 0, shares: this.sharing ? new ClusteredTally() : undefined };
      inner.set(other, tally);
    }
    return tally;
  }

  sorted(): Tally[] {
    return [...this.found.values()]
      .flatMap((inner) => [...inner.values()])
      .sort((a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null));
  }
}

const flat = (question: Question): readonly Question[] =>
  question.kind === "and" ? question.parts : [question];

/** Counts what answers a question. */
export function count(db: Connection, question: Question, options: CountOptions): Count {
  const { unit, by, leaveOut, share } = options;
  const store = columnStoreOf(db);
  const excluded = exclusionsOf(db, leaveOut);
  // what is asked of positions is asked of the same ones as the question's
  const sharing: Question | undefined = share && { kind: "and", parts: [question, share].flatMap(flat) };
  const tallies = new Tallies(share !== undefined);
  const shares = share && new ClusteredTally();
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let of = 0;
  for (const slice of store.slices()) {
    const evaluation = new Evaluation(db, slice);
    const maskOf = (asked: Question) =>
      unit === "ending" ? evaluation.endings(asked) : evaluation.positions(asked);
    const mask = maskOf(question);
    const met = sharing && maskOf(sharing);
    const tally = tallies.of(by.map((split) => keysOf(evaluation, split, unit)));
    const add = (row: number, ending: number) => {
      const meets = met?.[row] ?? 0;
      ++matching;
      shares?.add(ending, meets);
      tally(row, ending, meets);
    };
    const { starts } = slice;
    for (let n = 0; n < slice.endings; ++n) {
      const place = slice.from + n;
      const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
      if (excluded[place] >= 0) {
        leftOut[EXCLUSIONS[excluded[place]].name] += size;
        continue;
      }
      of += size;
      if (unit === "ending") {
        if (mask[n]) add(n, place);
      } else {
        for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p, place);
      }
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

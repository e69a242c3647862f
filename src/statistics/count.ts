// Counting: how often, out of how many, split by one or two facts, and in what share of each something else is true.

import type { Connection } from "../store/connection.js";
import { EXCLUSIONS, type Exclusion } from "../store/exclusions.js";
import type { Question } from "../query/language/ast.js";
import type { Evaluation, Unit } from "../query/engine/evaluate.js";
import { type SliceWork, eachSlice } from "../query/engine/slice-threads.js";
import { type LeftOut, exclusionsIn, nothingLeftOut } from "./exclusions.js";
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

/** The same without what counts; `cases` are those of a `ClusteredTally`. */
interface Counted {
  readonly keys: readonly Key[];
  readonly count: number;
  readonly cases: Int32Array | undefined;
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

  /** Adds what was counted of other endings, which come behind these. */
  append(others: readonly Counted[]): void {
    for (const { keys, count, cases } of others) {
      const tally = this.tallyOf(keys[0], keys[1]);
      tally.count += count;
      if (cases) tally.shares?.append(cases);
    }
  }

  /** What has been counted, as it can be sent to another thread. */
  get counted(): Counted[] {
    return this.sorted().map(({ keys, count, shares }) => ({ keys, count, cases: shares?.values.slice() }));
  }

  sorted(): Tally[] {
    return [...this.found.values()]
      .flatMap((inner) => [...inner.values()])
      .sort((a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null));
  }
}

const flat = (question: Question): readonly Question[] =>
  question.kind === "and" ? question.parts : [question];

/** What is counted in every slice. */
interface CountAsked extends Pick<CountOptions, "by" | "unit" | "leaveOut"> {
  readonly question: Question;
  /** The question and what the share is of. */
  readonly sharing: Question | undefined;
}

/** What was counted in a slice. */
interface SliceCount {
  readonly matching: number;
  readonly of: number;
  readonly leftOut: Readonly<Record<string, number>>;
  readonly groups: readonly Counted[];
  readonly cases: Int32Array | undefined;
}

/** Counts in one slice. */
export function countIn(evaluation: Evaluation, asked: CountAsked): SliceCount {
  const { question, sharing, by, unit, leaveOut } = asked;
  const slice = evaluation.store;
  const excluded = exclusionsIn(slice, leaveOut);
  const maskOf = (one: Question) => (unit === "ending" ? evaluation.endings(one) : evaluation.positions(one));
  const mask = maskOf(question);
  const met = sharing && maskOf(sharing);
  const tallies = new Tallies(sharing !== undefined);
  const shares = sharing && new ClusteredTally();
  const tally = tallies.of(by.map((split) => keysOf(evaluation, split, unit)));
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let of = 0;
  const add = (row: number, ending: number) => {
    const meets = met?.[row] ?? 0;
    ++matching;
    shares?.add(ending, meets);
    tally(row, ending, meets);
  };
  const { starts } = slice;
  for (let n = 0; n < slice.endings; ++n) {
    const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
    if (excluded[n] >= 0) {
      leftOut[EXCLUSIONS[excluded[n]].name] += size;
      continue;
    }
    of += size;
    const place = slice.from + n;
    if (unit === "ending") {
      if (mask[n]) add(n, place);
    } else {
      for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p, place);
    }
  }
  return { matching, of, leftOut, groups: tallies.counted, cases: shares?.values.slice() };
}

/** `countIn` for every slice. */
const COUNT_IN: SliceWork<CountAsked, SliceCount> = {
  module: "statistics/count",
  name: "countIn",
  run: countIn,
};

/** Counts what answers a question. */
export function count(db: Connection, question: Question, options: CountOptions): Count {
  const { unit, by, leaveOut, share } = options;
  // what is asked of positions is asked of the same ones as the question's
  const sharing: Question | undefined = share && { kind: "and", parts: [question, share].flatMap(flat) };
  const tallies = new Tallies(share !== undefined);
  const shares = share && new ClusteredTally();
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let of = 0;
  for (const slice of eachSlice(db, COUNT_IN, { question, sharing, by, unit, leaveOut })) {
    matching += slice.matching;
    of += slice.of;
    for (const [name, number] of Object.entries(slice.leftOut)) leftOut[name] += number;
    tallies.append(slice.groups);
    if (slice.cases) shares?.append(slice.cases);
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

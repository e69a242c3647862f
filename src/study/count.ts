// Counting: how often, out of how many, split by one or two facts.

import { LongsideError } from "../errors.js";
import { sanText } from "../chess/san.js";
import type { Connection } from "../index/connection.js";
import { shelfOf } from "../index/shelf.js";
import { type Question, type Scoped, aboutEndings } from "../questions/ast.js";
import { Evaluation, type Unit } from "../questions/evaluate.js";
import { FACTS, type Fact, type Stored, factNamed } from "../questions/vocabulary.js";
import { nearest } from "../questions/words.js";

/** A fact to split by; numbers may be gathered in bands of a width. */
export interface Split {
  readonly fact: Fact;
  readonly band?: number;
}

/** Reads "outcome" or "defender-rating:200". Throws `bad-option`. */
export function readSplit(text: string): Split {
  const [name, width] = text.trim().split(":");
  const fact = factNamed(name.toLowerCase().replaceAll(" ", "-"));
  const fail = (cause: string) =>
    new LongsideError("bad-option", { option: "--by", cause, command: "count" });
  if (!fact) {
    const near = nearest(
      name.toLowerCase(),
      FACTS.map((one) => one.name),
    );
    throw fail(`"${name}" is no fact${near ? `; did you mean ${near}?` : "; see: longside words"}`);
  }
  if (width === undefined) return { fact };
  const band = Number(width);
  if (fact.type !== "number" || !(band > 0 && band < 1e9))
    throw fail(`"${text}": a band is a number's width, as in white-rating:200`);
  return { fact, band };
}

export interface CountOptions {
  readonly by: readonly Split[];
  readonly unit: Unit;
  readonly duplicates: boolean;
  readonly passing: boolean;
}

export interface Group {
  /** A value for each split; null where it is unknown. */
  readonly values: readonly (string | number | null)[];
  readonly count: number;
  /** Of `matching`. */
  readonly share: number;
}

export interface Count {
  readonly unit: Unit;
  /** What answers the question, of all there are; both after leaving out what is left out. */
  readonly matching: number;
  readonly of: number;
  /** Left out of both. */
  readonly leftOut: { readonly duplicates: number; readonly passing: number };
  readonly groups: readonly Group[];
}

/** Splitting by a fact of a position counts positions, anything else endings. */
export const unitFor = (by: readonly Split[]): Unit =>
  by.some(({ fact }) => fact.scope === "position" || fact.scope === "move") ? "position" : "ending";

/** The range of a band by its number: "2200–2399" for whole numbers, else from one limit up to the next. */
function bandText(band: number, number: number): string {
  if (Number.isInteger(band)) return `${number * band}–${(number + 1) * band - 1}`;
  const limit = (n: number) => String(Number((n * band).toPrecision(12)));
  return `${limit(number)} to ${limit(number + 1)}`;
}

/** A stored value as its fact writes it; for a band, its range. */
function shown({ fact, band }: Split, value: Stored | null): string | number | null {
  if (value === null) return null;
  if (band !== undefined) return bandText(band, Number(value));
  if (fact.values) return fact.values.find((one) => one.stored === value)?.name ?? String(value);
  return fact.type === "flag" ? (value ? "yes" : "no") : value;
}

type Key = Stored | null;

/** The value of a split for each ending or position; of a set of kinds, each kind in it. */
function keysOf(evaluation: Evaluation, { fact, band }: Split, unit: Unit, endingOf: Int32Array | undefined) {
  // a hair more, so that a share on a limit is not put below it by the last bit of a quotient
  const banded = (value: Stored) => (band === undefined ? value : Math.floor(Number(value) / band + 1e-9));
  if (fact.sql !== undefined) {
    const values = evaluation.endingValues(fact).map((value) => (value === null ? null : banded(value)));
    return (n: number): readonly Key[] => [values[unit === "position" ? endingOf![n] : n]];
  }
  const { values, none } = evaluation.values(fact);
  const isNone = (value: number) => value === none || Number.isNaN(value);
  if (fact.type === "kinds") {
    return (n: number): readonly Key[] =>
      isNone(values[n])
        ? [null]
        : fact.values!.filter(({ stored }) => (values[n] >> Number(stored)) & 1).map(({ stored }) => stored);
  }
  const text = fact.type === "text";
  return (n: number): readonly Key[] =>
    isNone(values[n]) ? [null] : [text ? sanText(values[n]) : banded(values[n])];
}

/** Unknown first, then numbers, then text. */
function compareKeys(a: Key, b: Key): number {
  if (a === b) return 0;
  if (a === null || b === null) return a === null ? -1 : 1;
  if (typeof a !== typeof b) return typeof a === "number" ? -1 : 1;
  return a < b ? -1 : 1;
}

/** Counts what answers a question. */
export function count(db: Connection, question: Question, options: CountOptions): Count {
  const { unit, by } = options;
  const shelf = shelfOf(db);
  const evaluation = new Evaluation(db);
  const { starts, endings } = shelf;
  const duplicate = shelf.endingFlag("duplicate");
  const passing = shelf.endingFlag("passing");
  const mask = unit === "ending" ? evaluation.endings(question) : evaluation.positions(question);
  const endingOf = unit === "position" && by.some(({ fact }) => fact.sql) ? shelf.endingOf() : undefined;
  const keys = by.map((split) => keysOf(evaluation, split, unit, endingOf));
  const groups = new Map<string, { readonly keys: readonly Key[]; count: number }>();
  const leftOut = { duplicates: 0, passing: 0 };
  let matching = 0;
  let of = 0;

  const add = (n: number) => {
    ++matching;
    if (keys.length === 0) return;
    const each = keys.map((key) => key(n));
    for (const one of each[0]) {
      for (const other of each[1] ?? [undefined]) {
        const values = other === undefined ? [one] : [one, other];
        const name = JSON.stringify(values);
        const group = groups.get(name);
        if (group) ++group.count;
        else groups.set(name, { keys: values, count: 1 });
      }
    }
  };
  for (let n = 0; n < endings; ++n) {
    const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
    if (duplicate[n] && !options.duplicates) {
      leftOut.duplicates += size;
    } else if (passing[n] && !options.passing) {
      leftOut.passing += size;
    } else {
      of += size;
      if (unit === "ending") {
        if (mask[n]) add(n);
      } else {
        for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p);
      }
    }
  }
  const sorted = [...groups.values()].sort(
    (a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null),
  );
  return {
    unit,
    matching,
    of,
    leftOut,
    groups: sorted.map((group) => ({
      values: by.map((split, n) => shown(split, group.keys[n])),
      count: group.count,
      share: matching === 0 ? 0 : group.count / matching,
    })),
  };
}

/**
 * Conditions on some position of an ending that leave no ending out: every ending that meets the rest of the
 * question has such a position at one time or another (endings as `count` counts them).
 */
export function idleConditions(db: Connection, question: Question): Scoped[] {
  const about = aboutEndings(question);
  const parts = about.kind === "and" ? about.parts : [about];
  const matching = (asked: Question) =>
    count(db, asked, { by: [], unit: "ending", duplicates: false, passing: false }).matching;
  const all = matching(about);
  if (all === 0) return [];
  return parts.filter((part): part is Scoped => {
    if (part.kind !== "scoped" || part.quantifier !== "somewhere") return false;
    const rest: Question = { kind: "and", parts: parts.filter((other) => other !== part) };
    return matching(rest) === all;
  });
}

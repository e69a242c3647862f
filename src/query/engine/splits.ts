// Splitting by a fact: what a table's rows stand for, with the numbers of some facts gathered in bands.

import { LongsideError } from "../../errors.js";
import { sanText } from "../../chess/san.js";
import type { ColumnStore } from "../../store/column-store.js";
import { isPositionFact } from "../language/ast.js";
import type { NamedSetUp } from "../language/catalogue.js";
import { moversOf } from "./movers.js";
import type { Evaluation, Unit } from "./evaluate.js";
import { FACTS, type Fact, type Stored, factNamed } from "../language/vocabulary.js";
import { nearest } from "../language/tokens.js";

/** Numbers gathered: bands of one width, or between limits. */
type Band = { readonly width: number } | { readonly limits: readonly number[] };

interface FactSplit {
  readonly kind: "fact";
  readonly name: string;
  readonly fact: Fact;
  readonly band?: Band;
}

/** By the set-ups that a position fits, of which there may be several. */
interface SetUpSplit {
  readonly kind: "set-up";
  readonly name: SetUpSplitName;
  readonly setUps: readonly NamedSetUp[];
}

/** What to split by. */
export type Split = FactSplit | SetUpSplit;

/** Splits by set-up: of each position, or of the one with which the ending arises. */
const SET_UP_SPLITS = ["set-up", "entry-set-up"] as const;
type SetUpSplitName = (typeof SET_UP_SPLITS)[number];

/** The value of a split for one row; null where it is unknown, or no set-up. */
export type Key = Stored | null;

/** Reads "200" or "10/60/300". */
function readBand(text: string): Band | undefined {
  const numbers = text.split("/").map(Number);
  if (text === "" || numbers.some((number) => !Number.isFinite(number))) return undefined;
  if (numbers.length === 1) return numbers[0] > 0 && numbers[0] < 1e9 ? { width: numbers[0] } : undefined;
  return numbers.every((number, n) => n === 0 || number > numbers[n - 1]) ? { limits: numbers } : undefined;
}

/**
 * Reads "outcome", "defender-rating:200", "clock:10/60/300" or "set-up", which is one of `setUps`. Throws `bad-option`.
 */
export function readSplit(text: string, setUps: readonly NamedSetUp[], command = "count"): Split {
  const [typed, ...rest] = text.trim().split(":");
  const name = typed.toLowerCase().replaceAll(" ", "-");
  const fail = (cause: string) => new LongsideError("bad-option", { option: "--by", cause, command });
  const setUp = SET_UP_SPLITS.find((one) => one === name);
  if (setUp) {
    if (rest.length > 0) throw fail(`"${text}": set-ups have no bands`);
    return { kind: "set-up", name: setUp, setUps };
  }
  const fact = factNamed(name);
  if (!fact) {
    const near = nearest(name, [...FACTS.map((one) => one.name), ...SET_UP_SPLITS]);
    throw fail(`"${typed}" is no fact${near ? `; did you mean ${near}?` : "; see: longside words"}`);
  }
  if (rest.length === 0) return { kind: "fact", name, fact };
  const band = rest.length === 1 && fact.type === "number" ? readBand(rest[0]) : undefined;
  if (!band)
    throw fail(
      `"${text}": bands are a number's width, as in white-rating:200, or rising limits, as in clock:10/60/300`,
    );
  return { kind: "fact", name, fact, band };
}

/** Reads one or two splits, each by something else. Throws `bad-option`. */
export function readSplits(texts: readonly string[], setUps: readonly NamedSetUp[]): Split[] {
  const by = texts.map((text) => readSplit(text, setUps));
  const fail = (cause: string) =>
    new LongsideError("bad-option", { option: "--by", cause, command: "count" });
  if (by.length > 2) throw fail("two facts at most");
  if (by.length === 2 && by[0].name === by[1].name) throw fail(`${by[0].name} is named twice`);
  return by;
}

/** What a split needs to know of games and endings. */
export const factsOf = (split: Split | undefined): readonly Fact[] =>
  split?.kind === "fact" && split.fact.sql !== undefined ? [split.fact] : [];

/** Splitting by what may differ between an ending's positions counts positions, anything else endings. */
export const isOfPositions = (split: Split): boolean =>
  split.kind === "set-up" ? split.name === "set-up" : isPositionFact(split.fact);

/** The number of a value's band; a hair more, so that a limit is not missed by the last bit of a quotient. */
function bandOf(band: Band, value: number): number {
  if ("width" in band) return Math.floor(value / band.width + 1e-9);
  let number = 0;
  while (number < band.limits.length && value >= band.limits[number] - 1e-9) ++number;
  return number;
}

/** A band in words: "2200 to 2399" for whole widths, else from one limit up to the next. */
function bandText(band: Band, number: number): string {
  const limit = (value: number) => String(Number(value.toPrecision(12)));
  if ("limits" in band) {
    const { limits } = band;
    if (number === 0) return `under ${limits[0]}`;
    if (number === limits.length) return `${limits[number - 1]} or more`;
    return `${limits[number - 1]} to ${limits[number]}`;
  }
  const { width } = band;
  if (Number.isInteger(width)) return `${number * width} to ${(number + 1) * width - 1}`;
  return `${limit(number * width)} to ${limit((number + 1) * width)}`;
}

/** A key as its fact writes it; for a band, its range. */
export function keyShown(split: Split, key: Key): string | number | null {
  if (split.kind === "set-up") return key === null ? null : split.setUps[Number(key)].name;
  if (key === null) return null;
  const { fact, band } = split;
  if (band !== undefined) return bandText(band, Number(key));
  if (fact.values) return fact.values.find((one) => one.stored === key)?.name ?? String(key);
  return fact.type === "flag" ? (key ? "yes" : "no") : key;
}

/** What to call the rows without a value. */
export const keyOfNone = (split: Split): string =>
  split.kind === "set-up" ? "none" : (split.fact.none ?? "unknown");

/** Unknown first, then numbers, then text. */
export function compareKeys(a: Key, b: Key): number {
  if (a === b) return 0;
  if (a === null || b === null) return a === null ? -1 : 1;
  if (typeof a !== typeof b) return typeof a === "number" ? -1 : 1;
  return a < b ? -1 : 1;
}

/**
 * The keys of rows: several where what they are split by is a set. Rows with the same keys have one list of them, so that
 * what is to be done with keys is done once for each list.
 */
export class Keys {
  /** `numbers` gives, by place, the number of each row's list. */
  constructor(
    readonly numbers: Int32Array,
    readonly lists: readonly (readonly Key[])[],
  ) {}

  at(place: number): readonly Key[] {
    return this.lists[this.numbers[place]];
  }
}

/** Keys that come one at a time: each different value has a list, which `listOf` makes. */
class Numbering<V> {
  readonly numbers: Int32Array;
  readonly lists: (readonly Key[])[] = [];
  private readonly known = new Map<V, number>();

  constructor(
    rows: number,
    private readonly listOf: (value: V) => readonly Key[],
  ) {
    this.numbers = new Int32Array(rows);
  }

  set(place: number, value: V): void {
    let number = this.known.get(value);
    if (number === undefined) this.known.set(value, (number = this.lists.push(this.listOf(value)) - 1));
    this.numbers[place] = number;
  }

  get keys(): Keys {
    return new Keys(this.numbers, this.lists);
  }
}

/** The keys of a split for each ending or position of an evaluation, by its place. */
export function keysOf(evaluation: Evaluation, split: Split, unit: Unit): Keys {
  const { store } = evaluation;
  if (split.kind === "set-up") return setUpKeys(evaluation, split, unit);
  const { fact, band } = split;
  if (fact.sql !== undefined) {
    const found = new Numbering<Key>(store.endings, (key) => [key]);
    evaluation.endingValues(fact).forEach((value, n) => {
      found.set(n, value === null || band === undefined ? value : bandOf(band, Number(value)));
    });
    return unit === "ending" ? found.keys : overPositions(store, found.keys);
  }
  if (fact.derived === "mover") {
    const found = new Numbering<string | null>(store.positions, (name) => [name]);
    const movers = moversOf(evaluation);
    const endingOf = store.endingOf();
    for (let p = 0; p < store.positions; ++p) found.set(p, movers(p, endingOf[p]));
    return found.keys;
  }
  const { values, none } = evaluation.values(fact);
  const keysOfValue = (value: number | null): readonly Key[] => {
    if (value === null) return [null];
    if (fact.type === "kinds")
      return fact.values!.filter(({ stored }) => (value >> Number(stored)) & 1).map(({ stored }) => stored);
    return [fact.type === "text" ? sanText(value) : value];
  };
  const found = new Numbering<number | null>(values.length, keysOfValue);
  for (let n = 0; n < values.length; ++n) {
    const value = values[n];
    if (value === none || Number.isNaN(value)) found.set(n, null);
    else found.set(n, band === undefined ? value : bandOf(band, value));
  }
  return found.keys;
}

/** Keys of endings, for each of their positions. */
function overPositions(store: ColumnStore, { numbers, lists }: Keys): Keys {
  const { starts, positions } = store;
  const all = new Int32Array(positions);
  for (let n = 0; n < store.endings; ++n) all.fill(numbers[n], starts[n], starts[n + 1]);
  return new Keys(all, lists);
}

function setUpKeys(evaluation: Evaluation, { name, setUps }: SetUpSplit, unit: Unit): Keys {
  const { store } = evaluation;
  const { numbers, members } = evaluation.setUps(setUps);
  const lists = members.map((set) => (set.length > 0 ? set : [null]));
  if (name === "set-up") return new Keys(numbers, lists);
  const entries = new Keys(
    store.starts.subarray(0, store.endings).map((start) => numbers[start]),
    lists,
  );
  return unit === "ending" ? entries : overPositions(store, entries);
}

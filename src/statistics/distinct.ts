// The different values of a column. Loops over few types of arrays, and room that is used again: a table of a million positions
// has 160 million values.

import type { CodedColumn } from "./data-columns.js";

/** What can be looked up in a table rather than in a map. */
const TABLE = 1 << 17;

/** Different values of a column and, for each row that has one, the place among them. Good until the next is asked for. */
export interface Distinct {
  /** In the order in which they come. */
  readonly values: readonly number[];
  /** Places of the rows that have a value, in their order; `count` of them. */
  readonly places: Int32Array;
  readonly count: number;
  /** For each row, 1 where it has a value. */
  readonly there: Int32Array;
}

let places = new Int32Array(0);
let there = new Int32Array(0);
let table = new Int32Array(0);

/** The different values of a column. */
export function distinctOf({ values, of, none }: CodedColumn): Distinct {
  const rows = (of ?? values).length;
  if (places.length < rows) {
    places = new Int32Array(rows);
    there = new Int32Array(rows);
  }
  const found: number[] = [];
  const count = of
    ? ofShared(values, of, none, found)
    : values instanceof Float64Array
      ? byMap(values, none, found)
      : values instanceof Int8Array
        ? byTable(values, none, -128, 256, found)
        : ofWhole(values, none, found);
  return { values: found, places, count, there: there.subarray(0, rows) };
}

/** Each value that rows share is looked up once. */
function ofShared(values: CodedColumn["values"], of: Int32Array, none: number, found: number[]): number {
  const [unseen, absent] = [-2, -1];
  const known = new Map<number, number>();
  const placeOf = (value: number) => {
    if (value === none || Number.isNaN(value)) return absent;
    let place = known.get(value);
    if (place === undefined) known.set(value, (place = found.push(value) - 1));
    return place;
  };
  const shared = new Int32Array(values.length).fill(unseen);
  let count = 0;
  for (let n = 0; n < of.length; ++n) {
    let place = shared[of[n]];
    if (place === unseen) place = shared[of[n]] = placeOf(values[of[n]]);
    if (place === absent) {
      there[n] = 0;
      continue;
    }
    places[count++] = place;
    there[n] = 1;
  }
  return count;
}

function ofWhole(values: Int32Array, none: number, found: number[]): number {
  let least = 2 ** 31 - 1;
  let greatest = -(2 ** 31);
  for (let n = 0; n < values.length; ++n) {
    const value = values[n];
    if (value === none) continue;
    if (value < least) least = value;
    if (value > greatest) greatest = value;
  }
  if (greatest - least >= TABLE) return byMap(values, none, found);
  return byTable(values, none, least, Math.max(greatest - least + 1, 0), found);
}

/** Of values from `least` on, of which there can be so many different ones. */
function byTable(
  values: Int8Array | Int32Array,
  none: number,
  least: number,
  different: number,
  found: number[],
): number {
  if (table.length === 0) table = new Int32Array(TABLE);
  table.fill(-1, 0, different);
  let count = 0;
  for (let n = 0; n < values.length; ++n) {
    const value = values[n];
    if (value === none) {
      there[n] = 0;
      continue;
    }
    const at = value - least;
    if (table[at] < 0) table[at] = found.push(value) - 1;
    places[count++] = table[at];
    there[n] = 1;
  }
  return count;
}

function byMap(values: Int32Array | Float64Array, none: number, found: number[]): number {
  const known = new Map<number, number>();
  let count = 0;
  for (let n = 0; n < values.length; ++n) {
    const value = values[n];
    if (value === none || Number.isNaN(value)) {
      there[n] = 0;
      continue;
    }
    let place = known.get(value);
    if (place === undefined) known.set(value, (place = found.push(value) - 1));
    places[count++] = place;
    there[n] = 1;
  }
  return count;
}

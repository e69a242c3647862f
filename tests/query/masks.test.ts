// The compiled passes over columns against loops that look at one value after the other, over columns that end before,
// at and behind the end of a block.

import { describe, expect, it } from "vitest";

import { randomNumbers } from "../../src/chess/random.js";
import { fill, markKinds, narrow, roomFor } from "../../src/query/engine/masks.js";
import type { ColumnValues } from "../../src/store/packing.js";

const LENGTHS = [0, 1, 15, 16, 17, 65_535, 65_536, 65_537, 140_000];
const random = randomNumbers(20261128);
const numbers = <V extends ColumnValues>(values: V, least: number, greatest: number): V => {
  for (let n = 0; n < values.length; ++n)
    values[n] = random() < 0.1 ? least : Math.floor(least + random() * (greatest - least + 1));
  return values;
};
const COLUMNS: [string, (length: number) => ColumnValues, (readonly [number, number])[]][] = [
  [
    "one byte",
    (length) => numbers(new Int8Array(length), -128, 127),
    [
      [-128, -128],
      [0, 5],
      [100, 2 ** 31 - 1],
      [-(2 ** 31), -100],
      [200, 300],
      [1, 0],
      [-128, 127],
    ],
  ],
  [
    "four bytes",
    (length) => numbers(new Int32Array(length), -(2 ** 31), 2 ** 31 - 1),
    [
      [-(2 ** 31), -(2 ** 31)],
      [-(2 ** 30), 2 ** 30],
      [0, 2 ** 31 - 1],
      [1, 0],
    ],
  ],
];

describe.each(COLUMNS)("a column of %s", (_, make, ranges) => {
  it.each(LENGTHS)("of %i values: ranges mark and narrow as a loop does", (length) => {
    const values = make(length);
    for (const [low, high] of ranges) {
      for (const inside of [true, false]) {
        const want = Array.from(values, (value) => Number((value >= low && value <= high) === inside));
        const mask = roomFor(length);
        fill(mask, { values, low, high, inside });
        expect(Buffer.from(mask).equals(Buffer.from(want))).toBe(true);
        const narrowed = roomFor(length);
        for (let n = 0; n < length; ++n) narrowed[n] = random() < 0.5 ? 1 : 0;
        const both = Array.from(narrowed, (marked, n) => marked & want[n]);
        narrow(narrowed, { values, low, high, inside });
        expect(Buffer.from(narrowed).equals(Buffer.from(both))).toBe(true);
      }
    }
  });
});

it.each(LENGTHS)("sets of kinds, %i of them: those that have one, and those that have it not", (length) => {
  const none = -(2 ** 31);
  const values = numbers(new Int32Array(length), none, none);
  for (let n = 0; n < length; ++n) if (random() < 0.9) values[n] = Math.floor(random() * 2 ** 20);
  for (const has of [true, false]) {
    const mask = roomFor(length);
    markKinds(mask, values, none, 8, has);
    const want = Array.from(values, (kinds) => Number(kinds !== none && ((kinds & 8) !== 0) === has));
    expect(Buffer.from(mask).equals(Buffer.from(want))).toBe(true);
  }
});

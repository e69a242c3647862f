// Masks over positions or endings, 1 where a condition is met and 0 where it is not, and the passes over columns that
// make them. Everything here is a loop over an array; the arrays are few and of few types, so that the loops stay fast.

import type { Values } from "../../store/column-store.js";
import type { ColumnValues } from "../../store/packing.js";
import type { Compare, Operator, Range } from "../language/ast.js";
import { passOfRange, passOfSets } from "./mask-kernel.js";

/** 1 where a condition is met, 0 where it is not; made by `roomFor`, and never changed once it is known. */
export type Mask = Uint8Array;

/** A mask four positions at a time: its length is rounded up, and what lies behind its end is never read. */
export const words = ({ buffer }: Mask): Uint32Array => new Uint32Array(buffer);
/** Room for a mask that can be read in words. */
export const roomFor = (length: number): Mask =>
  new Uint8Array(new ArrayBuffer((length + 3) & ~3), 0, length);

/** Another mask that can be changed. */
export function copyOf(mask: Mask): Mask {
  const copy = roomFor(mask.length);
  copy.set(mask);
  return copy;
}

/** Whether a mask is met nowhere. */
export const isEmpty = (mask: Mask): boolean => !mask.includes(1);

export function inverse(mask: Mask): Mask {
  const result = roomFor(mask.length);
  const [from, into] = [words(mask), words(result)];
  for (let n = 0; n < into.length; ++n) into[n] = from[n] ^ 0x01010101;
  return result;
}
export function both(into: Uint32Array, mask: Uint32Array): void {
  for (let n = 0; n < into.length; ++n) into[n] = into[n] & mask[n];
}
function either(into: Uint32Array, mask: Uint32Array): void {
  for (let n = 0; n < into.length; ++n) into[n] = into[n] | mask[n];
}

export function combine(kind: "and" | "or", masks: readonly Mask[]): Mask {
  const [first, ...rest] = masks;
  if (rest.length === 0) return first;
  const result = copyOf(first);
  for (const mask of rest) (kind === "and" ? both : either)(words(result), words(mask));
  return result;
}

/** A condition on a column: its values lie from `low` to `high`, or do not. */
export interface ValueRange {
  readonly values: ColumnValues;
  readonly low: number;
  readonly high: number;
  readonly inside: boolean;
}

/** The greatest whole number of a column. */
const GREATEST = 2 ** 31 - 1;

/** The range of whole numbers that a comparison lets through; undefined where it is not one. `none` is below all values. */
export function limitsOf(
  operator: Operator,
  value: number,
  none: number,
): { low: number; high: number } | undefined {
  switch (operator) {
    case "=":
      return Number.isInteger(value) && value > none ? { low: value, high: value } : { low: 1, high: 0 };
    case "<":
      return { low: none + 1, high: Math.ceil(value) - 1 };
    case "<=":
      return { low: none + 1, high: Math.floor(value) };
    case ">":
      return { low: Math.max(none, Math.floor(value)) + 1, high: GREATEST };
    case ">=":
      return { low: Math.max(none + 1, Math.ceil(value)), high: GREATEST };
    default:
      return undefined;
  }
}

/** Marks the positions of a range. */
export const fill = (mask: Mask, { values, low, high, inside }: ValueRange): void =>
  passOfRange(mask, values, low, high, inside, false);

/** Takes away what is marked and not in a range. */
export const narrow = (mask: Mask, { values, low, high, inside }: ValueRange): void =>
  passOfRange(mask, values, low, high, inside, true);

/** Marks the sets of kinds that have one, or have it not; an unknown set does neither. `bit` is that of the kind. */
export const markKinds = (mask: Mask, values: Int32Array, none: number, bit: number, has: boolean): void =>
  passOfSets(mask, values, bit, has ? bit : 0, none);

/** Marks the whole numbers that are another than one; that there is none is no other number. */
function markOthers(mask: Mask, values: ColumnValues, one: number, none: number): void {
  passOfRange(mask, values, one, one, false, false);
  passOfRange(mask, values, none, none, false, true);
}

/** Marks what compares with a limit as asked. Unknown fractions are not numbers, and compare with nothing. */
export function compareTo(
  mask: Mask,
  values: ArrayLike<number>,
  none: number,
  operator: Operator,
  limit: number,
): void {
  const end = mask.length;
  switch (operator) {
    case "=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] === limit ? 1 : 0;
      break;
    case "!=":
      for (let n = 0; n < end; ++n) {
        const value = values[n];
        mask[n] = value !== limit && value !== none && !Number.isNaN(value) ? 1 : 0;
      }
      break;
    case "<":
      for (let n = 0; n < end; ++n) mask[n] = values[n] < limit ? 1 : 0;
      break;
    case "<=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] <= limit ? 1 : 0;
      break;
    case ">":
      for (let n = 0; n < end; ++n) mask[n] = values[n] > limit ? 1 : 0;
      break;
    case ">=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] >= limit ? 1 : 0;
      break;
    case "contains":
      throw new Error("only text contains text");
  }
}

/** The whole numbers that a comparison lets through, `none` and below left out; undefined where these are not all in one range. */
export const limitsIn = (asked: Compare | Range, none: number): { low: number; high: number } | undefined =>
  asked.kind === "range"
    ? { low: Math.max(none + 1, Math.ceil(asked.from)), high: Math.floor(asked.to) }
    : limitsOf(asked.operator, Number(asked.value), none);

/** Marks the numbers that are met by a comparison with a number, or that lie in a range. */
export function compareNumbers(mask: Mask, { values, none }: Values, asked: Compare | Range): void {
  const limits = values instanceof Float64Array ? undefined : limitsIn(asked, none);
  if (limits) fill(mask, { values: values as ColumnValues, ...limits, inside: true });
  else if (asked.kind === "compare" && asked.operator === "!=" && !(values instanceof Float64Array))
    markOthers(mask, values, Number(asked.value), none);
  else if (asked.kind === "compare") compareTo(mask, values, none, asked.operator, Number(asked.value));
  else
    for (let n = 0; n < mask.length; ++n) mask[n] = values[n] >= asked.from && values[n] <= asked.to ? 1 : 0;
}

/** Marks where two numbers compare as asked. Unknown ones compare with nothing. */
export function comparePairs(
  mask: Mask,
  { values: one, none: noOne }: Values,
  operator: Operator,
  { values: other, none: noOther }: Values,
): void {
  if (operator === "contains") throw new Error("only text contains text");
  // three signs that a difference can have, and whether each meets what is asked
  const [less, same, more] = SIGNS[operator];
  for (let n = 0; n < mask.length; ++n) {
    const a = one[n];
    const b = other[n];
    if (a === noOne || b === noOther) continue;
    // what is not a number is neither less, nor the same, nor more
    mask[n] = a < b ? less : a === b ? same : a > b ? more : 0;
  }
}
const SIGNS: Readonly<Record<Exclude<Operator, "contains">, readonly [number, number, number]>> = {
  "=": [0, 1, 0],
  "!=": [1, 0, 1],
  "<": [1, 0, 0],
  "<=": [1, 1, 0],
  ">": [0, 0, 1],
  ">=": [0, 1, 1],
};

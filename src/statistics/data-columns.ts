// Columns of a table for other programs, in typed arrays: a word is a number and how it is written, so that there is no object
// for a value.

import type { ColumnValues } from "../store/packing.js";

export type DataType = "INT32" | "DOUBLE" | "STRING" | "BOOLEAN";

export type DataValues = ColumnValues | Float64Array;

/** A column of numbers, truths (0 and 1), or numbers that stand for words. */
export interface CodedColumn {
  readonly name: string;
  readonly type: DataType;
  readonly values: DataValues;
  /** Where rows share values: the place of each row's. */
  readonly of?: Int32Array;
  /** What stands where there is no value; not a number among numbers that have parts. */
  readonly none: number;
  /** For "STRING": the word that a number stands for. */
  readonly wordOf?: (value: number) => string;
}

/** A column of texts of which hardly two are the same, each with a value. */
export interface TextColumn {
  readonly name: string;
  readonly type: "STRING";
  /** All of them in UTF-8, and where each ends. */
  readonly bytes: Uint8Array;
  readonly ends: Int32Array;
}

export type DataColumn = CodedColumn | TextColumn;

/** The number that means that there is none, in columns that are made for the table. */
export const NO_NUMBER = -(2 ** 31);

/** Values at some places, which rise. */
export function valuesAt<V extends DataValues>(values: V, places: Int32Array): V {
  const first = places[0];
  // mostly all that there are
  if (places[places.length - 1] - first === places.length - 1)
    return values.subarray(first, first + places.length) as V;
  const some = new (values.constructor as new (length: number) => V)(places.length);
  for (let n = 0; n < places.length; ++n) some[n] = values[places[n]];
  return some;
}

/** Words by numbers, each once. */
export class WordList {
  private readonly words: string[] = [];
  private readonly numbers = new Map<string, number>();

  /** The number of a word. */
  numberOf(word: string): number {
    let number = this.numbers.get(word);
    if (number === undefined) this.numbers.set(word, (number = this.words.push(word) - 1));
    return number;
  }

  /** The word of a number. */
  readonly wordOf = (number: number): string => this.words[number];
}

/** Gives the value of a row, for writers of texts; null where there is none. */
export function cellOf(column: DataColumn): (row: number) => number | string | boolean | null {
  if ("ends" in column) {
    const texts = Buffer.from(column.bytes.buffer, column.bytes.byteOffset, column.bytes.length);
    return (row) => texts.toString("utf8", row === 0 ? 0 : column.ends[row - 1], column.ends[row]);
  }
  const { values, of, none, type, wordOf } = column;
  const words = new Map<number, string>();
  const cellFor = (value: number) => {
    if (!wordOf) return type === "BOOLEAN" ? value === 1 : value;
    let word = words.get(value);
    if (word === undefined) words.set(value, (word = wordOf(value)));
    return word;
  };
  return (row) => {
    const value = values[of ? of[row] : row];
    return value === none || Number.isNaN(value) ? null : cellFor(value);
  };
}

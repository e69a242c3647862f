// CSV (RFC 4180): rows as text that spreadsheets, too, only show.

import { stringify } from "csv-stringify/sync";

import { plainText } from "../plain-text.js";

/**
 * What a spreadsheet takes for the beginning of a formula, blanks before it included (OWASP, "CSV Injection"; the wide
 * forms of the signs are read alike by some).
 */
const FORMULA = /^\s*[=+\-@\uff1d\uff0b\uff0d\uff20]/;

/** A band of numbers, "-200 to -101", which no spreadsheet can take for a formula. */
const BAND = /^-?\d+(?:\.\d+)? to -?\d+(?:\.\d+)?$/;

export interface CsvOptions {
  /** Whether the names of the columns stand above (default: they do). */
  readonly header?: boolean;
  /** Which columns, in what order (default: all). */
  readonly columns?: string[];
  /** Leaves texts as they are that a spreadsheet would run as formulas. */
  readonly raw?: boolean;
}

/** Rows as CSV, truths in words. A text that begins like a formula gets an apostrophe before it, unless `raw`. */
export const csvText = (
  rows: readonly object[],
  { header = true, columns, raw = false }: CsvOptions = {},
): string =>
  stringify(rows as object[], {
    header,
    columns,
    cast: {
      boolean: (value) => (value ? "yes" : "no"),
      string: (value, { header: head }) => {
        const text = plainText(value);
        return !raw && !head && FORMULA.test(text) && !BAND.test(text) ? `'${text}` : text;
      },
    },
  });

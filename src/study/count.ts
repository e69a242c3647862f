// Counting: how often, out of how many, split by one or two facts.

import { LongsideError } from "../errors.js";
import type { Connection } from "../index/connection.js";
import { type Question, type Scoped, aboutEndings } from "../questions/ast.js";
import { type Sql, type Unit, compileQuestion } from "../questions/sql.js";
import { FACTS, type Fact, type Stored, factNamed } from "../questions/vocabulary.js";
import { nearest } from "../questions/words.js";
import { ENDINGS_FROM, POSITIONS_FROM, prepareForQuestions } from "./rows.js";

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
  if (fact.type === "word") return fact.values!.find((one) => one.stored === value)?.name ?? String(value);
  return fact.type === "flag" ? (value ? "yes" : "no") : value;
}

/** Counts what answers a question. */
export function count(db: Connection, question: Question, options: CountOptions): Count {
  prepareForQuestions(db);
  const { unit, by } = options;
  const from = unit === "ending" ? ENDINGS_FROM : POSITIONS_FROM;
  const where = compileQuestion(question, unit);
  const kept = [
    ...(options.duplicates ? [] : ["g.duplicate_of IS NULL"]),
    ...(options.passing ? [] : ["e.passing = 0"]),
  ];
  const limits = kept.length > 0 ? kept.join(" AND ") : "1";
  const number = (condition: string, values: Sql["values"] = []) =>
    db
      .prepare(`SELECT count(*) FROM ${from} WHERE ${condition}`)
      .pluck()
      .get(...values) as number;

  const matching = number(`${limits} AND (${where.text})`, where.values);
  // a hair more, so that a share on a limit is not put below it by the last bit of a quotient
  const expressions = by.map(({ fact, band }) =>
    band === undefined ? `(${fact.sql})` : `CAST(floor((${fact.sql}) / (? + 0.0) + 1e-9) AS INTEGER)`,
  );
  const bands = by.flatMap(({ band }) => band ?? []);
  const rows =
    by.length === 0
      ? []
      : (db
          .prepare(
            `SELECT ${expressions.map((text, n) => `${text} AS v${n}`).join(", ")}, count(*) AS count
             FROM ${from} WHERE ${limits} AND (${where.text})
             GROUP BY ${expressions.map((_, n) => `v${n}`).join(", ")}
             ORDER BY ${expressions.map((_, n) => `v${n}`).join(", ")}`,
          )
          .all(...bands, ...where.values) as Record<string, number | Stored | null>[]);
  return {
    unit,
    matching,
    of: number(limits),
    leftOut: {
      duplicates: options.duplicates ? 0 : number("g.duplicate_of IS NOT NULL"),
      passing: options.passing
        ? 0
        : number(`e.passing = 1${options.duplicates ? "" : " AND g.duplicate_of IS NULL"}`),
    },
    groups: rows.map((row) => ({
      values: by.map((split, n) => shown(split, row[`v${n}`])),
      count: row.count as number,
      share: matching === 0 ? 0 : (row.count as number) / matching,
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

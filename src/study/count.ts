// Counting: how often, out of how many, split by one or two facts.

import { LongsideError } from "../errors.js";
import type { Connection } from "../index/database.js";
import type { Question } from "../questions/ast.js";
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
  if (fact.type !== "number" || !(band > 0))
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

/** A stored value as its fact writes it; for a band, its range. */
function shown({ fact, band }: Split, value: Stored | null): string | number | null {
  if (value === null) return null;
  if (band !== undefined) return `${value}–${Number(value) + band - 1}`;
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
  const expressions = by.map(({ fact, band }) =>
    band === undefined ? `(${fact.sql})` : `(floor((${fact.sql}) / ${band}.0) * ${band})`,
  );
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
          .all(...where.values) as Record<string, number | Stored | null>[]);
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

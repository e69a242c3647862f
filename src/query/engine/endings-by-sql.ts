// What SQL tells of games and endings as wholes: which endings meet a condition, and what a fact is in each.

import type { Connection } from "../../store/connection.js";
import type { ColumnStore } from "../../store/column-store.js";
import { foldAgain, isNamed } from "../../store/names.js";
import { marked } from "../../store/rising.js";
import { type Question, isEverything } from "../language/ast.js";
import type { Fact, Stored } from "../language/vocabulary.js";
import { type Mask, roomFor } from "./masks.js";
import { compilePlain, tablesFor } from "./sql.js";

/** Lets SQL compare names as people write them. */
function withNames(db: Connection): void {
  db.function("fold", { deterministic: true }, (text: unknown) =>
    typeof text === "string" ? foldAgain(text) : text,
  );
  db.function("named", { deterministic: true }, (name: unknown, sought: unknown) =>
    typeof name === "string" && isNamed(foldAgain(name), foldAgain(String(sought))) ? 1 : 0,
  );
}

/** The endings of a store that meet a condition on games and endings only. */
export function endingsWhere(db: Connection, store: ColumnStore, node: Question): Mask {
  const mask = roomFor(store.endings);
  if (isEverything(node)) return mask.fill(1);
  const { text, values } = compilePlain(node);
  const all = store.ofAllEndings(`where ${text} ${JSON.stringify(values)}`, (ids) => {
    withNames(db);
    const rows = db.prepare(`SELECT e.id FROM ${tablesFor(text)} WHERE ${text} ORDER BY e.id`);
    return marked(ids, rows.pluck().all(...values) as number[]);
  });
  mask.set(all.subarray(store.from, store.to));
  return mask;
}

/** What the values of a fact are remembered by. */
const remembered = (fact: Fact): string => `values ${fact.sql}`;

/** A fact of games or endings for every ending of a store. Null where it is unknown. */
export function valuesOfEndings(db: Connection, store: ColumnStore, fact: Fact): readonly (Stored | null)[] {
  const all = store.ofAllEndings(remembered(fact), (ids) => readValues(db, ids, [fact])[0]);
  return all.length === store.endings ? all : all.slice(store.from, store.to);
}

/** Reads several facts in one pass, so that asking for each of them afterwards costs nothing. */
export function readTogether(db: Connection, store: ColumnStore, facts: readonly Fact[]): void {
  const missing = facts.filter((fact) => !store.isKnown(remembered(fact)));
  if (missing.length < 2) return;
  let read: (Stored | null)[][] | undefined;
  missing.forEach((fact, n) =>
    store.ofAllEndings(remembered(fact), (ids) => (read ??= readValues(db, ids, missing))[n]),
  );
}

/** The values of some facts for the endings of some numbers, which rise. */
function readValues(db: Connection, ids: Int32Array, facts: readonly Fact[]): (Stored | null)[][] {
  const sql = facts.map((fact) => fact.sql!).join(", ");
  const rows = db.prepare(`SELECT e.id, ${sql} FROM ${tablesFor(sql)} ORDER BY e.id`).raw();
  const values = facts.map(() => new Array<Stored | null>(ids.length).fill(null));
  let place = 0;
  for (const [id, ...row] of rows.iterate() as IterableIterator<[number, ...(Stored | null)[]]>) {
    while (ids[place] < id) ++place;
    if (ids[place] === id) row.forEach((value, n) => (values[n][place] = value));
  }
  return values;
}

// What SQL tells of games and endings as wholes: which endings meet a condition, and what a fact is in each.

import type { Connection } from "../../store/connection.js";
import type { ColumnStore } from "../../store/column-store.js";
import { foldAgain, isNamed } from "../../store/names.js";
import { lowerBound, marked } from "../../store/rising.js";
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

/** Fewer than one ending in so many are looked up one by one. */
const FEW = 4;

/** Some facts of games or endings for those endings of a store that are at some places, which rise: a list for each fact. */
export function valuesAt(
  db: Connection,
  store: ColumnStore,
  facts: readonly Fact[],
  places: Int32Array,
): (Stored | null)[][] {
  const known = facts.every((fact) => store.isKnown(remembered(fact)));
  if (!known && FEW * places.length < store.endings) {
    const ids = places.map((place) => store.ids[place]);
    return readValues(db, ids, facts, "e.id IN (SELECT value FROM json_each(?))", [JSON.stringify([...ids])]);
  }
  readTogether(db, store, facts);
  return facts.map((fact) => {
    const all = valuesOfEndings(db, store, fact);
    return Array.from(places, (place) => all[place]);
  });
}

/** The values of some facts for the endings of some numbers, which rise. */
function readValues(
  db: Connection,
  ids: Int32Array,
  facts: readonly Fact[],
  where = "1",
  bound: readonly unknown[] = [],
): (Stored | null)[][] {
  // one list for each fact, as JSON, costs half of what a row for each ending does
  const columns = ["e.id", ...facts.map((fact) => fact.sql!)].map((sql) => `json_group_array(${sql})`);
  const sql = columns.join(", ");
  const lists = db
    .prepare(`SELECT ${sql} FROM ${tablesFor(`${sql} ${where}`)} WHERE ${where}`)
    .raw()
    .get(...bound) as string[];
  const [found, ...read] = lists.map((list) => JSON.parse(list) as (Stored | null)[]);
  const values = facts.map(() => new Array<Stored | null>(ids.length).fill(null));
  (found as number[]).forEach((id, row) => {
    // they mostly come in their order
    const place = ids[row] === id ? row : lowerBound(ids, id);
    if (ids[place] === id) values.forEach((list, n) => (list[place] = read[n][row]));
  });
  return values;
}

// Which endings are counted: all but those under an exclusion, and how many these are.

import type { Connection } from "../store/connection.js";
import type { Split } from "../query/engine/splits.js";
import { type Question, leavesOf } from "../query/language/ast.js";
import { EXCLUDED_BY_DEFAULT, EXCLUSIONS, type Exclusion } from "../store/exclusions.js";
import { type ColumnStore, columnStoreOf } from "../store/column-store.js";

/** How many were left out, for each exclusion in force; each under the first that fits it. */
export type LeftOut = Partial<Record<Exclusion, number>>;

/** For each ending of the store, the first exclusion in force that it falls under, as its place in `EXCLUSIONS`; or -1. */
export const exclusionsOf = (db: Connection, leaveOut: readonly Exclusion[]): Int8Array =>
  exclusionsIn(columnStoreOf(db), leaveOut);

/** The same for a part of the store. */
export function exclusionsIn(store: ColumnStore, leaveOut: readonly Exclusion[]): Int8Array {
  const excluded = new Int8Array(store.endings).fill(-1);
  EXCLUSIONS.forEach(({ name }, place) => {
    if (!leaveOut.includes(name)) return;
    const flags = store.endingFlag(name);
    for (let n = 0; n < excluded.length; ++n) if (excluded[n] < 0 && flags[n]) excluded[n] = place;
  });
  return excluded;
}

/** What the usual exclusions are about: who asks about one of these facts, or counts by it, leaves nothing out for it. */
const ASKED: Partial<Record<Exclusion, readonly string[]>> = {
  duplicates: ["duplicate", "duplicate-differs"],
  passing: ["passing"],
  "engine-games": ["engine-game", "doubtful-engine-game"],
};

/** What is left out of a question, counted by some facts, where the user does not say. */
export function usualExclusions(question: Question, by: readonly Split[] = []): readonly Exclusion[] {
  const asked = new Set([
    ...leavesOf(question).flatMap((leaf) => ("fact" in leaf ? [leaf.fact.name] : [])),
    ...by.map(({ name }) => name),
  ]);
  return EXCLUDED_BY_DEFAULT.filter((name) => !ASKED[name]?.some((fact) => asked.has(fact)));
}

/** Nothing left out yet, for the exclusions in force. */
export const nothingLeftOut = (leaveOut: readonly Exclusion[]): Record<string, number> =>
  Object.fromEntries(EXCLUSIONS.filter(({ name }) => leaveOut.includes(name)).map(({ name }) => [name, 0]));

/** How many were left out, from numbers by the places of their reasons in `EXCLUSIONS`. */
export const leftOutBy = (without: ReadonlyMap<number, number>, leaveOut: readonly Exclusion[]): LeftOut => ({
  ...nothingLeftOut(leaveOut),
  ...Object.fromEntries([...without].map(([reason, count]) => [EXCLUSIONS[reason].name, count])),
});

/** What was left out, in words: "left out: 0 in duplicate games, 40 in engine games". */
export function leftOutInWords(leftOut: LeftOut): string {
  const parts = EXCLUSIONS.filter(({ name }) => leftOut[name] !== undefined).map(
    ({ name, of }) => `${leftOut[name]} ${of}`,
  );
  const also = EXCLUSIONS.filter(({ name }) => leftOut[name] === undefined).map(({ name }) =>
    name.replaceAll("-", " "),
  );
  const counted = also.length > 0 ? `counted: ${also.join(", ")}` : "";
  return [parts.length > 0 ? `left out: ${parts.join(", ")}` : "nothing left out", counted]
    .filter((part) => part !== "")
    .join("; ");
}

/** What was taken away, where something was: "13 in duplicate games"; empty where nothing was. */
export const takenAway = (leftOut: LeftOut): string =>
  EXCLUSIONS.filter(({ name }) => (leftOut[name] ?? 0) > 0)
    .map(({ name, of }) => `${leftOut[name]} ${of}`)
    .join(", ");

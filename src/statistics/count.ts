// Counting: how often, out of how many, split by one or two facts, and in what share of each something else is true.

import type { Connection } from "../store/connection.js";
import { EXCLUSIONS, type Exclusion, EXCLUDED_BY_DEFAULT } from "../store/exclusions.js";
import { columnStoreOf } from "../store/column-store.js";
import { type Question, type Scoped, aboutEndings } from "../query/language/ast.js";
import { Evaluation, type Unit } from "../query/engine/evaluate.js";
import { type LeftOut, nothingLeftOut, exclusionsOf } from "./exclusions.js";
import { type Proportion, proportion } from "./estimators.js";
import {
  type Key,
  type Split,
  compareKeys,
  isOfPositions,
  keyShown,
  keysOf,
} from "../query/engine/splits.js";

export interface CountOptions {
  readonly by: readonly Split[];
  readonly unit: Unit;
  readonly leaveOut: readonly Exclusion[];
  /** What the share is of; where it is left out, each group's share of all that match. */
  readonly share?: Question;
}

/** A group's proportion: of what matches, how much is in it; or of what is in it, how much meets `share`. */
export interface Group extends Proportion {
  /** A value for each split; null where it is unknown. */
  readonly values: readonly (string | number | null)[];
}

export interface Count {
  readonly unit: Unit;
  /** What answers the question, of all there are; both after leaving out what is left out. */
  readonly matching: number;
  readonly of: number;
  /** Left out of both. */
  readonly leftOut: LeftOut;
  /** Of what answers the question, what meets `share`, where that was asked. */
  readonly share: Proportion | null;
  readonly groups: readonly Group[];
}

export const unitFor = (by: readonly Split[]): Unit => (by.some(isOfPositions) ? "position" : "ending");

/** Counts what answers a question. An evaluation that has seen it, or parts of it, need not work them out again. */
export function count(
  db: Connection,
  question: Question,
  options: CountOptions,
  evaluation: Evaluation = new Evaluation(db),
): Count {
  const { unit, by, leaveOut, share } = options;
  const { starts, endings } = columnStoreOf(db);
  const excluded = exclusionsOf(db, leaveOut);
  const maskOf = (asked: Question) =>
    unit === "ending" ? evaluation.endings(asked) : evaluation.positions(asked);
  const mask = maskOf(question);
  const met = share && maskOf(share);
  const keys = by.map((split) => keysOf(db, evaluation, split, unit));
  const groups = new Map<string, { readonly keys: readonly Key[]; count: number; met: number }>();
  const leftOut = nothingLeftOut(leaveOut);
  let matching = 0;
  let meeting = 0;
  let of = 0;

  const add = (n: number) => {
    const meets = met?.[n] ?? 0;
    ++matching;
    meeting += meets;
    if (keys.length === 0) return;
    const each = keys.map((key) => key(n));
    for (const one of each[0]) {
      for (const other of each[1] ?? [undefined]) {
        const values = other === undefined ? [one] : [one, other];
        const name = JSON.stringify(values);
        let group = groups.get(name);
        if (!group) groups.set(name, (group = { keys: values, count: 0, met: 0 }));
        ++group.count;
        group.met += meets;
      }
    }
  };
  for (let n = 0; n < endings; ++n) {
    const size = unit === "ending" ? 1 : starts[n + 1] - starts[n];
    if (excluded[n] >= 0) {
      leftOut[EXCLUSIONS[excluded[n]].name] += size;
      continue;
    }
    of += size;
    if (unit === "ending") {
      if (mask[n]) add(n);
    } else {
      for (let p = starts[n]; p < starts[n + 1]; ++p) if (mask[p]) add(p);
    }
  }
  const sorted = [...groups.values()].sort(
    (a, b) => compareKeys(a.keys[0], b.keys[0]) || compareKeys(a.keys[1] ?? null, b.keys[1] ?? null),
  );
  return {
    unit,
    matching,
    of,
    leftOut,
    share: share ? proportion(meeting, matching) : null,
    groups: sorted.map((group) => ({
      values: by.map((split, n) => keyShown(split, group.keys[n])),
      ...(share ? proportion(group.met, group.count) : proportion(group.count, matching)),
    })),
  };
}

/**
 * Conditions on some position of an ending that leave no ending out: every ending that meets the rest of the
 * question has such a position at one time or another (endings as `count` counts them).
 */
export function idleConditions(
  db: Connection,
  question: Question,
  evaluation: Evaluation = new Evaluation(db),
): Scoped[] {
  const about = aboutEndings(question);
  const parts = about.kind === "and" ? about.parts : [about];
  const matching = (asked: Question) =>
    count(db, asked, { by: [], unit: "ending", leaveOut: EXCLUDED_BY_DEFAULT }, evaluation).matching;
  const all = matching(about);
  if (all === 0) return [];
  return parts.filter((part): part is Scoped => {
    if (part.kind !== "scoped" || part.quantifier !== "somewhere") return false;
    const rest: Question = { kind: "and", parts: parts.filter((other) => other !== part) };
    return matching(rest) === all;
  });
}

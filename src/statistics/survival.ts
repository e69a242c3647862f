// How long defenders hold: from the entry into the ending, or from the first time they reach a set-up, until the move
// that loses the draw. An ending that is over before is censored: how long
// the defence would have held is unknown.

import type { SetUpTest } from "../query/language/ast.js";
import { type LogRank, type Spell, type Survival, logRank, survivalOf } from "./estimators.js";
import type { Study } from "./moves-made.js";
import { type Key, type Split, compareKeys, keyOfNone, keyShown, keysOf } from "../query/engine/splits.js";

/** Groups with fewer cases are not compared: their curves say next to nothing. */
export const LEAST_CASES = 10;

export interface SurvivalGroup {
  readonly value: string;
  readonly spells: readonly Spell[];
  readonly survival: Survival;
}

export interface SurvivalStudy {
  readonly all: SurvivalGroup;
  /** Endings of the study that never stood where the clock starts, or were won for the attacker there. */
  readonly without: number;
  readonly groups: readonly SurvivalGroup[];
  /** Of the groups with enough cases. */
  readonly logRank: LogRank | undefined;
}

/**
 * Each ending's spell in moves of the defender: time counts them from the start, the losing one among them. Starts in
 * the first position, or in the first that fits `from`, unless the attacker wins there. Undefined for an ending
 * without a start.
 */
function spellOf(study: Study, ending: number, from: ArrayLike<number> | undefined): Spell | undefined {
  const { starts } = study.store;
  const end = starts[ending + 1];
  const turn = study.column("attacker-to-move");
  const verdict = study.column("verdict");
  const error = study.column("error");
  const { none } = study.store.column("verdict");
  let p = starts[ending];
  if (from) while (p < end && !from[p]) ++p;
  if (p === end || verdict[p] === none || verdict[p] > 0) return undefined;
  let time = 0;
  for (; p < end; ++p) {
    if (turn[p] === 1) continue;
    if (error[p] < 0) break;
    ++time;
    // what was drawn or better for the defender is now won for the attacker
    if (verdict[p] + error[p] > 0) return { time, event: true };
  }
  return { time, event: false };
}

/** Survival of the defenders of a study, split by a fact of endings where one is given. */
export function survivalBy(study: Study, options: { from?: SetUpTest; split?: Split }): SurvivalStudy {
  const { from, split } = options;
  const mask = from && study.evaluation.positions(from);
  const keys = split && keysOf(study.db, study.evaluation, split, "ending");
  const all: Spell[] = [];
  const groups = new Map<Key, Spell[]>();
  let without = 0;
  for (const ending of study.endings) {
    const spell = spellOf(study, ending, mask);
    if (!spell) {
      ++without;
      continue;
    }
    all.push(spell);
    if (!keys) continue;
    // of several set-ups the first of the catalogue, so that each case is counted once
    const [key] = keys(ending);
    const group = groups.get(key);
    if (group) group.push(spell);
    else groups.set(key, [spell]);
  }
  const made = [...groups]
    .sort(([a], [b]) => compareKeys(a, b))
    .map(([key, spells]) => ({
      value: String(keyShown(split!, key) ?? keyOfNone(split!)),
      spells,
      survival: survivalOf(spells),
    }));
  return {
    all: { value: "all", spells: all, survival: survivalOf(all) },
    without,
    groups: made,
    logRank: logRank(made.map(({ spells }) => spells).filter((spells) => spells.length >= LEAST_CASES)),
  };
}

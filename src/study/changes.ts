// Changes from set-up to set-up: how often one became another, and whether the draw came along.

import type { NamedSetUp } from "../questions/catalogue.js";
import { type Proportion, proportion } from "./estimators.js";
import type { Study } from "./moves-made.js";

/** Between two set-ups men may pass through positions without a name; longer than this, one did not become the other. */
const WITHIN_HALF_MOVES = 20;

/** Of the changes that began in a drawn position, `count` were drawn still when the new set-up was there. */
export interface SetUpChange extends Proportion {
  readonly from: string;
  readonly to: string;
  readonly changes: number;
  /** Changes that began in a position won for the attacker, and how many of these had become drawn. */
  readonly wonBefore: number;
  readonly wonToDrawn: number;
}

/** All changes of the endings of a study, the most frequent first. */
export function changesOf(study: Study, setUps: readonly NamedSetUp[]): SetUpChange[] {
  const masks = setUps.map(({ test }) => study.evaluation.positions(test));
  const verdict = study.column("verdict");
  const { starts } = study.shelf;
  const rows = new Map<
    number,
    { changes: number; drawn: number; kept: number; won: number; toDrawn: number }
  >();
  const namesAt = (p: number) => masks.flatMap((mask, n) => (mask[p] ? [n] : []));
  const less = (some: readonly number[], others: readonly number[]) => {
    const rest = some.filter((n) => !others.includes(n));
    return rest.length > 0 ? rest : some;
  };
  for (const ending of study.endings) {
    let before: { at: number; names: readonly number[] } | undefined;
    for (let p = starts[ending]; p < starts[ending + 1]; ++p) {
      const names = namesAt(p);
      if (names.length === 0) continue;
      const same = before && before.names.join() === names.join();
      if (before && !same && p - before.at <= WITHIN_HALF_MOVES) {
        for (const from of less(before.names, names)) {
          for (const to of less(names, before.names)) {
            const key = from * setUps.length + to;
            let row = rows.get(key);
            if (!row) rows.set(key, (row = { changes: 0, drawn: 0, kept: 0, won: 0, toDrawn: 0 }));
            ++row.changes;
            if (verdict[before.at] === 0) {
              ++row.drawn;
              if (verdict[p] <= 0) ++row.kept;
            } else if (verdict[before.at] > 0) {
              ++row.won;
              if (verdict[p] <= 0) ++row.toDrawn;
            }
          }
        }
      }
      before = { at: p, names };
    }
  }
  return [...rows]
    .map(([key, { changes, drawn, kept, won, toDrawn }]) => ({
      from: setUps[Math.floor(key / setUps.length)].name,
      to: setUps[key % setUps.length].name,
      changes,
      wonBefore: won,
      wonToDrawn: toDrawn,
      ...proportion(kept, drawn),
    }))
    .sort((a, b) => b.changes - a.changes || (a.from + a.to < b.from + b.to ? -1 : 1));
}

// Changes from set-up to set-up: how often one became another, whether the draw was kept, and the question that finds them.

import { type Question, formatQuestion } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { spoken } from "../query/language/tokens.js";
import { parseQuestion } from "../query/language/parse.js";
import { ClusteredTally, playersOf } from "./players.js";
import type { Proportion } from "./proportion.js";
import type { Gathering, Study } from "./moves-made.js";

/** Between two set-ups there may be positions without a name; with more than these, one did not become the other. */
const WITHIN_HALF_MOVES = 20;

/** Of the changes that began in a drawn position, `count` were still drawn when the new set-up was there. */
export interface SetUpChange extends Proportion {
  readonly from: string;
  readonly to: string;
  readonly changes: number;
  /** Changes that began in a position won for the attacker, and how many of these had become drawn. */
  readonly wonBefore: number;
  readonly wonToDrawn: number;
}

/**
 * All changes of the endings of a study, the most frequent first: when a set-up is no longer on the
 * board, it has become each of those that are there now and were not when it began. (One that only joins another, or
 * is left alone, is no change.)
 */
export function changesOf(study: Study, setUps: readonly NamedSetUp[]): Gathering<SetUpChange[]> {
  const rows = new Map<number, { changes: number; kept: ClusteredTally; won: number; toDrawn: number }>();
  const rowOf = (from: number, to: number) => {
    const key = from * setUps.length + to;
    let row = rows.get(key);
    if (!row) rows.set(key, (row = { changes: 0, kept: new ClusteredTally(), won: 0, toDrawn: 0 }));
    return row;
  };
  return {
    look(part) {
      const { numbers, members } = part.evaluation.setUps(setUps);
      const { verdicts } = part;
      const { starts } = part.store;
      for (const ending of part.endings) {
        /** Set-ups on the board, and for each those that were there when it began. */
        let standing: readonly number[] = [];
        let beside: (readonly number[])[] = [];
        let last = -1;
        for (let p = starts[ending]; p < starts[ending + 1]; ++p) {
          if (numbers[p] === 0) continue;
          const names = members[numbers[p]];
          const apart = last >= 0 && p - last > WITHIN_HALF_MOVES;
          if (apart) standing = [];
          if (names !== standing) {
            standing.forEach((from, n) => {
              if (names.includes(from)) return;
              for (const to of names) {
                if (beside[n].includes(to)) continue;
                const row = rowOf(from, to);
                ++row.changes;
                if (verdicts[last] === 0) row.kept.add(part.from + ending, verdicts[p] <= 0 ? 1 : 0);
                else if (verdicts[last] > 0) {
                  ++row.won;
                  if (verdicts[p] <= 0) ++row.toDrawn;
                }
              }
            });
            const before = beside;
            const began = standing;
            beside = names.map((name) => before[began.indexOf(name)] ?? names);
            standing = names;
          }
          last = p;
        }
      }
    },
    result() {
      const players = playersOf(study.db);
      return [...rows]
        .map(([key, { changes, kept, won, toDrawn }]) => ({
          from: setUps[Math.floor(key / setUps.length)].name,
          to: setUps[key % setUps.length].name,
          changes,
          wonBefore: won,
          wonToDrawn: toDrawn,
          ...kept.proportion(players),
        }))
        .sort((a, b) => b.changes - a.changes || (a.from + a.to < b.from + b.to ? -1 : 1));
    },
  };
}

/**
 * The question whose answers show one set-up become another from one look to the next: with the attacker to move the first is
 * on the board, not won, and a move later, with the attacker to move again, it is gone and the other is there that was not.
 * Whether some reply would have kept the first, as the counts over the table ask, no question can say; a capture by the
 * attacker needs no mention, since it ends the ending.
 */
export function changeQuestion(from: NamedSetUp, to: NamedSetUp): Question {
  const [left, reached] = [from, to].map(({ test }) => formatQuestion(test));
  return parseQuestion(
    `(${left} and not ${reached} and to-move = attacker and verdict != won) then within 1 move (${reached} and not ${left} and to-move = attacker)`,
    new Map([from, to].map(({ test }) => [spoken(test.name), test])),
  );
}

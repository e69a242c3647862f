// Theory beside practice: each set-up over the whole table, and in the games.

import { type VerdictCounts, totalOf } from "../../chess/verdict.js";
import { heldFrom } from "../../statistics/held.js";
import { plainProportion } from "../../statistics/proportion.js";
import type { Study } from "../../statistics/moves-made.js";
import { type ReportAsked, SMALL_NOTE, type Section, shareColumn, text, whole } from "./parts.js";

export function theorySection(study: Study, asked: ReportAsked): () => Section {
  const held = study.ask(heldFrom(study, asked.setUps));
  const rowOf = (name: string, n: number) => {
    const { attackerToMove, defenderToMove } = asked.theory[n];
    const turn = (name: string, counts: VerdictCounts) => {
      const of = totalOf(counts);
      const notWon = of - counts.won;
      return {
        [`${name}-placements`]: of,
        [`${name}-not-won`]: notWon,
        [name]: of === 0 ? null : notWon / of,
      };
    };
    return {
      "set-up": name,
      ...turn("attacker-to-move", attackerToMove),
      ...turn("defender-to-move", defenderToMove),
      ...plainProportion(held()[n]),
    };
  };
  return () => ({
    title: "Theory beside practice",
    paragraphs: [
      "Theory: the share of all placements that fit the set-up that are not won for the attacker. Practice: the share of endings held, of those in which the set-up stood on the board while the position was drawn.",
    ],
    parts: [
      {
        table: {
          id: "theory-and-practice",
          caption: "Each set-up over the whole table and in the games",
          columns: [
            text("set-up", "set-up"),
            { name: "attacker-to-move", head: "not won, attacker to move", kind: "percent" },
            { name: "defender-to-move", head: "not won, defender to move", kind: "percent" },
            whole("of", "endings"),
            whole("count", "held"),
            shareColumn("share held"),
          ],
          rows: asked.setUps.map(({ name }, n) => rowOf(name, n)),
          note: SMALL_NOTE,
        },
      },
    ],
  });
}

// One set-up becomes another: how often, and whether the draw was kept.

import type { NamedSetUp } from "../../query/language/catalogue.js";
import { changesOf } from "../../statistics/changes.js";
import { plainProportion } from "../../statistics/proportion.js";
import type { Study } from "../../statistics/moves-made.js";
import { SMALL_NOTE, type Section, shareColumn, text, whole } from "./parts.js";

export function changeSection(study: Study, setUps: readonly NamedSetUp[]): () => Section {
  const changes = study.ask(changesOf(study, setUps));
  return () => ({
    title: "One set-up becomes another",
    paragraphs: [
      "When a set-up is no longer on the board it has become each of those that stand in the next named position, at most ten moves later, and did not stand when it began. “Kept” is the share of those that began drawn and are still drawn.",
    ],
    parts: [
      {
        appendix: true,
        table: {
          id: "changes",
          caption: "Changes of set-up, the most frequent first",
          most: 40,
          columns: [
            text("from", "from"),
            text("to", "to"),
            whole("changes", "changes"),
            whole("of", "drawn before"),
            shareColumn("kept"),
            whole("wonBefore", "won before"),
            whole("wonToDrawn", "of these drawn after"),
          ],
          rows: changes().map(({ from, to, changes: all, wonBefore, wonToDrawn, ...kept }) => ({
            from,
            to,
            changes: all,
            wonBefore,
            wonToDrawn,
            ...plainProportion(kept),
          })),
          note: SMALL_NOTE,
        },
      },
    ],
  });
}

// Who held: the share of endings that the defender held, split by facts of endings.

import { spoken } from "../../query/language/tokens.js";
import { type Split, keyOfNone } from "../../query/engine/splits.js";
import type { Group } from "../../statistics/count.js";
import { heldBy } from "../../statistics/held.js";
import { SMALL, plainProportion } from "../../statistics/proportion.js";
import { type Model, holdingModel } from "../../statistics/models.js";
import type { Study } from "../../statistics/moves-made.js";
import { sharesChart } from "../charts.js";
import { modelInWords, modelParts } from "./models.js";
import {
  type Part,
  type ReportAsked,
  SMALL_NOTE,
  type Section,
  effectColumn,
  shareColumn,
  text,
  whole,
} from "./parts.js";

/** What outcomes are split by where the user does not say. */
export const USUAL_SPLITS = [
  "entry-verdict",
  "defender-rating:200",
  "attacker-rating:200",
  "rating-difference:100",
  "year:10",
  "pace",
  "defender-clock:30/120/600",
  "entry-set-up",
  "attacker",
  "event-type",
];

/** The splits whose charts stand in the text; the others' are behind, in the appendix. */
const IN_TEXT = new Set(["entry-verdict", "rating-difference", "entry-set-up"]);

/** Names in a chart of which all are shown, however few their endings. */
const MOST_NAMES = 8;

/** A fact that is known of a smaller share of the endings gets no table. */
const LEAST_KNOWN = 0.1;

export function outcomeSection(study: Study, asked: ReportAsked): () => Section {
  const bySplit = asked.by.map((split) => ({ split, groups: study.ask(heldBy(study, split)) }));
  const model = study.ask(holdingModel(study, asked.setUps));
  return () => {
    const held = bySplit.map(({ split, groups }) => ({ split, groups: groups() }));
    return outcomeSectionOf(asked, held, model());
  };
}

function outcomeSectionOf(
  asked: ReportAsked,
  held: readonly { readonly split: Split; readonly groups: readonly Group[] }[],
  model: Model,
): Section {
  const usual = USUAL_SPLITS.every((text, n) => asked.by[n]?.name === text.split(":")[0]);
  const parts: Part[] = [];
  const unknown: string[] = [];
  for (const { split, groups } of held) {
    const of = groups.reduce((sum, group) => sum + group.of, 0);
    const known = groups.reduce((sum, group) => sum + (group.values[0] === null ? 0 : group.of), 0);
    if (split.kind === "fact" && known < LEAST_KNOWN * of) {
      unknown.push(`${split.name} (${known} of ${of})`);
      continue;
    }
    const rows = groups.map((group) => ({
      [split.name]: group.values[0] ?? keyOfNone(split),
      ...plainProportion(group),
      effect: group.effect,
    }));
    const id = `outcome-by-${split.name}`;
    if (groups.length > 1) {
      const dots = [
        ...groups.filter(({ values }) => values[0] !== null),
        ...groups.filter(({ values }) => values[0] === null),
      ].map((group) => ({ ...group, label: String(group.values[0] ?? keyOfNone(split)) }));
      // values without an order of their own stand in that of their shares
      const ordered = split.kind === "fact" && split.fact.type === "number";
      const title = `Share held, by ${spoken(split.name)}`;
      // of many names those are shown of which something can be said; all stand in the table
      const told = dots.filter(({ of }) => of >= SMALL);
      const few = !ordered && dots.length > MOST_NAMES && told.length > 1;
      const rest = few
        ? `; ${dots.length - told.length} of fewer than ${SMALL} endings are in the appendix`
        : "";
      parts.push({
        // what the user asked for himself is for reading
        appendix: usual && !IN_TEXT.has(split.name),
        chart: {
          id,
          caption: `${title}, with 95 % intervals${rest}.`,
          svg: sharesChart(
            ordered ? dots : (few ? told : dots).sort((one, other) => other.share - one.share),
            title,
            "held, %",
            1,
          ),
        },
      });
    }
    parts.push({
      appendix: true,
      table: {
        id,
        caption: `Held, by ${spoken(split.name)}`,
        columns: [
          text(split.name, split.name),
          whole("count", "held"),
          whole("of", "of"),
          shareColumn("share held"),
          effectColumn,
        ],
        rows,
        note: rows.some(({ small }) => small) ? SMALL_NOTE : undefined,
      },
    });
  }
  parts.push(...modelParts("holding", "What makes it more likely that the defender holds", model));
  return {
    title: "Who held",
    paragraphs: [
      "An ending is held when the defender drew or won the game. Endings without a result are not counted here.",
      ...modelInWords("holding", model),
      ...(unknown.length > 0 ? [`Known of too few endings to be shown: ${unknown.join(", ")}.`] : []),
    ],
    parts,
  };
}

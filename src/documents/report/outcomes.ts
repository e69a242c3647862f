// Who held: the share of endings that the defender held, split by facts of endings.

import { parseQuestion } from "../../query/language/parse.js";
import type { Question } from "../../query/language/ast.js";
import { type Split, keyOfNone } from "../../query/engine/splits.js";
import { count } from "../../statistics/count.js";
import { plainProportion } from "../../statistics/estimators.js";
import type { Connection } from "../../store/connection.js";
import { sharesChart } from "../charts.js";
import { type Part, type ReportAsked, SMALL_NOTE, type Section, shareColumn, text, whole } from "./parts.js";

/** What outcomes are split by where the user does not say. */
export const USUAL_SPLITS = [
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

/** A fact that is known of a smaller share of the endings gets no table. */
const LEAST_KNOWN = 0.1;
const DECIDED = parseQuestion("outcome != open");
const HELD = parseQuestion("outcome = held");

/** Of the endings with a result that answer all questions, how many were held; split by `by`. */
export const heldOf = (db: Connection, asked: ReportAsked, by: readonly Split[] = [], ...more: Question[]) =>
  count(
    db,
    { kind: "and", parts: [asked.question, DECIDED, ...more] },
    { by, unit: "ending", leaveOut: asked.leaveOut, share: HELD },
  );

export function outcomeSection(db: Connection, asked: ReportAsked): Section {
  const parts: Part[] = [];
  const unknown: string[] = [];
  for (const split of asked.by) {
    const { groups } = heldOf(db, asked, [split]);
    const of = groups.reduce((sum, group) => sum + group.of, 0);
    const known = groups.reduce((sum, group) => sum + (group.values[0] === null ? 0 : group.of), 0);
    if (split.kind === "fact" && known < LEAST_KNOWN * of) {
      unknown.push(`${split.name} (${known} of ${of})`);
      continue;
    }
    const rows = groups.map((group) => ({
      [split.name]: group.values[0] ?? keyOfNone(split),
      ...plainProportion(group),
    }));
    const id = `outcome-by-${split.name}`;
    parts.push({
      table: {
        id,
        caption: `Held, by ${split.name}`,
        columns: [
          text(split.name, split.name),
          whole("count", "held"),
          whole("of", "of"),
          shareColumn("share held"),
        ],
        rows,
        note: rows.some(({ small }) => small) ? SMALL_NOTE : undefined,
      },
    });
    if (groups.length > 1) {
      parts.push({
        chart: {
          id,
          caption: `Share held by ${split.name}, with 95 % intervals.`,
          svg: sharesChart(
            groups.map((group) => ({ label: String(group.values[0] ?? keyOfNone(split)), ...group })),
            `Share held by ${split.name}`,
            "held, %",
          ),
        },
      });
    }
  }
  return {
    title: "Who held",
    paragraphs: [
      "An ending is held when the defender drew or won the game. Endings without a result are not counted here.",
      ...(unknown.length > 0 ? [`Known of too few endings to be shown: ${unknown.join(", ")}.`] : []),
    ],
    parts,
  };
}

// The report: practice in numbers on a question's endings, beside theory, as tables and charts.

import { formatQuestion, isEverything } from "../../query/language/ast.js";
import { understood } from "../../query/engine/evaluate.js";
import { readSplit } from "../../query/engine/splits.js";
import { leftOutInWords } from "../../statistics/exclusions.js";
import { type Proportion } from "../../statistics/estimators.js";
import { Study } from "../../statistics/moves-made.js";
import { limitsText, percentText } from "../../statistics/percent.js";
import { survivalBy } from "../../statistics/survival.js";
import type { Connection } from "../../store/connection.js";
import { targetOf } from "../../store/database.js";
import { sourceTotals } from "../../store/totals.js";
import { counted } from "../../position/wording.js";
import type { Table } from "../tables.js";
import { changeSection } from "./changes.js";
import { errorSection } from "./errors.js";
import { heldOf, outcomeSection } from "./outcomes.js";
import type { Chart, ReportAsked, Section } from "./parts.js";
import { squareSection } from "./squares.js";
import { survivalSection } from "./survival.js";
import { theorySection } from "./theory.js";

export interface Report {
  readonly title: string;
  readonly asked: string;
  readonly summary: readonly string[];
  readonly sections: readonly Section[];
}

/** What the database was made from. */
function sourcesInWords(db: Connection): string {
  const { files, games, firstYear, lastYear } = sourceTotals(db);
  const years =
    firstYear === null ? "" : `; those with this ending were played from ${firstYear} to ${lastYear}`;
  return `The database was made from ${counted(games, "game")} in ${counted(files, "file")}${years}.`;
}

/** The share that was held, and how many have no result. */
function heldInWords(held: Proportion, endings: number): string {
  if (held.of === 0) return "None of them has a result.";
  const open = endings - held.of;
  const rest = open === 0 ? "All have a result" : open === 1 ? "One has no result" : `${open} have no result`;
  return `The defender held ${held.count} of ${held.of} with a result: ${percentText(held.share)} (95 % interval ${limitsText(held)} %). ${rest}.`;
}

/** Works out everything a report says. */
export function makeReport(db: Connection, asked: ReportAsked): Report {
  const study = new Study(db, asked.question, asked.leaveOut);
  const target = targetOf(db);
  const entry = readSplit("entry-set-up", asked.setUps);
  const rating = readSplit("defender-rating:200", []);
  return {
    title: `${target.name}: ${isEverything(asked.question) ? "practice in numbers" : formatQuestion(asked.question)}`,
    asked: understood(asked.question, "ending"),
    summary: [
      sourcesInWords(db),
      `${counted(study.endings.length, "ending")}; ${leftOutInWords(study.leftOut)}.`,
      heldInWords(heldOf(db, asked).share!, study.endings.length),
    ],
    sections: [
      outcomeSection(db, asked),
      theorySection(db, asked),
      survivalSection(
        "survival",
        "How long they hold",
        "from the entry",
        survivalBy(study, { split: entry }),
        entry,
      ),
      ...(asked.from
        ? [
            survivalSection(
              "survival-from-set-up",
              `How long they hold the ${asked.from.name}`,
              `from the ${asked.from.name}`,
              survivalBy(study, { from: asked.from.test, split: rating }),
              rating,
            ),
          ]
        : []),
      errorSection(study, asked.setUps),
      changeSection(study, asked.setUps),
      squareSection(study),
    ],
  };
}

/** Every table of a report. */
export const tablesOf = ({ sections }: Report): Table[] =>
  sections.flatMap(({ parts }) => parts.flatMap((part) => ("table" in part ? [part.table] : [])));

/** Every chart of a report. */
export const chartsOf = ({ sections }: Report): Chart[] =>
  sections.flatMap(({ parts }) => parts.flatMap((part) => ("chart" in part ? [part.chart] : [])));

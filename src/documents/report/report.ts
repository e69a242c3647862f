// The report: practice in numbers on a question's endings, beside theory, as tables and charts.

import { formatQuestion, isEverything } from "../../query/language/ast.js";
import { inOneSentence } from "../../query/language/describe.js";
import type { NamedSetUp } from "../../query/language/catalogue.js";
import { understood } from "../../query/engine/evaluate.js";
import { readSplit } from "../../query/engine/splits.js";
import { leftOutInWords } from "../../statistics/exclusions.js";
import { type Proportion } from "../../statistics/proportion.js";
import { Study } from "../../statistics/moves-made.js";
import { limitsText, percentText } from "../../statistics/percent.js";
import { countedIn } from "../../statistics/counted.js";
import { type DifficultyFound, difficultyOf } from "../../statistics/difficulty.js";
import { endsOf } from "../../statistics/ends.js";
import { heldIn } from "../../statistics/held.js";
import { startOf } from "../../statistics/late.js";
import type { Connection } from "../../store/connection.js";
import { targetOf } from "../../store/database.js";
import { missingInWords, sourceTotals } from "../../store/totals.js";
import { counted } from "../../position/wording.js";
import type { Table } from "../tables.js";
import { changeSection } from "./changes.js";
import { errorSection } from "./errors.js";
import { outcomeSection } from "./outcomes.js";
import { endSection } from "./ends.js";
import { type Chart, type ReportAsked, type Section, text, whole } from "./parts.js";
import { squareSection } from "./squares.js";
import { theorySection } from "./theory.js";

export interface Report {
  readonly title: string;
  readonly asked: string;
  readonly leftOut: string;
  readonly summary: readonly string[];
  readonly sections: readonly Section[];
}

/** What the database was made from. */
function sourcesInWords(db: Connection): string {
  const { files, games, firstYear, lastYear } = sourceTotals(db);
  const years =
    firstYear === null ? "" : `; those with this ending were played from ${firstYear} to ${lastYear}`;
  const missing = missingInWords(db);
  return `The database was made from ${counted(games, "game")} in ${counted(files, "file")}${years}.${missing === undefined ? "" : ` ${missing}`}`;
}

/** The share that was held, and how many have no result. */
function heldInWords(held: Proportion, endings: number): string {
  if (held.of === 0) return "None of them has a result.";
  const open = endings - held.of;
  const rest = open === 0 ? "All have a result" : open === 1 ? "One has no result" : `${open} have no result`;
  return `The defender held ${held.count} of ${held.of} with a result: ${percentText(held.share)} (95 % interval ${limitsText(held)} %). ${rest}.`;
}

/** How long they hold: from where time may be counted, or why it may not. */
function timeSection(study: Study, asked: ReportAsked): () => Section {
  const title = "How long they hold, and how it ends";
  const { from, forbidden } = startOf(asked.question);
  if (forbidden !== undefined)
    return () => ({
      title,
      paragraphs: [
        `Time cannot be counted here: the question selects by “${forbidden}”, which is known only later, so that every ending would have had to last until then. Ask without it.`,
      ],
      parts: [],
    });
  const late = from.length > 0;
  const split = readSplit(late ? "defender-rating:200" : "entry-set-up", asked.setUps);
  const start = late
    ? `from the first position by which ${from.map((one) => `“${formatQuestion(one)}”`).join(" and ")} has been met`
    : "from the entry";
  const ends = study.ask(endsOf(study, { from, split }));
  return () => endSection("ends", title, start, ends(), split);
}

/** Players with enough moves, beside what is to be expected of the same positions. */
function playerSection(study: Study): () => Section {
  const difficulty = study.ask(difficultyOf(study));
  return () => playerSectionOf(difficulty());
}

function playerSectionOf({ fits, players }: DifficultyFound): Section {
  return {
    title: "Players",
    paragraphs: [
      "What is to be expected of a move is fitted on all moves of the study, for each side, and for wins and draws apart: by how many moves hold, of how many, and whether it answers a check. A ratio under one means fewer errors than all players together would have made in the same positions.",
    ],
    parts: [
      {
        appendix: true,
        table: {
          id: "players",
          caption:
            "Errors made, beside those to be expected (players with thirty moves or more that had something to lose)",
          columns: [
            text("name", "player"),
            text("side", "as"),
            whole("moves", "moves"),
            whole("observed", "errors"),
            { name: "expected", head: "expected", kind: "decimal" },
            { name: "ratio", head: "ratio", kind: "factor" },
            text("interval", "95 % interval"),
          ],
          rows: players.map(({ low, high, ...row }) => ({
            ...row,
            interval: `${low.toFixed(2)} to ${high.toFixed(2)}`,
          })),
        },
      },
    ],
    files: [
      {
        id: "difficulty",
        caption: "What is to be expected of a move: coefficients of the log-odds of an error",
        columns: [
          text("side", "side"),
          text("stood", "had"),
          text("term", "term"),
          { name: "estimate", head: "estimate", kind: "factor" },
        ],
        rows: fits.flatMap(({ side, stood, fit }) =>
          (fit?.coefficients ?? []).map(({ term, estimate, clusteredError }) => ({
            side,
            stood,
            term,
            estimate,
            error: clusteredError,
          })),
        ),
      },
    ],
  };
}

/** How long they hold from a set-up on. */
function fromSection(study: Study, { name, test }: NamedSetUp): () => Section {
  const split = readSplit("defender-rating:200", []);
  const ends = study.ask(endsOf(study, { from: [test], split }));
  return () =>
    endSection("ends-from-set-up", `How long they hold the ${name}`, `from the ${name}`, ends(), split);
}

/** Works out everything a report says. */
export function makeReport(db: Connection, asked: ReportAsked): Report {
  const study = new Study(db, asked.question, asked.leaveOut, asked.rule);
  // all of it is asked before the first answer, since the database is looked at once for what was asked
  const counts = study.ask(countedIn(study));
  const held = study.ask(heldIn(study));
  const sections = [
    outcomeSection(study, asked),
    timeSection(study, asked),
    ...(asked.from ? [fromSection(study, asked.from)] : []),
    errorSection(study, asked.setUps),
    theorySection(study, asked),
    changeSection(study, asked.setUps),
    squareSection(study),
    playerSection(study),
  ];
  const { endings, leftOut, doubtful, differing, unread } = counts();
  const without = leftOutInWords(leftOut);
  return {
    title: `${targetOf(db).name}: ${isEverything(asked.question) ? "practice in numbers" : inOneSentence(asked.question, "ending").replace(/^E/, "e")}`,
    asked: understood(asked.question, "ending"),
    leftOut: without,
    summary: [
      sourcesInWords(db),
      `${counted(endings, "ending")}; ${without}. ${doubtful} of those counted may be games of programs; ${differing} of the copies left out have another result than the game that counts; ${counted(unread, "clock time")} could not be read.`,
      heldInWords(held(), endings),
    ],
    sections: sections.map((section) => section()),
  };
}

/** Every table of a report. */
export const tablesOf = ({ sections }: Report): Table[] =>
  sections.flatMap(({ parts, files = [] }) => [
    ...parts.flatMap((part) => ("table" in part ? [part.table] : [])),
    ...files,
  ]);

/** Every chart of a report. */
export const chartsOf = ({ sections }: Report): Chart[] =>
  sections.flatMap(({ parts }) => parts.flatMap((part) => ("chart" in part ? [part.chart] : [])));

// `find`: examples that answer a question.

import { LongsideError } from "../errors.js";
import { writeGame } from "../pgn/game/write.js";
import { csvText } from "../documents/csv.js";
import { annotatedGame } from "../documents/annotated-game.js";
import { moveOf } from "../chess/move-numbers.js";
import { namesText, playersText } from "../pgn/game/players.js";
import { valueInWords, counted } from "../position/wording.js";
import { changeText, lookMove, surnamesText } from "../documents/look-text.js";
import { findAsked, heldMoves, readAsked } from "../app/find.js";
import { Answers, type FoundEnding, type FoundPosition, type Nearness } from "../query/engine/find.js";
import { type LeftOut, takenAway } from "../statistics/exclusions.js";
import { readEnding } from "../query/engine/show.js";
import { codebookPath, typedCommand, withoutSlash, writeAndSay } from "./output.js";
import { isFree, writeInParts } from "./written-in-parts.js";
import type { Workspace } from "../app/workspace.js";
import { manifestOf } from "../app/manifest.js";
import type { Command } from "./command.js";
import { noteIdle, noteMissing, noteNothing, printUnderstanding } from "./understanding.js";
import type { Options } from "./options.js";
import { note, printFile, print, printJson, programName, terminalWidth } from "./messages.js";
import { type Column, signsText, tableText, verdictText } from "./terminal.js";

const SHOWN = 20;

/** What differs from the position that was asked about, where the question asked about one. */
function likeColumns(answers: readonly { readonly like?: Nearness }[]): Column[] {
  if (answers[0]?.like === undefined) return [];
  return [
    { head: "steps", cells: answers.map(({ like }) => String(like!.steps)), right: true },
    {
      head: "differs",
      cells: answers.map(({ like }) => like!.differs.join(", ") || "nothing"),
      shrinksTo: terminalWidth() < 80 ? 12 : 30,
    },
  ];
}

/** The year of a date; nothing where it is not known. */
const yearOf = ({ date }: FoundEnding) => date?.slice(0, 4).replace(/\?+/, "") ?? "";

/** From these widths on a terminal has room for what a move did, and for whole names. */
const WIDE = 100;
const WIDEST = 170;

/** Columns that both surnames get at least: more where there is more room. */
const narrowest = () => (terminalWidth() < 70 ? 15 : 22);

/** "Vastrel v Orme", or both whole names and ratings where there is room. */
const players = (one: FoundEnding) => (terminalWidth() < WIDEST ? surnamesText(one) : playersText(one));

/** How much of the ending the question covers: "31 of 44 moves", of each condition. */
const coverText = ({ covers }: FoundEnding) => covers.map(({ moves, of }) => `${moves} of ${of}`).join(", ");

/** Who, when, how it ended, the story in short and the move to look at are shown however narrow the terminal is. */
function endingsTable(
  answers: readonly FoundEnding[],
  held: (one: FoundEnding) => readonly string[] | undefined,
): string {
  const changes = terminalWidth() < WIDE ? [] : answers.map((one) => changeText(one.look, held(one)) ?? "");
  return tableText([
    { head: "no", cells: answers.map((one) => String(one.id)), right: true },
    { head: "players", cells: answers.map(players), shrinksTo: narrowest() },
    { head: "year", cells: answers.map(yearOf) },
    { head: "", cells: answers.map((one) => one.result.replaceAll("1/2", "½")) },
    {
      head: "moves",
      cells: answers.map((one) => `${moveOf(one)(one.firstPly)}–${moveOf(one)(one.lastPly)}`),
      right: true,
      optional: 2,
    },
    { head: "story", cells: answers.map((one) => signsText(one.story, moveOf(one))), shrinksTo: 7 },
    ...likeColumns(answers),
    ...(answers.some(({ covers }) => covers.length > 0)
      ? [{ head: "in moves", cells: answers.map(coverText), optional: 1 }]
      : []),
    { head: "ended by", cells: answers.map((one) => one.captured ?? one.endedBy), optional: 4 },
    ...(answers.some(({ copies }) => copies > 1)
      ? [
          {
            head: "files",
            cells: answers.map(({ copies }) => (copies > 1 ? `in ${copies}` : "")),
            optional: 3,
          },
        ]
      : []),
    { head: "look at", cells: answers.map((one) => lookMove(one.look)) },
    ...(changes.some((text) => text !== "")
      ? [{ head: "what it did", cells: changes, shrinksTo: terminalWidth() < 125 ? 28 : 38 }]
      : []),
  ]);
}

/** What the exclusions took away, where they took something. */
function leftOutNote(leftOut: LeftOut): string {
  const taken = takenAway(leftOut);
  return taken === "" ? "" : ` Left out: ${taken} (--leave-out nothing shows them).`;
}

function positionsTable(answers: readonly FoundPosition[]): string {
  return tableText([
    { head: "no", cells: answers.map((one) => String(one.id)), right: true },
    { head: "ply", cells: answers.map((one) => String(one.ply)), right: true },
    {
      head: "position",
      cells: answers.map((one) => one.fen.split(" ").slice(0, 2).join(" ")),
    },
    ...likeColumns(answers),
    { head: "verdict", cells: answers.map((one) => verdictText(one.verdict, valueInWords(one))) },
    { head: "move", cells: answers.map((one) => one.move ?? "") },
    {
      head: "error",
      cells: answers.map((one) => (one.error === "none" ? "" : (one.error ?? ""))),
      optional: 3,
    },
    {
      head: "keeping",
      cells: answers.map((one) => `${one.keeping ?? "?"} of ${one.legal}`),
      right: true,
      optional: 2,
    },
    {
      head: "players",
      cells: answers.map(namesText),
      shrinksTo: 12,
      optional: 1,
    },
  ]);
}

/** Nested values as JSON, so that a CSV row stays one row. */
const flat = (answer: FoundEnding | FoundPosition) => {
  const { facts = {}, ...rest } = answer as FoundPosition;
  return Object.fromEntries(
    Object.entries({ ...rest, ...facts }).map(([name, value]) => [
      name,
      typeof value === "object" && value !== null
        ? JSON.stringify(value)
        : typeof value === "boolean"
          ? Number(value)
          : value,
    ]),
  );
};

/** Rows to give: as asked for, else all to a program or a file and a screenful to a person. */
function limitOf(options: Options): number {
  if (options.limit !== undefined) return options.limit === 0 ? Infinity : options.limit;
  return options.json || options.csv || options.pgn ? Infinity : SHOWN;
}

/** Every position that answers, as Parquet or CSV, with its codebook. */
async function writeData(
  asked: string,
  text: string,
  options: Options,
  workspace: Workspace,
): Promise<number> {
  const byYear = options.byYear === true;
  const path = byYear ? withoutSlash(asked) : asked;
  const fail = (option: string, cause: string) =>
    new LongsideError("bad-option", { option, cause, command: "find" });
  if (byYear && path.endsWith(".csv")) throw fail("--by-year", "it writes a folder of Parquet files, no CSV");
  if (byYear && !isFree(path))
    throw fail("--data", `${path} is there already; with --by-year name a folder that is to be made`);
  const unit = options.each ?? "ending";
  const { question, canonical } = readAsked(workspace, text, unit, options.reading);
  const db = workspace.db();
  const data = { question, setUps: workspace.catalogue.tests(workspace.target()) };
  // its library takes as long to load as a question to answer
  const { codebookCsv, positionsCsv, positionsParquet } = await import("./data-file.js");
  const parts = path.endsWith(".csv")
    ? positionsCsv(db, data, options.rawCsv)
    : positionsParquet(
        db,
        data,
        manifestOf(workspace, {
          command: typedCommand(),
          question: canonical,
          counted: new Answers(db, question).tally("position"),
          unit: "position",
          leftOut: {},
        }),
        byYear,
      );
  const rows = await writeInParts(path, parts, byYear);
  note(`Written: ${path}`);
  writeAndSay(codebookPath(path), codebookCsv(options.rawCsv));
  note(`${counted(rows, "position")}.`);
  return rows > 0 ? 0 : 1;
}

export const run: Command = async (words, options, workspace) => {
  noteMissing(workspace);
  const unit = options.each ?? "ending";
  if (options.pgn && unit === "position") {
    throw new LongsideError("bad-option", {
      option: "--pgn",
      cause: "games are written for endings, not positions",
      command: "find",
    });
  }
  if (options.byYear && options.data === undefined)
    throw new LongsideError("bad-option", {
      option: "--by-year",
      cause: "it says how --data is written",
      command: "find",
    });
  if (options.data !== undefined) return writeData(options.data, words.join(" "), options, workspace);
  const found = findAsked(workspace, {
    question: words.join(" "),
    each: unit,
    order: options.sort,
    leaveOut: options.leaveOut,
    duplicates: options.duplicates,
    reading: options.reading,
  });
  const limit = limitOf(options);
  const answers = unit === "ending" ? found.answers.endings(limit) : found.answers.positions(limit);
  if (options.json || options.csv || options.pgn) {
    let given = 0;
    for (const answer of answers) {
      if (options.json) printJson(answer);
      else if (options.csv) printFile(csvText([flat(answer)], { header: given === 0, raw: options.rawCsv }));
      else printFile(writeGame(annotatedGame(readEnding(workspace.db(), answer.id))));
      ++given;
    }
    return given > 0 ? 0 : 1;
  }
  printUnderstanding(found);
  const shown = [...answers];
  if (shown.length === 0) {
    note(`No ${unit} in ${workspace.settings.db} answers that.${leftOutNote(found.leftOut)}`);
    noteNothing(found.nothing());
    return 1;
  }
  print(
    unit === "ending"
      ? endingsTable(shown as FoundEnding[], (one) => heldMoves(workspace, one.look))
      : positionsTable(shown as FoundPosition[]),
  );
  noteIdle(found.idle());
  const sort = found.order;
  const limited = found.count > shown.length;
  note(
    `${limited ? `${shown.length} of ` : ""}${counted(found.count, unit)}, ${sort === "file" ? "in the order of the files" : sort === "mistakes" ? "most mistakes first" : `${sort} first`}` +
      `${limited ? "; all with --limit 0" : ""}.${leftOutNote(found.leftOut)} ` +
      `Look at one: ${programName()} show ${shown[0].id} --db ${workspace.settings.db}`,
  );
  return 0;
};

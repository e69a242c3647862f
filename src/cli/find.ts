// `find`: examples that answer a question.

import { stringify } from "csv-stringify/sync";
import { ByteWriter, ParquetWriter, schemaFromColumnData } from "hyparquet-writer";

import { LongsideError } from "../errors.js";
import { writeGame } from "../pgn/game/write.js";
import { moveNumber, moveOf } from "../chess/move-numbers.js";
import { namesText, playersText } from "../pgn/game/players.js";
import { valueInWords } from "../position/wording.js";
import { annotatedGame } from "../documents/annotated-game.js";
import type { Connection } from "../store/connection.js";
import type { Question } from "../query/language/ast.js";
import { understood } from "../query/engine/evaluate.js";
import { Answers, type FoundEnding, type FoundPosition, type Nearness } from "../query/engine/find.js";
import { readEnding } from "../query/engine/show.js";
import { positionColumns } from "../statistics/position-export.js";
import { writeAndSay } from "./output.js";
import type { Command, Options } from "./options.js";
import { dbPath, noteIdle, openDb, readQuestion } from "./resolve.js";
import {
  type Column,
  dim,
  counted,
  note,
  paragraph,
  print,
  printJson,
  programName,
  storyText,
  tableText,
  terminalWidth,
  verdictText,
} from "./terminal.js";

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

function endingsTable(answers: readonly FoundEnding[]): string {
  return tableText([
    { head: "no", cells: answers.map((one) => String(one.id)), right: true },
    { head: "players", cells: answers.map(playersText), shrinksTo: 14 },
    {
      head: "year",
      cells: answers.map((one) => one.date?.slice(0, 4).replace(/\?+/, "") ?? ""),
      optional: 2,
    },
    { head: "result", cells: answers.map((one) => one.result.replaceAll("1/2", "½")) },
    { head: "attacker", cells: answers.map((one) => one.attacker), optional: 1 },
    {
      head: "moves",
      cells: answers.map((one) => `${moveOf(one)(one.firstPly)}–${moveOf(one)(one.lastPly)}`),
      right: true,
    },
    {
      head: "story",
      cells: answers.map((one) => storyText(one.story, moveOf(one))),
      shrinksTo: 22,
      optional: answers[0]?.like ? 5 : undefined,
    },
    ...likeColumns(answers),
    { head: "ended by", cells: answers.map((one) => one.captured ?? one.endedBy), optional: 3 },
    {
      head: "look at",
      cells: answers.map(
        (one) =>
          `${moveNumber(one.look.fen)} ${one.look.move ?? "end"}${one.duplicateOf ? " (duplicate)" : ""}`,
      ),
      optional: 4,
    },
  ]);
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

function* first<T>(answers: Iterable<T>, number: number): Generator<T> {
  let n = 0;
  for (const answer of answers) {
    if (n++ === number) return;
    yield answer;
  }
}

/** Rows to give: as asked for, else all to a program or a file and a screenful to a person. */
function limitOf(options: Options): number {
  if (options.limit !== undefined) return options.limit === 0 ? Infinity : options.limit;
  return options.json || options.csv || options.pgn ? Infinity : SHOWN;
}

/** Positions in a row group of a Parquet file. */
const ROW_GROUP = 20_000;

/** The positions that answer a question, as Parquet, row group by row group. */
function positionsParquet(db: Connection, question: Question): { bytes: Uint8Array; rows: number } {
  const writer = new ByteWriter();
  let parquet: ParquetWriter | undefined;
  let rows = 0;
  for (const columns of positionColumns(db, question, ROW_GROUP)) {
    const columnData = columns.map((column) => ({ ...column, nullable: true }));
    parquet ??= new ParquetWriter({ writer, schema: schemaFromColumnData({ columnData }) });
    void parquet.write({ columnData, rowGroupSize: ROW_GROUP });
    rows += columns[0].data.length;
  }
  void parquet!.finish();
  return { bytes: writer.getBytes(), rows };
}

export const run: Command = async (words, options) => {
  const question = readQuestion(words, options);
  const unit = options.each ?? "ending";
  if (options.pgn && unit === "position") {
    throw new LongsideError("bad-option", {
      option: "--pgn",
      cause: "games are written for endings, not positions",
      command: "find",
    });
  }
  const db = openDb(options);
  try {
    if (options.parquet !== undefined) {
      const written = positionsParquet(db, question);
      writeAndSay(options.parquet, written.bytes);
      note(`${counted(written.rows, "position")}.`);
      return written.rows > 0 ? 0 : 1;
    }
    const limit = limitOf(options);
    const asked = new Answers(db, question);
    const answers = unit === "ending" ? asked.endings(limit) : asked.positions(limit);
    if (options.json || options.csv || options.pgn) {
      let found = 0;
      for (const answer of answers) {
        if (options.json) printJson(answer);
        else if (options.csv) process.stdout.write(stringify([flat(answer)], { header: found === 0 }));
        else process.stdout.write(writeGame(annotatedGame(readEnding(db, answer.id))));
        ++found;
      }
      return found > 0 ? 0 : 1;
    }
    const shown = [...first<FoundEnding | FoundPosition>(answers, limit)];
    print(dim(paragraph(understood(question, unit))));
    const tally = asked.tally(unit);
    if (shown.length === 0) {
      note(`No ${unit} in ${dbPath(options)} answers that.`);
      return 1;
    }
    print(
      unit === "ending" ? endingsTable(shown as FoundEnding[]) : positionsTable(shown as FoundPosition[]),
    );
    const units = tally.answers === 1 ? unit : `${unit}s`;
    const more =
      tally.answers > shown.length
        ? `${shown.length} of ${tally.answers} ${units}; all with --limit 0.`
        : `${tally.answers} ${units}.`;
    const duplicates = tally.duplicates > 0 ? ` ${tally.duplicates} of them are duplicates, marked so.` : "";
    if (unit === "ending") noteIdle(db, question);
    note(`${more}${duplicates} Look at one: ${programName()} show ${shown[0].id} --db ${dbPath(options)}`);
    return 0;
  } finally {
    db.close();
  }
};

// Many chunks give the answers that one gives: what a question passes over, and where one slice ends and the next begins,
// changes nothing.

import { copyFileSync } from "node:fs";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { Answers } from "../../src/query/engine/find.js";
import { factsByName, namedFacts } from "../../src/query/engine/named-facts.js";
import {
  answerOnThreads,
  deliveredBy,
  endHelpers,
  startHelpers,
} from "../../src/query/engine/slice-threads.js";
import { readSplits } from "../../src/query/engine/splits.js";
import { type Question, formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { count } from "../../src/statistics/count.js";
import { cellOf } from "../../src/statistics/data-columns.js";
import { positionColumns } from "../../src/statistics/position-export.js";
import { CHUNK, gatherLoose, loosenSource } from "../../src/store/chunk-writing.js";
import { chunksOf } from "../../src/store/chunks.js";
import { checkDatabase } from "../../src/store/check.js";
import { columnStoreOf } from "../../src/store/column-store.js";
import { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../../src/store/exclusions.js";
import { contentSignature } from "../../src/store/signature.js";
import { TARGET, indexBundled, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let one: Connection;
let many: Connection;
let loose: Connection;
/** The one in many chunks, its questions answered on three threads. */
let helped: Connection;
const catalogue = standardCatalogue();

beforeAll(async () => {
  const path = join(folder, "one.db");
  await indexBundled(path);
  const taken = (name: string) => {
    copyFileSync(path, join(folder, name));
    const db = new Connection(join(folder, name));
    for (const id of db.prepare("SELECT id FROM sources").pluck().all() as number[]) loosenSource(db, id);
    return db;
  };
  one = new Connection(path, { readonly: true });
  many = taken("many.db");
  gatherLoose(many, TARGET, true, 100);
  // as a run that was killed leaves it: whole chunks, and endings behind them that are in none
  loose = taken("loose.db");
  gatherLoose(loose, TARGET, false, 900);
  helped = openForReading(join(folder, "many.db"));
  answerOnThreads(helped, 3);
  startHelpers(helped);
  // they load the program before they can help
  while (deliveredBy(helped) === 0) {
    new Answers(helped, parseQuestion("second-rank defence", catalogue.known)).tally("ending");
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
}, 60_000);
afterAll(() => {
  endHelpers(helped);
  for (const db of [one, many, loose, helped]) db.close();
});

const QUESTIONS = [
  "everything",
  "second-rank defence",
  "defender drew with the rook on the long side",
  "never Philidor",
  "king in the open then second-rank defence",
  "held king on the edge for 10 moves",
  "only move and defender errs",
  "dtm 3..9",
  "king-file = 4 and king-rank = 1 and not in-check",
  "attacker-rating > 2400 and rook on the short side",
  "zugzwang",
  "attacker-rook-file = rook-file",
  "waiting move",
  "first mistake",
  "like 3k4/5R2/3K4/3B4/8/8/4r3/8 w",
  "fifty-verdict = drawn and verdict = won",
];

describe("a database in many chunks, or with loose endings", () => {
  it("is in as many as was asked for, holds the same, and is whole", () => {
    expect(chunksOf(one)).toHaveLength(1);
    expect(CHUNK).toBe(65_536);
    // as many as are worth several threads
    expect(chunksOf(many).length).toBeGreaterThan(40);
    expect(chunksOf(loose).length).toBeGreaterThan(3);
    expect(loose.prepare("SELECT count(*) FROM loose").pluck().get()).toBeGreaterThan(3);
    expect([...columnStoreOf(loose).slices()].length).toBe(chunksOf(loose).length + 1);
    for (const db of [many, loose]) {
      expect(contentSignature(db)).toBe(contentSignature(one));
      expect(checkDatabase(db).hurt).toEqual([]);
    }
  });

  it.each(QUESTIONS)("answers %s alike", (text) => {
    const question = parseQuestion(text, catalogue.known);
    const answered = (db: Connection) => {
      const answers = new Answers(db, question);
      return [
        [...answers.endings()],
        [...new Answers(db, question, { order: "newest" }).endings(30, 5)].map(({ id }) => id),
        [...answers.positions(300, 7)],
        answers.tally("ending"),
        answers.tally("position"),
      ];
    };
    const wanted = answered(one);
    for (const db of [many, loose, helped]) expect(answered(db)).toEqual(wanted);
  });

  it.each([
    ["position", ["rook-side", "verdict"]],
    ["position", ["set-up", "year:5"]],
    ["position", ["kind"]],
    ["ending", ["outcome", "entry-set-up"]],
  ] as const)("counts each %s by %s alike, with shares", (unit, by) => {
    const counted = (db: Connection) =>
      count(db, parseQuestion("king on the edge", catalogue.known), {
        by: readSplits(by, catalogue.tests(TARGET)),
        unit,
        leaveOut: EXCLUDED_BY_DEFAULT,
        share: parseQuestion("defender held"),
      });
    const wanted = counted(one);
    expect(wanted.groups.length).toBeGreaterThan(1);
    for (const db of [many, loose, helped]) expect(counted(db)).toEqual(wanted);
  });

  it("has been asked on several threads, and is answered alike when another run has changed it", () => {
    expect(deliveredBy(helped)).toBeGreaterThan(1);
    const path = join(folder, "changing.db");
    copyFileSync(join(folder, "many.db"), path);
    const reading = openForReading(path);
    answerOnThreads(reading, 2);
    startHelpers(reading);
    const ids = () => [...new Answers(reading, parseQuestion("everything")).endings()].map(({ id }) => id);
    const before = ids();
    const writing = new Connection(path);
    const [source] = writing.prepare("SELECT id FROM sources").pluck().all() as number[];
    loosenSource(writing, source);
    expect(ids()).toEqual(before);
    writing.close();
    endHelpers(reading);
    // nobody is left to help
    expect(ids()).toEqual(before);
    reading.close();
  });

  it.each(QUESTIONS)("sends %s to another thread and back", (text) => {
    const question = parseQuestion(text, catalogue.known);
    const sent = factsByName(structuredClone(namedFacts(question))) as Question;
    expect(sent).toEqual(question);
    expect(formatQuestion(sent)).toBe(formatQuestion(question));
  });

  it("exports the same rows, in the same order", () => {
    const rows = (db: Connection) => {
      const columns: unknown[][] = [];
      const question = parseQuestion("second-rank defence", catalogue.known);
      const setUps = catalogue.tests(TARGET);
      for (const part of positionColumns(db, { question, setUps, rows: 100, byYear: false }))
        [...part.columns].forEach((column, n) => {
          const cell = cellOf(column);
          for (let row = 0; row < part.rows; ++row) (columns[n] ??= []).push(cell(row));
        });
      return columns;
    };
    const wanted = rows(one);
    expect(wanted[0].length).toBeGreaterThan(300);
    expect(rows(many)).toEqual(wanted);
    expect(rows(loose)).toEqual(wanted);
  });
});

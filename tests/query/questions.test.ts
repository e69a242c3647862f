// Questions in plain words, as a coach, a researcher and an author wrote them before they knew the lexicon, each with what
// it means: both must mean the same, or be answered by the same endings of the bundled games.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { PACKAGE } from "../../src/places.js";
import { type Question, aboutEndings, formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { inOneSentence } from "../../src/query/language/describe.js";
import { type KnownNames, readingsOf } from "../../src/query/language/parse.js";
import { Evaluation } from "../../src/query/engine/evaluate.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { indexBundled, temporaryFolder } from "../support.js";

const { known } = standardCatalogue();
const among =
  (...names: string[]) =>
  (text: string) =>
    names.includes(text.toLowerCase());
/** Names that the questions use and the bundled games do not hold. */
const names: KnownNames = {
  isPlayer: among("marlow", "quillfeather", "brandt"),
  isEvent: among("olympiad", "world championship"),
  isSite: among("moscow", "wijk aan zee"),
};

/** Questions that are known to be read otherwise, with the reason. */
const OTHERWISE: ReadonlySet<string> = new Set([
  // the game is meant by default; the position is offered
  "king in the wedge, two files from the foot, drawn",
  // that the check was a mistake is not said
  "defender checked where only a king move held",
]);

let db: Connection;
let evaluation: Evaluation;
beforeAll(async () => {
  const path = join(temporaryFolder(), "games.db");
  await indexBundled(path);
  db = openForReading(path);
  evaluation = new Evaluation(db);
});
afterAll(() => db.close());

function mean(one: Question, other: Question): boolean {
  if (formatQuestion(aboutEndings(one)) === formatQuestion(aboutEndings(other))) return true;
  const [a, b] = [evaluation.endings(one), evaluation.endings(other)];
  return a.every((met, n) => met === b[n]);
}

describe.each(["coach", "researcher", "author", "wordings"])("questions: %s", (who) => {
  const lines = readFileSync(join(PACKAGE, "tests", "query", "questions", `${who}.tsv`), "utf8")
    .split("\n")
    .filter((line) => line.includes("\t"))
    .map((line) => line.split("\t"));

  it.each(lines)("%s", (text, canonical) => {
    if (canonical.startsWith("MATERIAL")) {
      expect(() => readingsOf(text, known, names)).toThrow(/is another ending/);
      return;
    }
    const [reading, ...others] = readingsOf(text, known, names);
    const [wanted] = readingsOf(canonical, known, names);
    if (OTHERWISE.has(text)) {
      const offered = [
        ...others.map(({ question }) => question),
        ...reading.guesses.map(({ other }) => other),
      ];
      expect(mean(reading.question, wanted.question)).toBe(false);
      if (reading.guesses.length > 0) expect(offered.some((one) => mean(one, wanted.question))).toBe(true);
      return;
    }
    expect(mean(reading.question, wanted.question), formatQuestion(reading.question)).toBe(true);
    // printed, it reads back the same; and it can be told in a sentence
    const printed = formatQuestion(reading.question);
    expect(formatQuestion(readingsOf(printed, known)[0].question)).toBe(printed);
    expect(inOneSentence(reading.question, "ending")).toMatch(/^(?:Endings in which |All endings)\S/);
    expect(inOneSentence(reading.question, "ending")).not.toMatch(/#|undefined/);
  });
});

describe("conditions in another order", () => {
  it.each([
    ["second-rank defence, defender drew, since 2010", "since 2010, defender drew, second-rank defence"],
    ["attacker won, never Philidor, blitz games", "blitz games, attacker won, never Philidor"],
    ["king in the corner, defender to move, only move", "only move, king in the corner, defender to move"],
  ])("%s", (one, other) => {
    const [a, b] = [one, other].map((text) => readingsOf(text, known)[0].question);
    expect(mean(a, b)).toBe(true);
  });
});

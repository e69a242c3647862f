// How many questions in plain words are understood as they are meant: node dist/tests/bench/questions.js [--all] FILE… [--db DATABASE]
//
// Each line of a file is a question, a tab, and what it means in canonical form. Both must have the same canonical form, or
// be met by the same endings of the database, if one is given. "MATERIAL Q v R" stands for a question about another ending.

import { readFileSync } from "node:fs";

import { openForReading } from "../../src/store/database.js";
import { namesIn } from "../../src/store/names.js";
import { aboutEndings, formatQuestion, type Question } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { Evaluation } from "../../src/query/engine/evaluate.js";
import { QueryError } from "../../src/query/language/query-error.js";
import { readingsOf } from "../../src/query/language/parse.js";

/** Names that the questions of the project use, which are nobody's. */
const INVENTED = ["marlow", "quillfeather", "brandt"];
const PLACES = ["moscow", "wijk aan zee", "olympiad", "world championship"];

const args = process.argv.slice(2);
const at = args.indexOf("--db");
const db = at < 0 ? undefined : openForReading(args[at + 1]);
const files = args.filter((arg, n) => !arg.startsWith("--") && (at < 0 || n !== at + 1));
const held = db && namesIn(db);
const names = {
  isPlayer: (text: string) => INVENTED.includes(text.toLowerCase()) || (held?.isPlayer(text) ?? false),
  isEvent: (text: string) =>
    ["olympiad", "world championship"].includes(text.toLowerCase()) || (held?.isEvent(text) ?? false),
  isSite: (text: string) => PLACES.slice(0, 2).includes(text.toLowerCase()) || (held?.isSite(text) ?? false),
};
const { known } = standardCatalogue();
const evaluation = db && new Evaluation(db);

function sameAnswers(one: Question, other: Question): boolean {
  if (formatQuestion(aboutEndings(one)) === formatQuestion(aboutEndings(other))) return true;
  if (!evaluation) return false;
  const [a, b] = [evaluation.endings(one), evaluation.endings(other)];
  return a.every((met, n) => met === b[n]);
}

const write = (text: string) => process.stdout.write(`${text}\n`);
for (const file of files) {
  const tally = { meant: 0, offered: 0, otherwise: 0, refused: 0 };
  let slowest = 0;
  const lines = readFileSync(file, "utf8")
    .split("\n")
    .filter((line) => line.includes("\t"));
  for (const line of lines) {
    const [text, canonical] = line.split("\t");
    const start = performance.now();
    try {
      const [reading, ...others] = readingsOf(text, known, names);
      slowest = Math.max(slowest, performance.now() - start);
      const wanted = canonical.startsWith("MATERIAL")
        ? undefined
        : readingsOf(canonical, known, names)[0].question;
      if (wanted && sameAnswers(reading.question, wanted)) {
        ++tally.meant;
        continue;
      }
      const rest = [...others.map(({ question }) => question), ...reading.guesses.map(({ other }) => other)];
      const offered = wanted && rest.some((question) => sameAnswers(question, wanted));
      ++tally[offered ? "offered" : "otherwise"];
      write(
        `${offered ? "offered  " : "OTHERWISE"} ${text}\n          read: ${formatQuestion(reading.question)}\n          meant: ${canonical}`,
      );
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      if (canonical.startsWith("MATERIAL") && thrown.message.includes(" v ")) {
        ++tally.meant;
        continue;
      }
      ++tally.refused;
      write(`refused   ${text}\n          ${thrown.message}; ${thrown.hint}\n          meant: ${canonical}`);
    }
  }
  write(
    `${file}: ${lines.length} questions: ${tally.meant} as meant, ${tally.offered} otherwise but offered, ${tally.otherwise} otherwise, ${tally.refused} refused; slowest ${slowest.toFixed(1)} ms`,
  );
}
db?.close();

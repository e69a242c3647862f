// The block that says, in a paragraph, how often something comes up in games and in the whole table, and how it ends.

import { renderToString } from "preact-render-to-string";

import { capital, counted, sentence } from "../../position/wording.js";
import { EVERYTHING, formatQuestion, levelOf } from "../../query/language/ast.js";
import { factNamed } from "../../query/language/vocabulary.js";
import { aboutGames } from "../../query/engine/placement-conditions.js";
import { Study } from "../../statistics/moves-made.js";
import { survey } from "../../survey/survey.js";
import { totalOf } from "../../chess/verdict.js";
import { type LessonMeans, questionOf } from "./means.js";
import type { Block } from "./outline.js";
import { shareInWords, shareWithNumbers } from "./sentences.js";

/** With fewer endings a share says little. */
const FEW = 20;

/** "Over all positions …": what the table says, for each side to move. */
async function inTable(means: LessonMeans, block: Block): Promise<string[]> {
  const { target, threads, setUps } = means;
  const asked = questionOf(means, block);
  if (aboutGames(asked)) return [];
  const { all } = await survey(target, { question: formatQuestion(asked), setUps, by: null }, threads);
  const said = (["attackerToMove", "defenderToMove"] as const).flatMap((turn) => {
    const { counts } = all[turn];
    const of = totalOf(counts);
    if (of === 0) return [];
    const side = turn === "attackerToMove" ? "attacker" : "defender";
    const held = (of - counts.won) / of;
    const said = held >= 0.5 ? `${shareInWords(held)} are drawn` : `${shareInWords(counts.won / of)} are won`;
    return [`${said} with the ${side} to move`];
  });
  return said.length === 0 ? [] : [`of all possible positions ${said.join(", and ")}`];
}

/** "57 of 168 endings of the games at hand, one in three". */
const ofGames = (found: number, of: number): string =>
  `${found.toLocaleString("en")} of ${counted(of, "ending")} of the games at hand${of > 0 ? `, ${shareInWords(found / of)}` : ""}`;

/** How often it comes up in the games of the database, and how those endings ended. */
function inGames(means: LessonMeans, block: Block): string[] {
  const { db, leaveOut } = means;
  if (!db) return [];
  const question = questionOf(means, block);
  const study = new Study(db, EVERYTHING, leaveOut);
  if (levelOf(question) === "ending") {
    let [found, all] = [0, 0];
    for (const part of study.parts()) {
      const answers = part.evaluation.endings(question);
      for (const n of part.endings) found += answers[n];
      all += part.endings.length;
    }
    return [`it was so in ${ofGames(found, all)}`];
  }
  const count = { endings: 0, met: 0, drawn: 0, drawnHeld: 0, won: 0, wonWon: 0 };
  for (const part of study.parts()) {
    const fits = part.evaluation.positions(question);
    const verdict = part.column("verdict");
    const outcomes = part.evaluation.endingValues(factNamed("outcome")!);
    const { starts } = part.store;
    for (const n of part.endings) {
      ++count.endings;
      let first = starts[n];
      while (first < starts[n + 1] && !fits[first]) ++first;
      if (first === starts[n + 1]) continue;
      ++count.met;
      if (outcomes[n] === "open") continue;
      const lost = outcomes[n] === "lost";
      if (verdict[first] === 0) {
        ++count.drawn;
        if (!lost) ++count.drawnHeld;
      } else if (verdict[first] === 1) {
        ++count.won;
        if (lost) ++count.wonWon;
      }
    }
  }
  if (count.met === 0) return ["it comes up in none of the games at hand"];
  const said = [`it comes up in ${ofGames(count.met, count.endings)}`];
  if (count.drawn > 0)
    said.push(
      `where it was still a draw, the defender held ${shareWithNumbers(count.drawnHeld, count.drawn)}${count.drawn < FEW ? ", too few to trust the share" : ""}`,
    );
  if (count.won > 0 && count.won >= count.drawn)
    said.push(`where it was won, the attacker won ${shareWithNumbers(count.wonWon, count.won)}`);
  return said;
}

export async function practiceBlock(means: LessonMeans, block: Block): Promise<string> {
  const said = [...inGames(means, block), ...(await inTable(means, block))];
  return renderToString(<p>{said.map((one) => sentence(capital(one))).join(" ")}</p>);
}

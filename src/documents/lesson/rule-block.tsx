// The block of the rule: when a set-up holds, in a sentence for each side to move, and boards of what the rule gets wrong.

import { renderToString } from "preact-render-to-string";

import { placementFen } from "../../chess/fen.js";
import { otherTurn } from "../../chess/fen-text.js";
import { type Probe, placementReader } from "../../position/probe.js";
import { winnerInWords } from "../../position/variations.js";
import { sentence } from "../../position/wording.js";
import { formatQuestion } from "../../query/language/ast.js";
import { clauseInWords } from "../../query/language/describe.js";
import { parseQuestion } from "../../query/language/parse.js";
import { meets } from "../../query/engine/predicate.js";
import { unpack } from "../../tablebase/tables.js";
import { aboutGames } from "../../query/engine/placement-test.js";
import { pictureOf } from "../../exercises/pictures.js";
import { type Rule, type RulesFor, rulesOf } from "../../survey/rule.js";
import { diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, badBlock, placementsFor, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";
import { listed } from "./sentences.js";
import { isLegal, uprightFen } from "./upright.js";

/** Conditions of a rule that a student can keep in mind. */
const MOST_CONDITIONS = 2;
/** Boards of exceptions. */
const BOARDS = 3;

const FILES = ["", "an edge file", "a knight's file", "a bishop's file", "a centre file"];
const ORDINALS = ["", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
const MEN: Readonly<Record<string, string>> = {
  king: "the defender's king",
  rook: "the defender's rook",
  bishop: "the bishop",
  "attacker-king": "the attacker's king",
  "attacker-rook": "the attacker's rook",
};

/** A condition as a teacher says it. Files are counted from the edge that the defender's king is nearer to. */
function conditionInWords(condition: string): string {
  const [, fact, sign, value] = /^([\w-]+) (=|<=|>=) (\d+)$/.exec(condition) ?? [];
  if (sign !== undefined && sign !== "=")
    return limitInWords(fact, sign, Number(value)) ?? plainly(condition);
  if (fact === "king-file") return `the defender's king is on ${FILES[Number(value)]}`;
  if (fact === "kings-files-apart" && value === "0") return "the kings are on the same file";
  if (fact === "corner-steps" && value === "0") return "the defender's king is in the corner";
  const [, man, line] = /^([\w-]+)-(file|rank)$/.exec(fact ?? "") ?? [];
  if (man !== undefined && MEN[man] !== undefined)
    return `${MEN[man]} is on the ${ORDINALS[Number(value)]} ${line} from ${line === "file" ? "the nearer side" : "the edge"}`;
  return plainly(condition);
}

const plainly = (condition: string): string => clauseInWords(parseQuestion(condition));

/** "the bishop is on the third rank from the edge or farther". */
function limitInWords(fact: string, sign: string, value: number): string | undefined {
  const [, man, line] = /^([\w-]+)-(file|rank)$/.exec(fact) ?? [];
  if (man === undefined || MEN[man] === undefined) return undefined;
  const side = line === "file" ? "the nearer side" : "the edge";
  return `${MEN[man]} is on the ${ORDINALS[value]} ${line} from ${side} or ${sign === ">=" ? "farther" : "nearer"}`;
}

/** Of the rules, from coarse to fine, the finest that can be kept in mind, without denials if there is one. */
function toKeep(rules: readonly Rule[]): Rule | undefined {
  const short = rules.filter(({ unless }) => unless.flat().length <= MOST_CONDITIONS);
  const isPlain = ({ unless }: Rule) => !unless.flat().some((condition) => /!=|\bnot\b/.test(condition));
  return short.findLast((rule) => isPlain(rule) && rule.unless.length > 0) ?? short.at(-1) ?? rules[0];
}

const percent = (part: number, whole: number) =>
  part === whole ? "100" : Math.min(99, Math.round((100 * part) / whole)).toString();

function ruleInWords({ usually, unless }: Rule, attackerToMove: boolean): string {
  const side = attackerToMove ? "attacker" : "defender";
  const terms = unless.map((term) => listed(term.map(conditionInWords)));
  const but = terms.length === 0 ? "" : `, unless ${listed(terms, "or")}`;
  return sentence(`With the ${side} to move it is ${usually}${but}`);
}

/** How far the rule goes. */
function worthInWords(rule: Rule): string {
  const { unless, right, of, wonThough, notWonThough } = rule;
  if (right === of) return "Without exception.";
  const share = percent(right, of);
  if (unless.length === 0) return `Right in ${share} of 100 positions.`;
  const wrong = [
    wonThough > 0 ? `${percentOf(wonThough, of)} won in spite of it` : null,
    notWonThough > 0 ? `${percentOf(notWonThough, of)} drawn in spite of it` : null,
  ].filter((part) => part !== null);
  return `Right in ${share} of 100 positions; ${wrong.join(", ")}.`;
}

const percentOf = (part: number, whole: number): string => {
  const share = (100 * part) / whole;
  return share < 1 ? "fewer than one" : String(Math.round(share));
};

/** "a draw", "White wins, mate in 6". */
const resultInWords = ({ verdict, dtm, attacker }: Probe): string =>
  verdict === "drawn" ? "a draw" : `${winnerInWords(verdict, attacker)}, mate in ${dtm}`;

/** The moves of a win that is not seen at once. */
const LEAST_MOVES = 5;

/** Boards that a rule gets wrong, of different pictures, none of them won at a glance; exceptions to what is usual first. */
async function exceptionsOf(
  means: LessonMeans,
  block: Block,
  { rule, attackerToMove }: { readonly rule: Rule; readonly attackerToMove: boolean },
): Promise<string[]> {
  const { target, prober } = means;
  const terms = rule.unless.map((term) => term.map((condition) => parseQuestion(condition)));
  const geometer = prober.geometerFor({ material: target });
  const usual: string[] = [];
  const others: string[] = [];
  const pictures = new Set<string>();
  for (const placement of await placementsFor(means, block)) {
    if (placement.attackerToMove !== attackerToMove || usual.length === BOARDS) continue;
    const value = unpack(means.tables.probe(placement.squares, attackerToMove));
    const read = placementReader(geometer, placement, value);
    const excepted = terms.some((term) => term.every((condition) => meets(condition, read)));
    const says = excepted === (rule.usually === "drawn") ? "won" : "drawn";
    if (value.verdict === says || value.verdict === "lost") continue;
    if (value.verdict === "won" && value.dtm! < LEAST_MOVES) continue;
    const picture = pictureOf(placement);
    if (pictures.has(picture)) continue;
    pictures.add(picture);
    (excepted ? others : usual).push(uprightFen(placementFen(placement, target, "white")));
  }
  return [...usual, ...others].slice(0, BOARDS);
}

export async function ruleBlock(means: LessonMeans, block: Block): Promise<string> {
  const { target, threads, setUps, prober } = means;
  const asked = questionOf(means, block);
  if (aboutGames(asked)) throw badBlock(block, "a rule is about placements, not about games");
  const question = formatQuestion(asked);
  const found: readonly RulesFor[] = await rulesOf(
    target,
    { question, setUps, seed: wholeNumber(block, "seed", 1, 2 ** 31) },
    threads,
  );
  const kept = found.flatMap(({ rules, attackerToMove }) => {
    const rule = toKeep(rules);
    return rule && rule.of > 0 ? [{ rule, attackerToMove }] : [];
  });
  if (kept.length === 0) return renderToString(<p class="note">No position of the table fits that.</p>);
  const boards = await exceptionsOf(means, block, kept[0]);
  return renderToString(
    <>
      <div class="rule">
        {kept.map(({ rule, attackerToMove }) => (
          <p>
            <b>{ruleInWords(rule, attackerToMove)}</b> <span class="note">{worthInWords(rule)}</span>
          </p>
        ))}
      </div>
      {boards.length > 0 && (
        <>
          <p>
            {boards.length === 1 ? "An exception" : "Exceptions"} to remember: the rule would have{" "}
            {boards.length === 1 ? "it" : "them"} otherwise.
          </p>
          <div class="boards">
            {boards.map((fen) => {
              const turn = fen.includes(" w ") ? "White" : "Black";
              const other = otherTurn(fen);
              const said = resultInWords(prober.probe(fen));
              const turned = isLegal(other) ? resultInWords(prober.probe(other)) : said;
              return (
                <Figure svg={diagramsSvg([{ fen, turn: true }], 1, "An exception to the rule")}>
                  {turn} to move: {said}.
                  {turned.split(",")[0] !== said.split(",")[0] &&
                    ` With ${turn === "White" ? "Black" : "White"} to move: ${turned}.`}
                </Figure>
              );
            })}
          </div>
        </>
      )}
    </>,
  );
}

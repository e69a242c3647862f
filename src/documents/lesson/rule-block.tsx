// The block of the rule: when a set-up holds, in a sentence for each side to move, and as a tree with boards of what it is
// right about and of what it gets wrong.

import { renderToString } from "preact-render-to-string";

import { otherTurn } from "../../chess/fen-text.js";
import { outcomeInWords } from "../../position/variations.js";
import { sentence } from "../../position/wording.js";
import { formatQuestion } from "../../query/language/ast.js";
import { aboutGames } from "../../query/engine/placement-conditions.js";
import { type Rule, type RulesFor, rulesOf } from "../../survey/rule.js";
import { diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { NEARER_SIDE, ruleInWords, toKeep, treeLeaves } from "../rule-text.js";
import { ruleTreePieces, ruleTreeSvg } from "../rule-tree.js";
import { type LessonMeans, badBlock, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";
import { isLegal, uprightFen } from "./upright.js";

const percent = (part: number, whole: number) =>
  part === whole ? "100" : Math.min(99, Math.round((100 * part) / whole)).toString();

const inASentence = (rule: Rule, attackerToMove: boolean): string =>
  sentence(`With the ${attackerToMove ? "attacker" : "defender"} to move it is ${ruleInWords(rule)}`);

/** How far the rule goes. */
function worthInWords(rule: Rule): string {
  const { unless, right, of, wonThough, notWonThough } = rule;
  if (right === of) return "Without exception.";
  const share = percent(right, of);
  if (unless.length === 0) return `Right in ${share} of 100 positions.`;
  // so that the three numbers make a hundred
  const rest = 100 - Number(share);
  const won = Math.round((rest * wonThough) / (wonThough + notWonThough));
  const are = (n: number) => `${n} ${n === 1 ? "is" : "are"}`;
  const wrong =
    won === 0
      ? `${are(rest)} drawn`
      : won === rest
        ? `${are(rest)} won`
        : `${are(won)} won and ${rest - won} drawn`;
  return `Right in ${share} of 100 positions; of the others ${wrong}.`;
}

/** A rule that is shown, and for whose move. */
interface Kept {
  readonly rule: Rule;
  readonly attackerToMove: boolean;
}

/** A rule's tree for both widths of the page: of the two drawings the page shows one. */
function Tree({ means, rule, attackerToMove, isFirst }: Kept & { means: LessonMeans; isFirst: boolean }) {
  const { prober } = means;
  const [side, other] = attackerToMove ? ["White", "Black"] : ["Black", "White"];
  const leaves = treeLeaves(rule.leaves, (example) => {
    const fen = uprightFen(example.fen);
    const turned = otherTurn(fen);
    const verdict = isLegal(turned) ? prober.probe(turned).verdict : example.verdict;
    // who is to move often decides, and a student asks
    const more =
      verdict === example.verdict ? [] : [`${other} to move: ${verdict === "drawn" ? "a draw" : verdict}`];
    return { fen, more };
  });
  const title = `The rule with ${side} to move`;
  return (
    <Figure
      name="tree"
      svg={[...ruleTreePieces(leaves, "wide", title), ruleTreeSvg(leaves, "narrow", title)].join("")}
    >
      The rule as a tree, {side} to move.{isFirst && ` ${EXAMPLES}`}
    </Figure>
  );
}

const EXAMPLES = "The boards are drawn by lot; in a dashed frame: what the rule gets wrong.";

/** Boards for rules without a condition, which make no tree: one that each is right about, and one that it gets wrong. */
export function Examples({ means, rules }: { means: LessonMeans; rules: readonly Kept[] }) {
  const boards = rules.flatMap(({ rule, attackerToMove }) => {
    const [{ example, exception }] = rule.leaves;
    return [
      { one: example, isException: false },
      { one: exception, isException: true },
    ].flatMap(({ one, isException }) => (one ? [{ one, isException, attackerToMove }] : []));
  });
  return (
    <>
      <p>
        Boards drawn by lot{rules.length > 1 ? ", for each side to move" : ""}: one that the rule is right
        about, and one that it gets wrong.
      </p>
      <div class={boards.length === 4 ? "boards four" : "boards"}>
        {boards.map(({ one, isException, attackerToMove }) => {
          const fen = uprightFen(one.fen);
          const side = attackerToMove ? "White" : "Black";
          const result = outcomeInWords(means.prober.probe(fen), "white");
          const said = `${isException ? "An exception. " : ""}${side} to move: ${result}.`;
          return <Figure svg={diagramsSvg([{ fen, turn: true }], 1, said)}>{said}</Figure>;
        })}
      </div>
    </>
  );
}

export async function ruleBlock(means: LessonMeans, block: Block): Promise<string> {
  const { target, threads, setUps } = means;
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
  const bare = kept.filter(({ rule }) => rule.leaves.length === 1 && rule.right < rule.of);
  if (kept.length === 0) return renderToString(<p class="note">No position of the table fits that.</p>);
  return renderToString(
    <>
      <div class="rule">
        {kept.map(({ rule, attackerToMove }) => (
          <p>
            <b>{inASentence(rule, attackerToMove)}</b> <span class="note">{worthInWords(rule)}</span>
          </p>
        ))}
        {kept.some(({ rule }) => ruleInWords(rule).includes(NEARER_SIDE)) && (
          <p class="note">The nearer side of the board is the one that the defender's king is nearer to.</p>
        )}
      </div>
      {bare.length > 0 && <Examples means={means} rules={bare} />}
      {kept
        .filter(({ rule }) => rule.leaves.length > 1)
        .map((one, n) => (
          <Tree means={means} {...one} isFirst={n === 0} />
        ))}
    </>,
  );
}

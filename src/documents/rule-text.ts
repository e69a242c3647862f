// A rule in words: "drawn, unless the kings are on one file and …, or …"; and which of several is worth keeping in mind.

import { STANDING, clauseInWords } from "../query/language/describe.js";
import { parseQuestion } from "../query/language/parse.js";
import type { Leaf, LeafExample, Rule } from "../survey/rule.js";
import { numberWord } from "../position/wording.js";
import type { TreeLeaf } from "./rule-tree.js";

const FILES = ["", "an edge file", "a knight's file", "a bishop's file", "a centre file"];
const ORDINALS = ["", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
/** Where files are counted from: the side of the board that the defender's king is nearer to. */
export const NEARER_SIDE = "nearer side";

/** A condition as a teacher says it. */
export function conditionInWords(condition: string): string {
  const [, fact, sign, value] = /^([\w-]+) (=|<=|>=) (\d+)$/.exec(condition) ?? [];
  const plainly = () => clauseInWords(parseQuestion(condition));
  if (fact === "king-file" && sign === "=") return `the defender's king is on ${FILES[Number(value)]}`;
  const [, man, line] = /^([\w-]+)-(file|rank)$/.exec(fact ?? "") ?? [];
  if (man === undefined || STANDING[man] === undefined || fact === "king-rank") return plainly();
  const side = line === "file" ? NEARER_SIDE : "edge";
  const [ordinal, from] = [ORDINALS[Number(value)], `from the ${side}`];
  if (sign === "<=" && Number(value) > 1)
    return `${STANDING[man]} is on one of the first ${numberWord(Number(value))} ${line}s ${from}`;
  return `${STANDING[man]} is on the ${ordinal} ${line} ${from}${sign === ">=" ? " or farther" : ""}`;
}

/** What must be met for a term of a rule. */
export const termInWords = (term: readonly string[]): string => term.map(conditionInWords).join(" and ");

/** What the rule says, as a person would say it. */
export function ruleInWords({ usually, unless }: Pick<Rule, "usually" | "unless">): string {
  return unless.length === 0 ? usually : `${usually}, unless ${unless.map(termInWords).join(", or ")}`;
}

/** Conditions of a rule that a student can keep in mind. */
const MOST_CONDITIONS = 2;
/** Of what the bare rule gets wrong, the least part that conditions must put right to be worth keeping in mind. */
const LEAST_MENDED = 1 / 5;

/** Of the rules, from coarse to fine, the finest that can be kept in mind and is worth it, without denials if there is one. */
export function toKeep(rules: readonly Rule[]): Rule | undefined {
  const short = rules.filter(({ unless }) => unless.flat().length <= MOST_CONDITIONS);
  const isPlain = ({ unless }: Rule) => !unless.flat().some((condition) => /!=|\bnot\b/.test(condition));
  const kept = short.findLast((rule) => isPlain(rule) && rule.unless.length > 0) ?? short.at(-1) ?? rules[0];
  const bare = rules.find(({ unless }) => unless.length === 0);
  return bare && kept.right - bare.right < LEAST_MENDED * (bare.of - bare.right) ? bare : kept;
}

/** "a draw", "won in 12", by the attacker's result. */
const resultInWords = ({ verdict, moves }: LeafExample): string =>
  verdict === "drawn" ? "a draw" : `${verdict} in ${moves}`;

/** The leaves of a rule as they are drawn; `more` may add lines under a board, and turn it. */
export function treeLeaves(
  leaves: readonly Leaf[],
  show: (example: LeafExample) => { readonly fen: string; readonly more: readonly string[] } = ({ fen }) => ({
    fen,
    more: [],
  }),
): TreeLeaf[] {
  return leaves.map(({ when, says, of, right, example, exception }) => ({
    when: termInWords(when),
    says,
    of,
    right,
    boards: [
      { one: example, says: "" },
      { one: exception, says: "exception: " },
    ].flatMap(({ one, says: before }) => {
      if (!one) return [];
      const { fen, more } = show(one);
      return { fen, isException: before !== "", caption: [`${before}${resultInWords(one)}`, ...more] };
    }),
  }));
}

// A rule in words: "drawn, unless the kings are on one file and …, or …".

import { clauseInWords } from "../query/language/describe.js";
import { parseQuestion } from "../query/language/parse.js";
import type { Rule } from "../survey/rule.js";

const inWords = (condition: string): string => clauseInWords(parseQuestion(condition));

/** What the rule says, as a person would say it. */
export function ruleInWords({ usually, unless }: Pick<Rule, "usually" | "unless">): string {
  if (unless.length === 0) return usually;
  const terms = unless.map((term) => term.map(inWords).join(" and "));
  return `${usually}, unless ${terms.join(", or ")}`;
}

// What a question selects by that is known only after an ending has begun. Time may not be counted from before that: who
// was selected had to last until then ("immortal time": Suissa, American Journal of Epidemiology 167, 2008).

import { type Question, aboutEndings, formatQuestion, leavesOf, partsOf } from "../query/language/ast.js";

/** Facts of games and endings that are known only when these are over. */
const KNOWN_LATE = new Set([
  "result",
  "winner",
  "loser",
  "termination",
  "game-moves",
  "outcome",
  "defender-result",
  "ended-by",
  "captured",
  "final-verdict",
  "length",
  "positions",
  "attacker-errors",
  "defender-errors",
  "errors",
  "full-point-errors",
  "passing",
  "contradicts",
  "duplicate",
  "unreadable",
]);

/** From where time can be counted in the endings that answer a question. */
export interface Start {
  /** Conditions on a position, each of which must have been met at some moment; none: from the entry. */
  readonly from: readonly Question[];
  /** A condition in canonical form that forbids counting time at all, since it is known only later. */
  readonly forbidden: string | undefined;
}

/** Where the clock may start. */
export function startOf(question: Question): Start {
  const from: Question[] = [];
  for (const part of partsOf(aboutEndings(question))) {
    if (part.kind === "scoped" && part.quantifier === "somewhere") from.push(part.part);
    else if (!isKnownAtEntry(part)) return { from: [], forbidden: formatQuestion(part) };
  }
  return { from, forbidden: undefined };
}

/** Whether an ending's first position, its game and its players tell. */
const isKnownAtEntry = (part: Question): boolean =>
  leavesOf(part).every((leaf) => {
    if (leaf.kind === "scoped") return leaf.quantifier === "entry";
    if (leaf.kind === "facts") return ![leaf.fact, leaf.other].some(({ name }) => KNOWN_LATE.has(name));
    return (leaf.kind === "compare" || leaf.kind === "range") && !KNOWN_LATE.has(leaf.fact.name);
  });

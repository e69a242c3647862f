// Which positions of an ending show how it answers a question, and how many of them a condition covers.

import { type Question, isCourse, leavesOf, partsOf } from "../language/ast.js";
import type { Evaluation } from "./evaluate.js";
import { longestStay } from "./sequences.js";

/** How many of an ending's positions meet a condition on some or all of them; of a stay, how many it is long. */
export function coveredPositions(evaluation: Evaluation, part: Question, place: number): number {
  const { starts } = evaluation.store;
  const [start, end] = [starts[place], starts[place + 1]];
  if (part.kind === "run") {
    const { values } = evaluation.store.column("attacker-to-move");
    const stay = longestStay(evaluation.positions(part.part), values, start, end);
    return stay ? stay[1] - stay[0] + 1 : 0;
  }
  if (part.kind !== "scoped") return 0;
  const mask = evaluation.positions(part.part);
  let met = 0;
  for (let n = start; n < end; ++n) met += mask[n];
  return met;
}

/**
 * Plies of an ending's positions that show how it answers a question, the one to look at first; none where it is about
 * the whole. Of many positions that show it, that is the last mistake among them, if mistakes are asked for, else where
 * the longest stay begins; of one position after another the mistake, if one of them is asked to be one, else the first.
 */
export function shownPlies(evaluation: Evaluation, question: Question, place: number): number[] {
  const { starts, firstPlies } = evaluation.store;
  const [start, end] = [starts[place], starts[place + 1]];
  const plyOf = (at: number) => firstPlies[place] + at - start;
  for (const part of partsOf(question)) {
    if (!isCourse(part)) continue;
    const found = evaluation.matcher(part)(start, end);
    if (!found || found.length === 0) continue;
    if (part.kind === "scoped" && (part.quantifier === "somewhere" || part.quantifier === "mostly"))
      return [plyOf(bestOf(evaluation, part.part, start, end) ?? found[0])];
    if (part.kind === "sequence") {
      // of a course that leads to a mistake the mistake answers
      const mistake = [part.first, ...part.then.map((step) => step.part)].findLastIndex(asksForMistakes);
      if (mistake > 0) return [found[mistake], ...found.filter((_, n) => n !== mistake)].map(plyOf);
    }
    return found.map(plyOf);
  }
  return [];
}

/** The position between two places that shows a condition best. */
function bestOf(evaluation: Evaluation, part: Question, start: number, end: number): number | undefined {
  const mask = evaluation.positions(part);
  if (asksForMistakes(part)) {
    const { values: errors } = evaluation.store.column("error");
    for (let n = end - 1; n >= start; --n) if (mask[n] && errors[n] > 0) return n;
  }
  return longestStay(mask, evaluation.store.column("attacker-to-move").values, start, end)?.[0];
}

/** Whether a condition is about moves that gave something away. */
const asksForMistakes = (node: Question): boolean =>
  leavesOf(node).some(
    (leaf) =>
      leaf.kind === "compare" &&
      ["error", "first-mistake", "own-first-mistake", "decisive-mistake"].includes(leaf.fact.name),
  );

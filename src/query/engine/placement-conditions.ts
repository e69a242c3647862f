// What the conditions of a question ask of a placement: which facts, whether values, in what order they are best asked.

import { LIST_MOVES } from "../../geometry/fact-table.js";
import { geometryIndex } from "../../geometry/facts.js";
import type { ValueRange } from "../../geometry/pairs.js";
import { type Question, leavesOf } from "../language/ast.js";
import { type Fact, isChoiceFact, isPlacementFact } from "../language/vocabulary.js";

const isOfPlacements = (fact: Fact) => isPlacementFact(fact) || isChoiceFact(fact);

/** Why a question cannot be put to placements: the part of it that is about games. */
export const aboutGames = (node: Question): Question | undefined =>
  leavesOf(node).find((leaf) =>
    leaf.kind === "compare" || leaf.kind === "range" || leaf.kind === "facts"
      ? !isOfPlacements(leaf.fact) || (leaf.kind === "facts" && !isOfPlacements(leaf.other))
      : leaf.kind !== "set-up" && leaf.kind !== "like",
  );

/** Every fact that a condition asks for; `like` asks for all pieces. */
export const factsIn = (node: Question): (Fact | "like")[] =>
  leavesOf(node).flatMap((leaf) => {
    if (leaf.kind === "set-up") return factsIn(leaf.means);
    if (leaf.kind === "facts") return [leaf.fact, leaf.other];
    return leaf.kind === "compare" || leaf.kind === "range" ? [leaf.fact] : ["like"];
  });

/**
 * Whether a question asks how placements come out: for the verdict, for moves, for what single moves do, or for a threat of
 * mate, which values tell.
 */
export const asksForValues = (node: Question): boolean =>
  factsIn(node).some(
    (fact) =>
      fact !== "like" && fact.name !== "to-move" && (geometryIndex(fact.name) < 0 || isMateThreat(fact)),
  );

export const isInCheck = ({ name }: Fact): boolean => name === "in-check";
export const isMateThreat = ({ name }: Fact): boolean => name === "mate-threat";

/** A comparison of one fact with a number as the values that meet it, or that do not; undefined for any other condition. */
export function rangeOf(node: Question): (ValueRange & { readonly fact: Fact }) | undefined {
  if (node.kind === "range") return { fact: node.fact, from: node.from, to: node.to, inside: true };
  if (node.kind !== "compare") return undefined;
  const value = Number(node.value);
  if (!Number.isInteger(value)) return undefined;
  const range = (from: number, to: number, inside = true) => ({ fact: node.fact, from, to, inside });
  switch (node.operator) {
    case "=":
      return range(value, value);
    case "!=":
      return range(value, value, false);
    case "<":
      return range(0, value - 1);
    case "<=":
      return range(0, value);
    case ">":
      return range(value + 1, GREATEST);
    case ">=":
      return range(value, GREATEST);
    default:
      return undefined;
  }
}
/** No fact of a placement is greater. */
const GREATEST = 1 << 20;

/** Conditions, those last that take a list of moves. */
export function inOrder(parts: readonly Question[]): Question[] {
  const lists = (part: Question) =>
    factsIn(part).some((fact) => fact !== "like" && LIST_MOVES.has(fact.name));
  return [...parts.filter((part) => !lists(part)), ...parts.filter(lists)];
}

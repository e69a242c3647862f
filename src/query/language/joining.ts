// Joining conditions: what is of one sort, what lasts, what is denied, and what a list of conditions means together.

import { type Question, formatQuestion, leavesOf, levelOf } from "./ast.js";
import { join } from "./canonical.js";

/** A condition, and what has to be known of it to join it with others. */
export interface Part {
  readonly node: Question;
  /** It says how the game came out: "drew with X" asks for X most of the time. */
  readonly result: boolean;
}

export const part = (node: Question, result = false): Part => ({ node, result });

/** What conditions are of one sort, so that "or" between them binds tightest. */
export function sortOf(node: Question): string {
  switch (node.kind) {
    case "compare":
    case "range":
      return /^(?:outcome|defender-result|result)$/.test(node.fact.name)
        ? "result"
        : node.fact.name.replace(/-board-/, "-");
    case "set-up":
      return "set-up";
    case "scoped":
    case "not":
    case "run":
      return sortOf(node.part);
    case "and":
    case "or":
      return node.parts.length === 0 ? "" : sortOf(node.parts[0]);
    default:
      return node.kind;
  }
}

/** Facts of one game that can have one value only, so that "and" between two values means "or". */
export const isOneValue = (node: Question): boolean =>
  (node.kind === "range" || (node.kind === "compare" && node.operator === "=")) &&
  levelOf(node) === "ending" &&
  node.fact.type !== "text";

/** Something that holds for a while, and not of one move only. */
export const isLasting = (node: Question): boolean =>
  levelOf(node) === "position" &&
  leavesOf(node).every(
    (leaf) =>
      leaf.kind === "set-up" ||
      ((leaf.kind === "compare" || leaf.kind === "range") &&
        leaf.fact.scope === "position" &&
        !["to-move", "turn", "only-move", "in-check", "keeping"].includes(leaf.fact.name)),
  );

/** What is not: of a set-up, that it never stands on the board; of another condition, that the same position lacks it. */
export const negated = (node: Question): Question =>
  leavesOf(node).every(({ kind }) => kind === "set-up") ? never(node) : { kind: "not", part: node };

/** What is never so; of what concerns the whole ending, what is not so. */
export const never = (node: Question): Question =>
  levelOf(node) === "position"
    ? { kind: "scoped", quantifier: "never", part: node }
    : { kind: "not", part: node };

/** "Philidor, Szén or Cochrane, attacker won": single conditions before an "or" of their sort belong to it. */
export function gathered(lists: readonly Part[]): Part[] {
  const result: Part[] = [];
  for (const one of lists) {
    const before = result.at(-1)?.node;
    if (one.node.kind === "or" && before && isSingle(before) && sortOf(before) === sortOf(one.node))
      result[result.length - 1] = part(join("or", [before, one.node]));
    const last = result.at(-1)?.node;
    const said =
      one.node.kind === "or" &&
      last?.kind === "or" &&
      formatQuestion(last).includes(formatQuestion(one.node));
    if (!said) result.push(one);
  }
  return result;
}
const isSingle = (node: Question) => node.kind !== "and" && node.kind !== "or";

/** Without "player ~ N" where a condition beside it says more of the same player. */
export function withoutRepeatedNames(node: Question): Question {
  if (node.kind !== "and") return node;
  const said = (one: Question): string[] =>
    leavesOf(one).flatMap((leaf) =>
      leaf.kind === "compare" && leaf.fact.nameOfPlayer && leaf.fact.name !== "player"
        ? [String(leaf.value)]
        : [],
    );
  const others = node.parts.flatMap((one) => (one.kind === "or" ? [] : said(one)));
  const parts = node.parts.filter(
    (one) => !(one.kind === "compare" && one.fact.name === "player" && others.includes(String(one.value))),
  );
  return parts.length === 1 ? parts[0] : { kind: "and", parts };
}

/** Conditions that must all be met, where two values of one fact side by side are taken for either. */
export function withEitherValue(parts: readonly Part[]): Part[] {
  const merged: Part[] = [];
  for (const one of parts) {
    const before = merged.at(-1);
    if (
      before &&
      isOneValue(before.node) &&
      isOneValue(one.node) &&
      sortOf(before.node) === sortOf(one.node) &&
      formatQuestion(before.node) !== formatQuestion(one.node)
    )
      merged[merged.length - 1] = part(join("or", [before.node, one.node]));
    else merged.push(one);
  }
  return merged;
}

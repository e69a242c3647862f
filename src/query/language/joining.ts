// Joining conditions: what is of one sort, what lasts, what is denied, and what a list of conditions means together.

import { type Question, formatQuestion, isEverything, join, leavesOf, levelOf } from "./ast.js";
import type { ReadConditions } from "./read-conditions.js";

/** A condition, and what has to be known of it to join it with others. */
export interface Part {
  readonly node: Question;
  /** It says how the game came out: "drew with X" asks for X most of the time. */
  readonly result: boolean;
  /** It was said to come later than what stands before it. */
  readonly later?: boolean;
  /** "Or" was said between its conditions. */
  readonly list?: boolean;
  /** What came within so many moves, of whatever came before it, else of the ending's beginning. */
  readonly soon?: { readonly result: Question; readonly moves: number; readonly isNext?: boolean };
  /** What was said to come at once. */
  readonly atOnce?: Question;
  /** What a word about the game says of a position, where it can be said of one: "drawn". */
  readonly ofPosition?: Question | undefined;
  /** "Again" was said of it. */
  readonly again?: boolean;
  /** "There" was said of how the ending was ended: where it stood then is said before it. */
  readonly there?: boolean;
  /** It answers the move that stands before it: it is about the next one. */
  readonly answer?: boolean;
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
    case "tally":
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

/** Facts of a position that are over with the next move. */
const MOMENTARY = new Set([
  "to-move",
  "turn",
  "only-move",
  "in-check",
  "keeping",
  "zugzwang",
  "reciprocal-zugzwang",
  "stalemate-resource",
  "mate-threat",
  "loss-threat",
  "free-piece",
  "fork",
  "skewer",
]);

/** Something that holds for a while, and not of one move only. */
export const isLasting = (node: Question): boolean =>
  levelOf(node) === "position" &&
  leavesOf(node).every(
    (leaf) =>
      leaf.kind === "set-up" ||
      ((leaf.kind === "compare" || leaf.kind === "range") &&
        leaf.fact.scope === "position" &&
        !MOMENTARY.has(leaf.fact.name)),
  );

/** How often: stays of what lasts, positions of anything else; undefined of what is about the whole ending. */
export function counted({ node }: Part, compared: string, conditions: ReadConditions): Part | undefined {
  if (levelOf(node) !== "position") return undefined;
  // "at least once" is at some moment, which is asked for anyway
  if (compared === ">= 1") return part(node);
  const how = isLasting(node) ? "stays" : "count";
  return part(conditions.read(`${how} (${formatQuestion(node)}) ${compared}`));
}

/** How the game came out, or how it was ended. */
export const comesAtTheEnd = (node: Question): boolean =>
  leavesOf(node).some(
    (leaf) =>
      leaf.kind === "compare" &&
      ["outcome", "defender-result", "result", "ended-by", "captured", "winner", "loser"].includes(
        leaf.fact.name,
      ),
  );

/**
 * "Never erred in a drawn position", "no mistakes in time trouble": none of those, rather than none at all; undefined of
 * anything else.
 */
export function noneOfThese(before: Question, one: Question, conditions: ReadConditions): Part | undefined {
  if (before.kind !== "compare" || before.operator !== "=" || before.value !== 0) return undefined;
  const [, side] = /^(?:(attacker|defender)-)?errors$/.exec(before.fact.name) ?? ["", "none"];
  if (side === "none" || levelOf(one) !== "position") return undefined;
  const erred = conditions.read(side ? `to-move = ${side} and error != none` : "error != none");
  // whose clock it is has been said twice
  const own =
    one.kind === "and"
      ? one.parts.filter((part) => !formatQuestion(erred).includes(formatQuestion(part)))
      : [one];
  return part(never(join("and", [erred, ...own])));
}

/** Whether all of a condition is about when, where and how fast a game was played, and so about neither side. */
export const isCircumstance = (node: Question): boolean =>
  leavesOf(node).every(
    (leaf) =>
      (leaf.kind === "compare" || leaf.kind === "range") &&
      /^(?:event|site|round|date|year|time-control|pace|event-type|file)$/.test(leaf.fact.name),
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
    // "after 2010, before March 2014": what is "or" within one condition is no list
    if (
      one.list &&
      one.node.kind === "or" &&
      before &&
      isSingle(before) &&
      sortOf(before) === sortOf(one.node)
    )
      result[result.length - 1] = part(join("or", [before, one.node]));
    const last = result.at(-1)?.node;
    // "bullet, blitz or rapid games with …": what stands behind belongs to all
    const first = one.node.kind === "and" ? one.node.parts[0] : undefined;
    if (first?.kind === "or" && before && isSingle(before) && sortOf(before) === sortOf(first)) {
      const rest = one.node.kind === "and" ? one.node.parts.slice(1) : [];
      result[result.length - 1] = part(join("and", [join("or", [before, first]), ...rest]), one.result);
      continue;
    }
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
  // "Carlsen never lost": that he did not lose says nothing of who played
  const said = (one: Question): string[] =>
    (one.kind === "not" ? [] : leavesOf(one)).flatMap((leaf) =>
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

/** Two values of one fact, of which a game can have one. */
export const areRivals = (one: Question, other: Question): boolean =>
  isOneValue(one) &&
  isOneValue(other) &&
  sortOf(one) === sortOf(other) &&
  formatQuestion(one) !== formatQuestion(other);

/** Conditions that must all be met, where two values of one fact side by side are taken for either. */
function withEitherValue(parts: readonly Part[]): Part[] {
  const merged: Part[] = [];
  for (const one of parts) {
    const before = merged.at(-1);
    if (before && areRivals(before.node, one.node))
      merged[merged.length - 1] = part(join("or", [before.node, one.node]));
    else merged.push(one);
  }
  return merged;
}

/** Facts of a position of which two values stand for two moments; where a piece stands, who is to move, and what is counted. */
const isOfOneMoment = (fact: string): boolean =>
  /^(?:to-move|turn|verdict|dtm|dtc|legal|keeping)$|-side$|-(?:rank|file)$/.test(fact);

/** What a position must be, by fact. */
const valuesOf = (node: Question): ReadonlyMap<string, unknown> =>
  new Map(
    (node.kind === "and" ? node.parts : [node]).flatMap((one) =>
      one.kind === "compare" && one.operator === "=" && isOfOneMoment(one.fact.name)
        ? [[one.fact.name, one.value] as const]
        : [],
    ),
  );

/** Whether no position can be both: one asks for the attacker's move, the other for the defender's. */
function areOfTwoMoments(one: Question, other: Question): boolean {
  const [a, b] = [valuesOf(one), valuesOf(other)];
  const differ = (fact: string) => a.has(fact) && b.has(fact) && a.get(fact) !== b.get(fact);
  // "won, drawn" by themselves may be about the game and the position
  return [...a.keys()].some((fact) => fact !== "verdict" && differ(fact));
}

/** Conditions of a position that no one position can meet, as moments of one ending: "the attacker erred and the defender erred". */
function inMoments(nodes: readonly Question[]): Question[] {
  const ofPosition = (node: Question) => levelOf(node) === "position";
  const moments: Question[][] = [];
  const rest: Question[] = [];
  for (const node of nodes) {
    const parts = node.kind === "and" && !ofPosition(node) ? node.parts : [node];
    rest.push(...parts.filter((one) => !ofPosition(one)));
    const here = parts.filter(ofPosition);
    if (here.length === 0) continue;
    const last = moments.at(-1);
    if (last && !areOfTwoMoments(join("and", last), join("and", here))) last.push(...here);
    else moments.push(here);
  }
  if (moments.length < 2) return [...nodes];
  return [
    ...rest,
    ...moments.map((parts): Question => ({
      kind: "scoped",
      quantifier: "somewhere",
      part: join("and", parts),
    })),
  ];
}

/** All of some conditions; two values of one fact can only be meant as either. */
export function allOf(parts: readonly Part[]): Part {
  if (parts.length === 1) return parts[0];
  const merged = withEitherValue(parts);
  const nodes = merged.map(({ node }) => node).filter((node) => !isEverything(node));
  return part(join("and", inMoments(nodes)), parts.at(-1)!.result);
}

/** What stands behind "with": "drew with the rook on the long side" is for most of the ending, "resigned with …" at its end. */
export function goingWith(before: Part | undefined, one: Part, wasEnd: boolean): Part {
  if (!isLasting(one.node)) return one;
  if (before?.result) return part({ kind: "scoped", quantifier: "mostly", part: one.node });
  return wasEnd ? part({ kind: "scoped", quantifier: "end", part: one.node }) : one;
}

/** One thing more behind "with", of the same positions; undefined where they are not spoken of. */
export function alsoGoingWith(before: Part | undefined, one: Part): Part | undefined {
  if (before?.node.kind !== "scoped" || !isLasting(one.node)) return undefined;
  return part({ ...before.node, part: join("and", [before.node.part, one.node]) });
}

// A question as a tree, and its canonical form in words.

import type { Material } from "../../chess/material.js";
import type { Placement } from "../../chess/placement.js";
import type { Fact, Quantifier, Stored } from "./vocabulary.js";

export type Operator = "=" | "!=" | "<" | "<=" | ">" | ">=" | "contains";

export interface Compare {
  readonly kind: "compare";
  readonly fact: Fact;
  readonly operator: Operator;
  readonly value: Stored;
}
export interface Range {
  readonly kind: "range";
  readonly fact: Fact;
  readonly from: number;
  readonly to: number;
}
/** Two facts compared with each other. */
export interface CompareFacts {
  readonly kind: "facts";
  readonly fact: Fact;
  readonly operator: Operator;
  readonly other: Fact;
}
export interface SetUpTest {
  readonly kind: "set-up";
  /** In plain letters, as canonical form has it. */
  readonly name: string;
  /** As people write it. */
  readonly label: string;
  readonly means: Question;
}
export interface Junction {
  readonly kind: "and" | "or";
  readonly parts: readonly Question[];
}
export interface Not {
  readonly kind: "not";
  readonly part: Question;
}
export interface Scoped {
  readonly kind: "scoped";
  readonly quantifier: Quantifier;
  readonly part: Question;
}
/** Positions at most so many king's steps from a placement or one of its twins, the turn counting for one. */
export interface Like {
  readonly kind: "like";
  readonly fen: string;
  readonly material: Material;
  readonly placement: Placement;
  /** Whether the FEN said whose move it is. */
  readonly turn: boolean;
  readonly within: number;
}
/** The move played did nothing (no check, capture, attack, block or pin), and changed neither verdict nor set-ups. */
export interface Waiting {
  readonly kind: "waiting";
  readonly setUps: readonly SetUpTest[];
}
/** One position after another, each at most so many moves after the one before. */
export interface Sequence {
  readonly kind: "sequence";
  readonly first: Question;
  readonly then: readonly { readonly part: Question; readonly within: number | null }[];
}
/** Positions on end, for so many moves. */
export interface Run {
  readonly kind: "run";
  readonly part: Question;
  readonly moves: number;
}
/**
 * How many positions of the ending meet a condition: all told, or at most on end, each side's turns counted by themselves; or
 * how many stays in it there are.
 */
export interface Tally {
  readonly kind: "tally";
  readonly how: "count" | "streak" | "stays";
  readonly part: Question;
  readonly operator: Operator;
  readonly value: number;
}
/** A move with which a condition begins or ceases to be met. */
export interface Change {
  readonly kind: "change";
  readonly how: "reached" | "left";
  readonly part: Question;
  /** What is asked of that move and of the position it is played in. */
  readonly by: Question | null;
}
/** The first position of the ending that meets a condition comes so many moves after something is reached. */
export interface First {
  readonly kind: "first";
  readonly part: Question;
  readonly within: number;
  /** What is reached; null for the ending itself. */
  readonly of: Question | null;
}
/** Conditions on the course of an ending. */
export type Course = Sequence | Run | Tally | Change | First;
export type Question =
  Compare | Range | CompareFacts | SetUpTest | Junction | Not | Scoped | Like | Waiting | Course;

/** A question about placements with every set-up in it written out. */
function writtenOut(node: Question): Question {
  switch (node.kind) {
    case "set-up":
      return writtenOut(node.means);
    case "not":
      return { kind: "not", part: writtenOut(node.part) };
    case "and":
    case "or":
      return { kind: node.kind, parts: node.parts.map(writtenOut) };
    default:
      return node;
  }
}

/**
 * A question about placements in canonical form with every set-up in it written out: no catalogue is needed to read it, and what
 * is worked out from it is remembered by it.
 */
export const definitionText = (question: Question): string => formatQuestion(writtenOut(question));

/** The question that everything answers. */
export const EVERYTHING: Question = { kind: "and", parts: [] };
export const isEverything = (node: Question): boolean => node.kind === "and" && node.parts.length === 0;

/** A flag as it is asked for: `name` alone means that it is set. */
const isFlagSet = (node: Compare) => node.fact.type === "flag" && node.operator === "=" && node.value === 1;

/** A number as it is written: files of the board by their letter. */
export const numberText = (fact: Fact, value: number) =>
  fact.board?.line === "file" && Number.isInteger(value) && value >= 1 && value <= 8
    ? String.fromCharCode(96 + value)
    : String(value);

/** How a stored value of a fact is written. */
export function valueText(fact: Fact, value: Stored): string {
  if (fact.board) return numberText(fact, Number(value));
  if (fact.values) return fact.values.find((one) => one.stored === value)!.name;
  return fact.type === "text" ? `"${String(value).replace(/["\\]/g, "\\$&")}"` : String(value);
}

const movesText = (moves: number) => (moves === 1 ? "1 move" : `${moves} moves`);
/** A condition inside a course: in brackets unless it is one word. */
const formatPart = (node: Question): string =>
  node.kind === "set-up" ? node.name : `(${formatQuestion(node)})`;

/** The canonical form; parsing it again gives the same tree. */
export function formatQuestion(node: Question, inside?: "and" | "or" | "not"): string {
  switch (node.kind) {
    case "compare":
      if (isFlagSet(node)) return node.fact.name;
      return `${node.fact.name} ${node.operator} ${valueText(node.fact, node.value)}`;
    case "range":
      return `${node.fact.name} = ${numberText(node.fact, node.from)}..${numberText(node.fact, node.to)}`;
    case "facts":
      return `${node.fact.name} ${node.operator} ${node.other.name}`;
    case "set-up":
      return node.name;
    case "not": {
      const part = formatQuestion(node.part, "not");
      return node.part.kind === "sequence" ? `not (${part})` : `not ${part}`;
    }
    case "scoped":
      return `${node.quantifier} (${formatQuestion(node.part)})`;
    case "like":
      return `like "${node.fen}" within ${node.within}`;
    case "waiting":
      return "waiting-move";
    case "run":
      return `held ${formatPart(node.part)} for ${movesText(node.moves)}`;
    case "tally":
      return `${node.how} ${formatPart(node.part)} ${node.operator} ${node.value}`;
    case "change":
      return `${node.how} ${formatPart(node.part)}${node.by ? ` by ${formatPart(node.by)}` : ""}`;
    case "first":
      return `first ${formatPart(node.part)} within ${movesText(node.within)} of ${node.of ? formatPart(node.of) : "entry"}`;
    case "sequence":
      return [
        formatPart(node.first),
        ...node.then.map(
          ({ part, within }) =>
            `then ${within === null ? "" : `within ${movesText(within)} `}${formatPart(part)}`,
        ),
      ].join(" ");
    default: {
      if (node.parts.length === 0) return "everything";
      const text = node.parts.map((part) => formatQuestion(part, node.kind)).join(` ${node.kind} `);
      return inside && inside !== node.kind ? `(${text})` : text;
    }
  }
}

/** The conditions of a tree that `and`, `or` and `not` join; set-ups are not taken apart. */
export function leavesOf(node: Question): readonly Question[] {
  if (node.kind === "and" || node.kind === "or") return node.parts.flatMap(leavesOf);
  return node.kind === "not" ? leavesOf(node.part) : [node];
}

/** The conditions that must all be met; set-ups are taken apart, where `keep` does not want them whole. */
export function conditionsOf(
  node: Question,
  keep: (node: Question) => boolean = () => false,
): readonly Question[] {
  if (keep(node)) return [node];
  if (node.kind === "and") return node.parts.flatMap((part) => conditionsOf(part, keep));
  return node.kind === "set-up" ? conditionsOf(node.means, keep) : [node];
}

/** What the conditions in a tree are about: one position, the ending (or game) as a whole, or both. */
export type Level = "position" | "ending" | "mixed";

/** Whether a fact may differ between the positions of an ending. */
export const isPositionFact = ({ scope }: Fact): boolean => scope === "position" || scope === "move";

export function levelOf(node: Question): Level {
  switch (node.kind) {
    case "compare":
    case "range":
      return isPositionFact(node.fact) ? "position" : "ending";
    case "facts":
      return isPositionFact(node.fact) || isPositionFact(node.other) ? "position" : "ending";
    case "set-up":
    case "like":
    case "waiting":
      return "position";
    case "not":
      return levelOf(node.part);
    case "and":
    case "or": {
      const levels = new Set(node.parts.map(levelOf));
      return levels.size === 0 ? "ending" : levels.size === 1 ? [...levels][0] : "mixed";
    }
    default:
      return "ending";
  }
}

/** Whether a condition is about an ending's positions one after another, or about which of them meet something. */
export const isCourse = (node: Question): node is Scoped | Course =>
  node.kind === "scoped" ||
  node.kind === "sequence" ||
  node.kind === "run" ||
  node.kind === "tally" ||
  node.kind === "change" ||
  node.kind === "first";

const both = (kind: "and" | "or", parts: readonly Question[]): Question =>
  parts.length === 1 ? parts[0] : { kind, parts };

/** Some position of the ending meets the conditions; where all of them are negations, none meets what they negate. */
function scopedTogether(parts: readonly Question[]): readonly Question[] {
  if (parts.every((part) => part.kind === "not"))
    return parts.map((not) => ({ kind: "scoped", quantifier: "never", part: not.part }));
  return [{ kind: "scoped", quantifier: "somewhere", part: both("and", parts) }];
}

const abouts = new WeakMap<Question, Question>();

/**
 * Makes the scopes explicit for a question about endings: conditions about a position that stand side by side
 * speak of one and the same position, and some position of the ending must meet them all. A negation that has
 * no other condition beside it speaks of the whole ending: "not Philidor" is an ending without that position.
 * The same tree each time, so that what has been worked out for its parts is known again.
 */
export function aboutEndings(node: Question): Question {
  let about = abouts.get(node);
  if (!about) abouts.set(node, (about = withScopes(node)));
  return about;
}

/** The conditions of a question that must all be met by an ending. */
export const partsOf = (question: Question): readonly Question[] => {
  const about = aboutEndings(question);
  return about.kind === "and" ? about.parts : [about];
};

function withScopes(node: Question): Question {
  const level = levelOf(node);
  if (level === "ending") return node;
  if (level === "position") return both("and", scopedTogether(node.kind === "and" ? node.parts : [node]));
  if (node.kind === "not") return { kind: "not", part: aboutEndings(node.part) };
  const { kind, parts } = node as Junction;
  if (kind === "or") return { kind, parts: parts.map(aboutEndings) };
  const position = parts.filter((part) => levelOf(part) === "position");
  const rest = parts.filter((part) => levelOf(part) !== "position").map(aboutEndings);
  if (position.length === 0) return both("and", rest);
  return both("and", [...rest, ...scopedTogether(position)]);
}

/** The condition that a move changed nothing, told by the set-ups that are known. */
export const waitingMove = (setUps: ReadonlyMap<string, SetUpTest>): Question => ({
  kind: "waiting",
  setUps: [...new Set(setUps.values())],
});

/** A text that is equal for questions that differ only in the order of what stands between "and" or "or". */
export const sameness = (node: Question): string =>
  node.kind === "and" || node.kind === "or"
    ? `(${node.parts.map(sameness).sort().join(` ${node.kind} `)})`
    : formatQuestion(node);

/** Joins parts, flattening equal junctions so that brackets around them change nothing. */
export function join(kind: "and" | "or", parts: readonly Question[]): Question {
  if (parts.length === 1) return parts[0];
  const flat = parts.flatMap((part) => (part.kind === kind ? (part as Junction).parts : [part]));
  if (flat.length === 0) return EVERYTHING;
  // what a phrase and its neighbour both say is said once
  const once = [...new Map(flat.map((part) => [formatQuestion(part), part])).values()];
  return once.length === 1 ? once[0] : { kind, parts: once };
}

// A question as a tree, and its canonical form in words.

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
export interface SetUpTest {
  readonly kind: "set-up";
  readonly name: string;
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
export type Question = Compare | Range | SetUpTest | Junction | Not | Scoped;

/** The question that everything answers. */
export const EVERYTHING: Question = { kind: "and", parts: [] };

/** A flag as it is asked for: `name` alone means that it is set. */
const isFlagSet = (node: Compare) => node.fact.type === "flag" && node.operator === "=" && node.value === 1;

/** How a stored value of a fact is written. */
export function valueText(fact: Fact, value: Stored): string {
  if (fact.type === "word") {
    const name = fact.values!.find((one) => one.stored === value)!.name;
    return name;
  }
  return fact.type === "text" ? `"${String(value).replace(/["\\]/g, "\\$&")}"` : String(value);
}

/** The canonical form; parsing it again gives the same tree. */
export function formatQuestion(node: Question, inside?: "and" | "or" | "not"): string {
  switch (node.kind) {
    case "compare":
      if (isFlagSet(node)) return node.fact.name;
      return `${node.fact.name} ${node.operator} ${valueText(node.fact, node.value)}`;
    case "range":
      return `${node.fact.name} = ${node.from}..${node.to}`;
    case "set-up":
      return node.name;
    case "not":
      return `not ${formatQuestion(node.part, "not")}`;
    case "scoped":
      return `${node.quantifier} (${formatQuestion(node.part)})`;
    default: {
      if (node.parts.length === 0) return "everything";
      const text = node.parts.map((part) => formatQuestion(part, node.kind)).join(` ${node.kind} `);
      return inside && inside !== node.kind ? `(${text})` : text;
    }
  }
}

/** What the conditions in a tree are about: one position, the ending (or game) as a whole, or both. */
export type Level = "position" | "ending" | "mixed";

export function levelOf(node: Question): Level {
  switch (node.kind) {
    case "compare":
    case "range":
      return node.fact.scope === "position" || node.fact.scope === "move" ? "position" : "ending";
    case "set-up":
      return "position";
    case "scoped":
      return "ending";
    case "not":
      return levelOf(node.part);
    default: {
      const levels = new Set(node.parts.map(levelOf));
      return levels.size === 0 ? "ending" : levels.size === 1 ? [...levels][0] : "mixed";
    }
  }
}

const both = (kind: "and" | "or", parts: readonly Question[]): Question =>
  parts.length === 1 ? parts[0] : { kind, parts };

/** Some position of the ending meets the conditions; where all of them are negations, none meets what they negate. */
function scopedTogether(parts: readonly Question[]): readonly Question[] {
  if (parts.every((part) => part.kind === "not"))
    return parts.map((not) => ({ kind: "scoped", quantifier: "never", part: not.part }));
  return [{ kind: "scoped", quantifier: "somewhere", part: both("and", parts) }];
}

/**
 * Makes the scopes explicit for a question about endings: conditions about a position that stand side by side
 * speak of one and the same position, and some position of the ending must meet them all. A negation that has
 * no other condition beside it speaks of the whole ending: "not Philidor" is an ending without that position.
 */
export function aboutEndings(node: Question): Question {
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

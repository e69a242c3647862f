// A question about one placement: the twin of the passes over columns (evaluate.ts), for positions that stand in no
// database.

import type { Like, Operator, Question } from "../language/ast.js";
import type { Fact, Stored } from "../language/vocabulary.js";

/** Gives the stored value of a placement fact; null where it is unknown. */
export interface FactReader {
  (fact: Fact): Stored | null;
  /** Steps from the placement to the one that a `like` asks about; set-ups have none. */
  readonly steps?: (like: Like) => number;
  /** The same placement seen from the other of two equally near edges. */
  other?: FactReader | undefined;
  /** What is known already of a part, or cannot be told from one placement. */
  readonly known?: (part: Question) => boolean | undefined;
}

/** Joins two readers of one placement, each seen from one of two equally near edges. */
export function joinReaders(one: FactReader, other: FactReader): FactReader {
  one.other = other;
  other.other = one;
  return one;
}

/**
 * Whether a placement meets a question. Where the defender's king is as near to two edges, it does if it is met seen from
 * one of them, all of it from the same; and what is denied must not be met from either.
 */
export const meets = (node: Question, read: FactReader): boolean =>
  isMet(node, read) || (read.other !== undefined && isMet(node, read.other));

/**
 * Whether a placement meets a question, seen from one edge. Only placement facts and set-ups may occur in it. An unknown
 * value meets no comparison.
 */
export function isMet(node: Question, read: FactReader): boolean {
  const known = read.known?.(node);
  if (known !== undefined) return known;
  switch (node.kind) {
    case "compare": {
      const value = read(node.fact);
      if (value === null) return false;
      return compared(value, node.operator, node.value);
    }
    case "range": {
      const value = read(node.fact);
      return typeof value === "number" && value >= node.from && value <= node.to;
    }
    case "facts": {
      const [one, other] = [read(node.fact), read(node.other)];
      return one !== null && other !== null && compared(one, node.operator, other);
    }
    case "set-up":
      return isMet(node.means, read);
    case "like":
      return read.steps!(node) <= node.within;
    case "not":
      return !meets(node.part, read);
    case "and":
      return node.parts.every((part) => isMet(part, read));
    case "or":
      return node.parts.some((part) => isMet(part, read));
    default:
      throw new Error(`${node.kind} is not about a placement`);
  }
}

/** Whether a value meets a comparison. */
export function compared(value: Stored, operator: Operator, limit: Stored): boolean {
  switch (operator) {
    case "=":
      return value === limit;
    case "!=":
      return value !== limit;
    case "<":
      return value < limit;
    case "<=":
      return value <= limit;
    case ">":
      return value > limit;
    case ">=":
      return value >= limit;
    case "contains":
      return String(value).includes(String(limit));
  }
}

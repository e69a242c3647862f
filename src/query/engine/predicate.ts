// A question about one placement: the twin of the passes over columns (evaluate.ts), for positions that stand in no
// database.

import type { Like, Operator, Question } from "../language/ast.js";
import type { Fact, Stored } from "../language/vocabulary.js";

/** Gives the stored value of a placement fact; null where it is unknown. */
export interface FactReader {
  (fact: Fact): Stored | null;
  /** Steps from the placement to the one that a `like` asks about; set-ups have none. */
  readonly steps?: (like: Like) => number;
}

/**
 * Whether a placement meets a question. Only placement facts and set-ups may occur in it. An unknown value
 * meets no comparison.
 */
export function meets(node: Question, read: FactReader): boolean {
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
      return meets(node.means, read);
    case "like":
      return read.steps!(node) <= node.within;
    case "not":
      return !meets(node.part, read);
    case "and":
      return node.parts.every((part) => meets(part, read));
    case "or":
      return node.parts.some((part) => meets(part, read));
    default:
      throw new Error(`${node.kind} is not about a placement`);
  }
}

function compared(value: Stored, operator: Operator, limit: Stored): boolean {
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

// Positions in which the defender's king is as near to a second edge of the board: what is asked about a picture is looked
// at from either edge. The columns hold the facts from the first; those from the other stand beside them in the database.

import { SAME_FROM_BOTH_EDGES } from "../../geometry/fact-table.js";
import { geometryIndex } from "../../geometry/facts.js";
import type { ColumnStore, Values } from "../../store/column-store.js";
import type { ColumnValues } from "../../store/packing.js";
import type { Question } from "../language/ast.js";
import { leavesOf } from "../language/ast.js";
import type { Fact } from "../language/vocabulary.js";
import {
  type Mask,
  type ValueRange,
  both,
  combine,
  compareNumbers,
  comparePairs,
  inverse,
  isEmpty,
  limitsIn,
  narrow,
  roomFor,
  words,
} from "./masks.js";

const isSeen = (fact: Fact): boolean => geometryIndex(fact.name) >= 0 && !SAME_FROM_BOTH_EDGES.has(fact.name);

/** An answer for each question, which is worked out once: it is asked for every slice. */
function oncePerQuestion(work: (node: Question) => boolean): (node: Question) => boolean {
  const known = new WeakMap<Question, boolean>();
  return (node) => {
    let answer = known.get(node);
    if (answer === undefined) known.set(node, (answer = work(node)));
    return answer;
  };
}

/** Whether a condition is about what a placement looks like in its frame. */
export const isOfFrame = oncePerQuestion((node) =>
  leavesOf(node).some((leaf) => {
    if (leaf.kind === "set-up") return isOfFrame(leaf.means);
    if (leaf.kind === "facts") return isSeen(leaf.fact) || isSeen(leaf.other);
    return (leaf.kind === "compare" || leaf.kind === "range") && isSeen(leaf.fact);
  }),
);

/** Whether a condition denies something about such a picture: that depends on both edges at once. */
const denies = oncePerQuestion((node) => {
  switch (node.kind) {
    case "not":
      return isOfFrame(node.part);
    case "and":
    case "or":
      return node.parts.some(denies);
    case "set-up":
      return denies(node.means);
    default:
      return false;
  }
});

type Edge = "first" | "other";
const EDGES: readonly Edge[] = ["first", "other"];

/** What is known of all positions, from the first edge. */
export interface FromFirstEdge {
  readonly valuesOf: (fact: Fact) => Values;
  /** The same, also of facts about games and endings. */
  readonly numbersOf: (fact: Fact) => Values;
  /** Where a condition is met, seen from the first edge. */
  readonly maskOf: (part: Question) => Mask;
}

/** Masks over the positions of a store that have two equally near edges, as `ColumnStore.twoEdges` lists them. */
export class OtherEdge {
  private readonly masks: Record<Edge, Map<Question, Mask>> = { first: new Map(), other: new Map() };
  private readonly rows: Int32Array;

  constructor(
    private readonly store: ColumnStore,
    private readonly known: FromFirstEdge,
  ) {
    this.rows = store.twoEdges();
  }

  /** Writes into a mask over all positions, for those with two edges, whether they meet a condition seen from one of them. */
  correct(node: Question, mask: Mask): void {
    const met = this.fromEither(node);
    const { rows } = this;
    for (let n = 0; n < rows.length; ++n) mask[rows[n]] = met[n];
  }

  private fromEither(node: Question): Mask {
    return combine(
      "or",
      EDGES.map((edge) => this.from(edge, node)),
    );
  }

  /** The rows that meet a condition, all of it seen from one edge; what is denied must not be met from either. */
  private from(edge: Edge, node: Question): Mask {
    const masks = this.masks[edge];
    let mask = masks.get(node);
    if (!mask) masks.set(node, (mask = this.work(edge, node)));
    return mask;
  }

  private work(edge: Edge, node: Question): Mask {
    if (!isOfFrame(node) || (edge === "first" && !denies(node))) return this.inRows(this.known.maskOf(node));
    switch (node.kind) {
      case "compare":
      case "range": {
        const mask = roomFor(this.rows.length);
        const { none } = this.known.valuesOf(node.fact);
        compareNumbers(mask, { values: this.fromOther(node.fact), none }, node);
        return mask;
      }
      case "facts": {
        const mask = roomFor(this.rows.length);
        comparePairs(mask, this.numbers(node.fact), node.operator, this.numbers(node.other));
        return mask;
      }
      case "set-up":
        return this.from(edge, node.means);
      case "not":
        return inverse(this.fromEither(node.part));
      case "and":
        return this.allOf(edge, node.parts);
      case "or":
        return combine(
          "or",
          node.parts.map((part) => this.from(edge, part)),
        );
      default:
        throw new Error(`${node.kind} is not seen from an edge`);
    }
  }

  /** Rows that meet every one of some conditions; what needs no facts from the other edge is looked at first. */
  private allOf(edge: Edge, parts: readonly Question[]): Mask {
    const mask = roomFor(this.rows.length).fill(1);
    for (const part of [...parts].sort((a, b) => Number(isOfFrame(a)) - Number(isOfFrame(b)))) {
      if (isEmpty(mask)) break;
      const range = edge === "other" ? this.rangeOf(part) : undefined;
      if (range) narrow(mask, range);
      else both(words(mask), words(this.from(edge, part)));
    }
    return mask;
  }

  /** The range that a comparison of a fact from the other edge lets through; undefined for any other condition. */
  private rangeOf(node: Question): ValueRange | undefined {
    if ((node.kind !== "compare" && node.kind !== "range") || !isSeen(node.fact)) return undefined;
    const limits = limitsIn(node, this.known.valuesOf(node.fact).none);
    return limits && { values: this.fromOther(node.fact), ...limits, inside: true };
  }

  private inRows(all: Mask): Mask {
    const { rows } = this;
    const mask = roomFor(rows.length);
    for (let n = 0; n < rows.length; ++n) mask[n] = all[rows[n]];
    return mask;
  }

  private fromOther(fact: Fact): ColumnValues {
    return this.store.fromOtherEdge(geometryIndex(fact.name));
  }

  /** The values in the rows, seen from the other edge, of any fact. */
  private numbers(fact: Fact): Values {
    if (isSeen(fact)) return { values: this.fromOther(fact), none: this.known.valuesOf(fact).none };
    const { rows } = this;
    const { values: all, none } = this.known.numbersOf(fact);
    const values = new Float64Array(rows.length);
    for (let n = 0; n < rows.length; ++n) values[n] = all[rows[n]];
    return { values, none };
  }
}

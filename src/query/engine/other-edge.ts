// Positions in which the defender's king is as near to a second edge of the board: what is asked about a picture is looked
// at from either edge. The columns hold the facts from the first; those from the other are worked out when they are asked.

import type { Material } from "../../chess/material.js";
import { placementAt } from "../../chess/placement.js";
import { Geometer, NO_FACT, geometryIndex } from "../../geometry/facts.js";
import type { ColumnStore, Values } from "../../store/column-store.js";
import type { Question } from "../language/ast.js";
import { leavesOf } from "../language/ast.js";
import type { Fact, Stored } from "../language/vocabulary.js";
import type { Mask } from "./masks.js";
import { type FactReader, joinReaders, meets } from "./predicate.js";

/** The part of what is remembered of a state of the database that belongs here. */
const REMEMBERED = "facts from the other edge";

interface Known {
  readonly rows: Int32Array;
  readonly facts: Map<number, Int8Array>;
}

const isSeen = (fact: Fact): boolean => geometryIndex(fact.name) >= 0;

/** Whether a condition is about what a placement looks like in its frame. */
export const isOfFrame = (node: Question): boolean =>
  leavesOf(node).some((leaf) => {
    if (leaf.kind === "set-up") return isOfFrame(leaf.means);
    if (leaf.kind === "facts") return isSeen(leaf.fact) || isSeen(leaf.other);
    return (leaf.kind === "compare" || leaf.kind === "range") && isSeen(leaf.fact);
  });

/** The facts from the other edge in a database's positions. */
export class OtherEdge {
  private readonly known: Known;
  private readonly geometer: Geometer;

  constructor(
    private readonly store: ColumnStore,
    private readonly target: Material,
  ) {
    this.geometer = new Geometer(target);
    const { derived } = store;
    let known = derived.get(REMEMBERED) as Known | undefined;
    if (!known) derived.set(REMEMBERED, (known = { rows: this.findRows(), facts: new Map() }));
    this.known = known;
  }

  /**
   * Writes into a mask over the positions, for those with two equally near edges, whether they meet a condition seen from
   * one of them. `maskOf` answers the parts that say nothing of a frame.
   */
  correct(
    node: Question,
    mask: Mask,
    { valuesOf, maskOf }: { valuesOf: (fact: Fact) => Values; maskOf: (part: Question) => Mask },
  ): void {
    const { rows } = this.known;
    let row = 0;
    const known = (part: Question) => (isOfFrame(part) ? undefined : maskOf(part)[rows[row]] === 1);
    const first = (fact: Fact): Stored | null => {
      const { values, none } = valuesOf(fact);
      const value = values[rows[row]];
      return value === none ? null : value;
    };
    const second = (fact: Fact): Stored | null => {
      const n = geometryIndex(fact.name);
      if (n < 0) return first(fact);
      const value = this.fact(n)[row];
      return value === NO_FACT ? null : value;
    };
    const read: FactReader = joinReaders(Object.assign(first, { known }), Object.assign(second, { known }));
    for (; row < rows.length; ++row) mask[rows[row]] = meets(node, read) ? 1 : 0;
  }

  private findRows(): Int32Array {
    const { values: ranks } = this.store.column("king-rank");
    const { values: files } = this.store.column("king-file");
    const found: number[] = [];
    for (let n = 0; n < ranks.length; ++n) if (ranks[n] === files[n]) found.push(n);
    return Int32Array.from(found);
  }

  /** Fact `n` of the geometry in each of the rows, NO_FACT for null. */
  private fact(n: number): Int8Array {
    let values = this.known.facts.get(n);
    if (!values) {
      const { values: placements } = this.store.column("placement");
      values = Int8Array.from(this.known.rows, (at) => {
        const placement = placementAt(placements[at], this.target.men);
        return this.geometer.factFromOtherEdge(n, placement);
      });
      this.known.facts.set(n, values);
    }
    return values;
  }
}

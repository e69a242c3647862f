// The facts of a placement: what it looks like in its frame, worked out by the kernel.

import type { Material } from "../chess/material.js";
import type { MoveList } from "../chess/moves.js";
import type { Placement } from "../chess/placement.js";
import { IMAGES, SYMMETRIES, imageOf, inverseOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY } from "./fact-table.js";
import { type GeometryKernel, kernelOf } from "./geometry-kernel.js";
import type { KindSet } from "./move-kinds.js";

export type { FactType, GeometryFact } from "./fact.js";
export { GEOMETRY };

/** What stands for no value among the numbers of facts, which are never negative. */
export const NO_FACT = -1;

const INDEX = new Map(GEOMETRY.map((fact, n) => [fact.name, n]));
/** Place of a fact in `GEOMETRY` by its name; -1 for a name that is none of them. */
export const geometryIndex = (name: string): number => INDEX.get(name) ?? -1;

/** Whether a fact only says on which rank or file a piece stands. */
export const isCoordinate = (name: string): boolean =>
  /^(?:attacker-)?(?:king|rook|bishop)-(?:rank|file)$/.test(name);

const INVERSES = SYMMETRIES.map(inverseOf);

/** The kinds of a placement's moves. */
export type KindOf = (piece: number, to: Square) => KindSet;

/** Works out the facts of placements of one material. */
export class Geometer {
  private readonly kernel: GeometryKernel;

  constructor(readonly material: Material) {
    this.kernel = kernelOf(material);
  }

  private frame({ squares, attackerToMove }: Placement): void {
    this.kernel.place(squares, attackerToMove);
    this.kernel.toSortedFrame();
  }

  private list(): (number | null)[] {
    return Array.from(this.kernel.values.subarray(0, GEOMETRY.length), (value) =>
      value === NO_FACT ? null : value,
    );
  }

  /** The values of all facts, in the order of `GEOMETRY`. */
  facts(placement: Placement): (number | null)[] {
    this.values(placement);
    return this.list();
  }

  /** The same as numbers, NO_FACT for null: good until the next call. */
  values(placement: Placement): Int32Array {
    this.frame(placement);
    this.kernel.allFacts();
    return this.kernel.values;
  }

  /** The values of all facts seen from the other edge, where the defender's king is as near to two; else undefined. */
  factsFromOtherEdge(placement: Placement): (number | null)[] | undefined {
    return this.valuesFromOtherEdge(placement) && this.list();
  }

  /** The same as numbers, NO_FACT for null: good until the next call. */
  valuesFromOtherEdge(placement: Placement): Int32Array | undefined {
    this.frame(placement);
    if (!this.kernel.hasTwoEdges()) return undefined;
    this.kernel.turnToOtherEdge();
    this.kernel.allFacts();
    return this.kernel.values;
  }

  /** Fact `n` of `GEOMETRY`; NO_FACT for null. */
  fact(n: number, placement: Placement): number {
    this.frame(placement);
    return this.kernel.fact(n);
  }

  /** The same seen from the other of two equally near edges. */
  factFromOtherEdge(n: number, placement: Placement): number {
    this.frame(placement);
    this.kernel.turnToOtherEdge();
    return this.kernel.fact(n);
  }

  /**
   * The kinds of a placement's legal moves, by piece and new square; no kind for what is no legal move. Good until the next
   * call.
   */
  kindsOfMoves({ squares, attackerToMove }: Placement): KindOf {
    const { kernel } = this;
    kernel.place(squares, attackerToMove);
    const symmetry = kernel.toFrame();
    kernel.findKinds();
    return (piece, to) => kernel.kinds[piece * 64 + imageOf(symmetry, to)];
  }

  /**
   * All of a placement at once: `list` receives its legal moves, `kinds` the kinds of each. Returns the values of all
   * facts as `values` does. `mayThreaten` is false where it is known that no mate threatens: it is not looked for then.
   */
  everything(
    { squares, attackerToMove }: Placement,
    list: MoveList,
    kinds: Int32Array,
    mayThreaten = true,
  ): Int32Array {
    const { kernel } = this;
    kernel.place(squares, attackerToMove);
    const back = INVERSES[kernel.everything(mayThreaten ? 1 : 0)] * 64;
    const count = (list.count = kernel.countOfMoves());
    for (let n = 0; n < count; ++n) {
      const piece = kernel.movePiece[n];
      const to = kernel.moveTo[n];
      list.piece[n] = piece;
      list.to[n] = IMAGES[back + to];
      list.captured[n] = kernel.moveTaken[n];
      kinds[n] = kernel.kinds[piece * 64 + to];
    }
    return kernel.values;
  }
}

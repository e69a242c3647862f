// Facts of many placements with the same two kings: looked up in tables by a piece's square wherever a fact
// depends on one piece only, so that a visit to a whole table can ask for them at every placement.

import { type Material, hasEqualPieces } from "../chess/material.js";
import { FIRST_PIECE, firstDefender } from "../chess/placement.js";
import { BISHOP, type Kind, ROOK } from "../chess/material.js";
import { IMAGES, fileOf, imageOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY } from "./facts.js";
import { type GeometryKernel, kernelOf } from "./geometry-kernel.js";

const KINGS = -1;
const COMPUTED = -2;
/** The mirror in the long diagonal. */
const MIRROR = 4;

/** Where placements stand in their frame: as they are, mirrored, or now so and now so. */
type Turned = "plain" | "mirrored" | "either";

/** Index in a placement's squares of the first piece of a kind; -1 where there is none. */
function firstOf(pieces: readonly Kind[], first: number, kind: Kind): number {
  const n = pieces.indexOf(kind);
  return n < 0 ? -1 : first + n;
}

/** Whether the defender's king, in the triangle a1–d1–d4, is as near to a second edge. */
export const hasTwoEdges = (defenderKing: Square): boolean => fileOf(defenderKing) === rankOf(defenderKing);

/** Values of a fact that are wanted: those from `from` to `to`, or those that are not. */
export interface ValueRange {
  readonly from: number;
  readonly to: number;
  readonly inside: boolean;
}

/**
 * The facts of placements that share their kings, the defender's in the triangle a1–d1–d4. `squares` are given
 * in a placement's order for each question.
 */
export class PairFacts {
  private readonly turned: Turned;
  private readonly equal: boolean;
  private readonly kernel: GeometryKernel;
  /** In place of a piece: fact of the kings alone. */
  static readonly KINGS = KINGS;
  /** In place of a piece: fact that no table by the square of one piece can give. */
  static readonly COMPUTED = COMPUTED;

  /** Index in `squares` of the one piece beside the kings that a fact depends on, or KINGS, or COMPUTED. */
  static pieceOf(material: Material, fact: number): number {
    const { depends } = GEOMETRY[fact];
    if (depends === "all" || hasEqualPieces(material)) return COMPUTED;
    if (depends === "kings") return KINGS;
    // without the piece the fact is null wherever the others stand
    const piece =
      depends === "rook"
        ? firstOf(material.defender, firstDefender(material), ROOK)
        : firstOf(material.attacker, FIRST_PIECE, depends === "bishop" ? BISHOP : ROOK);
    return piece < 0 ? KINGS : piece;
  }

  /** By fact, plain and mirrored. */
  private readonly tables: (Int16Array | undefined)[] = [];
  /** By fact: index in `squares` of the piece it depends on, or KINGS, or COMPUTED where no table will do. */
  private readonly pieces: Int8Array;

  /** `fromOtherEdge`: seen from the second of two equally near edges (see `hasTwoEdges`). */
  constructor(
    private readonly material: Material,
    private readonly attackerKing: Square,
    private readonly defenderKing: Square,
    private readonly fromOtherEdge = false,
  ) {
    this.kernel = kernelOf(material);
    this.equal = hasEqualPieces(material);
    this.pieces = Int8Array.from(GEOMETRY, (_, n) => PairFacts.pieceOf(material, n));
    const diagonal = (square: Square) => fileOf(square) === rankOf(square);
    // on the diagonal two twins qualify; the frame prefers the attacker's king on the higher rank
    if (!diagonal(defenderKing)) this.turned = "plain";
    else if (diagonal(attackerKing)) this.turned = "either";
    else this.turned = rankOf(attackerKing) > fileOf(attackerKing) !== fromOtherEdge ? "plain" : "mirrored";
  }

  /** Whether it takes more than the kings to know how a placement is turned. */
  get turnsByPieces(): boolean {
    return this.turned === "either";
  }

  /** Whether this placement's frame is its mirror image: with both kings on the diagonal, by the other pieces. */
  private mirrored(squares: ArrayLike<Square>): boolean {
    if (this.turned !== "either") return this.turned === "mirrored";
    for (let n = FIRST_PIECE; n < squares.length; ++n) {
      const image = imageOf(MIRROR, squares[n]);
      if (image !== squares[n]) return image < squares[n] !== this.fromOtherEdge;
    }
    return false;
  }

  /** Fact `n` of `GEOMETRY`; NO_FACT for null. Equal pieces of a side make it slower. */
  get(n: number, squares: ArrayLike<Square>, attackerToMove: boolean): number {
    const piece = this.pieces[n];
    if (piece === COMPUTED) return this.computed(n, squares, attackerToMove);
    const key = n * 2 + (this.mirrored(squares) ? 1 : 0);
    const table = this.tables[key] ?? (this.tables[key] = this.makeTable(n, key % 2 === 1));
    return piece === KINGS ? table[0] : table[squares[piece]];
  }

  /** Whether `filter` can be asked. */
  get canFilter(): boolean {
    return !this.equal && this.turned !== "either";
  }

  /**
   * Takes from `row` the placements whose fact `n` is unknown or not as wanted. A row is placements that differ by the square
   * of the piece at `column` in `squares`: a bit for each square, the low 32 first; of those that are not set nothing is asked.
   */
  filter(
    n: number,
    { from, to, inside }: ValueRange,
    squares: ArrayLike<Square>,
    column: number,
    attackerToMove: boolean,
    row: Uint32Array,
  ): void {
    const { kernel } = this;
    const isMirrored = this.turned === "mirrored";
    for (let m = 0; m < squares.length; ++m)
      kernel.squares[m] = isMirrored ? IMAGES[MIRROR * 64 + squares[m]] : squares[m];
    kernel.setTurn(attackerToMove ? 0 : 1);
    kernel.row.set(row);
    kernel.filterRow(n, from, to, inside ? 1 : 0, column, isMirrored ? 1 : 0);
    row.set(kernel.row);
  }

  private computed(n: number, squares: ArrayLike<Square>, attackerToMove: boolean): number {
    const { kernel } = this;
    if (this.equal) {
      kernel.place(squares, attackerToMove);
      kernel.toSortedFrame();
      if (this.fromOtherEdge) kernel.turnToOtherEdge();
    } else if (this.mirrored(squares)) {
      for (let m = 0; m < squares.length; ++m) kernel.squares[m] = IMAGES[MIRROR * 64 + squares[m]];
      kernel.setTurn(attackerToMove ? 0 : 1);
    } else kernel.place(squares, attackerToMove);
    return kernel.fact(n);
  }

  /** The fact's values by the square of the piece it depends on. */
  private makeTable(n: number, mirrored: boolean): Int16Array {
    const at = (square: Square) => (mirrored ? imageOf(MIRROR, square) : square);
    const piece = this.pieces[n];
    // the other pieces do not matter: they stand with the attacker's king
    const squares = new Array<Square>(this.material.men).fill(at(this.attackerKing));
    squares[1] = at(this.defenderKing);
    return Int16Array.from({ length: piece < 0 ? 1 : 64 }, (_, square) => {
      if (piece >= 0) squares[piece] = at(square);
      this.kernel.place(squares, true);
      return this.kernel.fact(n);
    });
  }
}

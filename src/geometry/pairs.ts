// Facts of many placements with the same two kings: looked up in tables by a piece's square wherever a fact
// depends on one piece only, so that a visit to a whole table can ask for them at every placement.

import { hasEqualPieces } from "../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE } from "../chess/placement.js";
import { IMAGES, fileOf, imageOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY, type Geometer } from "./facts.js";
import type { View } from "./lines.js";

/** What stands for null: facts are never negative. */
export const NO_FACT = -1;
const KINGS = -1;
const COMPUTED = -2;
/** The mirror in the long diagonal. */
const MIRROR = 4;

/** Where placements stand in their frame: as they are, mirrored, or now so and now so. */
type Turned = "plain" | "mirrored" | "either";

/**
 * The facts of placements that share their kings, the defender's in the triangle a1–d1–d4. `squares` are given
 * in a placement's order for each question.
 */
export class PairFacts {
  private readonly turned: Turned;
  private readonly equal: boolean;
  private readonly framed: Square[] = [];
  /** In place of a piece: fact of the kings alone. */
  static readonly KINGS = KINGS;
  /** In place of a piece: fact that no table by the square of one piece can give. */
  static readonly COMPUTED = COMPUTED;

  /** Index in `squares` of the one piece beside the kings that a fact depends on, or KINGS, or COMPUTED. */
  static pieceOf(geometer: Geometer, fact: number): number {
    const { depends } = GEOMETRY[fact];
    if (depends === "all" || hasEqualPieces(geometer.material)) return COMPUTED;
    if (depends === "kings") return KINGS;
    // without the piece the fact is null wherever the others stand
    const piece = geometer.pieceOf(depends);
    return piece < 0 ? KINGS : piece;
  }

  /** By fact, plain and mirrored. */
  private readonly tables: (Int16Array | undefined)[] = [];
  /** By fact: index in `squares` of the piece it depends on, or KINGS, or COMPUTED where no table will do. */
  private readonly pieces: Int8Array;

  constructor(
    private readonly geometer: Geometer,
    private readonly attackerKing: Square,
    private readonly defenderKing: Square,
  ) {
    const equal = hasEqualPieces(geometer.material);
    this.equal = equal;
    this.pieces = Int8Array.from(GEOMETRY, (_, n) => PairFacts.pieceOf(geometer, n));
    const diagonal = (square: Square) => fileOf(square) === rankOf(square);
    // on the diagonal two twins qualify; the frame prefers the attacker's king on the higher rank
    if (!diagonal(defenderKing)) this.turned = "plain";
    else if (diagonal(attackerKing)) this.turned = "either";
    else this.turned = rankOf(attackerKing) > fileOf(attackerKing) ? "plain" : "mirrored";
  }

  /** Whether it takes more than the kings to know how a placement is turned. */
  get turnsByPieces(): boolean {
    return this.turned === "either";
  }

  /** Whether this placement's frame is its mirror image: with both kings on the diagonal, by the other pieces. */
  private mirrored(squares: readonly Square[]): boolean {
    if (this.turned !== "either") return this.turned === "mirrored";
    for (let n = FIRST_PIECE; n < squares.length; ++n) {
      const image = imageOf(MIRROR, squares[n]);
      if (image !== squares[n]) return image < squares[n];
    }
    return false;
  }

  /** Fact `n` of `GEOMETRY`; NO_FACT for null. Equal pieces of a side make it slower. */
  get(n: number, squares: readonly Square[], attackerToMove: boolean): number {
    const piece = this.pieces[n];
    if (piece === COMPUTED) return this.computed(n, squares, attackerToMove);
    const key = n * 2 + (this.mirrored(squares) ? 1 : 0);
    const table = this.tables[key] ?? (this.tables[key] = this.makeTable(n, key % 2 === 1));
    return piece === KINGS ? table[0] : table[squares[piece]];
  }

  private computed(n: number, squares: readonly Square[], attackerToMove: boolean): number {
    return GEOMETRY[n].of(this.view(squares, attackerToMove)) ?? NO_FACT;
  }

  /** The pieces of a placement's frame, good until the next call. */
  private view(squares: readonly Square[], attackerToMove: boolean): View {
    if (this.equal) return this.geometer.view({ squares, attackerToMove });
    const mirrored = this.mirrored(squares);
    for (let n = 0; n < squares.length; ++n)
      this.framed[n] = mirrored ? IMAGES[MIRROR * 64 + squares[n]] : squares[n];
    return this.geometer.viewOf(this.framed, attackerToMove);
  }

  /** The fact's values by the square of the piece it depends on. */
  private makeTable(n: number, mirrored: boolean): Int16Array {
    const { depends, of } = GEOMETRY[n];
    const { material } = this.geometer;
    const at = (square: Square) => (mirrored ? imageOf(MIRROR, square) : square);
    const piece = depends === "kings" || depends === "all" ? -1 : this.geometer.pieceOf(depends);
    return Int16Array.from({ length: piece < 0 ? 1 : 64 }, (_, square) => {
      // the other pieces do not matter: they stand with the kings
      const squares = new Array<Square>(material.men).fill(at(this.attackerKing));
      squares[ATTACKER_KING] = at(this.attackerKing);
      squares[DEFENDER_KING] = at(this.defenderKing);
      if (piece >= 0) squares[piece] = at(square);
      return of(this.geometer.viewOfFrame({ squares, attackerToMove: true })) ?? NO_FACT;
    });
  }
}

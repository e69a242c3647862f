// Facts of many placements with the same two kings: looked up in tables by a man's square wherever a fact
// depends on one man only, so that a visit to a whole table can ask for them at every placement.

import { ATTACKER_KING, DEFENDER_KING, FIRST_MAN } from "../chess/placement.js";
import { fileOf, imageOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY, type Geometer } from "./facts.js";
import { frameOf } from "./frame.js";

/** What stands for null: facts are never negative. */
export const NO_FACT = -1;
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
  private readonly tables = new Map<number, Int16Array>();

  constructor(
    private readonly geometer: Geometer,
    private readonly attackerKing: Square,
    private readonly defenderKing: Square,
  ) {
    const diagonal = (square: Square) => fileOf(square) === rankOf(square);
    // on the diagonal two twins qualify; the frame prefers the attacker's king on the higher rank
    if (!diagonal(defenderKing)) this.turned = "plain";
    else if (diagonal(attackerKing)) this.turned = "either";
    else this.turned = rankOf(attackerKing) > fileOf(attackerKing) ? "plain" : "mirrored";
  }

  /** Whether this placement's frame is its mirror image: with both kings on the diagonal, by the other men. */
  private mirrored(squares: readonly Square[]): boolean {
    if (this.turned !== "either") return this.turned === "mirrored";
    for (let n = FIRST_MAN; n < squares.length; ++n) {
      const image = imageOf(MIRROR, squares[n]);
      if (image !== squares[n]) return image < squares[n];
    }
    return false;
  }

  /** Fact `n` of `GEOMETRY`; NO_FACT for null. Equal men of a side make it slower. */
  get(n: number, squares: readonly Square[], attackerToMove: boolean): number {
    const { depends } = GEOMETRY[n];
    if (depends === "all" || hasEqualMen(this.geometer)) return this.computed(n, squares, attackerToMove);
    const mirrored = this.mirrored(squares);
    const table = this.table(n, mirrored);
    if (depends === "kings") return table[0];
    const man = this.geometer.manOf(depends);
    return man < 0 ? NO_FACT : table[squares[man]];
  }

  private computed(n: number, squares: readonly Square[], attackerToMove: boolean): number {
    const frame = frameOf({ squares, attackerToMove }, this.geometer.material);
    return GEOMETRY[n].of(this.geometer.viewOfFrame(frame)) ?? NO_FACT;
  }

  /** The fact's values by the square of the man it depends on. */
  private table(n: number, mirrored: boolean): Int16Array {
    const key = n * 2 + (mirrored ? 1 : 0);
    let table = this.tables.get(key);
    if (!table) this.tables.set(key, (table = this.makeTable(n, mirrored)));
    return table;
  }

  private makeTable(n: number, mirrored: boolean): Int16Array {
    const { depends, of } = GEOMETRY[n];
    const { material } = this.geometer;
    const at = (square: Square) => (mirrored ? imageOf(MIRROR, square) : square);
    const man = depends === "kings" || depends === "all" ? -1 : this.geometer.manOf(depends);
    return Int16Array.from({ length: man < 0 ? 1 : 64 }, (_, square) => {
      // the other men do not matter: they stand with the kings
      const squares = new Array<Square>(material.men).fill(at(this.attackerKing));
      squares[ATTACKER_KING] = at(this.attackerKing);
      squares[DEFENDER_KING] = at(this.defenderKing);
      if (man >= 0) squares[man] = at(square);
      return of(this.geometer.viewOfFrame({ squares, attackerToMove: true })) ?? NO_FACT;
    });
  }
}

const hasEqualMen = ({ material }: Geometer): boolean =>
  [material.attacker, material.defender].some((men) => new Set(men).size < men.length);

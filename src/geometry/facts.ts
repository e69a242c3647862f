// The facts of a placement: what it looks like in its frame, computed from the table of facts.

import { BISHOP, type Kind, type Material, ROOK } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import {
  ATTACKER_KING,
  DEFENDER_KING,
  FIRST_PIECE,
  type Placement,
  firstDefender,
} from "../chess/placement.js";
import { type Symmetry, imageOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY } from "./fact-table.js";
import { type Frame, frameOf, symmetryOf } from "./frame.js";
import type { View } from "./lines.js";

export type { FactType, GeometryFact } from "./fact.js";
export { GEOMETRY };

const INDEX = new Map(GEOMETRY.map((fact, n) => [fact.name, n]));
/** Place of a fact in `GEOMETRY` by its name; -1 for a name that is none of them. */
export const geometryIndex = (name: string): number => INDEX.get(name) ?? -1;

/** Whether a fact only says on which rank or file a piece stands. */
export const isCoordinate = (name: string): boolean =>
  /^(?:attacker-)?(?:king|rook|bishop)-(?:rank|file)$/.test(name);

/** Computes the facts of placements of one material. */
export class Geometer {
  private readonly movement: Movement;
  private readonly places: { readonly rook: number; readonly attackerRook: number; readonly bishop: number };

  constructor(readonly material: Material) {
    this.movement = new Movement(material);
    const place = (pieces: readonly Kind[], first: number, kind: Kind) => {
      const n = pieces.indexOf(kind);
      return n < 0 ? -1 : first + n;
    };
    this.places = {
      rook: place(material.defender, firstDefender(material), ROOK),
      attackerRook: place(material.attacker, FIRST_PIECE, ROOK),
      bishop: place(material.attacker, FIRST_PIECE, BISHOP),
    };
  }

  /** Index in a placement's squares of the piece a fact depends on; -1 where the material has none. */
  pieceOf(depends: "rook" | "attackerRook" | "bishop"): number {
    return this.places[depends];
  }

  /** The pieces of a placement's frame, by their role. */
  view(placement: Placement): View {
    return this.viewOfFrame(frameOf(placement, this.material));
  }

  /**
   * The same with every piece in its place of the placement's order, and the symmetry that leads to it: equal pieces of a
   * side are not put in order of their squares.
   */
  framed({ squares, attackerToMove }: Placement): { readonly view: View; readonly symmetry: Symmetry } {
    const symmetry = symmetryOf({ squares, attackerToMove }, this.material);
    const turned = squares.map((square) => imageOf(symmetry, square));
    return { view: this.viewOfFrame({ squares: turned, attackerToMove }), symmetry };
  }

  /** The same for a placement that stands in its frame already. */
  viewOfFrame({ squares, attackerToMove }: Frame): View {
    return this.viewOf([...squares], attackerToMove);
  }

  /** The same for squares that may be changed and put back while facts are worked out. */
  viewOf(squares: Square[], attackerToMove: boolean): View {
    const at = (n: number) => (n < 0 ? undefined : squares[n]);
    return {
      king: squares[DEFENDER_KING],
      attackerKing: squares[ATTACKER_KING],
      rook: at(this.places.rook),
      attackerRook: at(this.places.attackerRook),
      bishop: at(this.places.bishop),
      attackerToMove,
      squares,
      material: this.material,
      movement: this.movement,
    };
  }

  /** The values of all facts, in the order of `GEOMETRY`. */
  facts(placement: Placement): (number | null)[] {
    return this.values(this.view(placement));
  }

  /** The values of all facts of a view. */
  values(view: View): (number | null)[] {
    return GEOMETRY.map((fact) => fact.of(view));
  }
}

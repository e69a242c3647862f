// A placement: where the pieces of one material stand and which side is to move. It knows attacker and defender
// but not colours, clocks or castling; the two colourings of a position are one placement.
//
// Pieces stand in a fixed order: attacker's king, defender's king, attacker's pieces, defender's pieces (each side's
// from queen to knight). Six bits a square and one for the turn make a number that fits a database column.

import type { Material } from "./material.js";
import type { Square } from "./units.js";

export interface Placement {
  /** Squares in the order attacker's king, defender's king, attacker's pieces, defender's pieces. */
  readonly squares: readonly Square[];
  readonly attackerToMove: boolean;
}

export const ATTACKER_KING = 0;
export const DEFENDER_KING = 1;
export const FIRST_PIECE = 2;

/** Index in `squares` of the first of the defender's pieces. */
export const firstDefender = (material: Material): number => FIRST_PIECE + material.attacker.length;

/** The placement's number: below 2^31 for five men. Inverse of `placementAt`. */
export function placementNumber(placement: Placement): number {
  let number = placement.attackerToMove ? 0 : 1;
  for (const square of placement.squares) number = number * 64 + square;
  return number;
}

/** The placement with a number, for a material of `pieces` pieces. Inverse of `placementNumber`. */
export function placementAt(number: number, pieces: number): Placement {
  const squares = new Array<Square>(pieces);
  let rest = number;
  for (let n = pieces - 1; n >= 0; --n) {
    squares[n] = rest % 64;
    rest = Math.floor(rest / 64);
  }
  return { squares, attackerToMove: rest === 0 };
}

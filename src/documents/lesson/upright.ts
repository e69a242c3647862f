// One orientation for a whole lesson: White attacks, and the edge at which the defender's king is held is at the top.

import { placementFen, placementOf, readFen } from "../../chess/fen.js";
import { imageOf } from "../../chess/squares.js";
import { frameOf } from "../../geometry/frame.js";

/** The symmetry that brings a frame's first rank to the top. */
const TO_TOP = 2;

/** The same placement as a lesson shows it. Throws `bad-fen`, `outside-tables`. */
export function uprightFen(fen: string): string {
  const { material, ...placed } = placementOf(readFen(fen));
  const frame = frameOf(placed, material);
  const squares = frame.squares.map((square) => imageOf(TO_TOP, square));
  return placementFen({ squares, attackerToMove: frame.attackerToMove }, material, "white");
}

/** Whether a FEN is a position: with the other side to move it may be none. */
export function isLegal(fen: string): boolean {
  try {
    readFen(fen);
    return true;
  } catch {
    return false;
  }
}

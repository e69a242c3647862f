// The geometry's kernel: the facts and kinds of move of ../portable, as the program calls them.
//
// AssemblyScript, compiled to WebAssembly. A placement is written with `setSquare` and `setTurn`; what is found is read
// from the memory at the addresses that are given here.

import { MOST_MOVES, moveCount, movePiece, moveTaken, moveTo, OWN, squares } from "../portable/board";
import { allFacts, fact, values } from "../portable/facts";
import { frameSymmetry, turnBy, turnToOtherEdge } from "../portable/frame";
import { findKinds, kindsOfMoves, setMayThreaten } from "../portable/kinds";
import { setMatesKnown } from "../portable/threats";

export { legalMoves, setKind, setMen, setSquare, setTurn, settle, inCheck, attacksBut } from "../portable/board";
export { fact, allFacts } from "../portable/facts";
export { turnBy, turnToOtherEdge, hasTwoEdges } from "../portable/frame";
export { findKinds } from "../portable/kinds";

const sorted = new StaticArray<i32>(8);

/** Turns the placement at hand so that it stands in its frame, equal pieces in their places. Returns the symmetry. */
export function toFrame(): i32 {
  const symmetry = frameSymmetry(sorted);
  turnBy(symmetry);
  return symmetry;
}
/** The same with equal pieces in the order of their squares. */
export function toSortedFrame(): i32 {
  const symmetry = frameSymmetry(sorted);
  for (let n = 0; n < 8; ++n) squares[n] = sorted[n];
  return symmetry;
}

/**
 * The kinds of move, then all facts, of the placement at hand. `mayThreaten`: not known to have no threat of mate. Returns the
 * symmetry, as `toFrame` does.
 */
export function everything(mayThreaten: bool): i32 {
  const symmetry = toFrame();
  setMayThreaten(mayThreaten);
  findKinds();
  setMayThreaten(true);
  for (let n = 0; n < 8; ++n) squares[n] = sorted[n];
  setMatesKnown(true);
  allFacts();
  setMatesKnown(false);
  return symmetry;
}

export function squaresAddress(): usize {
  return changetype<usize>(squares);
}
export function valuesAddress(): usize {
  return changetype<usize>(values);
}
export function kindsAddress(): usize {
  return changetype<usize>(kindsOfMoves);
}
/** The legal moves that `findKinds` has found: how many, and of each the piece, its new square and the piece taken. */
export function countOfMoves(): i32 {
  return moveCount[OWN];
}
export function movesAddress(n: i32): usize {
  const list = n === 0 ? movePiece : n === 1 ? moveTo : moveTaken;
  return changetype<usize>(list) + ((<usize>(OWN * MOST_MOVES)) << 2);
}

/** The placements of a row that are asked about: a bit for each square of the piece by which they differ. */
const row = new StaticArray<u32>(2);
export function rowAddress(): usize {
  return changetype<usize>(row);
}
/**
 * Takes from the row the placements whose fact `n` is unknown, or not in the range from `from` to `to` (`inside`), or in it
 * (not `inside`). They are the placement at hand with piece `column` on each square, or on its mirror image in the long
 * diagonal where the others have been mirrored.
 */
export function filterRow(n: i32, from: i32, to: i32, inside: bool, column: i32, mirrored: bool): void {
  for (let half = 0; half < 2; ++half) {
    let left = row[half];
    for (let bits = left; bits; bits &= bits - 1) {
      const square = 32 * half + <i32>ctz(bits);
      squares[column] = mirrored ? ((square & 7) << 3) | (square >> 3) : square;
      const value = fact(n);
      if (value < 0 || (value >= from && value <= to) !== inside) left &= ~(bits & -bits);
    }
    row[half] = left;
  }
}

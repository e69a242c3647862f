// The geometry's kernel: the facts and kinds of move of ../portable, as the program calls them.
//
// AssemblyScript, compiled to WebAssembly. A placement is written with `setSquare` and `setTurn`; what is found is read
// from the memory at the addresses that are given here.

import { MOST_MOVES, moveCount, movePiece, moveTaken, moveTo, OWN, squares } from "../portable/board";
import { allFacts, values } from "../portable/facts";
import { frameSymmetry, turnBy, turnToOtherEdge } from "../portable/frame";
import { findKinds, kindsOfMoves } from "../portable/kinds";
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

/** The kinds of move, then all facts, of the placement at hand. Returns the symmetry, as `toFrame` does. */
export function everything(): i32 {
  const symmetry = toFrame();
  findKinds();
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

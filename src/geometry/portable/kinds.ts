// Kinds of move: what each legal move of the placement at hand does. A move is of several kinds at once: bit n stands for
// word n of `KINDS_OF_MOVE` (geometry/move-kinds.ts).

import {
  attacks,
  bishopPiece,
  endOfSide,
  fileOf,
  firstOfSide,
  inCheck,
  KING,
  kinds,
  legalMoves,
  men,
  MOST_MOVES,
  moveCount,
  movePiece,
  moveTaken,
  moveTo,
  NONE,
  OWN,
  pinLine,
  play,
  rankOf,
  ROOK,
  sideAttacks,
  sign,
  squares,
  takeBack,
  turn,
} from "./board";
import { frameSymmetry, hasTwoEdges, turnBy } from "./frame";
import { leastDepth, NO_FACT } from "./relations";
import { findMates, isInWay, mateCount, mateFrom, matePiece, mateTo, MOST_MATES } from "./threats";

const MOVE_OF_KING: i32 = 1;
/** The bit of a piece's kind is this, moved by the kind. */
const MOVE_OF_PIECE: i32 = 1 << 1;
const CAPTURE: i32 = 1 << 5;
const CHECK: i32 = 1 << 6;
const DISCOVERED_CHECK: i32 = 1 << 7;
const ATTACK: i32 = 1 << 8;
const BLOCK: i32 = 1 << 9;
const MATE_BLOCK: i32 = 1 << 10;
const PIN: i32 = 1 << 11;
const PIN_KEPT: i32 = 1 << 12;
const SWITCH: i32 = 1 << 13;
const LEAVES_RANK: i32 = 1 << 14;
const TO_CORNER: i32 = 1 << 15;
const FROM_CORNER: i32 = 1 << 16;
const INTO_WEDGE: i32 = 1 << 17;
const OUT_OF_WEDGE: i32 = 1 << 18;
const EDGE_SWITCH: i32 = 1 << 19;

/** The kinds of each legal move, by piece × 64 + its new square; 0 for what is no legal move. */
export const kindsOfMoves = new StaticArray<i32>(8 * 64);

const frame = new StaticArray<i32>(8);
const saved = new StaticArray<i32>(8);
const wasPinned = new StaticArray<i32>(8);
const isTarget = new StaticArray<i32>(8);

function cornerSteps(square: i32): i32 {
  const file = fileOf(square) < 4 ? fileOf(square) : 7 - fileOf(square);
  const rank = rankOf(square) < 4 ? rankOf(square) : 7 - rankOf(square);
  return file > rank ? file : rank;
}

/** Steps to the nearest edge. */
function edgeSteps(square: i32): i32 {
  const file = fileOf(square) < 4 ? fileOf(square) : 7 - fileOf(square);
  const rank = rankOf(square) < 4 ? rankOf(square) : 7 - rankOf(square);
  return file < rank ? file : rank;
}

function rookMove(from: i32, to: i32): i32 {
  const king = fileOf(squares[1]);
  const switches = sign(fileOf(from) - king) * sign(fileOf(to) - king) < 0;
  return (switches ? SWITCH : 0) | (rankOf(from) !== rankOf(to) ? LEAVES_RANK : 0);
}

/** Whether the defender's king would be in the bishop's wedge on another square. */
function isInWedgeFrom(to: i32): bool {
  for (let n = 0; n < men; ++n) saved[n] = squares[n];
  squares[1] = to;
  turnBy(frameSymmetry(frame));
  const isInside = leastDepth() !== NO_FACT;
  for (let n = 0; n < men; ++n) squares[n] = saved[n];
  return isInside;
}

/** What a move of the defender's king does, from the frame before it to the frame after it. */
function kingMove(to: i32, taken: i32): i32 {
  const from = squares[1];
  const steps = cornerSteps(to) - cornerSteps(from);
  let found = steps < 0 ? TO_CORNER : steps > 0 ? FROM_CORNER : 0;
  if (!hasTwoEdges() && rankOf(to) > edgeSteps(to)) found |= EDGE_SWITCH;
  if (taken >= 0 || bishopPiece === NONE) return found;
  const before = leastDepth() !== NO_FACT;
  const after = edgeSteps(to) === 0 && isInWedgeFrom(to);
  if (after !== before) found |= after ? INTO_WEDGE : OUT_OF_WEDGE;
  return found;
}

/** The kinds that show once a move has been played. */
function playedKinds(piece: i32, to: i32, taken: i32, mates: bool): i32 {
  const side = turn;
  const enemy = 1 - side;
  let found = 0;
  for (let m = firstOfSide(side); m < endOfSide(side); ++m)
    if (attacks(m, squares[enemy])) found |= m === piece ? CHECK : CHECK | DISCOVERED_CHECK;
  for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m) {
    if (m === taken) continue;
    if (isTarget[m] !== 0 && sideAttacks(side, squares[m])) found |= ATTACK;
    if (pinLine(m) > 0) found |= wasPinned[m] !== 0 ? PIN_KEPT : PIN;
  }
  if (mates && kinds[piece] !== KING) {
    for (let n = 0; n < mateCount[1]; ++n)
      if (shuts(n, to)) {
        found |= MATE_BLOCK;
        break;
      }
  }
  return found;
}

/** Whether a piece that has come to `to` is in the way of mate `n` that threatened, and it is no mate any more. */
function shuts(n: i32, to: i32): bool {
  const at = MOST_MATES + n;
  if (!isInWay(to, mateFrom[at], mateTo[at], squares[turn])) return false;
  findMates(1 - turn, 0);
  for (let m = 0; m < mateCount[0]; ++m)
    if (matePiece[m] === matePiece[at] && mateTo[m] === mateTo[at]) return false;
  return true;
}

/** Whether the other side, if it were to move, could mate at once: where somebody knows that it could not, no mate is looked for. */
let mayThreaten: bool = true;
export function setMayThreaten(may: bool): void {
  mayThreaten = may;
}

/** Finds the legal moves of the side to move and their kinds. */
export function findKinds(): void {
  const side = turn;
  const enemy = 1 - side;
  kindsOfMoves.fill(0);
  const checked = inCheck(side);
  for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m) {
    isTarget[m] = kinds[m] === ROOK && !sideAttacks(side, squares[m]) ? 1 : 0;
    wasPinned[m] = pinLine(m) > 0 ? 1 : 0;
  }
  mateCount[1] = 0;
  if (!checked && mayThreaten) findMates(enemy, 1);
  legalMoves(side, OWN);
  for (let n = 0; n < moveCount[OWN]; ++n) {
    const at = OWN * MOST_MOVES + n;
    const piece = movePiece[at];
    const to = moveTo[at];
    const taken = moveTaken[at];
    const kind = kinds[piece];
    let found = kind === KING ? MOVE_OF_KING : MOVE_OF_PIECE << kind;
    if (kind === ROOK) found |= rookMove(squares[piece], to);
    if (piece === 1) found |= kingMove(to, taken);
    if (taken >= 0) found |= CAPTURE;
    else if (checked && kind !== KING) found |= BLOCK;
    const from = play(OWN, n);
    found |= playedKinds(piece, to, taken, mateCount[1] > 0);
    takeBack(OWN, n, from);
    kindsOfMoves[piece * 64 + to] = found;
  }
}

// What a side could do if it were its turn: facts that need legal moves, not only lines.

import {
  absolute,
  attackerRookPiece,
  attacks,
  attacksBut,
  canKingMove,
  canMove,
  DEFENDER,
  distance,
  endOfSide,
  fileOf,
  firstOfSide,
  inCheck,
  isClear,
  isInLine,
  isOnWay,
  KING,
  kinds,
  LAST,
  legalMoves,
  men,
  MOST_MOVES,
  moveCount,
  movePiece,
  MOVES,
  moveTaken,
  moveTo,
  NONE,
  OFF_BOARD,
  pieceOn,
  play,
  QUEEN,
  rankOf,
  REPLIES,
  ROOK,
  rookPiece,
  sideAttacks,
  sides,
  squares,
  takeBack,
  turn,
} from "./board";
import { NO_FACT } from "./relations";

/** Mates in one: the piece, from where and to where. Two lists of MOST_MATES places. */
export const MOST_MATES: i32 = 64;
export const matePiece = new StaticArray<i32>(2 * 64);
export const mateFrom = new StaticArray<i32>(2 * 64);
export const mateTo = new StaticArray<i32>(2 * 64);
export const mateCount = new StaticArray<i32>(2);

/** Whether a side gives check, after its piece has moved from a square; before, it gave none. */
function hasChecked(side: i32, piece: i32, from: i32): bool {
  const king = squares[1 - side];
  if (kinds[piece] !== KING && attacks(piece, king)) return true;
  if (!isInLine(from, king)) return false;
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) if (n !== piece && attacks(n, king)) return true;
  return false;
}

/** Finds the moves with which a side, if it were to move, would mate at once. The other side must not be in check. */
export function findMates(side: i32, list: i32): void {
  mateCount[list] = 0;
  legalMoves(side, MOVES);
  for (let n = 0; n < moveCount[MOVES]; ++n) {
    const from = play(MOVES, n);
    const mated = hasChecked(side, movePiece[n], from) && !canMove(1 - side, REPLIES);
    takeBack(MOVES, n, from);
    if (!mated) continue;
    const at = list * MOST_MATES + mateCount[list]++;
    matePiece[at] = movePiece[n];
    mateFrom[at] = from;
    mateTo[at] = moveTo[n];
  }
}

/** The mates that threaten the placement at hand are in list 1 (`findKinds`). */
let areMatesKnown: bool = false;
export function setMatesKnown(known: bool): void {
  areMatesKnown = known;
}
/** Whether the side to move, if it passed, would be mated at once. A check is no threat but the thing itself. */
export function mateThreat(): bool {
  if (areMatesKnown) return mateCount[1] > 0;
  if (inCheck(turn)) return false;
  findMates(1 - turn, 0);
  return mateCount[0] > 0;
}

/** Whether a piece of a side, or its king (`by` its index), could take piece `m`: it attacks it and leaves its king safe. */
function takes(side: i32, by: i32, m: i32): bool {
  const square = squares[m];
  if (by === side ? distance(squares[by], square) !== 1 : !attacks(by, square)) return false;
  const from = squares[by];
  squares[by] = square;
  squares[m] = OFF_BOARD;
  const legal = !inCheck(side);
  squares[by] = from;
  squares[m] = square;
  return legal;
}
/** Whether a side has a legal capture of piece `m`. */
function canTakePiece(side: i32, m: i32): bool {
  if (takes(side, side, m)) return true;
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) if (takes(side, n, m)) return true;
  return false;
}

/** The pieces' worth: queen 9, rook 5, bishop and knight 3 (chess/material.ts). */
function worth(kind: i32): i32 {
  return kind === QUEEN ? 9 : kind === ROOK ? 5 : 3;
}

/** What taking piece `m` with `by` would gain: its worth, less that of the taker where it could be taken back. */
function gainOf(side: i32, by: i32, m: i32): i32 {
  if (!takes(side, by, m)) return 0;
  const gain = worth(kinds[m]);
  if (kinds[by] === KING) return gain;
  const square = squares[m];
  const from = squares[by];
  squares[by] = square;
  squares[m] = OFF_BOARD;
  const back = canTakePiece(1 - side, by);
  squares[by] = from;
  squares[m] = square;
  return back ? gain - worth(kinds[by]) : gain;
}

/** The kind of piece, plus one, that a side could take for the most gain; 0 where nothing is gained. */
function prize(taker: i32): i32 {
  const owner = 1 - taker;
  let most = 0;
  let found = 0;
  for (let m = firstOfSide(owner); m < endOfSide(owner); ++m) {
    for (let n = firstOfSide(taker) - 1; n < endOfSide(taker); ++n) {
      const by = n < firstOfSide(taker) ? taker : n;
      const gain = gainOf(taker, by, m);
      if (gain > most) {
        most = gain;
        found = kinds[m] + 1;
      }
    }
  }
  return found;
}

/** The piece that the side to move could take for nothing, or for less. */
export function freePiece(): i32 {
  return prize(turn);
}
/** The piece that the side to move would lose if it passed. A check is no threat but the thing itself. */
export function lossThreat(): i32 {
  return inCheck(turn) ? 0 : prize(1 - turn);
}
/** Whether the side to move has a legal capture. */
export function canTake(): bool {
  const enemy = 1 - turn;
  for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m) if (canTakePiece(turn, m)) return true;
  return false;
}

/** The defender's legal moves in the placement at hand, if it were the defender's turn, have been listed. */
let isListed: bool = false;
function listDefender(): void {
  if (!isListed) legalMoves(1, DEFENDER);
}
/** Keeps them for the facts that follow, until `unlist`: the placement must stay as it is. */
export function keepListed(): void {
  listDefender();
  isListed = true;
}
export function unlist(): void {
  isListed = false;
}

/** Squares the defender's king could step to if it were the defender's move. */
export function kingEscapes(): i32 {
  listDefender();
  let count = 0;
  for (let n = 0; n < moveCount[DEFENDER]; ++n) if (movePiece[DEFENDER * MOST_MOVES + n] === 1) ++count;
  return count;
}

/**
 * After `countSafeSquares`: empty squares that the defender's rook could go to if it were the defender's move, and not be
 * taken there; and those of them on its rank and its file.
 */
export let safeSquares: i32 = 0;
export let safeOnRank: i32 = 0;
export let safeOnFile: i32 = 0;

export function countSafeSquares(): void {
  safeSquares = 0;
  safeOnRank = 0;
  safeOnFile = 0;
  const rook = squares[rookPiece];
  listDefender();
  for (let n = 0; n < moveCount[DEFENDER]; ++n) {
    const at = DEFENDER * MOST_MOVES + n;
    if (movePiece[at] !== rookPiece || moveTaken[at] >= 0) continue;
    const to = moveTo[at];
    const from = play(DEFENDER, n);
    if (!canTakePiece(0, rookPiece)) {
      ++safeSquares;
      if (rankOf(to) === rankOf(rook)) ++safeOnRank;
      else ++safeOnFile;
    }
    takeBack(DEFENDER, n, from);
  }
}

/** Whether the defender's rook can be taken by the attacker, and every way to take it gives stalemate. */
function isImmune(): bool {
  let taken = false;
  const rook = squares[rookPiece];
  for (let n = firstOfSide(0) - 1; n < endOfSide(0); ++n) {
    const by = n < firstOfSide(0) ? 0 : n;
    if (!takes(0, by, rookPiece)) continue;
    taken = true;
    const from = squares[by];
    squares[by] = rook;
    squares[rookPiece] = OFF_BOARD;
    const stalemate = !inCheck(1) && !canMove(1, LAST);
    squares[by] = from;
    squares[rookPiece] = rook;
    if (!stalemate) return false;
  }
  return taken;
}

/**
 * A stalemate resource of the defender's: with the attacker to move the rook cannot be taken, since that would be
 * stalemate; with the defender to move there is a move of the rook after which it is so.
 */
export function stalemateResource(): bool {
  if (turn === 0) return isImmune();
  // without the rook the king must have no move
  if (kingEscapes() > 0 && !inCheck(1)) {
    const rook = squares[rookPiece];
    squares[rookPiece] = OFF_BOARD;
    const free = canKingMove(1);
    squares[rookPiece] = rook;
    if (free && distance(squares[1], rook) > 1) return false;
  }
  listDefender();
  for (let n = 0; n < moveCount[DEFENDER]; ++n) {
    const at = DEFENDER * MOST_MOVES + n;
    if (movePiece[at] !== rookPiece || moveTaken[at] >= 0) continue;
    const from = play(DEFENDER, n);
    const immune = isImmune();
    takeBack(DEFENDER, n, from);
    if (immune) return true;
  }
  return false;
}

/** Whether a side has a battery: its piece or king is alone between its own piece and the enemy's king. */
export function hasDiscovery(side: i32): bool {
  const target = squares[1 - side];
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) {
    if (attacks(n, target)) continue;
    if (attacksBut(n, target, side)) return true;
    for (let m = firstOfSide(side); m < endOfSide(side); ++m)
      if (m !== n && attacksBut(n, target, m)) return true;
  }
  return false;
}
/** Whether a side gives check along a line on which an enemy piece is behind the king. */
export function hasSkewer(side: i32): bool {
  const enemy = 1 - side;
  const king = squares[enemy];
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) {
    if (!attacks(n, king)) continue;
    for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m) {
      if (!isClear(king, squares[m]) || attacks(n, squares[m])) continue;
      if (attacksBut(n, squares[m], enemy)) return true;
    }
  }
  return false;
}
/** Whether one piece of a side gives check and attacks another piece as well. */
export function hasFork(side: i32): bool {
  const enemy = 1 - side;
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) {
    if (!attacks(n, squares[enemy])) continue;
    for (let m = firstOfSide(enemy); m < endOfSide(enemy); ++m) if (attacks(n, squares[m])) return true;
  }
  return false;
}

/** Answers to a check along the edge, the worse for the defender the greater. */
const MET: i32 = 1;
const DENIED: i32 = 2;
const NOT_MET: i32 = 3;

/** How the defender's rook meets a check that the attacker's rook, which is on `from` now, gives from `to`. */
function answerTo(from: i32, to: i32): i32 {
  const king = squares[1];
  squares[attackerRookPiece] = to;
  let answer = NOT_MET;
  if (attacks(rookPiece, to)) answer = MET;
  else {
    const step = fileOf(to) > fileOf(king) ? 1 : -1;
    for (let square = king + step; square !== to; square += step) {
      if (!attacks(rookPiece, square)) continue;
      // stepping between, it must be guarded by its king and attacked by the checking rook alone
      let denied = distance(king, square) !== 1 || distance(squares[0], square) === 1;
      for (let n = 2; n < men; ++n)
        if (sides[n] === 0 && n !== attackerRookPiece && attacks(n, square)) denied = true;
      if (!denied) answer = MET;
      else if (answer === NOT_MET) answer = DENIED;
    }
  }
  squares[attackerRookPiece] = from;
  return answer;
}

/**
 * The check along the defender's edge that the attacker's rook could give if it were to move, the worst for the defender:
 * none, met by the defender's rook, met only where it would be lost, not met. NO_FACT without the rooks.
 */
export function edgeCheck(): i32 {
  if (attackerRookPiece === NONE || rookPiece === NONE) return NO_FACT;
  const king = squares[1];
  if (rankOf(king) !== 0) return 0;
  const from = squares[attackerRookPiece];
  let worst = 0;
  for (let to = 0; to < 8; ++to) {
    if (pieceOn(to) !== NONE || !attacks(attackerRookPiece, to)) continue;
    squares[attackerRookPiece] = to;
    const checks = attacks(attackerRookPiece, king);
    squares[attackerRookPiece] = from;
    if (!checks) continue;
    // a rook that the king takes gives no check that matters
    if (distance(king, to) === 1 && !sideAttacks(0, to)) continue;
    const answer = answerTo(from, to);
    if (answer > worst) worst = answer;
  }
  return worst;
}

/**
 * Files between the defender's rook and the attacker's king when it checks along the rank: the check it gives, or else the
 * best it could give, if it were to move, from where it could not be taken. NO_FACT where there is none.
 */
export function sideCheck(): i32 {
  if (rookPiece === NONE) return NO_FACT;
  const king = squares[0];
  const rook = squares[rookPiece];
  if (rankOf(rook) === rankOf(king) && attacks(rookPiece, king))
    return absolute(fileOf(rook) - fileOf(king)) - 1;
  let best = NO_FACT;
  listDefender();
  for (let n = 0; n < moveCount[DEFENDER]; ++n) {
    const at = DEFENDER * MOST_MOVES + n;
    const to = moveTo[at];
    if (movePiece[at] !== rookPiece || moveTaken[at] >= 0 || rankOf(to) !== rankOf(king)) continue;
    const room = absolute(fileOf(to) - fileOf(king)) - 1;
    if (room <= best) continue;
    const from = play(DEFENDER, n);
    if (attacks(rookPiece, king) && !canTakePiece(0, rookPiece)) best = room;
    takeBack(DEFENDER, n, from);
  }
  return best;
}

/** Whether a piece on `to` is in the way of a mate that threatened, between its squares or before the king. */
export function isInWay(to: i32, from: i32, mate: i32, king: i32): bool {
  return isOnWay(to, from, mate) || isOnWay(to, mate, king);
}

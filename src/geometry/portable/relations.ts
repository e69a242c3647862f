// How the pieces of a frame stand to each other: the bishop's wedge, pins, oppositions, lines that bar a king.

import {
  absolute,
  attackerRookPiece,
  attacks,
  bishopPiece,
  distance,
  endOfSide,
  fileOf,
  firstOfSide,
  isClear,
  NONE,
  pieceOn,
  pinLine,
  rankOf,
  rookPiece,
  sign,
  squares,
} from "./board";

/** The value of a fact that a placement hasn't. */
export const NO_FACT: i32 = -1;

/** Sides of the board as seen from the defender's king: 0 short, 1 its own file, 2 long. */
export function sideOf(square: i32): i32 {
  return sign(fileOf(square) - fileOf(squares[1])) + 1;
}

/** Files from the defender's king on rank 1, inside the bishop's wedge, to a foot (-1 short, 1 long); NO_FACT for none. */
export function depth(side: i32): i32 {
  if (bishopPiece === NONE) return NO_FACT;
  const king = squares[1];
  const bishop = squares[bishopPiece];
  if (rankOf(king) !== 0 || rankOf(bishop) < 1 || bishop > 63) return NO_FACT;
  const low = fileOf(bishop) - rankOf(bishop);
  const high = fileOf(bishop) + rankOf(bishop);
  if (fileOf(king) <= low || fileOf(king) >= high) return NO_FACT;
  if (side < 0) return low < 0 ? NO_FACT : fileOf(king) - low;
  return high > 7 ? NO_FACT : high - fileOf(king);
}
/** The same to the nearer foot. */
export function leastDepth(): i32 {
  const short = depth(-1);
  const long = depth(1);
  if (short === NO_FACT) return long;
  return long === NO_FACT || short < long ? short : long;
}
/**
 * The side of the nearer foot: -1 short, 1 long, 0 outside the wedge. Of two feet as near, the one on whose side the rook
 * is, otherwise the one with less room.
 */
export function footSide(): i32 {
  const short = depth(-1);
  const long = depth(1);
  const least = leastDepth();
  if (least === NO_FACT) return 0;
  if (short !== long) return short === least ? -1 : 1;
  return rookPiece !== NONE && fileOf(squares[rookPiece]) > fileOf(squares[1]) ? 1 : -1;
}

/** A rook on the file between its king and a foot at depth 2, with a clear way down to rank 1. */
export function holdsIntersection(): bool {
  if (rookPiece === NONE) return false;
  const rook = squares[rookPiece];
  for (let side = -1; side <= 1; side += 2) {
    if (depth(side) !== 2) continue;
    const meeting = fileOf(squares[1]) + side;
    if (fileOf(rook) !== meeting) continue;
    if (rook === meeting || (pieceOn(meeting) === NONE && isClear(rook, meeting))) return true;
  }
  return false;
}

/** The line (1 file, 2 rank) along which the rook pins the bishop to its king while the defender's king is on it too. */
export function rearPin(): i32 {
  if (rookPiece === NONE || bishopPiece === NONE) return 0;
  const rook = squares[rookPiece];
  const bishop = squares[bishopPiece];
  const attackerKing = squares[0];
  const king = squares[1];
  for (let line = 1; line <= 2; ++line) {
    const same = line === 1 ? fileOf(king) : rankOf(king);
    if ((line === 1 ? fileOf(rook) : rankOf(rook)) !== same) continue;
    if ((line === 1 ? fileOf(bishop) : rankOf(bishop)) !== same) continue;
    if ((line === 1 ? fileOf(attackerKing) : rankOf(attackerKing)) !== same) continue;
    const r = line === 1 ? rankOf(rook) : fileOf(rook);
    const b = line === 1 ? rankOf(bishop) : fileOf(bishop);
    const k = line === 1 ? rankOf(attackerKing) : fileOf(attackerKing);
    const d = line === 1 ? rankOf(king) : fileOf(king);
    // from the defender's king: the attacker's king, the bishop, the rook
    if (
      (r - b) * (b - k) > 0 &&
      (b - k) * (k - d) > 0 &&
      isClear(rook, bishop) &&
      isClear(bishop, attackerKing)
    )
      return line;
  }
  return 0;
}

/** Whether some piece of a side is pinned to its king. */
export function hasPinned(side: i32): bool {
  for (let n = firstOfSide(side); n < endOfSide(side); ++n) if (pinLine(n) > 0) return true;
  return false;
}

/** Whether a number is strictly between two others. */
export function isBetween(n: i32, a: i32, b: i32): bool {
  return (n - a) * (n - b) < 0;
}
/** The ranks or files strictly between two squares, the greater number. */
export function gap(a: i32, b: i32): i32 {
  const steps = distance(a, b);
  return steps > 0 ? steps - 1 : 0;
}

/** Kings two apart on a line (1) or a diagonal (2), a knight's move apart (3), four or six apart on a line (4). */
export function opposition(): i32 {
  const files = absolute(fileOf(squares[1]) - fileOf(squares[0]));
  const ranks = absolute(rankOf(squares[1]) - rankOf(squares[0]));
  const low = files < ranks ? files : ranks;
  const high = files < ranks ? ranks : files;
  if (low === 0) return high === 2 ? 1 : high === 4 || high === 6 ? 4 : 0;
  if (low === 2 && high === 2) return 2;
  return low === 1 && high === 2 ? 3 : 0;
}

/** What the defender's rook attacks: 1 the bishop, 2 the attacker's rook, 3 both. */
export function rookAttacks(): i32 {
  let hits = 0;
  if (bishopPiece !== NONE && attacks(rookPiece, squares[bishopPiece])) hits += 1;
  if (attackerRookPiece !== NONE && attacks(rookPiece, squares[attackerRookPiece])) hits += 2;
  return hits;
}

/** Where a king is towards something on a side of the defender's king (-1 short, 1 long): 1 on its side, 2 level, 3 away. */
export function towards(side: i32): i32 {
  if (side === 0) return 0;
  return 2 - side * sign(fileOf(squares[0]) - fileOf(squares[1]));
}

// Every fact of a placement that is turned as its frame is. The table with their names, values and meanings is
// geometry/fact-table.ts; a fact is known by its number there.

import {
  absolute,
  attackerRookPiece,
  bishopPiece,
  distance,
  fileOf,
  inCheck,
  lineOf,
  NONE,
  pinLine,
  rankOf,
  rookPiece,
  sideAttacks,
  sign,
  squares,
  turn,
} from "./board";
import { hasTwoEdges } from "./frame";
import * as F from "./numbers";
import {
  depth,
  footSide,
  gap,
  hasPinned,
  holdsIntersection,
  isBetween,
  leastDepth,
  NO_FACT,
  opposition,
  rearPin,
  rookAttacks,
  sideOf,
  towards,
} from "./relations";
import {
  canTake,
  countSafeSquares,
  edgeCheck,
  freePiece,
  hasDiscovery,
  hasFork,
  hasSkewer,
  keepListed,
  kingEscapes,
  lossThreat,
  mateThreat,
  safeOnFile,
  safeOnRank,
  safeSquares,
  sideCheck,
  stalemateResource,
  unlist,
} from "./threats";

function flag(truth: bool): i32 {
  return truth ? 1 : 0;
}

/** Facts of the kings alone. */
function ofKings(n: i32): i32 {
  const king = squares[1];
  const attackerKing = squares[0];
  switch (n) {
    case F.KING_RANK:
      return rankOf(king) + 1;
    case F.KING_FILE:
      return fileOf(king) + 1;
    case F.ATTACKER_KING_RANK:
      return rankOf(attackerKing) + 1;
    case F.ATTACKER_KING_FILE:
      return fileOf(attackerKing) + 1;
    case F.SHORT_ROOM:
      return fileOf(king);
    case F.LONG_ROOM:
      return 7 - fileOf(king);
    case F.KINGS_APART:
      return distance(king, attackerKing);
    case F.KINGS_FILES_APART:
      return absolute(fileOf(king) - fileOf(attackerKing));
    case F.LINES_BETWEEN_KINGS:
      return distance(king, attackerKing) - 1;
    case F.OPPOSITION:
      return opposition();
    case F.CORNER_STEPS:
      return fileOf(king) > rankOf(king) ? fileOf(king) : rankOf(king);
    case F.ATTACKER_KING_SIDE:
      return sideOf(attackerKing);
    default:
      return flag(hasTwoEdges());
  }
}

/** Facts of the defender's rook and the kings. */
function ofRook(n: i32): i32 {
  if (rookPiece === NONE) return NO_FACT;
  const king = squares[1];
  const rook = squares[rookPiece];
  switch (n) {
    case F.ROOK_RANK:
      return rankOf(rook) + 1;
    case F.ROOK_FILE:
      return fileOf(rook) + 1;
    case F.ROOK_SIDE:
      return sideOf(rook);
    case F.ROOK_FILES_APART:
      return absolute(fileOf(rook) - fileOf(king));
    case F.ROOK_LINE:
      return lineOf(rook, king) % 3;
    case F.ROOK_PLACE:
      return sign(rankOf(rook) - rankOf(squares[0])) + 1;
    case F.CHECKING_DISTANCE:
      return gap(rook, squares[0]);
    case F.ATTACKER_KING_ROOK:
      return towards(sideOf(rook) - 1);
    default: {
      const byRank = isBetween(rankOf(rook), rankOf(king), rankOf(squares[0]));
      return flag(byRank) + 2 * flag(isBetween(fileOf(rook), fileOf(king), fileOf(squares[0])));
    }
  }
}

/** Facts of the attacker's rook and the kings. */
function ofAttackerRook(n: i32): i32 {
  if (attackerRookPiece === NONE) return NO_FACT;
  const king = squares[1];
  const rook = squares[attackerRookPiece];
  switch (n) {
    case F.ATTACKER_ROOK_RANK:
      return rankOf(rook) + 1;
    case F.ATTACKER_ROOK_FILE:
      return fileOf(rook) + 1;
    case F.ATTACKER_ROOK_PLACE:
      return 1 - sign(rankOf(rook) - rankOf(king));
    case F.ATTACKER_CHECKING_DISTANCE:
      return gap(rook, king);
    case F.ATTACKER_ROOK_SIDE:
      return sideOf(rook);
    default:
      return flag(rankOf(rook) === rankOf(king) + 1) + 2 * flag(absolute(fileOf(rook) - fileOf(king)) === 1);
  }
}

/** Facts of the bishop and the kings. */
function ofBishop(n: i32): i32 {
  if (bishopPiece === NONE) return NO_FACT;
  const king = squares[1];
  const bishop = squares[bishopPiece];
  switch (n) {
    case F.BISHOP_RANK:
      return rankOf(bishop) + 1;
    case F.BISHOP_FILE:
      return fileOf(bishop) + 1;
    case F.BISHOP_SIDE:
      return sideOf(bishop);
    case F.BISHOP_FILES_APART:
      return absolute(fileOf(bishop) - fileOf(king));
    case F.WEDGE_DEPTH:
      return leastDepth();
    case F.WEDGE_DEPTH_SHORT:
      return depth(-1);
    case F.WEDGE_DEPTH_LONG:
      return depth(1);
    case F.BISHOP_FROM_KING:
      return distance(bishop, squares[0]);
    default:
      return (fileOf(bishop) + rankOf(bishop)) & 1;
  }
}

/** A fact of one piece that may be missing: attacked, guarded, pinned. */
function ofPiece(piece: i32, n: i32): i32 {
  if (piece === NONE) return NO_FACT;
  switch (n) {
    case F.ROOK_ATTACKED:
    case F.ATTACKER_ROOK_GUARDED:
    case F.BISHOP_GUARDED:
      return flag(sideAttacks(0, squares[piece]));
    case F.ROOK_GUARDED:
    case F.ATTACKER_ROOK_ATTACKED:
    case F.BISHOP_ATTACKED:
      return flag(sideAttacks(1, squares[piece]));
    default:
      return pinLine(piece);
  }
}

/** The safe squares of the placement at hand have been counted. */
let isCounted: bool = false;

/** A fact that counts what the defender's rook can do. */
function ofRookMoves(n: i32): i32 {
  if (rookPiece === NONE) return NO_FACT;
  switch (n) {
    case F.ROOK_ATTACKS:
      return rookAttacks();
    case F.STALEMATE_RESOURCE:
      return flag(stalemateResource());
    default:
      if (!isCounted) countSafeSquares();
      return n === F.ROOK_SAFE_SQUARES ? safeSquares : n === F.SPARE_MOVES_ON_RANK ? safeOnRank : safeOnFile;
  }
}

/** Facts that may depend on every piece. */
function ofAll(n: i32): i32 {
  switch (n) {
    case F.ROOK_HOLDS_INTERSECTION:
      return flag(holdsIntersection());
    case F.REAR_PIN_LINE:
      return rearPin();
    case F.PINNED:
      return flag(hasPinned(0)) + 2 * flag(hasPinned(1));
    case F.IN_CHECK:
      return flag(inCheck(turn));
    case F.FOOT_SIDE:
      return footSide() === 0 ? 0 : footSide() < 0 ? 1 : 2;
    case F.FOOT_ROOM:
      return footSide() === 0 ? NO_FACT : footSide() < 0 ? fileOf(squares[1]) : 7 - fileOf(squares[1]);
    case F.ATTACKER_KING_FOOT:
      return towards(footSide());
    case F.DISCOVERY:
      return flag(hasDiscovery(0)) + 2 * flag(hasDiscovery(1));
    case F.SKEWER:
      return flag(hasSkewer(0)) + 2 * flag(hasSkewer(1));
    case F.FORK:
      return flag(hasFork(0)) + 2 * flag(hasFork(1));
    case F.MATE_THREAT:
      return flag(mateThreat());
    case F.LOSS_THREAT:
      return lossThreat();
    case F.FREE_PIECE:
      return freePiece();
    case F.CAPTURE:
      return flag(canTake());
    case F.KING_ESCAPES:
      return kingEscapes();
    case F.SIDE_CHECK:
      return sideCheck();
    default:
      return edgeCheck();
  }
}

/** The value of a fact by its number; NO_FACT where the placement has none. */
export function fact(n: i32): i32 {
  switch (n) {
    case F.KING_RANK:
    case F.KING_FILE:
    case F.ATTACKER_KING_RANK:
    case F.ATTACKER_KING_FILE:
    case F.SHORT_ROOM:
    case F.LONG_ROOM:
    case F.KINGS_APART:
    case F.KINGS_FILES_APART:
    case F.LINES_BETWEEN_KINGS:
    case F.OPPOSITION:
    case F.CORNER_STEPS:
    case F.ATTACKER_KING_SIDE:
    case F.EQUAL_EDGES:
      return ofKings(n);
    case F.ROOK_RANK:
    case F.ROOK_FILE:
    case F.ROOK_SIDE:
    case F.ROOK_FILES_APART:
    case F.ROOK_LINE:
    case F.ROOK_PLACE:
    case F.CHECKING_DISTANCE:
    case F.ATTACKER_KING_ROOK:
    case F.ATTACKER_KING_BARRED:
      return ofRook(n);
    case F.ATTACKER_ROOK_RANK:
    case F.ATTACKER_ROOK_FILE:
    case F.ATTACKER_ROOK_PLACE:
    case F.ATTACKER_CHECKING_DISTANCE:
    case F.ATTACKER_ROOK_SIDE:
    case F.KING_CUT_OFF:
      return ofAttackerRook(n);
    case F.BISHOP_RANK:
    case F.BISHOP_FILE:
    case F.BISHOP_SIDE:
    case F.BISHOP_FILES_APART:
    case F.WEDGE_DEPTH:
    case F.WEDGE_DEPTH_SHORT:
    case F.WEDGE_DEPTH_LONG:
    case F.BISHOP_FROM_KING:
    case F.BISHOP_COLOUR:
      return ofBishop(n);
    case F.ROOK_ATTACKED:
    case F.ROOK_GUARDED:
    case F.ROOK_PIN:
      return ofPiece(rookPiece, n);
    case F.ATTACKER_ROOK_ATTACKED:
    case F.ATTACKER_ROOK_GUARDED:
    case F.ATTACKER_ROOK_PIN:
      return ofPiece(attackerRookPiece, n);
    case F.BISHOP_ATTACKED:
    case F.BISHOP_GUARDED:
    case F.BISHOP_PIN:
      return ofPiece(bishopPiece, n);
    case F.ROOK_ATTACKS:
    case F.STALEMATE_RESOURCE:
    case F.ROOK_SAFE_SQUARES:
    case F.SPARE_MOVES_ON_RANK:
    case F.SPARE_MOVES_ON_FILE:
      return ofRookMoves(n);
    default:
      return ofAll(n);
  }
}

/** The values of all facts, by number. */
export const values = new StaticArray<i32>(128);

export function allFacts(): void {
  keepListed();
  if (rookPiece !== NONE) countSafeSquares();
  isCounted = true;
  for (let n = 0; n < F.FACTS; ++n) values[n] = fact(n);
  isCounted = false;
  unlist();
}

// What a side could do, if it were its turn: facts that need legal moves, not only lines.

import { type MoveList as List, MoveList, OFF_BOARD } from "../chess/moves.js";
import { KINDS, type Kind, valueOf } from "../chess/material.js";
import { distance } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Side, type View, enemyOf, isClear, piecesOf, sideToMove } from "./lines.js";

/** Used again for every placement: the moves looked at, and the replies to one of them. */
const moves = new MoveList();
const replies = new MoveList();

type Board = Pick<View, "squares" | "movement" | "material">;

/** Plays move `n` of a list on `squares`, calls `then`, and takes it back. */
export function after<T>(squares: Square[], list: List, n: number, then: () => T): T {
  const piece = list.piece[n];
  const captured = list.captured[n];
  const from = squares[piece];
  squares[piece] = list.to[n];
  if (captured >= 0) squares[captured] = OFF_BOARD;
  try {
    return then();
  } finally {
    squares[piece] = from;
    if (captured >= 0) squares[captured] = list.to[n];
  }
}

/** A mate in one: the piece that gives it, from where and to where. */
export interface Mate {
  readonly piece: number;
  readonly from: Square;
  readonly to: Square;
}

/** The moves with which a side, if it were to move, would give mate at once. The other side must not be in check. */
export function matesInOne({ squares, movement }: Board, side: Side): Mate[] {
  const mates: Mate[] = [];
  movement.legalMoves(squares, side === 0, moves);
  for (let n = 0; n < moves.count; ++n) {
    const mated = after(squares, moves, n, () => {
      if (!movement.inCheck(squares, enemyOf(side))) return false;
      movement.legalMoves(squares, side === 1, replies);
      return replies.count === 0;
    });
    if (mated) mates.push({ piece: moves.piece[n], from: squares[moves.piece[n]], to: moves.to[n] });
  }
  return mates;
}

/** Whether the side to move, if it passed, would be mated at once. A check is no threat but the thing itself. */
export function mateThreat(view: View): boolean {
  const side = sideToMove(view);
  if (view.movement.inCheck(view.squares, side)) return false;
  return matesInOne(view, enemyOf(side)).length > 0;
}

/** Words for the piece that is threatened. */
export const LOSSES = ["none", ...KINDS] as const;

/**
 * Calls `then` for each legal capture of piece `m` by a side, with the capture played on the board, until it gives true;
 * whether it did.
 */
function someCapture(
  { squares, movement, material }: Board,
  side: Side,
  m: number,
  then: (by: number) => boolean,
): boolean {
  const square = squares[m];
  const pieces = piecesOf(side, material);
  for (let n = -1; n < pieces.length; ++n) {
    const piece = n < 0 ? side : pieces[n];
    const from = squares[piece];
    if (n < 0 ? distance(from, square) !== 1 : !movement.attacks(squares, piece, square)) continue;
    squares[piece] = square;
    squares[m] = OFF_BOARD;
    const found = !movement.inCheck(squares, side) && then(piece);
    squares[piece] = from;
    squares[m] = square;
    if (found) return true;
  }
  return false;
}
const yes = () => true;
const WORTH = KINDS.map((_, kind) => valueOf([kind as Kind]));

/**
 * The most valuable piece that a side, if it were to move, could take and not be taken back, or for less. As a place in
 * `LOSSES`.
 */
function prize(view: View, taker: Side): number {
  const { movement, material } = view;
  const owner = enemyOf(taker);
  const pieces = piecesOf(owner, material);
  let most = 0;
  let found = 0;
  for (let n = 0; n < pieces.length; ++n) {
    const kind = movement.kindOf(pieces[n])!;
    const value = WORTH[kind];
    someCapture(view, taker, pieces[n], (by) => {
      const given = movement.kindOf(by);
      const free = given === undefined || !someCapture(view, owner, by, yes);
      const gain = value - (free ? 0 : WORTH[given]);
      if (gain > most) [most, found] = [gain, kind + 1];
      return false;
    });
  }
  return found;
}

/** The piece that the side to move could take for nothing, or for less. */
export const freePiece = (view: View): number => prize(view, sideToMove(view));

/** The piece that the side to move would lose if it passed. A check is no threat but the thing itself. */
export function lossThreat(view: View): number {
  const side = sideToMove(view);
  return view.movement.inCheck(view.squares, side) ? 0 : prize(view, enemyOf(side));
}

/** Whether the side to move has a legal capture. */
export function canTake(view: View): boolean {
  const side = sideToMove(view);
  return piecesOf(enemyOf(side), view.material).some((n) => someCapture(view, side, n, yes));
}

/** Squares the defender's king could step to if it were the defender's move. */
export function kingEscapes({ squares, movement, king }: View): number {
  let count = 0;
  movement.legalMoves(squares, false, moves);
  for (let n = 0; n < moves.count; ++n) if (squares[moves.piece[n]] === king) ++count;
  return count;
}

/** Empty squares the defender's rook could go to if it were the defender's move, where nothing could take it. */
export function safeSquares(view: View, rook: number): number {
  const { squares, movement } = view;
  let count = 0;
  movement.legalMoves(squares, false, moves);
  for (let n = 0; n < moves.count; ++n) {
    if (moves.piece[n] !== rook || moves.captured[n] >= 0) continue;
    if (!after(squares, moves, n, () => someCapture(view, 0, rook, yes))) ++count;
  }
  return count;
}

/** Whether the defender's rook stands to be taken by the attacker, and every way to take it gives stalemate. */
function isImmune(view: Board, rook: number): boolean {
  const { squares, movement } = view;
  let taken = 0;
  movement.legalMoves(squares, true, replies);
  for (let n = 0; n < replies.count; ++n) {
    if (replies.captured[n] !== rook) continue;
    ++taken;
    const stalemate = after(squares, replies, n, () => {
      if (movement.inCheck(squares, 1)) return false;
      movement.legalMoves(squares, false, last);
      return last.count === 0;
    });
    if (!stalemate) return false;
  }
  return taken > 0;
}
const last = new MoveList();

/**
 * A stalemate resource of the defender's: with the attacker to move the rook cannot be taken, since that would be
 * stalemate; with the defender to move there is a move of the rook after which it is so.
 */
export function stalemateResource(view: View, rook: number): boolean {
  const { squares, movement } = view;
  if (view.attackerToMove) return isImmune(view, rook);
  // without the rook the king must have no move
  if (kingEscapes(view) > 0 && !movement.inCheck(squares, 1)) {
    const bare = squares[rook];
    squares[rook] = OFF_BOARD;
    const free = kingEscapes(view) > 0;
    squares[rook] = bare;
    if (free && distance(view.king, bare) > 1) return false;
  }
  movement.legalMoves(squares, false, moves);
  for (let n = 0; n < moves.count; ++n) {
    if (moves.piece[n] !== rook || moves.captured[n] >= 0) continue;
    if (after(squares, moves, n, () => isImmune(view, rook))) return true;
  }
  return false;
}
/** What the defender's rook attacks. */
export const TARGETS = ["none", "bishop", "rook", "both"] as const;
export const rookAttacks = ({ rook, bishop, attackerRook, squares, movement }: View): number => {
  const n = squares.indexOf(rook!);
  const hits = (target: Square | undefined) => target !== undefined && movement.attacks(squares, n, target);
  return (hits(bishop) ? 1 : 0) + (hits(attackerRook) ? 2 : 0);
};

/** Words for the side that has something. */
export const HOLDERS = ["none", "attacker", "defender", "both"] as const;
const holders = (has: (side: Side) => boolean): number => (has(0) ? 1 : 0) + (has(1) ? 2 : 0);

/** The side whose piece, or king, stands alone between its own piece of a line and the enemy's king. */
export const discovery = ({ squares, movement, material }: View): number =>
  holders((side) => {
    const target = squares[enemyOf(side)];
    const lines = piecesOf(side, material);
    return lines.some(
      (n) =>
        !movement.attacks(squares, n, target) &&
        [side, ...lines].some((m) => m !== n && movement.attacks(squares, n, target, m)),
    );
  });

/** The side that gives check along a line on which an enemy piece stands behind the king. */
export const skewer = ({ squares, movement, material }: View): number =>
  holders((side) => {
    const enemy = enemyOf(side);
    const king = squares[enemy];
    return piecesOf(side, material).some(
      (n) =>
        movement.attacks(squares, n, king) &&
        piecesOf(enemy, material).some(
          (m) =>
            isClear(squares, king, squares[m]) &&
            !movement.attacks(squares, n, squares[m]) &&
            movement.attacks(squares, n, squares[m], enemy),
        ),
    );
  });

/** The side of which one piece gives check and attacks another piece as well. */
export const fork = ({ squares, movement, material }: View): number =>
  holders((side) => {
    const enemy = enemyOf(side);
    return piecesOf(side, material).some(
      (n) =>
        movement.attacks(squares, n, squares[enemy]) &&
        piecesOf(enemy, material).some((m) => movement.attacks(squares, n, squares[m])),
    );
  });

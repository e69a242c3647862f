// Tests of one position by the rules alone: mates in one, pieces that can be taken for nothing, lines beyond a king.

import { type Square, opposite } from "chessops";
import { ray } from "chessops/attacks";
import type { Chess } from "chessops/chess";

/** A move by its squares. */
export interface Step {
  readonly from: Square;
  readonly to: Square;
}

/** Every legal move. */
export const movesOf = (position: Chess): Step[] =>
  [...position.allDests()].flatMap(([from, targets]) => [...targets].map((to) => ({ from, to })));

/** The position after a move. */
export function after(position: Chess, { from, to }: Step): Chess {
  const next = position.clone();
  next.play({ from, to });
  return next;
}

/** The position with the other side to move; undefined where the side that passes is in check. */
export function passed(position: Chess): Chess | undefined {
  if (position.isCheck()) return undefined;
  const next = position.clone();
  next.turn = opposite(position.turn);
  return next;
}

/** Moves that mate at once. */
export const matesIn = (position: Chess): Step[] =>
  movesOf(position).filter((move) => after(position, move).isCheckmate());

/** Squares of pieces that can be taken, and cannot be taken back. */
export function freeSquares(position: Chess): Set<Square> {
  const free = new Set<Square>();
  for (const move of movesOf(position)) {
    if (!position.board.occupied.has(move.to)) continue;
    const next = after(position, move);
    if (!next.isStalemate() && !movesOf(next).some(({ to }) => to === move.to)) free.add(move.to);
  }
  return free;
}

/** Squares between two on a line, both left out; undefined where they are on none. */
export function lineBetween(a: Square, b: Square): Square[] | undefined {
  const line = ray(a, b);
  if (line.isEmpty()) return undefined;
  const [low, high] = [Math.min(a, b), Math.max(a, b)];
  return [...line].filter((square) => square > low && square < high);
}

/** The first piece behind a square, seen from another on a line with it. */
export function behind(position: Chess, from: Square, over: Square): Square | undefined {
  const line = ray(from, over);
  const beyond = [...line].filter((square) => (over > from ? square > over : square < over));
  if (over < from) beyond.reverse();
  return beyond.find((square) => position.board.occupied.has(square));
}

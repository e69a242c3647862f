// How the pieces of a frame stand to each other: sides, pins, oppositions and cut-off lines, with the words for them.

import { distance, fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Side, type View, depths, isClear, piecesOf, pinLine } from "./lines.js";

/** Sides of the board as seen from the defender's king. */
export const SIDES = ["short", "king's file", "long"] as const;
/** The side on which a square is, as its place in `SIDES`. */
export const sideOf = (square: Square, king: Square) => Math.sign(fileOf(square) - fileOf(king)) + 1;

/** A rook on the file between its king and a foot at depth 2, with a clear way down to rank 1. */
export function holdsIntersection(view: View): boolean {
  if (view.rook === undefined) return false;
  const { short, long } = depths(view);
  return (
    [
      [short, -1],
      [long, 1],
    ] as const
  ).some(([depth, step]) => {
    if (depth !== 2) return false;
    const meeting = fileOf(view.king) + step; // on rank 1
    if (fileOf(view.rook!) !== meeting) return false;
    return (
      view.rook === meeting || (!view.squares.includes(meeting) && isClear(view.squares, view.rook!, meeting))
    );
  });
}

export const REAR_PINS = ["none", "file", "rank"] as const;

/** The line along which the rook pins the bishop to its king while the defender's king stands on it too. */
export function rearPin(view: View): number {
  const { rook, bishop, attackerKing, king } = view;
  if (rook === undefined || bishop === undefined) return 0;
  for (const [n, same] of [
    [1, fileOf],
    [2, rankOf],
  ] as const) {
    if ([rook, bishop, attackerKing].some((square) => same(square) !== same(king))) continue;
    const along = n === 1 ? rankOf : fileOf;
    const inOrder = (along(rook) - along(bishop)) * (along(bishop) - along(attackerKing)) > 0;
    if (inOrder && isClear(view.squares, rook, bishop) && isClear(view.squares, bishop, attackerKing))
      return n;
  }
  return 0;
}

/** Whether some piece of a side may not leave its line because its king stands behind. */
export const hasPinned = (view: View, side: Side): boolean =>
  piecesOf(side, view.material).some((n) => pinLine(view, n) > 0);

/** The line along which the piece on a square is pinned to its king. */
export const pinAt = (view: View, square: Square) => pinLine(view, view.squares.indexOf(square));

/** Where a piece stands seen from the edge that the defender is held at, next to another. */
export const PLACES = ["in front", "beside", "behind"] as const;
/** Lines that bar a king's way. */
export const BARS = ["none", "rank", "file", "both"] as const;
/** Whether a number is strictly between two others. */
export const isBetween = (n: number, a: number, b: number) => (n - a) * (n - b) < 0;
/** The ranks and files strictly between two squares, the greater number. */
export const gap = (a: Square, b: Square) => Math.max(0, distance(a, b) - 1);

export const OPPOSITIONS = ["none", "direct", "diagonal", "knight's move", "distant"] as const;

/** Kings two apart on a line (direct) or a diagonal, a knight's move apart, or four or six apart on a line. */
export function opposition(view: View): number {
  const df = Math.abs(fileOf(view.king) - fileOf(view.attackerKing));
  const dr = Math.abs(rankOf(view.king) - rankOf(view.attackerKing));
  const [low, high] = df < dr ? [df, dr] : [dr, df];
  if (low === 0) return high === 2 ? 1 : high === 4 || high === 6 ? 4 : 0;
  if (low === 2 && high === 2) return 2;
  return low === 1 && high === 2 ? 3 : 0;
}

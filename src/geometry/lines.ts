// Lines of a placement: what stands between two squares, who attacks and guards whom, pins, and the bishop's wedge.
// Squares are those of the frame.

import type { Movement } from "../chess/moves.js";
import { FIRST_PIECE, firstDefender } from "../chess/placement.js";
import type { Material } from "../chess/material.js";
import { distance, fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";

/** The pieces of a frame by their role; what facts are computed from. */
export interface View {
  readonly king: Square;
  readonly attackerKing: Square;
  readonly rook: Square | undefined;
  readonly attackerRook: Square | undefined;
  readonly bishop: Square | undefined;
  readonly attackerToMove: boolean;
  /** Squares of all pieces, in a placement's order. */
  readonly squares: Square[];
  readonly material: Material;
  readonly movement: Movement;
}

/** 0 the attacker, 1 the defender. */
export type Side = 0 | 1;
export const enemyOf = (side: Side): Side => (1 - side) as Side;
export const sideToMove = ({ attackerToMove }: Pick<View, "attackerToMove">): Side =>
  attackerToMove ? 0 : 1;

export const file = (square: Square): number => fileOf(square) + 1;
export const rank = (square: Square): number => rankOf(square) + 1;

/** Names of lines, in the order of their stored numbers. */
export const LINES = ["none", "rank", "file", "diagonal"] as const;

/** The line that two different squares share, as its place in `LINES`. */
export function lineOf(a: Square, b: Square): number {
  if (rankOf(a) === rankOf(b)) return 1;
  if (fileOf(a) === fileOf(b)) return 2;
  return Math.abs(fileOf(a) - fileOf(b)) === Math.abs(rankOf(a) - rankOf(b)) ? 3 : 0;
}

/** From one square of a line to the next one towards another square of it. */
const stepTo = (a: Square, b: Square) =>
  Math.sign(fileOf(b) - fileOf(a)) + 8 * Math.sign(rankOf(b) - rankOf(a));

/** Squares strictly between two squares of one line; undefined if they share none or are one. */
export function between(a: Square, b: Square): Square[] | undefined {
  if (a === b || lineOf(a, b) === 0) return undefined;
  const step = stepTo(a, b);
  const squares: Square[] = [];
  for (let s = a + step; s !== b; s += step) squares.push(s);
  return squares;
}

/** Whether two squares share a line with nothing between them. */
export function isClear(squares: readonly Square[], a: Square, b: Square): boolean {
  if (a === b || lineOf(a, b) === 0) return false;
  const step = stepTo(a, b);
  for (let s = a + step; s !== b; s += step) if (squares.includes(s)) return false;
  return true;
}

const pieces = new WeakMap<Material, readonly [readonly number[], readonly number[]]>();

/** Indices in a placement's squares of a side's pieces beside its king. */
export function piecesOf(side: Side, material: Material): readonly number[] {
  let both = pieces.get(material);
  if (!both) {
    const all = Array.from({ length: material.men - FIRST_PIECE }, (_, n) => FIRST_PIECE + n);
    const defenders = firstDefender(material);
    both = [all.filter((n) => n < defenders), all.filter((n) => n >= defenders)];
    pieces.set(material, both);
  }
  return both[side];
}

/** Whether a side attacks a square; its king counts. */
export function attacks({ movement, squares, material }: View, side: Side, target: Square): boolean {
  if (distance(squares[side], target) === 1) return true;
  const own = piecesOf(side, material);
  for (let n = 0; n < own.length; ++n)
    if (squares[own[n]] !== target && movement.attacks(squares, own[n], target)) return true;
  return false;
}

/**
 * The line along which piece `n` (not a king) is pinned to its own king, as its place in `LINES`: it stands alone
 * between that king and an enemy piece that moves along the line.
 */
export function pinLine(view: View, n: number): number {
  const { movement, squares, material } = view;
  const side = movement.sideOf(n);
  const king = squares[side];
  const line = lineOf(king, squares[n]);
  if (line === 0 || !isClear(squares, king, squares[n])) return 0;
  const enemies = piecesOf(enemyOf(side), material);
  const pinned = enemies.some(
    (m) => !movement.attacks(squares, m, king) && movement.attacks(squares, m, king, n),
  );
  return pinned ? line : 0;
}

/** Files (1 to 8) at which the bishop's diagonals meet rank 1, where they do so on the board. */
export interface Feet {
  readonly short?: number;
  readonly long?: number;
}

/** The feet of the bishop's wedge, if the king stands on rank 1 strictly between them. */
export function feet({ bishop, king }: Pick<View, "bishop" | "king">): Feet | undefined {
  if (bishop === undefined || rank(king) !== 1 || rank(bishop) < 2) return undefined;
  const low = file(bishop) - (rank(bishop) - 1);
  const high = file(bishop) + (rank(bishop) - 1);
  if (file(king) <= low || file(king) >= high) return undefined;
  return { short: low >= 1 ? low : undefined, long: high <= 8 ? high : undefined };
}

/** Files from the king to each foot, and to the nearer; null where there is none. */
export function depths(view: Pick<View, "bishop" | "king">): {
  readonly short: number | null;
  readonly long: number | null;
  readonly least: number | null;
} {
  const found = feet(view);
  const short = found?.short === undefined ? null : file(view.king) - found.short;
  const long = found?.long === undefined ? null : found.long - file(view.king);
  return { short, long, least: short === null ? long : long === null ? short : Math.min(short, long) };
}

/**
 * The side of the nearer foot: -1 short, 1 long, 0 outside the wedge. Of two feet as near, the one on whose side
 * the rook stands, otherwise the one with less room.
 */
export function footSide(view: View): -1 | 0 | 1 {
  const { short, long, least } = depths(view);
  if (least === null) return 0;
  if (short !== long) return short === least ? -1 : 1;
  return view.rook !== undefined && fileOf(view.rook) > fileOf(view.king) ? 1 : -1;
}

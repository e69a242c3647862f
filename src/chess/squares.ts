// Squares, and the eight symmetries of a board without pawns.

import type { Square } from "./units.js";

export const fileOf = (square: Square): number => square & 7;
export const rankOf = (square: Square): number => square >> 3;

/** "e4" for 28. */
export const squareName = (square: Square): string => "abcdefgh"[square & 7] + String((square >> 3) + 1);

/** 28 for "e4"; undefined for anything that is not a square. */
export function parseSquare(name: string): Square | undefined {
  return /^[a-h][1-8]$/.test(name) ? (name.charCodeAt(1) - 49) * 8 + name.charCodeAt(0) - 97 : undefined;
}

const DISTANCES = Uint8Array.from({ length: 64 * 64 }, (_, n) => {
  const [a, b] = [n >> 6, n & 63];
  return Math.max(Math.abs(fileOf(a) - fileOf(b)), Math.abs(rankOf(a) - rankOf(b)));
});
/** Number of king steps between two squares. */
export const distance = (a: Square, b: Square): number => DISTANCES[(a << 6) | b];

/** One of the eight symmetries: bit 0 mirrors the files, bit 1 the ranks, bit 2 then swaps files and ranks. */
export type Symmetry = number;
export const SYMMETRIES: readonly Symmetry[] = [0, 1, 2, 3, 4, 5, 6, 7];

/** Image of a square under a symmetry. */
export function imageOf(symmetry: Symmetry, square: Square): Square {
  const flipped = square ^ (symmetry & 1 ? 7 : 0) ^ (symmetry & 2 ? 56 : 0);
  return symmetry & 4 ? (flipped >> 3) | ((flipped & 7) << 3) : flipped;
}

/** The symmetry that undoes another. */
export const inverseOf = (symmetry: Symmetry): Symmetry =>
  SYMMETRIES.find((other) =>
    [1, 10].every((square) => imageOf(other, imageOf(symmetry, square)) === square),
  )!;

/** The same as a table: IMAGES[symmetry × 64 + square]. */
export const IMAGES = Uint8Array.from(
  SYMMETRIES.flatMap((g) => Array.from({ length: 64 }, (_, square) => imageOf(g, square))),
);

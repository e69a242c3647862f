// Repeatable randomness: numbers, placements, and an order of placements that depends on a seed only.

import type { Material } from "./material.js";
import { Movement } from "./moves.js";
import type { Placement } from "./placement.js";

/** Repeatable random numbers, 0 ≤ x < 1 (xorshift, Marsaglia 2003), others for every seed but 0, which stands for 1. */
export function randomNumbers(seed: number): () => number {
  // of 0 the generator makes nothing but zeros
  let state = seed | 0 || 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
}

/** A random legal placement: no two pieces on a square, the side not to move not in check. */
export function randomPlacement(
  material: Material,
  random: () => number,
  movement = new Movement(material),
): Placement {
  for (;;) {
    const squares = Array.from({ length: material.men }, () => Math.floor(random() * 64));
    const attackerToMove = random() < 0.5;
    if (new Set(squares).size < squares.length) continue;
    if (!movement.inCheck(squares, attackerToMove ? 1 : 0)) return { squares, attackerToMove };
  }
}

/** A hash of a placement and a seed, 32 bits (FNV-1a, then mixed): placements in its order are in random order. */
export function placementHash(squares: readonly number[], attackerToMove: boolean, seed: number): number {
  let hash = 0x811c9dc5 ^ seed;
  for (const square of squares) hash = Math.imul(hash ^ square, 0x01000193);
  hash = Math.imul(hash ^ (attackerToMove ? 65 : 66), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x7feb352d);
  hash = Math.imul(hash ^ (hash >>> 15), 0x846ca68b);
  return (hash ^ (hash >>> 16)) >>> 0;
}

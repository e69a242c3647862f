// The frame: one of the eight symmetric twins of a placement, chosen so that the same picture always gives the
// same words. The edge nearest to the defender's king is rank 1 and that king stands on files a to d.

import type { Material } from "../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, type Placement } from "../chess/placement.js";
import { SYMMETRIES, type Symmetry, fileOf, imageOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";

/** A placement seen in its frame: same order of pieces, equal pieces of a side by square. */
export interface Frame {
  readonly squares: readonly Square[];
  readonly attackerToMove: boolean;
}

/** Negative where `a` is to be preferred: the rules for twins that both qualify (DEVELOPERS.md, the frame). */
function compareTwins(a: readonly Square[], b: readonly Square[]): number {
  const lead = (s: readonly Square[]) => rankOf(s[ATTACKER_KING]) - rankOf(s[DEFENDER_KING]);
  const apart = (s: readonly Square[]) => Math.abs(fileOf(s[ATTACKER_KING]) - fileOf(s[DEFENDER_KING]));
  if (lead(a) !== lead(b)) return lead(b) - lead(a);
  if (apart(a) !== apart(b)) return apart(a) - apart(b);
  if (a[ATTACKER_KING] !== b[ATTACKER_KING]) return a[ATTACKER_KING] - b[ATTACKER_KING];
  for (let n = FIRST_PIECE; n < a.length; ++n) if (a[n] !== b[n]) return a[n] - b[n];
  return 0;
}

/** Orders the squares of equal pieces of one side. */
function sortEqualPieces(squares: Square[], material: Material): void {
  for (const [pieces, first] of [
    [material.attacker, FIRST_PIECE],
    [material.defender, FIRST_PIECE + material.attacker.length],
  ] as const) {
    for (let n = 0; n < pieces.length;) {
      let end = n + 1;
      while (end < pieces.length && pieces[end] === pieces[n]) ++end;
      if (end === n + 1) {
        n = end;
        continue;
      }
      const part = squares.slice(first + n, first + end).sort((a, b) => a - b);
      part.forEach((square, m) => (squares[first + n + m] = square));
      n = end;
    }
  }
}

/** The frame of a placement, and the symmetry that leads to it. */
function turn({ squares }: Placement, material: Material): { squares: Square[]; symmetry: Symmetry } {
  let best: Square[] | undefined;
  let by: Symmetry = 0;
  for (const symmetry of SYMMETRIES) {
    const king = imageOf(symmetry, squares[DEFENDER_KING]);
    if (fileOf(king) > 3 || rankOf(king) > fileOf(king)) continue;
    const twin = squares.map((square) => imageOf(symmetry, square));
    sortEqualPieces(twin, material);
    if (!best || compareTwins(twin, best) < 0) [best, by] = [twin, symmetry];
  }
  return { squares: best!, symmetry: by };
}

/** The frame of a placement. */
export const frameOf = (placement: Placement, material: Material): Frame => ({
  squares: turn(placement, material).squares,
  attackerToMove: placement.attackerToMove,
});

/** The symmetry that turns a placement into its frame. */
export const symmetryOf = (placement: Placement, material: Material): Symmetry =>
  turn(placement, material).symmetry;

// The frame: one of the eight symmetric twins of a placement, chosen so that the same picture always gives the
// same words. The edge nearest to the defender's king is rank 1 and that king stands on files a to d.

import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import type { Square } from "../chess/units.js";
import { kernelOf } from "./geometry-kernel.js";

/** A placement seen in its frame: same order of pieces, equal pieces of a side by square. */
export interface Frame {
  readonly squares: readonly Square[];
  readonly attackerToMove: boolean;
}

/** The frame of a placement (DEVELOPERS.md, definitions). */
export function frameOf({ squares, attackerToMove }: Placement, material: Material): Frame {
  const kernel = kernelOf(material);
  kernel.place(squares, attackerToMove);
  kernel.toSortedFrame();
  return { squares: [...kernel.squares], attackerToMove };
}

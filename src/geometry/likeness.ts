// How like two placements of one material are: how far their men stand apart, counted in king's steps, when one of
// them is turned so that they stand nearest.

import { type Placement, placementAt } from "../chess/placement.js";
import { SYMMETRIES, type Symmetry, distance, imageOf, inverseOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";

/** Nobody's likeness: as far as any two placements can be. */
export const FARTHEST = 255;

/**
 * Measures placements against one. The likeness is the sum over the men of their king's steps to the like man of a
 * twin of the other placement, the least over its eight twins; a turn that differs counts for one step.
 */
export class Likeness {
  /** The squares of each twin that differs from those before it, and the symmetry that leads to it. */
  private readonly twins: readonly { readonly squares: readonly Square[]; readonly symmetry: Symmetry }[];

  /** `turn` says whether it matters whose move it is. */
  constructor(
    readonly placement: Placement,
    private readonly turn: boolean,
  ) {
    const twins = SYMMETRIES.map((symmetry) => ({
      symmetry,
      squares: placement.squares.map((square) => imageOf(symmetry, square)),
    }));
    this.twins = twins.filter(
      ({ squares }, n) => twins.findIndex((twin) => twin.squares.join() === squares.join()) === n,
    );
  }

  private stepsTo(number: number, twin: readonly Square[], enough: number): number {
    let steps = 0;
    let rest = number;
    for (let n = twin.length - 1; n >= 0 && steps < enough; --n) {
      steps += distance(rest & 63, twin[n]);
      rest >>>= 6;
    }
    return steps;
  }

  private isOtherTurn(number: number): boolean {
    const defenderToMove = number >>> (6 * this.placement.squares.length) === 1;
    return this.turn && defenderToMove === this.placement.attackerToMove;
  }

  /** Steps from a placement given by its number (see `placementNumber`). Equal men are not exchanged. */
  of(number: number): number {
    let least = FARTHEST;
    for (const { squares } of this.twins) {
      const steps = this.stepsTo(number, squares, least);
      if (steps < least) least = steps;
    }
    return least + (this.isOtherTurn(number) ? 1 : 0);
  }

  /** What differs in the nearest twin: men that stand elsewhere, on squares as the placement asked about has them. */
  nearest(number: number): {
    readonly moved: readonly { readonly man: number; readonly from: Square; readonly to: Square }[];
    readonly otherTurn: boolean;
  } {
    const { placement } = this;
    const steps = this.twins.map(({ squares }) => this.stepsTo(number, squares, FARTHEST));
    const { symmetry } = this.twins[steps.indexOf(Math.min(...steps))];
    const back = inverseOf(symmetry);
    const other = placementAt(number, placement.squares.length).squares.map((square) =>
      imageOf(back, square),
    );
    const moved = placement.squares.flatMap((from, man) =>
      other[man] === from ? [] : [{ man, from, to: other[man] }],
    );
    return { moved, otherTurn: this.isOtherTurn(number) };
  }
}

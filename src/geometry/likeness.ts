// How like two placements of one material are: how far their pieces stand apart, counted in king's steps, when one of
// them is turned so that they stand nearest.

import { type Placement, placementAt } from "../chess/placement.js";
import { SYMMETRIES, type Symmetry, distance, imageOf, inverseOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";

/** Nobody's likeness: as far as any two placements can be. */
export const FARTHEST = 255;

/**
 * Measures placements against one. The likeness is the sum over the pieces of their king's steps to the like piece of a
 * twin of the other placement, the least over its eight twins; a different side to move counts as one step.
 */
export class Likeness {
  /** The squares of each twin that differs from those before it, and the symmetry that leads to it. */
  private readonly twins: readonly { readonly squares: readonly Square[]; readonly symmetry: Symmetry }[];
  /** The bits of a placement's number that hold squares. */
  private readonly pieces: number;
  /** By pairs of pieces from the last to the first, by twin, by the squares of both: their steps together. */
  private readonly pairs: readonly Uint8Array[];

  /** `turn`: whether the side to move matters. */
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
    this.pieces = 2 ** (6 * placement.squares.length) - 1;
    const pairs = Math.ceil(placement.squares.length / 2);
    this.pairs = Array.from({ length: pairs }, (_, pair) => this.pairTable(2 * pair));
  }

  /** Steps of the pieces `back` and `back` + 1 from the last, of which the second may be missing. */
  private pairTable(back: number): Uint8Array {
    const table = new Uint8Array(this.twins.length << 12);
    this.twins.forEach(({ squares }, twin) => {
      const last = squares.length - 1 - back;
      for (let at = 0; at < 4096; ++at) {
        const second = last > 0 ? distance(squares[last - 1], at >> 6) : 0;
        table[(twin << 12) | at] = distance(squares[last], at & 63) + second;
      }
    });
    return table;
  }

  /** Steps to twin `twin`, or some number above `enough` if they are more. */
  private stepsTo(number: number, twin: number, enough: number): number {
    const { pairs } = this;
    let steps = 0;
    let rest = number & this.pieces;
    for (let pair = 0; pair < pairs.length && steps <= enough; ++pair) {
      steps += pairs[pair][(twin << 12) | (rest & 4095)];
      rest >>>= 12;
    }
    return steps;
  }

  private isOtherTurn(number: number): boolean {
    const defenderToMove = number >>> (6 * this.placement.squares.length) === 1;
    return this.turn && defenderToMove === this.placement.attackerToMove;
  }

  /**
   * Steps from a placement given by its number (see `placementNumber`); FARTHEST if they are more than `enough`. Equal
   * pieces are not exchanged.
   */
  of(number: number, enough = FARTHEST - 1): number {
    let least = enough + 1;
    for (let twin = 0; twin < this.twins.length; ++twin) {
      const steps = this.stepsTo(number, twin, least - 1);
      if (steps < least) least = steps;
    }
    const steps = least + (this.isOtherTurn(number) ? 1 : 0);
    return steps > enough ? FARTHEST : steps;
  }

  /** The same for many placements at once, written to `into`. */
  measure(numbers: ArrayLike<number>, enough: number, into: Uint8Array): void {
    for (let n = 0; n < into.length; ++n) into[n] = this.of(numbers[n], enough);
  }

  /** How a placement has to be turned to stand nearest to the one asked about. */
  towards(number: number): Symmetry {
    const steps = this.twins.map((_, twin) => this.stepsTo(number, twin, FARTHEST));
    return inverseOf(this.twins[steps.indexOf(Math.min(...steps))].symmetry);
  }

  /** What differs in the nearest twin: pieces that stand elsewhere, on squares as the placement asked about has them. */
  nearest(number: number): {
    readonly moved: readonly { readonly piece: number; readonly from: Square; readonly to: Square }[];
    readonly otherTurn: boolean;
  } {
    const { placement } = this;
    const back = this.towards(number);
    const other = placementAt(number, placement.squares.length).squares.map((square) =>
      imageOf(back, square),
    );
    const moved = placement.squares.flatMap((from, piece) =>
      other[piece] === from ? [] : [{ piece, from, to: other[piece] }],
    );
    return { moved, otherTurn: this.isOtherTurn(number) };
  }
}

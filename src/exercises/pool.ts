// Candidates as numbers, so that millions of them need no object each, and the random order in which they are looked at:
// the same for the same seed.

import type { Material } from "../chess/material.js";
import { type Placement, placementAt, placementNumber } from "../chess/placement.js";
import { placementHash } from "../chess/random.js";
import type { Ply } from "../chess/units.js";
import { frameOf } from "../geometry/frame.js";
import { growingInts } from "../growing.js";

/** A position in its frame, and the ending of the database that it comes from, if any. */
export interface Candidate {
  readonly placement: Placement;
  readonly from?: { readonly ending: number; readonly ply: Ply };
}

/** A candidate with its place in the order; twins have the same. */
export interface Drawn {
  readonly candidate: Candidate;
  /** 32 bits. */
  readonly hash: number;
}

/** Candidates that are put in order at once, about; mostly the first of them are enough. */
const BAND = 1 << 16;

/** Positions of one material, out of games or out of the whole table. */
export class Pool {
  private readonly numbers = growingInts();
  private readonly endings = growingInts();
  private readonly plies = growingInts();

  /** `isOfGames`: whether every position comes from an ending. */
  constructor(
    private readonly material: Material,
    readonly isOfGames: boolean,
  ) {}

  /** Placements of no game. */
  static of(material: Material, placements: readonly Placement[]): Pool {
    const pool = new Pool(material, false);
    for (const placement of placements) pool.numbers.push(placementNumber(placement));
    return pool;
  }

  get size(): number {
    return this.numbers.length;
  }

  /** Adds a position by the number of its placement, with the number of its ending. Endings come in order, and their plies. */
  add(number: number, ending: number, ply: Ply): void {
    this.numbers.push(number);
    this.endings.push(ending);
    this.plies.push(ply);
  }

  private frameAt(n: number): Placement {
    const { material } = this;
    return frameOf(placementAt(this.numbers.values[n], material.men), material);
  }

  /** Every candidate, in a random order. */
  *inOrder(seed: number): Generator<Drawn> {
    const { size } = this;
    const hashes = new Uint32Array(size);
    for (let n = 0; n < size; ++n) {
      const { squares, attackerToMove } = this.frameAt(n);
      hashes[n] = placementHash(squares, attackerToMove, seed);
    }
    const bands = Math.max(1, Math.ceil(size / BAND));
    const width = 2 ** 32 / bands;
    for (let band = 0; band < bands; ++band) {
      const some = growingInts();
      for (let n = 0; n < size; ++n) if (Math.floor(hashes[n] / width) === band) some.push(n);
      // of twins the one that was added first
      for (const n of some.values.sort((a, b) => hashes[a] - hashes[b] || a - b))
        yield { candidate: this.candidateAt(n), hash: hashes[n] };
    }
  }

  private candidateAt(n: number): Candidate {
    const placement = this.frameAt(n);
    if (!this.isOfGames) return { placement };
    return { placement, from: { ending: this.endings.values[n], ply: this.plies.values[n] } };
  }
}

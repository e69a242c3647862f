// The set-ups of a material as planes, with the solver that tells what can be kept among them: what repertoires and changes
// are worked out from.

import type { Material } from "../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, type Placement } from "../chess/placement.js";
import { LongsideError } from "../errors.js";
import type { Catalogue } from "../query/language/catalogue.js";
import type { Question } from "../query/language/ast.js";
import { type BitPlace, KeepSolver, type Plane, bitOf, countPlane } from "../tablebase/keep.js";
import { halvesOf } from "../tablebase/half.js";
import { planesOf } from "./planes.js";

/** A set-up, or another question about placements, with its plane (attacker to move). */
export interface Region {
  readonly name: string;
  readonly side: "attacker" | "defender";
  /** Everybody holds it without knowing its name. */
  readonly basic: boolean;
  /** Every placement that fits. */
  readonly plane: Plane;
}

/** The place of a placement's pieces in planes. */
export const placeOf = ({ squares }: Pick<Placement, "squares">): BitPlace =>
  bitOf(squares[ATTACKER_KING], squares[DEFENDER_KING], squares.slice(FIRST_PIECE));

/** Those placements of a plane that are in another too. */
export function both(one: Plane, other: Plane): Plane {
  const found = new Uint32Array(one.length);
  for (let n = 0; n < found.length; ++n) found[n] = one[n] & other[n];
  return found;
}
/** Those that are in one of several planes. */
export function either(planes: readonly Plane[], words: number): Plane {
  const found = new Uint32Array(words);
  for (const plane of planes) for (let n = 0; n < found.length; ++n) found[n] |= plane[n];
  return found;
}

/** What is known of a material's placements with the attacker to move. */
export class Regions {
  readonly solver: KeepSolver;
  /** Legal placements that the attacker does not win. */
  readonly notWon: Plane;
  /** How many these are, with all twins. */
  readonly held: number;

  private constructor(
    readonly material: Material,
    readonly regions: readonly Region[],
  ) {
    this.solver = new KeepSolver(halvesOf(material)[0], regions.length + 1);
    const { notWon } = this.solver.planes();
    this.notWon = notWon;
    this.held = countPlane(notWon);
  }

  /**
   * Finds the planes of questions about placements, on `threads` threads; `onMissing` is told how many of them have never been
   * looked at. Throws `bad-option` for materials whose attacker or defender has no piece beside the king.
   */
  static async of(
    material: Material,
    asked: readonly (Omit<Region, "plane"> & { readonly question: Question })[],
    threads: number,
    onMissing?: (missing: number) => void,
  ): Promise<Regions> {
    if (material.attacker.length === 0 || material.defender.length === 0)
      throw new LongsideError("bad-option", {
        option: "--target",
        cause: `in ${material.name} one side has only its king: there is nothing to hold with a set-up`,
        command: "repertoire",
      });
    const planes = await planesOf(
      material,
      asked.map(({ question }) => question),
      threads,
      onMissing,
    );
    return new Regions(
      material,
      asked.map(({ name, side, basic }, n) => ({ name, side, basic, plane: planes[n] })),
    );
  }

  /** The same for every set-up of a catalogue that belongs to the material. */
  static ofCatalogue(
    material: Material,
    catalogue: Catalogue,
    threads: number,
    onMissing?: (missing: number) => void,
  ): Promise<Regions> {
    const asked = catalogue
      .tests(material)
      .map(({ name, side, basic, test }) => ({ name, side, basic, question: test }));
    return Regions.of(material, asked, threads, onMissing);
  }

  /** The regions with these names, in their order. */
  named(names: readonly string[]): Region[] {
    return names.map((name) => this.regions.find((one) => one.name === name)!);
  }
}

// The set-ups of a material as planes, with the solver that tells what can be kept among them: what repertoires and changes
// are worked out from.

import type { Material } from "../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, type Placement } from "../chess/placement.js";
import { LongsideError } from "../errors.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type Question, definitionText } from "../query/language/ast.js";
import { type BitPlace, KeepSolver, type Plane, bitOf, countPlane } from "../tablebase/keep.js";
import { type Half, halvesOf } from "../tablebase/half.js";
import { type PackedPlane, planesOf, rememberedPlane } from "./planes.js";

/** A set-up, or another question about placements, with its plane (attacker to move). */
export interface Region {
  readonly name: string;
  /** Everybody holds it without knowing its name. */
  readonly basic: boolean;
  /** Names what is worked out from it. */
  readonly definition: string;
  /** Every placement that fits. */
  readonly plane: PackedPlane;
}

/** The place of a placement's pieces in planes. */
export const placeOf = ({ squares }: Pick<Placement, "squares">): BitPlace =>
  bitOf(squares[ATTACKER_KING], squares[DEFENDER_KING], squares.slice(FIRST_PIECE));

/** Leaves in a plane what is in another too, and gives it. */
export function keepOnly(plane: Plane, other: Plane): Plane {
  for (let n = 0; n < plane.length; ++n) plane[n] &= other[n];
  return plane;
}
/** Adds to a plane what is in another, and gives it. */
export function addAll(plane: Plane, other: Plane): Plane {
  for (let n = 0; n < plane.length; ++n) plane[n] |= other[n];
  return plane;
}

/** Names the plane of what is not won, as definitions name those of questions. */
const NOT_WON = "not won, by the solver";

/** What is known of a material's placements with the attacker to move. */
export class Regions {
  /** Legal placements that the attacker does not win. */
  readonly notWon: Plane;
  /** How many these are, with all twins. */
  readonly held: number;
  private readonly half: Half;
  private keeper: KeepSolver | undefined;
  /** What regions are unpacked to, one after the other. */
  private spare: Plane | undefined;

  private constructor(
    readonly material: Material,
    readonly regions: readonly Region[],
  ) {
    this.half = halvesOf(material)[0];
    this.notWon = rememberedPlane(material, NOT_WON, () => this.solver.planes().notWon)();
    this.held = countPlane(this.notWon);
  }

  /** Tells what can be kept. Its memory is taken when it is first asked for. */
  get solver(): KeepSolver {
    return (this.keeper ??= new KeepSolver(this.half, 2));
  }

  /** A solver with room for so many sets, in place of the other: there is memory for one. */
  solverFor(sets: number): KeepSolver {
    this.keeper = undefined;
    return new KeepSolver(this.half, sets);
  }

  /** The placements of some regions that are not won. */
  inside(regions: readonly Region[]): Plane {
    return keepOnly(this.addTo(new Uint32Array(this.notWon.length), regions), this.notWon);
  }

  /** Adds the placements of some regions to a plane, and gives it. */
  addTo(plane: Plane, regions: readonly Region[]): Plane {
    const spare = (this.spare ??= new Uint32Array(plane.length));
    for (const region of regions) addAll(plane, region.plane(spare));
    return plane;
  }

  /**
   * Finds the planes of questions about placements, on `threads` threads; `onMissing` is told how many of them have never been
   * looked at. Throws `bad-option` for materials whose attacker or defender has no piece beside the king.
   */
  static async of(
    material: Material,
    asked: readonly (Pick<Region, "name" | "basic"> & { readonly question: Question })[],
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
      asked.map(({ name, basic, question }, n) => ({
        name,
        basic,
        definition: definitionText(question),
        plane: planes[n],
      })),
    );
  }

  /** The same for every set-up of the defender's in a catalogue that belongs to the material. */
  static ofCatalogue(
    material: Material,
    catalogue: Catalogue,
    threads: number,
    onMissing?: (missing: number) => void,
  ): Promise<Regions> {
    const asked = catalogue
      .tests(material)
      .filter(({ side }) => side === "defender")
      .map(({ name, basic, test }) => ({ name, basic, question: test }));
    return Regions.of(material, asked, threads, onMissing);
  }

  /** The regions with these names, in their order. */
  named(names: readonly string[]): Region[] {
    return names.map((name) => this.regions.find((one) => one.name === name)!);
  }
}

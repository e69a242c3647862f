// Repertoires: which placements a defender can keep that knows some set-ups and nothing else, and in which order set-ups are
// best learnt.
//
// The rule: a placement with the attacker to move is kept if it is in one of the set-ups or the attacker is in check, it is
// not won, and after every quiet move of the attacker some reply leads back to a placement that is kept. (Set-ups are quiet, so
// that a check by the defender would leave them all.) A capture after which the ending is not lost, and stalemate, end it well.
// What is kept is the greatest set of which all this is true. It is asked in two ways: against quiet moves, where a check by
// the attacker may be answered by any move that does not lose and ends the matter; and against checks too, where it must be
// answered so that the set-ups are reached again, which holds for ever. A few set-ups alone hold next to nothing in the
// second way, since checks drive the king from one to another; what is learnt first is therefore told by the first.

import type { Placement } from "../chess/placement.js";
import { type Against, type Plane, countPlane, hasBit } from "../tablebase/keep.js";
import { rememberedPlane } from "./planes.js";
import { type Region, type Regions, placeOf } from "./regions.js";

/** What a list of set-ups keeps; placements with the attacker to move, each with all its twins. */
export interface Repertoire {
  readonly setUps: readonly string[];
  /** Placements of the whole table that are not won, and those of them that are kept. */
  readonly held: number;
  readonly kept: number;
  /** Placements that set-ups are learnt for (see `toBeHeld`), and those of them that are kept. */
  readonly wanted: number;
  readonly keptOfWanted: number;
  /** The same of what is kept against checks too. */
  readonly againstChecks: { readonly kept: number; readonly keptOfWanted: number };
  /** For each set-up: its placements that are not won, and how many of these are kept by the whole list. */
  readonly own: readonly { readonly setUp: string; readonly held: number; readonly kept: number }[];
}

/**
 * The placements that set-ups are learnt for: not won, and in one of those that not everybody holds anyway. Shares of what is
 * learnt are of these.
 */
export const toBeHeld = (regions: Regions): Plane =>
  regions.inside(regions.regions.filter(({ basic }) => !basic));

/** A set-up that could be learnt next, and how many of the placements to be held would be kept with it. */
export interface Next {
  readonly setUp: string;
  readonly kept: number;
}

/** A set-up in the order of learning, and how many would be kept with it and those before it, in both ways. */
export interface Step extends Next {
  readonly againstChecks: number;
}

const namesOf = (regions: readonly Region[]) => regions.map(({ name }) => name);

/** What the defender keeps with some set-ups. */
export const keptPlane = (
  regions: Regions,
  known: readonly Region[],
  against: Against = "quiet moves",
): Plane => regions.solver.kept(regions.inside(known), against);

/** Names what lists of set-ups are worked out to keep, in whatever order each is given. */
export const repertoireKey = (...lists: readonly (readonly Region[])[]): string =>
  lists
    .map((list) =>
      list
        .map(({ definition }) => definition)
        .sort()
        .join("; "),
    )
    .join(" / ");

/** The same, kept with the tables by the definitions of the set-ups. */
export const rememberedKept = (regions: Regions, known: readonly Region[], against: Against): Plane =>
  rememberedPlane(regions.material, `kept against ${against}, ${repertoireKey(known)}`, () =>
    keptPlane(regions, known, against),
  )();

/** What some set-ups keep together; `kept` and `always` are their planes against quiet moves and against checks too. */
export function repertoireOf(
  regions: Regions,
  known: readonly Region[],
  kept: Plane = keptPlane(regions, known),
  always: Plane = keptPlane(regions, known, "checks too"),
): Repertoire {
  const wanted = toBeHeld(regions);
  return {
    wanted: countPlane(wanted),
    keptOfWanted: countPlane(wanted, kept),
    setUps: namesOf(known),
    held: regions.held,
    kept: countPlane(kept),
    againstChecks: { kept: countPlane(always), keptOfWanted: countPlane(wanted, always) },
    own: known.map((one) => {
      const plane = one.plane();
      return {
        setUp: one.name,
        held: countPlane(plane, regions.notWon),
        kept: countPlane(plane, kept),
      };
    }),
  };
}

/** How many of some placements would be kept with each further set-up. */
function* keptWith(
  regions: Regions,
  known: readonly Region[],
  others: readonly Region[],
  wanted: Plane,
): Generator<{ readonly region: Region; readonly kept: number }> {
  const inside = regions.inside(known);
  for (const region of others) {
    const kept = regions.solver.keep(
      "quiet moves",
      (set) => {
        set.set(inside);
        regions.addTo(set, [region]);
      },
      (plane) => countPlane(plane, wanted),
    );
    yield { region, kept };
  }
}

/** What would be kept with each further set-up, the one that adds most first. */
export function nextOf(regions: Regions, known: readonly Region[], others: readonly Region[]): Next[] {
  return [...keptWith(regions, known, others, toBeHeld(regions))]
    .map(({ region, kept }) => ({ setUp: region.name, kept }))
    .sort((a, b) => b.kept - a.kept);
}

/** The order of learning: from what is known already on, the set-up that adds most each time. `onStep` is told of each. */
export function orderOf(
  regions: Regions,
  already: readonly Region[],
  setUps: readonly Region[],
  onStep: (done: number, of: number) => void = () => {},
): Step[] {
  const known: Region[] = [...already];
  const order: Step[] = [];
  const wanted = toBeHeld(regions);
  const of = (setUps.length * (setUps.length + 1)) / 2;
  let done = 0;
  while (order.length < setUps.length) {
    let best: { readonly region: Region; readonly kept: number } | undefined;
    const others = setUps.filter((region) => !known.includes(region));
    for (const one of keptWith(regions, known, others, wanted)) {
      onStep(++done, of);
      if (!best || one.kept > best.kept) best = one;
    }
    known.push(best!.region);
    order.push({
      setUp: best!.region.name,
      kept: best!.kept,
      againstChecks: countPlane(wanted, keptPlane(regions, known, "checks too")),
    });
  }
  return order;
}

/** What a placement comes to for a defender that knows some set-ups. */
export interface Known {
  /** It is kept by the list. */
  readonly kept: boolean;
  /** Set-ups of the list that it is in. */
  readonly in: readonly string[];
  /** Set-ups of the list without which it would not be kept. */
  readonly needed: readonly string[];
}

/** How a placement, attacker to move, stands with a list of set-ups, which keep a plane. */
export function knownAt(
  regions: Regions,
  known: readonly Region[],
  keeps: Plane,
  placement: Placement,
): Known {
  const place = placeOf(placement);
  const kept = hasBit(keeps, place);
  const needed = !kept
    ? []
    : known.filter((one) => {
        const rest = known.filter((other) => other !== one);
        return rest.length === 0 || !hasBit(keptPlane(regions, rest), place);
      });
  return {
    kept,
    in: known.filter(({ plane }) => hasBit(plane(), place)).map(({ name }) => name),
    needed: namesOf(needed),
  };
}

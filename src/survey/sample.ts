// A sample of a table's placements that fit a question: the same ones each time for the same seed. A visitor of
// `sweep`.

import type { Material } from "../chess/material.js";
import { type Placement, placementAt, placementNumber } from "../chess/placement.js";
import { Geometer } from "../geometry/facts.js";
import { PairFacts } from "../geometry/pairs.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** What the threads are asked, in plain words. */
export interface SampleAsked {
  readonly question: string;
  readonly setUps: string | null;
  readonly seed: number;
  /** Placements wanted. */
  readonly size: number;
}

/** A placement's number (see `placementNumber`) with its lot. */
interface Drawn {
  readonly lot: number;
  readonly number: number;
}
/** Those with the least lots so far, in no order; none above `worst` can be among them. */
interface Found {
  readonly size: number;
  worst: number;
  drawn: Drawn[];
}

let test: PlacementTest;
let geometer: Geometer;
let seed: number;

/** A number that is as good as drawn by lot for each placement and seed (FNV-1a, 32 bits, then mixed). */
export function lotOf(squares: readonly number[], attackerToMove: boolean, seed: number): number {
  let hash = 0x811c9dc5 ^ seed;
  for (const square of squares) hash = Math.imul(hash ^ square, 0x01000193);
  hash = Math.imul(hash ^ (attackerToMove ? 65 : 66), 0x01000193);
  hash = Math.imul(hash ^ (hash >>> 16), 0x7feb352d);
  hash = Math.imul(hash ^ (hash >>> 15), 0x846ca68b);
  return (hash ^ (hash >>> 16)) >>> 0;
}

const byLot = (a: Drawn, b: Drawn) => a.lot - b.lot || a.number - b.number;

function trim(found: Found): void {
  if (found.drawn.length <= found.size) return;
  found.drawn.sort(byLot);
  found.drawn.length = found.size;
  found.worst = found.drawn[found.size - 1].lot;
}

export function start(asked: SampleAsked, material: Material): Found {
  geometer = new Geometer(material);
  seed = asked.seed;
  test = placementTest(asked.question, asked.setUps, material, geometer);
  return { size: asked.size, worst: Infinity, drawn: [] };
}

export function visit(found: Found, pair: SweptPair): void {
  const facts = new PairFacts(geometer, pair.attackerKing, pair.defenderKing);
  const draw = (squares: readonly number[], attackerToMove: boolean) => {
    const lot = lotOf(squares, attackerToMove, seed);
    found.drawn.push({ lot, number: placementNumber({ squares, attackerToMove }) });
    if (found.drawn.length >= 2 * found.size) trim(found);
  };
  walkPair(
    test,
    facts,
    pair,
    (squares, _one, _other, first, second) => {
      if (first) draw(squares, true);
      if (second) draw(squares, false);
    },
    // what has drawn too high a lot need not be asked anything
    (squares, attackerToMove) => lotOf(squares, attackerToMove, seed) <= found.worst,
  );
}

export function merge(one: Found, other: Found): Found {
  one.drawn = one.drawn.concat(other.drawn);
  trim(one);
  return one;
}

/** Draws placements of a material's whole table that fit a question. */
export async function samplePlacements(
  material: Material,
  asked: SampleAsked,
  threads: number,
): Promise<Placement[]> {
  const visitor = visitorModule("sample");
  const found = await sweep<Found>(material, { threads, visitor, asked });
  trim(found);
  const { drawn } = found;
  return drawn.sort(byLot).map(({ number }) => placementAt(number, material.men));
}

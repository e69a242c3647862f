// A sample of a table's placements that fit a question: the same ones each time for the same seed. A visitor of
// `sweep`.

import type { Material } from "../chess/material.js";
import { type Placement, placementAt, placementNumber } from "../chess/placement.js";
import { placementHash } from "../chess/random.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { parseQuestion } from "../query/language/parse.js";
import { asksForValues } from "../query/engine/placement-conditions.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import type { Tables } from "../tablebase/tables.js";
import { type SampleAsked, drawPlacements } from "./draw.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** A placement's number (see `placementNumber`) with its hash. */
interface Drawn {
  readonly hash: number;
  readonly number: number;
}
/** Those with the least hashes so far, in no order; none above `worst` can be among them. */
interface Found {
  readonly size: number;
  worst: number;
  drawn: Drawn[];
}

let test: PlacementTest;
let seed: number;

const byHash = (a: Drawn, b: Drawn) => a.hash - b.hash || a.number - b.number;

function trim(found: Found): void {
  if (found.drawn.length <= found.size) return;
  found.drawn.sort(byHash);
  found.drawn.length = found.size;
  found.worst = found.drawn[found.size - 1].hash;
}

export function start(asked: SampleAsked, material: Material, tables: () => Tables): Found {
  seed = asked.seed;
  test = placementTest(asked.question, asked.setUps, material, tables);
  return { size: asked.size, worst: Infinity, drawn: [] };
}

export function visit(found: Found, pair: SweptPair): void {
  walkPair(
    test,
    pair,
    (squares, attackerToMove) => {
      const hash = placementHash(squares, attackerToMove, seed);
      found.drawn.push({ hash, number: placementNumber({ squares, attackerToMove }) });
      if (found.drawn.length >= 2 * found.size) trim(found);
    },
    // those with too high a hash need not be tested
    { wants: (squares, attackerToMove) => placementHash(squares, attackerToMove, seed) <= found.worst },
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
  const drawn = drawPlacements(material, asked);
  if (drawn) return drawn;
  const visitor = visitorModule("sample");
  const { known } = catalogueWith(asked.setUps);
  const values = asksForValues(parseQuestion(asked.question, known));
  const found = await sweep<Found>(material, { threads, visitor, asked, values });
  trim(found);
  return found.drawn.sort(byHash).map(({ number }) => placementAt(number, material.men));
}

// What the whole table says of each set-up: how many of its placements are won, drawn and lost. Counted in one sweep
// for all that are asked about, and remembered in the cache folder by their definitions. A visitor of `sweep`.

import { join } from "node:path";

import type { Material } from "../chess/material.js";
import type { VerdictCounts } from "../chess/verdict.js";
import { causeOf } from "../errors.js";
import { cacheFolder } from "../places.js";
import { definitionText } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import type { Tables } from "../tablebase/tables.js";
import { verdictPlace } from "../tablebase/values.js";
import { keyOf, readSealed, writeSealed } from "./remembered.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** Every placement of a set-up, each counted with all its twins. */
export interface Theory {
  readonly attackerToMove: VerdictCounts;
  readonly defenderToMove: VerdictCounts;
}

/** What the threads are asked: definitions in words. */
export interface TheoryAsked {
  readonly definitions: readonly string[];
}

/** For each definition: won, drawn, lost with the attacker to move, then with the defender. */
type Found = Float64Array[];

let tests: PlacementTest[];

export function start({ definitions }: TheoryAsked, material: Material, tables: () => Tables): Found {
  tests = definitions.map((definition) => placementTest(definition, null, material, tables));
  return definitions.map(() => new Float64Array(6));
}

export function visit(found: Found, pair: SweptPair): void {
  tests.forEach((test, n) => {
    walkPair(test, pair, (_, attackerToMove, value) => {
      found[n][(attackerToMove ? 0 : 3) + verdictPlace(value)] += pair.weight;
    });
  });
}

export function merge(one: Found, other: Found): Found {
  one.forEach((counts, n) => counts.forEach((_, cell) => (counts[cell] += other[n][cell])));
  return one;
}

const theoryOf = (counts: ArrayLike<number>): Theory => {
  const turn = (at: number): VerdictCounts => ({
    won: counts[at],
    drawn: counts[at + 1],
    lost: counts[at + 2],
  });
  return { attackerToMove: turn(0), defenderToMove: turn(3) };
};

/** What is remembered, by the hash of a definition; nothing where the file cannot be read. */
function remembered(path: string): Record<string, Theory> {
  return (readSealed(path) ?? {}) as Record<string, Theory>;
}

/**
 * The theory of each set-up, in order. Those whose definition was never asked about before are counted in a sweep:
 * `onCount` is told how many these are, and `onLost` why they could not be remembered, if so.
 */
export async function theoryOfSetUps(
  material: Material,
  setUps: readonly NamedSetUp[],
  threads: number,
  onCount: (missing: number) => void = () => {},
  onLost: (cause: string) => void = () => {},
): Promise<Theory[]> {
  const definitions = setUps.map(({ test }) => definitionText(test.means));
  const keys = definitions.map(keyOf);
  const folder = cacheFolder();
  const path = join(folder, `${material.name.replace(/[^A-Za-z+]/g, "")}.theory.json`);
  const known = remembered(path);
  const missing = definitions.filter((_, n) => !known[keys[n]]);
  if (missing.length > 0) {
    onCount(missing.length);
    const visitor = visitorModule("theory");
    const found = await sweep<Found>(material, {
      threads,
      visitor,
      asked: { definitions: missing } satisfies TheoryAsked,
    });
    missing.forEach((definition, n) => (known[keys[definitions.indexOf(definition)]] = theoryOf(found[n])));
    try {
      // what another run has added meanwhile is kept
      writeSealed(path, { ...remembered(path), ...known });
    } catch (thrown) {
      onLost(causeOf(thrown));
    }
  }
  return keys.map((key) => known[key]);
}

// Facts looked up by pair of kings, as a sweep does it, are the geometer's; and the values that a sweep is shown are those
// of solving anew.

import { join } from "node:path";

import { describe, expect, it } from "vitest";

import { randomNumbers } from "../../src/chess/random.js";
import { GEOMETRY, Geometer, NO_FACT } from "../../src/geometry/facts.js";
import { PairFacts, hasTwoEdges } from "../../src/geometry/pairs.js";
import { cacheFolder } from "../../src/places.js";
import { writeBothTurns } from "../../src/tablebase/both-turns.js";
import { halfNamed } from "../../src/tablebase/half.js";
import { kingsOfPairs, placementsOf } from "../../src/tablebase/solver-kernel.js";
import { TARGET } from "../support.js";

describe("facts by pair of kings", () => {
  it("are those of the geometer", () => {
    const random = randomNumbers(77);
    const geometer = new Geometer(TARGET);
    kingsOfPairs().forEach(([attackerKing, defenderKing]) => {
      const facts = new PairFacts(TARGET, attackerKing, defenderKing);
      const fromOther = new PairFacts(TARGET, attackerKing, defenderKing, true);
      for (let n = 0; n < 20; ++n) {
        const squares = [
          attackerKing,
          defenderKing,
          ...Array.from({ length: 3 }, () => Math.floor(random() * 64)),
        ];
        if (new Set(squares).size < 5) continue;
        const wanted = geometer.facts({ squares, attackerToMove: true });
        const other = GEOMETRY.filter((_, m) => facts.get(m, squares, true) !== (wanted[m] ?? NO_FACT));
        expect(other.map(({ name }) => `${name} ${squares.join()}`)).toEqual([]);
        const second = geometer.factsFromOtherEdge({ squares, attackerToMove: true });
        expect(second !== undefined).toBe(hasTwoEdges(defenderKing));
        if (!second) continue;
        const wrong = GEOMETRY.filter((_, m) => fromOther.get(m, squares, true) !== (second[m] ?? NO_FACT));
        expect(wrong.map(({ name }) => `${name} ${squares.join()}`)).toEqual([]);
      }
    });
  });
});

describe("the values of both turns", () => {
  it.each(["R-beats-K", "R-beats-R", "R-beats-B"])(
    "are the same from the file of %s and solved anew",
    (name) => {
      const half = halfNamed(name);
      const written = [cacheFolder(), join(cacheFolder(), "no-such-folder")].map((folder) => {
        const planes = [0, 1].map(() => new Uint8Array(placementsOf(half)));
        writeBothTurns(folder, half, planes[0], planes[1], true);
        return planes;
      });
      expect(Buffer.compare(written[0][0], written[1][0])).toBe(0);
      expect(Buffer.compare(written[0][1], written[1][1])).toBe(0);
      expect(written[0][0].some((value) => value > 0 && value < 255)).toBe(true);
    },
  );
});

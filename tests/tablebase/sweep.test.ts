// Facts looked up by pair of kings, as a sweep does it, are the geometer's.

import { describe, expect, it } from "vitest";

import { randomNumbers } from "../../src/chess/random.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import { NO_FACT, PairFacts } from "../../src/geometry/pairs.js";
import { kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { TARGET } from "../support.js";

describe("facts by pair of kings", () => {
  it("are those of the geometer", () => {
    const random = randomNumbers(77);
    const geometer = new Geometer(TARGET);
    kingsOfPairs().forEach(([attackerKing, defenderKing]) => {
      const facts = new PairFacts(geometer, attackerKing, defenderKing);
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
      }
    });
  });
});

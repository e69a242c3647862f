// Facts that are the same from both of two equally near edges.

import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { GEOMETRY, SAME_FROM_BOTH_EDGES } from "../../src/geometry/fact-table.js";
import { Geometer } from "../../src/geometry/facts.js";

describe("facts that are listed as the same from both edges", () => {
  it("are facts of the table", () => {
    const names = new Set(GEOMETRY.map(({ name }) => name));
    expect([...SAME_FROM_BOTH_EDGES].filter((name) => !names.has(name))).toEqual([]);
  });

  it.each(["R+B v R", "Q v R", "R+N v R", "R+R v R", "B+B v N", "R v B", "Q+B v Q"])(
    "are the same in 4,000 random placements of %s, and the others are not all the same",
    (text) => {
      const material = parseMaterial(text);
      const geometer = new Geometer(material);
      const random = randomNumbers(7);
      const differing = new Set<string>();
      let looked = 0;
      for (let n = 0; n < 4000; ++n) {
        const placement = randomPlacement(material, random);
        const other = geometer.factsFromOtherEdge(placement);
        if (!other) continue;
        ++looked;
        const first = geometer.facts(placement);
        GEOMETRY.forEach(({ name }, fact) => {
          if (first[fact] !== other[fact]) differing.add(name);
        });
      }
      expect(looked).toBeGreaterThan(300);
      expect([...differing].filter((name) => SAME_FROM_BOTH_EDGES.has(name))).toEqual([]);
      expect(differing.size).toBeGreaterThan(4);
    },
  );
});

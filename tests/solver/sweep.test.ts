// Sweeps of whole tables agree with probes and with the counts that the design notes give.

import { join } from "node:path";
import { pathToFileURL } from "node:url";

import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { randomNumbers } from "../../src/chess/random.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import { NO_FACT, PairFacts } from "../../src/geometry/pairs.js";
import { PACKAGE } from "../../src/places.js";
import { kingsOfPairs } from "../../src/solver/kernel.js";
import { sweep } from "../../src/solver/sweep.js";
import type { Census, Tally } from "../../src/study/census.js";
import { TARGET } from "../support.js";

const visitor = pathToFileURL(join(PACKAGE, "dist", "src", "study", "census.js")).href;
const census = (name: string, asked?: string) =>
  sweep<Census>(parseMaterial(name), { threads: 2, visitor, asked });

const sum = (tallies: Tally[]) => tallies.flat().reduce((a, b) => a + b, 0);

describe("a census", () => {
  it("of R+B v R: 41.2 % won with the attacker to move, 5.07 % with the defender, 17 reciprocal zugzwangs (design notes)", async () => {
    const found = await census("R+B v R", "rook-side");
    const groups = [...found.groups.values()];
    const won = (turn: "attackerToMove" | "defenderToMove") =>
      (100 * groups.reduce((all, group) => all + group[turn][0], 0)) /
      sum(groups.map((group) => group[turn]));
    expect(won("attackerToMove")).toBeCloseTo(41.2, 1);
    expect(won("defenderToMove")).toBeCloseTo(5.07, 2);
    expect(found.zugzwangs.size).toBe(17);
    // short side, king's file, long side
    expect([...found.groups.keys()].sort()).toEqual([0, 1, 2]);
  });

  it("of R v R is the same for both sides", async () => {
    const found = await census("R v R");
    const { attackerToMove, defenderToMove } = [...found.groups.values()][0];
    // whoever is to move: won for the attacker here is lost for him there
    expect(attackerToMove).toEqual([...defenderToMove].reverse());
    expect(attackerToMove[0]).toBeGreaterThan(attackerToMove[2]);
  });
});

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
        GEOMETRY.forEach((fact, m) => {
          expect(facts.get(m, squares, true), `${fact.name} ${squares.join()}`).toBe(wanted[m] ?? NO_FACT);
        });
      }
    });
  });
});

// Set-ups: examples fit, near-misses do not, from all eight sides and with either colour as the attacker.

import { describe, expect, it } from "vitest";

import { type BoardPlacement, placementOf, readFen } from "../../src/chess/fen.js";
import type { Placement } from "../../src/chess/placement.js";
import { SYMMETRIES, imageOf } from "../../src/chess/squares.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { openTables } from "../support.js";
import { TARGET } from "../support.js";

const geometer = new Geometer(TARGET);
const catalogue = standardCatalogue();
const tables = openTables();

const fits = (placement: Placement) => {
  const facts = geometer.facts(placement);
  return catalogue.fitting(
    (fact) => facts[GEOMETRY.findIndex((one) => one.name === fact.name)] ?? null,
    TARGET,
  );
};
const twins = ({ squares, attackerToMove }: BoardPlacement & Placement) =>
  SYMMETRIES.map((g) => ({ squares: squares.map((square) => imageOf(g, square)), attackerToMove }));

describe.each(catalogue.setUps)("$name", (setUp) => {
  it("has a definition, what is known, and a source", () => {
    expect(setUp.means && setUp.picture && setUp.known && setUp.source).toBeTruthy();
    expect(setUp.examples.length).toBeGreaterThan(0);
    expect(setUp["near-misses"].length).toBeGreaterThan(0);
  });

  it.each(setUp.examples)("fits $fen ($source)", ({ fen }) => {
    for (const twin of twins(placementOf(readFen(fen)))) expect(fits(twin)).toContain(setUp.name);
  });

  it.each(setUp["near-misses"])("does not fit $fen: $because", ({ fen }) => {
    for (const twin of twins(placementOf(readFen(fen)))) expect(fits(twin)).not.toContain(setUp.name);
  });
});

describe("published set-ups", () => {
  it("Cochrane and Szén are drawn with either side to move (encyclopaedia article); Philidor is won (Philidor 1749)", () => {
    const value = (name: string, attackerToMove: boolean) => {
      const { fen } = catalogue.setUps.find((one) => one.name === name)!.examples[0];
      return Math.sign(tables.probe(placementOf(readFen(fen)).squares, attackerToMove));
    };
    for (const turn of [true, false]) {
      expect(value("rear pin", turn)).toBe(0);
      expect(value("Szén", turn)).toBe(0);
      expect(value("Philidor", turn)).toBe(1);
    }
  });
});

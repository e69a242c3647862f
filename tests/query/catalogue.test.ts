// Set-ups: examples fit, near-misses do not, from all eight sides and with either colour as the attacker.

import { describe, expect, it } from "vitest";

import { type BoardPlacement, placementOf, readFen } from "../../src/chess/fen.js";
import type { Placement } from "../../src/chess/placement.js";
import { SYMMETRIES, imageOf } from "../../src/chess/squares.js";
import { Geometer } from "../../src/geometry/facts.js";
import { placementReader } from "../../src/position/probe.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { knownValues } from "../../src/tablebase/known-values.js";
import { unpack } from "../../src/tablebase/tables.js";
import { openTables } from "../support.js";
import { TARGET } from "../support.js";

const geometer = new Geometer(TARGET);
const catalogue = standardCatalogue();
const tables = openTables();

const fits = (placement: Placement) =>
  catalogue.fitting(
    placementReader(geometer, placement, unpack(tables.probe(placement.squares, placement.attackerToMove))),
    TARGET,
  );
/** Positions out of games and out of the table, each judged by eye by somebody who saw only the sentence of the set-up. */
const judged = knownValues("set-up-examples.csv");
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

  it.each(setUp.examples)("has the verdicts that are claimed at $fen", (example) => {
    const { squares } = placementOf(readFen(example.fen));
    for (const turn of ["attacker-to-move", "defender-to-move"] as const)
      if (example[turn])
        expect(unpack(tables.probe(squares, turn === "attacker-to-move")).verdict, turn).toBe(example[turn]);
  });

  it("says nothing in per cent: shares are counted where they are shown", () => {
    expect(`${setUp.known} ${setUp.picture}`).not.toMatch(/%|per ?cent|\d in \d|two in three|four in five/i);
  });

  it("is what somebody saw by eye, twelve times and more, and is not what it only looks like", () => {
    const rows = judged.filter((row) => row.set_up === setUp.name);
    const wrong = rows.filter(
      ({ fen, fits: wanted }) =>
        twins(placementOf(readFen(fen))).some((twin) => fits(twin).includes(setUp.name)) !==
        (wanted === "yes"),
    );
    expect(wrong.map(({ fen, why }) => `${fen}: ${why}`)).toEqual([]);
    for (const wanted of ["yes", "no"])
      expect(rows.filter((row) => row.fits === wanted).length, wanted).toBeGreaterThanOrEqual(12);
    expect(rows.every(({ why }) => why.length > 3)).toBe(true);
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

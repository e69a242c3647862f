// Placements drawn one by one: they fit, each of the table is as likely as any other, and where few fit nothing is drawn.

import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { Movement } from "../../src/chess/moves.js";
import { Geometer } from "../../src/geometry/facts.js";
import { meets } from "../../src/query/engine/predicate.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { placementReader } from "../../src/position/probe.js";
import { drawPlacements } from "../../src/survey/draw.js";
import { samplePlacements } from "../../src/survey/sample.js";
import { kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { unpack } from "../../src/tablebase/tables.js";
import { openTables } from "../support.js";

const material = parseMaterial("R v B");
const asked = (question: string, size: number, seed = 7) => ({ question, setUps: null, seed, size });

describe("placements drawn from a table", () => {
  it("are there in their shares: by turn and verdict, chi-squared, 3 degrees of freedom", () => {
    const tables = openTables(material);
    const movement = new Movement(material);
    const cell = (squares: readonly number[], attackerToMove: boolean) =>
      (attackerToMove ? 3 : 0) + 1 + tables.verdict(squares, attackerToMove);
    const all = new Array<number>(6).fill(0);
    for (const kings of kingsOfPairs())
      for (let rook = 0; rook < 64; ++rook)
        for (let bishop = 0; bishop < 64; ++bishop) {
          const squares = [...kings, rook, bishop];
          if (new Set(squares).size < 4) continue;
          for (const turn of [true, false])
            if (!movement.inCheck(squares, turn ? 1 : 0)) ++all[cell(squares, turn)];
        }
    const some = new Array<number>(6).fill(0);
    const size = 20_000;
    for (const { squares, attackerToMove } of drawPlacements(material, asked("", size))!)
      ++some[cell(squares, attackerToMove)];
    const sum = all.reduce((total, one) => total + one);
    // the bishop's side never wins
    expect(all.filter((one) => one > 0)).toHaveLength(4);
    const distance = all.reduce((total, one, n) => {
      const expected = (one / sum) * size;
      return expected > 0 ? total + (some[n] - expected) ** 2 / expected : total;
    }, 0);
    // beyond it lies one draw in 100,000
    expect(distance).toBeLessThan(25.9);
  });

  it("fit, are all different, and the same for the same seed", () => {
    const question = "king-rank = 1 and not in-check and (mate-threat or verdict = drawn)";
    const found = drawPlacements(material, asked(question, 500))!;
    expect(found).toEqual(drawPlacements(material, asked(question, 500)));
    expect(found).not.toEqual(drawPlacements(material, asked(question, 500, 8)));
    expect(new Set(found.map((one) => JSON.stringify(one)))).toHaveProperty("size", 500);
    const tables = openTables(material);
    const geometer = new Geometer(material);
    const parsed = parseQuestion(question);
    for (const placement of found) {
      const value = unpack(tables.probe(placement.squares, placement.attackerToMove));
      expect(meets(parsed, placementReader(geometer, placement, value))).toBe(true);
    }
  });

  it("are not drawn where few fit: then all are looked at", async () => {
    const question = "corner-steps = 0 and attacker-king-rank = 3 and attacker-king-file = 1 and only-move";
    expect(drawPlacements(material, asked(question, 200))).toBeUndefined();
    const found = await samplePlacements(material, asked(question, 200), 2);
    expect(found).toHaveLength(200);
    expect(found).toEqual(await samplePlacements(material, asked(question, 200), 1));
  });
});

// Facts looked up by pair of kings, as a sweep does it, are the geometer's; and the values that a sweep is shown are those
// that probing finds, by another kernel and from what is won.

import { cpSync, readFileSync, writeFileSync } from "node:fs";

import { beforeAll, describe, expect, it, vi } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { Movement } from "../../src/chess/moves.js";
import { randomNumbers } from "../../src/chess/random.js";
import { GEOMETRY, Geometer, NO_FACT } from "../../src/geometry/facts.js";
import { PairFacts, hasTwoEdges } from "../../src/geometry/pairs.js";
import { cacheFolder } from "../../src/places.js";
import { survey } from "../../src/survey/survey.js";
import { buildTables } from "../../src/tablebase/build.js";
import { halfNamed } from "../../src/tablebase/half.js";
import { KING_PAIRS, kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { tableFile } from "../../src/tablebase/table-file.js";
import { Tables, unpack } from "../../src/tablebase/tables.js";
import {
  PairValues,
  SWEPT_ILLEGAL,
  SWEPT_LOST,
  shareValues,
  shiftsOf,
  unpackRows,
} from "../../src/tablebase/values.js";
import { TARGET, temporaryFolder } from "../support.js";

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

describe("the values that a sweep is shown", () => {
  const folder = temporaryFolder();
  // one or two pieces, with equal ones, and with the last one the winner's
  const MATERIALS = ["R v R", "Q v R", "R v B", "B+N v K", "N+N v K", "Q v K"];
  const materials = MATERIALS.map((name) => parseMaterial(name));
  beforeAll(() => buildTables(materials, { folder, threads: 2 }));

  it.each([...MATERIALS, "R+B v R"])("are those of probing, and what is not legal is marked: %s", (name) => {
    const material = parseMaterial(name);
    const from = material.id === TARGET.id ? cacheFolder() : folder;
    const shared = shareValues(material, from, true, 1);
    for (const half of shared.rows.keys()) unpackRows(shared, half, 0, KING_PAIRS);
    const values = new PairValues(shared);
    const tables = new Tables(material, from);
    const movement = new Movement(material);
    const shifts = shiftsOf(material);
    const step = Math.max(17, 64 ** (material.men - 2) / 256 + 1);
    let [wrong, won, lost, notLegal] = [0, 0, 0, 0];
    kingsOfPairs().forEach((kings, pair) => {
      const found = values.legal(pair);
      const legal = found.map((plane) => plane.slice());
      values.find(pair);
      for (const turn of [0, 1])
        for (let index = pair % step; index < found[turn].length; index += step) {
          const squares = [...kings, ...shifts.map((shift) => (index >> shift) & 63)];
          const attackerToMove = turn === 0;
          const isLegal =
            new Set(squares).size === squares.length && !movement.inCheck(squares, attackerToMove ? 1 : 0);
          const value = found[turn][index];
          if (legal[turn][index] !== (isLegal ? 0 : SWEPT_ILLEGAL)) ++wrong;
          if (!isLegal) {
            ++notLegal;
            if (value !== SWEPT_ILLEGAL) ++wrong;
            continue;
          }
          const { verdict, dtm } = unpack(tables.probe(squares, attackerToMove));
          const wanted = verdict === "drawn" ? 0 : verdict === "won" ? dtm! + 1 : SWEPT_LOST + dtm!;
          if (value !== wanted) ++wrong;
          if (verdict === "won") ++won;
          if (verdict === "lost") ++lost;
        }
    });
    tables.close();
    expect(wrong).toBe(0);
    expect(notLegal).toBeGreaterThan(0);
    expect(won + lost).toBeGreaterThan(0);
  });

  it("are not told where a file is damaged", async () => {
    const damaged = temporaryFolder();
    cpSync(folder, damaged, { recursive: true });
    const path = tableFile(damaged, halfNamed("R-beats-R"));
    const bytes = readFileSync(path);
    // moves to mate come first behind the head (see table-file.ts)
    const blocks = KING_PAIRS;
    bytes[48 + 512 + 3 * 6 * blocks + 10] ^= 1;
    writeFileSync(path, bytes);
    vi.stubEnv("LONGSIDE_CACHE", damaged);
    // it crosses from a thread with its code
    await expect(
      survey(parseMaterial("R v R"), { question: "", setUps: null, by: null }, 2),
    ).rejects.toMatchObject({ code: "table-damaged", values: { path } });
    vi.unstubAllEnvs();
  });
});

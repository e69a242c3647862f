// Facts of the frame: the same from all eight sides and for both colours, and what the words mean.

import { describe, expect, it } from "vitest";

import { placementOf, readFen } from "../../src/chess/fen.js";
import { fileOf, rankOf } from "../../src/chess/squares.js";
import { SYMMETRIES, imageOf } from "../../src/chess/squares.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import { frameOf } from "../../src/geometry/frame.js";
import { shownFact } from "../../src/query/engine/rows.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { TARGET } from "../support.js";

const geometer = new Geometer(TARGET);
const facts = (fen: string) => {
  const values = geometer.facts(placementOf(readFen(fen)));
  return Object.fromEntries(GEOMETRY.map((fact, n) => [fact.name, shownFact(fact, values[n])]));
};

describe("the frame", () => {
  it("is the same for all eight twins, and so are the facts", () => {
    const random = randomNumbers(31);
    for (let n = 0; n < 1000; ++n) {
      const { squares, attackerToMove } = randomPlacement(TARGET, random);
      const frame = frameOf({ squares, attackerToMove }, TARGET);
      const values = geometer.facts({ squares, attackerToMove });
      for (const g of SYMMETRIES) {
        const twin = { squares: squares.map((square) => imageOf(g, square)), attackerToMove };
        expect(frameOf(twin, TARGET)).toEqual(frame);
        expect(geometer.facts(twin)).toEqual(values);
      }
    }
  });

  it("puts the defender's king on files a to d with rank 1 its nearest edge", () => {
    const random = randomNumbers(32);
    for (let n = 0; n < 1000; ++n) {
      const king = frameOf(randomPlacement(TARGET, random), TARGET).squares[1];
      expect(fileOf(king)).toBeLessThanOrEqual(3);
      expect(rankOf(king)).toBeLessThanOrEqual(fileOf(king));
    }
  });

  it("keeps every value within its fact's bounds", () => {
    const random = randomNumbers(33);
    const bounds = GEOMETRY.map((fact) => {
      if (fact.type === "number") return [fact.least!, fact.most!];
      return [0, fact.type === "flag" ? 1 : fact.values!.length - 1];
    });
    for (let n = 0; n < 3000; ++n) {
      const values = geometer.facts(randomPlacement(TARGET, random));
      const beyond = GEOMETRY.filter((_, m) => {
        const value = values[m];
        return value !== null && !(value >= bounds[m][0] && value <= bounds[m][1]);
      });
      expect(beyond.map(({ name }) => name)).toEqual([]);
    }
  });
});

// definitions of the design notes; positions made for this test unless a source is named
describe("facts", () => {
  it("Philidor 1749 (in Howell 1997): kings in opposition on the d-file, rook on the long side", () => {
    expect(facts("3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1")).toMatchObject({
      "king-rank": 1,
      "king-file": 4,
      "attacker-king-rank": 3,
      "rook-side": "long",
      "rook-rank": 7,
      "bishop-rank": 4,
      opposition: "direct",
      "wedge-depth": 3,
      "short-room": 3,
      "long-room": 4,
      "rear-pin-line": "none",
      "in-check": false,
    });
  });

  it("the colours change nothing", () => {
    expect(facts("3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1")).toEqual(
      facts("8/4R3/8/8/3b4/3k4/5r2/3K4 b - - 0 1"),
    );
  });

  it("Cochrane set-up, Budnikov–Novik 1991: a rear pin along the file, two lines between the kings", () => {
    expect(facts("4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1")).toMatchObject({
      "rear-pin-line": "file",
      "lines-between-kings": 2,
      pinned: "attacker",
      "rook-side": "king's file",
    });
  });

  it("Szén set-up, Pintér–Razuvaev 1982: depth 2 and the intersection held", () => {
    expect(facts("8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1")).toMatchObject({
      "wedge-depth": 2,
      "rook-holds-intersection": true,
    });
    expect(facts("8/5R2/8/1r6/4b3/4k3/8/3K4 b - - 0 1")).toMatchObject({ "rook-holds-intersection": false });
  });

  it("the wedge: none outside, none where both feet lie beyond the board", () => {
    expect(facts("k7/8/8/8/3BK3/8/7r/R7 b - - 0 1")["wedge-depth"]).toBeNull(); // a8 is a corner beyond d4's foot
    expect(facts("4k3/8/8/8/8/4B3/8/K2R3r w - - 0 1")["wedge-depth"]).toBeNull(); // e3 is rank 6: no feet
    expect(facts("2k5/8/3B4/8/8/8/8/K2R3r w - - 0 1")["wedge-depth"]).toBe(1); // d6 is rank 3: feet b8 and f8
  });

  it("check and pins", () => {
    expect(facts("3k4/8/3K4/3B4/8/8/4r3/3R4 b - - 0 1")["in-check"]).toBe(false);
    expect(facts("3k4/3R4/8/2K5/3B4/8/4r3/8 b - - 0 1")["in-check"]).toBe(true);
    expect(facts("3k4/3r4/8/2K5/3B4/8/8/3R4 b - - 0 1").pinned).toBe("none");
    expect(facts("3k4/3r4/8/2K5/B7/8/8/3R4 w - - 0 1").pinned).toBe("defender");
  });

  it.each([
    ["direct", "3k4/8/3K4/8/8/8/8/RB5r w - - 0 1"],
    ["diagonal", "3k4/8/5K2/8/8/8/8/RB5r w - - 0 1"],
    ["knight's move", "3k4/8/4K3/8/8/8/8/RB5r w - - 0 1"],
    ["distant", "3k4/8/8/8/3K4/8/8/RB5r w - - 0 1"],
    ["none", "3k4/8/8/3K4/8/8/8/RB5r w - - 0 1"],
  ])("opposition: %s", (wanted, fen) => {
    expect(facts(fen).opposition).toBe(wanted);
  });
});

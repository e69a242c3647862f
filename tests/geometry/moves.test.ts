// Moves of placements: their SAN as numbers, their kinds, and how like placements are; against chess.js where it can
// tell.

import { Chess } from "chess.js";
import { describe, expect, it } from "vitest";

import { placementFen, placementOf, readFen } from "../../src/chess/fen.js";
import { type Material, parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { placementNumber } from "../../src/chess/placement.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { SAN_CODES, parseSan, quietSanCode, sanText } from "../../src/chess/san.js";
import { SYMMETRIES, distance, imageOf, parseSquare, squareName } from "../../src/chess/squares.js";
import { Geometer } from "../../src/geometry/facts.js";
import { kindNames } from "../../src/geometry/move-kinds.js";
import { Likeness } from "../../src/geometry/likeness.js";
import { TARGET } from "../support.js";

/** The kinds of each legal move of a position, by "e2e4". */
function kindsOf(fen: string): Map<string, string[]> {
  const placed = placementOf(readFen(fen));
  const geometer = new Geometer(placed.material);
  const list = new MoveList();
  new Movement(placed.material).legalMoves(placed.squares, placed.attackerToMove, list);
  const kindOf = geometer.kindsOfMoves(placed);
  return new Map(
    Array.from({ length: list.count }, (_, n) => [
      squareName(placed.squares[list.piece[n]]) + squareName(list.to[n]),
      kindNames(kindOf(list.piece[n], list.to[n])),
    ]),
  );
}

describe("SAN as numbers", () => {
  it("is read back as it was written, every number of them", () => {
    // one expectation for all: a quarter of a million of them would take seconds
    const codes = Array.from({ length: SAN_CODES }, (_, code) => code);
    expect(codes.filter((code) => parseSan(sanText(code)) !== code)).toEqual([]);
    for (const text of ["e4", "Rxe4e5", "Ra9", "Ke1!", ""]) expect(parseSan(text)).toBeUndefined();
  });

  it("is what chess.js writes, with two rooks or knights too", () => {
    const random = randomNumbers(9);
    for (const name of ["R+B v R", "R+R v R", "Q+Q v Q", "N+N v N"]) {
      const material: Material = parseMaterial(name);
      const movement = new Movement(material);
      const [list, replies] = [new MoveList(), new MoveList()];
      for (let n = 0; n < 60; ++n) {
        const { squares, attackerToMove } = randomPlacement(material, random);
        const chess = new Chess(placementFen({ squares, attackerToMove }, material, "white"));
        movement.legalMoves([...squares], attackerToMove, list);
        const own = Array.from({ length: list.count }, (_, m) => m)
          .filter((m) => list.captured[m] < 0)
          .map((m) => sanText(quietSanCode(movement, [...squares], attackerToMove, list, m, replies)));
        const theirs = chess.moves().filter((san) => !san.includes("x"));
        expect(own.sort(), chess.fen()).toEqual(theirs.sort());
      }
    }
  });
});

describe("kinds of move", () => {
  it("that chess.js knows too are the same", () => {
    const random = randomNumbers(12);
    for (let n = 0; n < 150; ++n) {
      const fen = placementFen(randomPlacement(TARGET, random), TARGET, n % 2 ? "white" : "black");
      const chess = new Chess(fen);
      const kinds = kindsOf(fen);
      const moves = chess.moves({ verbose: true });
      expect(kinds.size).toBe(moves.length);
      for (const move of moves) {
        const own = kinds.get(move.from + move.to)!;
        expect(own.includes("capture"), `${fen} ${move.san}`).toBe(move.captured !== undefined);
        expect(own.includes("check"), `${fen} ${move.san}`).toBe(/[+#]/.test(move.san));
        expect(own.includes("king")).toBe(move.piece === "k");
        expect(own.includes("rook")).toBe(move.piece === "r");
        expect(own.includes("block")).toBe(
          chess.inCheck() && move.piece !== "k" && move.captured === undefined,
        );
      }
    }
  });

  // positions made for this test
  it.each([
    ["attack", "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1", "d5c4", "d5b3"],
    ["pin", "8/3k4/8/3r4/8/5B2/8/K6R w - - 0 1", "h1d1", "h1e1"],
    ["pin kept", "4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1", "e2e3", "e2d2"],
    ["switch", "3k4/5R2/3K4/3B4/8/8/4r3/8 b - - 0 1", "e2b2", "e2h2"],
    ["leaves rank", "3k4/5R2/3K4/3B4/8/8/4r3/8 b - - 0 1", "e2e1", "e2a2"],
    ["to corner", "3k4/R7/3K4/3B4/8/8/4r3/8 b - - 0 1", "d8c8", "d8e8"],
    ["from corner", "1k6/8/1K1B4/8/8/8/7r/5R2 b - - 0 1", "b8c8", "b8a8"],
    ["out of wedge", "3k4/8/8/3BK3/8/8/7r/R7 b - - 0 1", "d8d7", "d8e8"],
    ["mate block", "3k4/8/3K4/8/7r/4B3/8/R7 b - - 0 1", "h4a4", "h4b4"],
    ["block", "3k3R/8/3K4/3B4/8/8/4r3/8 b - - 0 1", "e2e8", "d8d8"],
  ])("%s: %s by %s, not by %s", (kind, fen, move, other) => {
    const kinds = kindsOf(fen);
    expect(kinds.get(move), JSON.stringify([...kinds])).toContain(kind);
    expect(kinds.get(other) ?? []).not.toContain(kind);
  });
});

describe("likeness", () => {
  it("is the least sum of steps over the twins, both ways the same, and none for twins", () => {
    const random = randomNumbers(3);
    for (let n = 0; n < 300; ++n) {
      const [one, other] = [randomPlacement(TARGET, random), randomPlacement(TARGET, random)];
      const steps = Math.min(
        ...SYMMETRIES.map((g) =>
          one.squares.reduce((sum, square, m) => sum + distance(imageOf(g, square), other.squares[m]), 0),
        ),
      );
      const turn = one.attackerToMove === other.attackerToMove ? 0 : 1;
      const likeness = new Likeness(one, true);
      expect(likeness.of(placementNumber(other))).toBe(steps + turn);
      expect(new Likeness(other, true).of(placementNumber(one))).toBe(steps + turn);
      expect(new Likeness(one, false).of(placementNumber(other))).toBe(steps);
      const g = SYMMETRIES[n % 8];
      const twin = { ...one, squares: one.squares.map((square) => imageOf(g, square)) };
      expect(likeness.of(placementNumber(twin))).toBe(0);
      const measured = new Uint8Array(2);
      likeness.measure([placementNumber(other), placementNumber(twin)], 9, measured);
      expect([...measured]).toEqual([steps + turn > 9 ? 255 : steps + turn, 0]);
      const nearest = likeness.nearest(placementNumber(other));
      expect(nearest.moved.reduce((sum, { from, to }) => sum + distance(from, to), 0)).toBe(steps);
      expect(nearest.otherTurn).toBe(turn === 1);
    }
    expect(parseSquare("b1")).toBe(1);
  });
});

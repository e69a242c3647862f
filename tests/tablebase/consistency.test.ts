// Value = best of successors, and the twins of a placement are worth the same.

import { Chess } from "chess.js";
import { describe, expect, it } from "vitest";

import { placementFen } from "../../src/chess/fen.js";
import { parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { parseSquare } from "../../src/chess/squares.js";
import { SYMMETRIES, imageOf } from "../../src/chess/squares.js";
import { cacheFolder } from "../../src/places.js";
import { valueFromMoves } from "../../src/tablebase/checks.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { Tables, UNTOLD, unpack } from "../../src/tablebase/tables.js";
import { TARGET, openTables } from "../support.js";

const tables = openTables();
const movement = new Movement(TARGET);

const afterMove = (squares: readonly number[], piece: number, to: number, attackerToMove: boolean) => ({
  value: tables.probeAfter([...squares], piece, to, attackerToMove),
  captures: squares.includes(to),
});

describe("one ply of search", () => {
  it("agrees with the table on 100,000 random placements", () => {
    const random = randomNumbers(20261125);
    const list = new MoveList();
    for (let n = 0; n < 100_000; ++n) {
      const { squares, attackerToMove } = randomPlacement(TARGET, random);
      const pieces = [...squares];
      movement.legalMoves(pieces, attackerToMove, list);
      const after = Array.from({ length: list.count }, (_, m) =>
        afterMove(pieces, list.piece[m], list.to[m], attackerToMove),
      );
      const check = movement.inCheck(pieces, attackerToMove ? 0 : 1);
      const want = valueFromMoves(after, attackerToMove, check);
      if (tables.probe(pieces, attackerToMove) !== want) {
        expect.fail(
          `${placementFen({ squares, attackerToMove }, TARGET, "white")}: ${tables.probe(pieces, attackerToMove)}, ${want}`,
        );
      }
    }
  });

  it("agrees with moves made by chess.js 1.4 on 1,500 random placements", () => {
    const random = randomNumbers(4711);
    for (let n = 0; n < 1500; ++n) {
      const { squares, attackerToMove } = randomPlacement(TARGET, random);
      const game = new Chess(placementFen({ squares, attackerToMove }, TARGET, "white"));
      const after = game
        .moves({ verbose: true })
        .map((move) =>
          afterMove(
            [...squares],
            squares.indexOf(parseSquare(move.from)!),
            parseSquare(move.to)!,
            attackerToMove,
          ),
        );
      expect(tables.probe(squares, attackerToMove), game.fen()).toBe(
        valueFromMoves(after, attackerToMove, game.inCheck()),
      );
    }
  });
});

describe("the moves of a placement, looked at together", () => {
  it.each(["R+B v R", "R v R", "R v B"])("come out as one by one, for 20,000 placements of %s", (name) => {
    const material = parseMaterial(name);
    const some = new Tables(material, cacheFolder());
    const moves = new Movement(material);
    const random = randomNumbers(20261128);
    const list = new MoveList();
    for (let n = 0; n < 20_000; ++n) {
      const { squares, attackerToMove } = randomPlacement(material, random, moves);
      const pieces = [...squares];
      moves.legalMoves(pieces, attackerToMove, list);
      const value = some.probeMoves(pieces, list, attackerToMove);
      const isWon = value !== 0 && value > 0 === attackerToMove;
      let isRight = value === some.probe(pieces, attackerToMove);
      for (let m = 0; m < list.count; ++m) {
        const after = some.probeAfter(pieces, list.piece[m], list.to[m], attackerToMove);
        isRight &&= some.moveValues.verdicts[m] === Math.sign(after);
        const told = isWon && Math.sign(after) === Math.sign(value) && list.captured[m] < 0;
        isRight &&= some.moveValues.conversions[m] === (told ? unpack(after).dtc : UNTOLD);
      }
      if (!isRight) expect.fail(placementFen({ squares, attackerToMove }, material, "white"));
    }
    some.close();
  });
});

describe("symmetry", () => {
  it("knows of no value where the kings touch, and goes on", () => {
    const king = parseSquare("d4")!;
    const placed = [king, parseSquare("d5")!, 0, 9, 63];
    for (const turn of [true, false]) {
      expect(tables.probe(placed, turn)).toBe(0);
      expect(tables.verdict(placed, turn)).toBe(0);
    }
    expect(tables.probe([king, parseSquare("d6")!, 0, 9, 63], true)).not.toBeNaN();
  });

  it("says in short what it says at length, for 20,000 placements and the moves from them", () => {
    const random = randomNumbers(20261126);
    const list = new MoveList();
    for (let n = 0; n < 20_000; ++n) {
      const { squares, attackerToMove } = randomPlacement(TARGET, random, movement);
      const pieces = [...squares];
      expect(tables.verdict(pieces, attackerToMove)).toBe(Math.sign(tables.probe(pieces, attackerToMove)));
      movement.legalMoves(pieces, attackerToMove, list);
      const m = n % Math.max(1, list.count);
      if (list.count === 0) continue;
      const after = tables.verdictAfter(pieces, list.piece[m], list.to[m], attackerToMove);
      expect(after).toBe(Math.sign(tables.probeAfter(pieces, list.piece[m], list.to[m], attackerToMove)));
    }
  });

  it("the eight twins are worth the same", () => {
    const random = randomNumbers(99);
    for (let n = 0; n < 3000; ++n) {
      const { squares, attackerToMove } = randomPlacement(TARGET, random);
      const value = tables.probe(squares, attackerToMove);
      for (const g of SYMMETRIES) {
        expect(
          tables.probe(
            squares.map((square) => imageOf(g, square)),
            attackerToMove,
          ),
        ).toBe(value);
      }
    }
  });
});

// FENs taken apart and put together, and the numbers of moves that follow from them.

import fc from "fast-check";
import { parseFen } from "chessops/fen";
import { describe, expect, it } from "vitest";

import { placementFen } from "../../src/chess/fen.js";
import { boardOf, fenFields, fenOf, otherTurn, piecesOn } from "../../src/chess/fen-text.js";
import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import { moveNumber, moveOf, numbered } from "../../src/chess/move-numbers.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";

const START = "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR b KQkq e3 0 1";

describe("the fields of a FEN", () => {
  it("are named, and numbers are numbers", () => {
    expect(fenFields(START)).toEqual({
      board: "rnbqkbnr/pppppppp/8/8/4P3/8/PPPP1PPP/RNBQKBNR",
      turn: "black",
      castling: "KQkq",
      enPassant: "e3",
      halfmoves: 0,
      fullmove: 1,
    });
    expect(fenOf(fenFields(START))).toBe(START);
  });

  it("that are left out are those of a position without a history", () => {
    expect(fenOf(fenFields(" 8/8/8/8/8/8/8/K1k5  b "))).toBe("8/8/8/8/8/8/8/K1k5 b - - 0 1");
  });

  it("change with the other side to move in the turn alone", () => {
    expect(otherTurn(START)).toBe(START.replace(" b ", " w "));
    expect(otherTurn(otherTurn(START))).toBe(START);
  });
});

describe("the pieces on a board", () => {
  it("are those that chessops reads, from the eighth rank down", () => {
    const { board } = parseFen(START).unwrap();
    const pieces = piecesOn(START);
    expect(pieces.size).toBe(board.occupied.size());
    for (const [square, letter] of pieces) {
      const { role, color } = board.get(square)!;
      const expected = role === "knight" ? "n" : role[0];
      expect(letter).toBe(color === "white" ? expected.toUpperCase() : expected);
    }
    expect([...pieces.keys()].map((square) => square >> 3)).toEqual(
      [...pieces.keys()].map((square) => square >> 3).sort((a, b) => b - a),
    );
  });

  it("are written as they were read", () => {
    const material = parseMaterial(DEFAULT_TARGET);
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e9 }), (seed) => {
        const fen = placementFen(randomPlacement(material, randomNumbers(seed)), material, "black", 12, 60);
        expect(boardOf(piecesOn(fen))).toBe(fenFields(fen).board);
        expect(parseFen(fen).isOk).toBe(true);
        expect(fenFields(fen)).toMatchObject({ halfmoves: 12, fullmove: 60 });
      }),
      { numRuns: 200 },
    );
  });
});

describe("numbers of moves", () => {
  const at = (turn: "w" | "b", number: number) => `8/8/8/8/8/8/8/K1k5 ${turn} - - 0 ${number}`;

  it("stand before a move with one point for White and three for Black", () => {
    expect([moveNumber(at("w", 84)), moveNumber(at("b", 84))]).toEqual(["84.", "84..."]);
  });

  it("follow from the ply of a position", () => {
    const fromWhite = moveOf({ look: { fen: at("w", 84), ply: 166 } });
    expect([165, 166, 167, 168].map(fromWhite)).toEqual([83, 84, 84, 85]);
    // a game from a FEN, in which Black moved first
    const fromBlack = moveOf({ look: { fen: at("b", 10), ply: 0 } });
    expect([0, 1, 2, 3].map(fromBlack)).toEqual([10, 11, 11, 12]);
  });

  it("are written once a pair of moves in a line", () => {
    expect(numbered("white", 1, ["Rb4", "Ka5", "Rc4"])).toEqual(["1. Rb4", "Ka5", "2. Rc4"]);
    expect(numbered("black", 61, ["Ka5", "Rc4", "Kb6", "Rc8"])).toEqual([
      "61... Ka5",
      "62. Rc4",
      "Kb6",
      "63. Rc8",
    ]);
    expect(numbered("black", 1, [])).toEqual([]);
  });
});

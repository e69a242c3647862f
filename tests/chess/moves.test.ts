// Legality and moves against two other rules libraries, on random positions.

import { Chess as ChessJs } from "chess.js";
import { Position as Kokopu } from "kokopu";
import { describe, expect, it } from "vitest";

import { placementFen, placementOf, readFen } from "../../src/chess/fen.js";
import { type Material, hasEqualPieces, parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { placementAt, placementNumber } from "../../src/chess/placement.js";
import { NO_MOVE, readQuietSan } from "../../src/chess/san.js";
import { squareName } from "../../src/chess/squares.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";

const MATERIALS = ["R+B v R", "Q v R", "B+N v K", "B+B v N", "Q v N+N", "R v R"].map(parseMaterial);

function ownMoves(material: Material, squares: number[], attackerToMove: boolean): string[] {
  const list = new MoveList();
  new Movement(material).legalMoves(squares, attackerToMove, list);
  return Array.from(
    { length: list.count },
    (_, n) => squareName(squares[list.piece[n]]) + squareName(list.to[n]),
  ).sort();
}

describe.each(MATERIALS)("moves of $name", (material) => {
  const random = randomNumbers(material.men * 7919 + material.attacker.length);
  const placements = Array.from({ length: 300 }, () => randomPlacement(material, random));

  it("agree with chess.js 1.4 and kokopu 4", () => {
    placements.forEach((placement, n) => {
      const fen = placementFen(placement, material, n % 2 ? "white" : "black");
      const own = ownMoves(material, [...placement.squares], placement.attackerToMove);
      const theirs = new ChessJs(fen).moves({ verbose: true }).map((move) => move.from + move.to);
      expect(own, fen).toEqual(theirs.sort());
      const kokopu = new Kokopu(fen);
      expect(kokopu.isLegal(), fen).toBe(true);
      expect(own, fen).toEqual(
        kokopu
          .moves()
          .map((move) => move.from() + move.to())
          .sort(),
      );
    });
  });

  it("are asked for placements that survive FEN and number", () => {
    placements.forEach((placement, n) => {
      const fen = placementFen(placement, material, n % 2 ? "white" : "black");
      const { squares, attackerToMove, material: read } = placementOf(readFen(fen));
      expect(read.id).toBe(material.id);
      expect(attackerToMove).toBe(
        material.attacker.join() === material.defender.join()
          ? fen.includes(" w ")
          : placement.attackerToMove,
      );
      expect([...squares].sort()).toEqual([...placement.squares].sort());
      expect(placementAt(placementNumber(placement), material.men)).toEqual(placement);
    });
  });
});

describe("FEN", () => {
  it.each([
    ["", /cannot be read/],
    ["8/8/8/8/8/8/8/8 w - - 0 1", /empty/],
    ["3k4/5R2/3K4/3B4/8/8/4r3/8 x - - 0 1", /side to move/],
    ["3k4/3R4/3K4/3B4/8/8/4r3/8 w - - 0 1", /not to move is in check/],
  ])("%s is refused", (fen, why) => {
    expect(() => readFen(fen)).toThrow(why);
  });

  it.each([
    ["4k3/8/8/8/8/8/4P3/4K3 w - - 0 1", /pawns/],
    ["rnbqk3/8/8/8/8/8/8/4K3 w - - 0 1", /6 pieces/],
    ["4k3/8/8/8/8/8/8/4K2R w K - 0 1", /castle/],
  ])("%s is outside the tables", (fen, why) => {
    expect(() => placementOf(readFen(fen))).toThrow(why);
  });
});

describe.each(["R+B v R", "R+R v R", "N+N v N", "Q v R+B"].map(parseMaterial))(
  "a move of $name read at a glance",
  (material) => {
    const movement = new Movement(material);
    const random = randomNumbers(material.men * 104_729 + material.attacker.length);
    const read = (squares: number[], attackerToMove: boolean, text: string) => {
      const before = [...squares];
      const move = readQuietSan(movement, squares, attackerToMove, text);
      expect(squares).toEqual(before);
      return move === NO_MOVE ? undefined : squareName(squares[move >> 6]) + squareName(move & 63);
    };

    it("is the one that chess.js 1.4 names so, or none where something is taken", () => {
      let told = 0;
      for (let n = 0; n < 150; ++n) {
        const { squares, attackerToMove } = randomPlacement(material, random);
        const fen = placementFen({ squares, attackerToMove }, material, "white");
        for (const { san, from, to, captured } of new ChessJs(fen).moves({ verbose: true })) {
          const wanted = captured === undefined ? from + to : undefined;
          expect(read([...squares], attackerToMove, san), `${fen} ${san}`).toBe(wanted);
          // what tells pieces of a kind apart, without need; the sign of a check left out
          if (captured === undefined && /^[QRBN]/.test(san))
            expect(read([...squares], attackerToMove, `${san[0]}${from}${to}`), fen).toBe(wanted);
          expect(read([...squares], attackerToMove, san.replace(/[+#]$/, ""))).toBe(wanted);
          if (san.length > 4 && !captured) ++told;
        }
      }
      // only pieces of one kind need to be told apart
      expect(told > 0).toBe(hasEqualPieces(material));
    });

    it("is none where chess.js refuses the text, or where it is written in another way", () => {
      for (let n = 0; n < 40; ++n) {
        const { squares, attackerToMove } = randomPlacement(material, random);
        const fen = placementFen({ squares, attackerToMove }, material, "white");
        const game = new ChessJs(fen);
        const moves = new Map(game.moves({ verbose: true }).map((move) => [move.san, move]));
        for (const letter of "KQRBN")
          for (let to = 0; to < 64; ++to) {
            const text = letter + squareName(to);
            const found = read([...squares], attackerToMove, text);
            const theirs = [...moves.values()].filter(
              (move) => move.piece === letter.toLowerCase() && move.to === squareName(to),
            );
            const one = theirs.length === 1 && theirs[0].captured === undefined ? theirs[0] : undefined;
            expect(found, `${fen} ${text}`).toBe(one && one.from + one.to);
          }
      }
      const { squares, attackerToMove } = randomPlacement(material, random);
      for (const text of ["", "K", "e4", "Ke9", "Ki4", "Kd4=Q", "K-e4", "Rxe4", "Rd4!", "R1dd4", "O-O", "--"])
        expect(read([...squares], attackerToMove, text), text).toBeUndefined();
    });
  },
);

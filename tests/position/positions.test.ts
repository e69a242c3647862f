// Maps, slides and explanations: each value is the table's, each line is made of legal moves (chess.js) and ends as it
// says.

import { Chess } from "chess.js";
import { describe, expect, it } from "vitest";

import { placementFen, placementOf, readFen } from "../../src/chess/fen.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { cacheFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { unpack } from "../../src/tablebase/tables.js";
import { Mapper } from "../../src/position/map.js";
import { Prober } from "../../src/position/probe.js";
import { alongEdge, slides } from "../../src/position/slide.js";
import { numberWord } from "../../src/position/wording.js";
import { knownValues } from "../../src/tablebase/known-values.js";
import { TARGET, openTables } from "../support.js";

const tables = openTables();
const prober = new Prober(cacheFolder(), standardCatalogue());
const PHILIDOR = "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1";
const legal = (fen: string) => {
  try {
    placementOf(readFen(fen));
    return true;
  } catch {
    return false;
  }
};

describe("a map", () => {
  it("holds the table's value for every square that is legal, and for no other", () => {
    for (const fen of [PHILIDOR, "8/8/8/2r5/8/KB6/3R4/1k6 b - - 0 1"]) {
      const mapper = new Mapper(fen, prober);
      for (const [word, index] of [
        ["rook", 4],
        ["attacker's rook", 2],
        ["bishop", 3],
        ["king", 1],
        ["attacker-king", 0],
      ] as const) {
        const { material, attacker, squares, attackerToMove } = placementOf(readFen(fen));
        expect(mapper.pieces([word])).toEqual([index]);
        for (const { square, value } of mapper.map(index).squares) {
          const moved = squares.map((one, n) => (n === index ? square : one));
          const own =
            new Set(moved).size === 5
              ? placementFen({ squares: moved, attackerToMove }, material, attacker)
              : "";
          expect(value !== null, `${word} ${own}`).toBe(own !== "" && legal(own));
          if (value) expect(value).toEqual(unpack(tables.probe(moved, attackerToMove)));
        }
      }
    }
  });

  it("of two men counts what maps of one add up to", () => {
    const mapper = new Mapper(PHILIDOR, prober);
    const both = mapper.count(4, 3);
    const { material, attacker, squares, attackerToMove } = placementOf(readFen(PHILIDOR));
    for (const { square, counts } of both.squares) {
      if (!counts || square === squares[3]) continue;
      const moved = squares.map((one, n) => (n === 4 ? square : one));
      const fen = placementFen({ squares: moved, attackerToMove }, material, attacker);
      if (!legal(fen)) continue;
      const one = new Mapper(fen, prober);
      expect(one.map(3).counts).toEqual(counts);
    }
    expect(() => mapper.pieces(["roock"])).toThrow(/attacker's king, king, attacker's rook, bishop, rook/);
    expect(mapper.pieces(["d5", "e2"])).toEqual([3, 4]);
  });
});

describe("slides", () => {
  it("keep the formation, hold the table's values, and reach every border", () => {
    const found = slides(PHILIDOR, prober, standardCatalogue());
    // from a to f or d to h, and from d8 down: files −3 to 2, ranks −1 to 0
    expect(found.slides).toHaveLength(6 * 2);
    const own = placementOf(readFen(PHILIDOR)).squares;
    for (const { files, ranks, fen, attackerToMove, defenderToMove } of found.slides) {
      const { squares } = placementOf(readFen(fen));
      expect(squares).toEqual(own.map((square) => square + files + 8 * ranks));
      expect(attackerToMove).toEqual(unpack(tables.probe(squares, true)));
      expect(defenderToMove).toEqual(unpack(tables.probe(squares, false)));
    }
    expect(found.slides.find((slid) => slid.files === 0 && slid.ranks === 0)!.changes).toEqual([]);
    // on the knights' file it is drawn (design notes)
    expect(found.slides.find((slid) => slid.files === -2 && slid.ranks === 0)!.attackerToMove!.verdict).toBe(
      "drawn",
    );
    expect(alongEdge(PHILIDOR)).toBe("files");
    expect(alongEdge("8/8/k1K5/8/8/8/8/1RB4r w - - 0 1")).toBe("ranks");
  });
});

describe("an explanation", () => {
  it("is made of legal moves, and its ends are true", () => {
    const random = randomNumbers(606);
    let choices = 0;
    for (let n = 0; n < 120; ++n) {
      const fen = placementFen(randomPlacement(TARGET, random), TARGET, n % 2 === 0 ? "white" : "black");
      const { explanation, verdict, moves, keeping } = prober.probe(fen);
      const { tempting, threat, sentences } = explanation;
      if (moves.length > keeping) {
        expect(explanation.keeping).toHaveLength(keeping);
        expect(tempting.length).toBeGreaterThan(0);
      }
      for (const one of tempting) {
        expect(one.verdict, `${fen} ${one.san}`).not.toBe(verdict);
        const chess = new Chess(fen);
        chess.move(one.san);
        for (const san of one.line) chess.move(san);
        if (one.end === "mate") expect(chess.isCheckmate()).toBe(true);
        if (one.end === "stalemate") expect(chess.isStalemate()).toBe(true);
        // the line keeps what the tempting move made of it
        if (chess.isGameOver()) continue;
        // after a capture the other side may be the attacker
        const end = prober.probe(chess.fen());
        const sign = { won: 1, drawn: 0, lost: -1 };
        const same = end.attacker === (n % 2 === 0 ? "white" : "black");
        expect(sign[end.verdict] * (same ? 1 : -1) + 0, `${fen} ${one.san}`).toBe(sign[one.verdict] + 0);
        const attacker = n % 2 === 0 ? "White" : "Black";
        const winner = { won: attacker, lost: attacker === "White" ? "Black" : "White", drawn: "drawn" }[
          one.verdict
        ];
        const choice = /^(White|Black) holds with (?:either|any) of (\w+) moves$/.exec(one.end);
        if (!choice) expect(one.end, `${fen} ${one.san} ${one.line.join(" ")}`).toContain(winner);
        else {
          expect(one.verdict, fen).toBe("drawn");
          expect(choice[1], fen).toBe(chess.turn() === "w" ? "White" : "Black");
          expect(choice[2], fen).toBe(numberWord(end.keeping));
          ++choices;
        }
      }
      if (threat && "mates" in threat) {
        const [board, turn, ...rest] = fen.split(" ");
        const passed = new Chess([board, turn === "w" ? "b" : "w", ...rest].join(" "));
        for (const san of threat.mates) {
          passed.move(san);
          expect(passed.isCheckmate(), `${fen} ${san}`).toBe(true);
          passed.undo();
        }
      }
      // a lone king is not left with a rook to take, and a lost side keeps nothing
      for (const { end } of tempting)
        expect(end, fen).not.toMatch(/^rook against king, drawn|^rook against rook, [WB]/);
      expect(sentences.join(" "), fen).not.toContain("Every move keeps");
      if (moves.length > 0) expect(sentences[0]).toMatch(/to move: (won|drawn|lost)/);
    }
    expect(choices).toBeGreaterThan(5);
  });

  it("takes for no temptation a trade with which nothing can be won any more", () => {
    const fen = "2k5/8/2K5/2B5/8/2R5/8/4r3 w - - 0 1";
    const { moves, verdict, explanation } = prober.probe(fen);
    expect(moves.find(({ san }) => san === "Re3")!.verdict).not.toBe(verdict);
    expect(explanation.tempting.length).toBeGreaterThan(1);
    expect(explanation.tempting.map(({ san }) => san)).not.toContain("Re3");
  });

  it("tells the published reciprocal zugzwangs, and says so of nothing like them", () => {
    // the 17 of R+B v R (fixtures/published-zugzwangs.csv has their source)
    const rows = knownValues("published-zugzwangs.csv").filter(
      ({ fen }) => placementOf(readFen(fen)).material.id === TARGET.id,
    );
    expect(rows.length).toBe(17);
    for (const { fen } of rows) {
      const found = prober.probe(fen);
      expect(found.zugzwang, fen).toBe("reciprocal");
      expect(found.explanation.sentences.join(" ")).toContain("reciprocal zugzwang");
    }
    // Philidor 1749 is won with either side to move
    expect(prober.probe(PHILIDOR).zugzwang).toBe("none");
  });

  it("says what a teacher would of known positions", () => {
    const told = (fen: string) => prober.probe(fen).explanation.sentences.join(" ");
    // Cochrane set-up, Budnikov–Novik 1991
    expect(told("4k3/R7/8/4K3/4B3/8/4r3/8 b - - 0 1")).toMatch(
      // a rook given for the bishop tempts nobody
      /^Rear pin, the defender to move: drawn\. 6 of 12 moves keep it.*Not Kd8: Kd6 .*White mates in 20\./,
    );
    // Philidor 1749
    expect(told(PHILIDOR)).toMatch(
      /^Philidor, the attacker to move: won, mate in 19\. 21 of 27 moves keep it/,
    );
    // Pintér–Razuvaev 1982, after 1…Bd3: 2.Re7+ holds, 2.Ra7 Rb1#
    const { explanation, moves } = prober.probe("8/2R5/8/1r6/8/3bk3/8/3K4 w - - 2 2");
    expect(explanation.keeping).toContain("Re7+");
    expect(moves.find(({ san }) => san === "Ra7")).toMatchObject({ verdict: "won", dtm: 1 });
  });
});

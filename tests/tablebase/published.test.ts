// The default target's table against values published elsewhere.

import { describe, expect, it } from "vitest";

import { placementOf, readFen } from "../../src/chess/fen.js";
import { Movement } from "../../src/chess/moves.js";
import { squareName } from "../../src/chess/squares.js";
import { frameOf } from "../../src/geometry/frame.js";
import { cacheFolder } from "../../src/places.js";
import { TableFile, tableFile } from "../../src/tablebase/table-file.js";
import { halfNamed, halvesOf } from "../../src/tablebase/half.js";
import { kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { unpack } from "../../src/tablebase/tables.js";
import { knownValues } from "../../src/tablebase/known-values.js";
import { TARGET, openTables } from "../support.js";

const tables = openTables();
const value = (fen: string) => {
  const { squares, attackerToMove } = placementOf(readFen(fen));
  return unpack(tables.probe(squares, attackerToMove));
};

const countsOf = (half: string) => {
  const one = halfNamed(half);
  const file = new TableFile(tableFile(cacheFolder(), one), one);
  file.close();
  return file.manifest.counts;
};

describe("greatest lengths", () => {
  it("are 59 moves to conversion and 65 to mate (Thompson, ICCA Journal 9(3), 1986; distance-to-mate literature)", () => {
    expect(countsOf("RB-beats-R")).toMatchObject({ longestConversion: 59, longestMate: 65 });
  });

  it("are 19 to mate for R v R; 18 to conversion and 29 to mate for R v B (from memory, in the design notes)", () => {
    expect(countsOf("R-beats-R")).toMatchObject({ longestMate: 19 });
    expect(countsOf("R-beats-B")).toMatchObject({ longestConversion: 18, longestMate: 29 });
  });
});

describe("positions", () => {
  it("Philidor 1749, in Howell 1997 pp. 148–150: mate in 19, with Black to move mated in 21 (distances: design notes)", () => {
    expect(value("3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1")).toMatchObject({ verdict: "won", dtm: 19 });
    expect(value("3k4/5R2/3K4/3B4/8/8/4r3/8 b - - 0 1")).toMatchObject({ verdict: "won", dtm: 21 });
  });

  it.each([
    ["Budnikov–Novik 1991 (encyclopaedia article on this ending)", "4k3/R7/8/4K3/4B3/8/4r3/8"],
    ["Pintér–Razuvaev 1982 (same article)", "8/2R5/8/1r6/4b3/4k3/8/3K4"],
  ])("%s is drawn, either side to move", (_, board) => {
    expect(value(`${board} w - - 0 1`).verdict).toBe("drawn");
    expect(value(`${board} b - - 0 1`).verdict).toBe("drawn");
  });

  it("Pintér–Razuvaev 1982: after 1…Bd3 2.Re7+ holds and 2.Ra7 loses at once", () => {
    expect(value("8/4R3/8/1r6/8/3bk3/8/3K4 b - - 0 1").verdict).toBe("drawn");
    expect(value("8/R7/8/1r6/8/3bk3/8/3K4 b - - 0 1")).toEqual({ verdict: "won", dtm: 1, dtc: 1 });
  });

  it("I. Nikolić–G. Arsović, Belgrade 1989, move 167: drawn", () => {
    expect(value("8/8/8/1r1B3R/3K1k2/8/8/8 b - - 0 167").verdict).toBe("drawn");
  });
});

describe("whole table", () => {
  const [half] = halvesOf(TARGET);
  const file = new TableFile(tableFile(cacheFolder(), half), half);
  const lost = file.readPlane("mate");
  file.close();
  const movement = new Movement(TARGET);
  const kings = kingsOfPairs();

  /** The squares of a stored placement: king pair, last piece (the defender's rook), then the others in order. */
  const squaresAt = (index: number) => {
    const [attackerKing, defenderKing] = kings[index >> 18];
    return [attackerKing, defenderKing, (index >> 6) & 63, index & 63, (index >> 12) & 63];
  };
  const legal = (squares: number[], side: 0 | 1) =>
    new Set(squares).size === 5 && !movement.inCheck(squares, side);

  it("has the 17 reciprocal zugzwangs of the design notes; the number also in ICGA Journal 24(4), 2001 (from memory)", () => {
    const key = (squares: readonly number[]) =>
      frameOf({ squares, attackerToMove: true }, TARGET).squares.map(squareName).join(" ");
    const wanted = knownValues("published-zugzwangs.csv").map(({ fen }) =>
      key(placementOf(readFen(fen)).squares),
    );
    const found = new Set<string>();
    for (let index = 0; index < lost.length; ++index) {
      if (lost[index] === 0) continue;
      const squares = squaresAt(index);
      // lost with the defender to move, and the attacker cannot win when it is the attacker's move
      if (tables.verdict(squares, true) !== 1 && legal(squares, 0) && legal(squares, 1))
        found.add(key(squares));
    }
    expect([...found].sort()).toEqual([...wanted].sort());
    expect(found.size).toBe(17);
  });

  it("keeps the counts of won and legal placements that it had (a signature; own computation)", () => {
    expect(countsOf("RB-beats-R")).toEqual({
      winnerToMove: { won: 30_012_690, legal: 72_749_322 },
      loserToMove: { lost: 4_244_108, legal: 83_422_024 },
      longestMate: 65,
      longestConversion: 59,
    });
  });
});

// What positions and moves are worth under the fifty-move rule, held to a search that knows nothing of distances: it plays
// the rules library's moves until a mate, a capture or the end of the count.

import { makeSan } from "chessops/san";
import type { Chess } from "chessops/chess";
import { makeFen } from "chessops/fen";
import { expect, it } from "vitest";

import { readFen } from "../../src/chess/fen.js";
import { parseMaterial } from "../../src/chess/material.js";
import { Classifier } from "../../src/endings/ending.js";
import { halfMovesFor, isBeyondFifty, movesInTime } from "../../src/endings/fifty-moves.js";
import { PositionColumns } from "../../src/endings/position-columns.js";
import { ReplayCache } from "../../src/endings/replay-cache.js";
import { openTables } from "../support.js";

const classifier = new Classifier(parseMaterial("R v B"), openTables(parseMaterial("R v B")));

it("says how many moves are in time as it says whether a conversion is", () => {
  for (let halfmoves = 0; halfmoves <= 110; ++halfmoves)
    for (const winnerToMove of [true, false])
      for (let dtc = 1; dtc < 70; ++dtc)
        expect(dtc <= movesInTime(halfmoves, winnerToMove)).toBe(
          !isBeyondFifty(1, dtc, winnerToMove, halfmoves),
        );
  expect(halfMovesFor(3, true)).toBe(5);
});

/** Every position that a legal move leads to. */
const movesFrom = (position: Chess) =>
  [...position.allDests()].flatMap(([from, squares]) =>
    [...squares].map((to) => {
      const next = position.clone();
      next.play({ from, to });
      return { from, to, takes: position.board.occupied.has(to), next };
    }),
  );

/** Whether White, who has the rook, mates or takes the bishop before `left` half-moves are over. */
function wins(position: Chess, left: number, known: Map<string, boolean>): boolean {
  if (position.isCheckmate()) return position.turn === "black";
  if (left <= 0 || position.isStalemate()) return false;
  const key = `${makeFen(position.toSetup()).split(" ", 2).join()} ${left}`;
  const before = known.get(key);
  if (before !== undefined) return before;
  const after = ({ takes, next }: ReturnType<typeof movesFrom>[number]) =>
    takes ? position.turn === "white" : wins(next, left - 1, known);
  const all = movesFrom(position);
  const found = position.turn === "white" ? all.some(after) : all.every(after);
  known.set(key, found);
  return found;
}

it.each([
  // won in three half-moves, or in one; the count lets it be just in time, just late, or never
  ["8/8/8/8/8/1K5R/8/b1k5 w - - 97 200", 97],
  ["8/8/8/8/8/1K5R/8/b1k5 w - - 98 200", 98],
  ["k7/8/1K6/8/8/8/7R/5b2 w - - 98 200", 98],
  ["k7/8/1K6/8/8/8/7R/5b2 w - - 99 200", 99],
  ["k7/8/1K6/8/8/8/7R/5b2 w - - 100 200", 100],
  ["k7/8/1K6/8/8/8/7R/5b2 b - - 96 200", 96],
  ["k7/8/1K6/8/8/8/7R/5b2 b - - 97 200", 97],
  ["2k5/8/1K6/8/8/8/7R/5b2 b - - 97 200", 97],
  ["8/8/3b4/8/8/2K5/7R/k7 b - - 98 200", 98],
])("each move in %s is worth what a search to the end of the count finds", (fen, halfmoves) => {
  const start = readFen(fen);
  const known = new Map<string, boolean>();
  const before = wins(start, 100 - halfmoves, known);
  const moves = movesFrom(start);
  const after = ({ takes, next }: (typeof moves)[number]) =>
    takes ? start.turn === "white" : wins(next, 99 - halfmoves, known);
  const kept = moves.filter((move) => after(move) === before).length;
  for (const move of moves) {
    const san = makeSan(start, { from: move.from, to: move.to });
    const { record } = new ReplayCache(classifier).replay(Buffer.from(`${san} *`), new Map(), start);
    const [first] = PositionColumns.from(record!.endings[0].columns).records();
    expect(first.fiftyError, san).toBe(after(move) === before ? 0 : 1);
    expect(first.fiftyKeeping, san).toBe(kept);
  }
});

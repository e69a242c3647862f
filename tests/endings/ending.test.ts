// What an ending says of small games: how it ended, with what outcome, the errors made. Verdicts come from tables made up
// for each test, so that no real ones are needed.

import { makeFen } from "chessops/fen";
import { describe, expect, it } from "vitest";

import { placeBoard, readFen } from "../../src/chess/fen.js";
import { type Material, parseMaterial } from "../../src/chess/material.js";
import type { Square } from "../../src/chess/units.js";
import { Classifier, type EndingRecord } from "../../src/endings/ending.js";
import { halfMovesFor, isBeyondFifty } from "../../src/endings/fifty-moves.js";
import type { Score } from "../../src/chess/verdict.js";
import { PositionColumns } from "../../src/endings/position-columns.js";
import { ReplayCache } from "../../src/endings/replay-cache.js";
import { readMainLine } from "../../src/pgn/game/movetext.js";
import { playThrough } from "../../src/pgn/game/replay.js";
import { type Tables, UNTOLD } from "../../src/tablebase/tables.js";

const TARGET = parseMaterial("R+B v R");
/** White attacks and is to move. */
const QUIET = "8/8/3k4/7r/8/3KB3/8/R7 w - - 0 1";
/** The same with colours changed: Black attacks and is to move. */
const BLACK_ATTACKS = "r7/8/3kb3/8/7R/3K4/8/8 b - - 0 1";

const keyOf = (squares: readonly Square[], attackerToMove: boolean) => `${squares.join()} ${attackerToMove}`;

/** Tables that know some scores, won in 20 moves where they win; a position that they do not know is like the last. */
function madeUp(scores: ReadonlyMap<string, Score>): Tables {
  let last: Score = 0;
  const tables: Pick<
    Tables,
    "verdict" | "verdictAfter" | "probeMoves" | "moveValues" | "verdictAfterWithin"
  > = {
    verdict(squares, attackerToMove) {
      return scores.get(keyOf(Array.from(squares), attackerToMove)) ?? last;
    },
    verdictAfter(squares, piece, to, attackerToMove) {
      const after = Array.from(squares, (square, n) => (n === piece ? to : square));
      return scores.get(keyOf(after, !attackerToMove)) ?? last;
    },
    moveValues: { verdicts: new Int8Array(128), conversions: new Int16Array(128).fill(UNTOLD) },
    probeMoves(squares, list, attackerToMove) {
      last = scores.get(keyOf(Array.from(squares), attackerToMove)) ?? last;
      for (let m = 0; m < list.count; ++m)
        this.moveValues.verdicts[m] = this.verdictAfter(squares, list.piece[m], list.to[m], attackerToMove);
      return last * (65536 + 256 * 20 + 20);
    },
    verdictAfterWithin(squares, piece, to, attackerToMove, moves) {
      return moves < 20 ? 0 : this.verdictAfter(squares, piece, to, attackerToMove);
    },
  };
  return tables as Tables;
}

interface Game {
  readonly fen?: string;
  readonly target?: Material;
  /** Of the positions in the target, in order; drawn where none is given. */
  readonly scores?: readonly Score[];
  readonly result?: string;
  readonly termination?: string;
}

/** The only ending of a game. */
function endingOf(moves: string, game: Game = {}): EndingRecord {
  const { fen = QUIET, target = TARGET, scores = [], result = "1/2-1/2", termination = "" } = game;
  const start = readFen(fen);
  const known = new Map<string, Score>();
  let n = 0;
  playThrough(start.clone(), readMainLine(moves), ({ board, turn }) => {
    const found = placeBoard(board);
    if (found?.material.id !== target.id) return;
    const key = keyOf(found.squares, turn === found.attacker);
    if (!known.has(key)) known.set(key, scores[n] ?? 0);
    ++n;
  });
  const tags = new Map([
    ["FEN", makeFen(start.toSetup())],
    ["Result", result],
    ["Termination", termination],
  ]);
  const cache = new ReplayCache(new Classifier(target, madeUp(known)));
  const { record } = cache.replay(new Uint8Array(Buffer.from(moves)), tags, start);
  expect(record?.endings).toHaveLength(1);
  return record!.endings[0];
}

const BACK_AND_FORTH = "1. Ra2 Rh4 2. Ra1 Rh5 ";

describe("how an ending ended", () => {
  it.each<[string, string, string, Game]>([
    ["mate", "mate", "1. Ra8#", { fen: "3k4/R7/3K4/3B4/8/8/7r/8 w - - 0 60", result: "1-0" }],
    [
      "stalemate",
      "stalemate",
      "1. Qf7",
      { fen: "7k/8/8/8/5Q2/8/8/K7 w - - 0 60", target: parseMaterial("Q v K") },
    ],
    ["a draw", "agreed", "1. Ra2 Rh4", {}],
    ["the third time of a position", "repetition", BACK_AND_FORTH.repeat(2), {}],
    ["only the second time of a position", "agreed", BACK_AND_FORTH, {}],
    ["fifty moves", "fifty moves", "1. Ra2", { fen: QUIET.replace("0 1", "99 90") }],
    // FIDE Laws 9.3.1: the move that completes the count may be written down and not made
    ["a claim with a move written", "fifty moves", "1. Ra2", { fen: QUIET.replace("0 1", "98 90") }],
    ["two half-moves less than fifty", "agreed", "1. Ra2", { fen: QUIET.replace("0 1", "97 90") }],
    ["a win without mate", "resignation", "1. Ra2 Rh4", { result: "1-0" }],
    ["a win on time", "time", "1. Ra2 Rh4", { result: "1-0", termination: "White wins on time" }],
    ["a forfeit", "time", "1. Ra2 Rh4", { result: "0-1", termination: "rules forfeit" }],
    ["a word that only holds time", "resignation", "1. Ra2", { result: "1-0", termination: "sometimes" }],
    ["no result", "cut off", "1. Ra2 Rh4", { result: "*" }],
    ["a move that is not legal", "cut off", "1. Ra2 Rh4 2. Qd1 Rh5", { result: "1-0" }],
  ])("by %s: %s", (_, endedBy, moves, game) => {
    expect(endingOf(moves, game)).toMatchObject({ endedBy, captured: null });
  });

  it.each([
    ["1. Ra2 Rh3 2. Ra1 Rxe3+ 3. Kxe3", QUIET, "attacker's bishop", 3],
    ["1. Bc5+ Rxc5", QUIET, "attacker's bishop", 1],
    ["1. Ra5 Rxa5", QUIET, "attacker's rook", 1],
    ["1. Ra5 Kd7 2. Rxh5", QUIET, "defender's rook", 2],
    ["1... Rd8 2. Rd4+ Kc7 3. Rxd8", BLACK_ATTACKS, "attacker's rook", 3],
  ])("by the capture in %s", (moves, fen, captured, lastPly) => {
    // whatever came of the game behind it
    for (const result of ["1-0", "0-1", "1/2-1/2"])
      expect(endingOf(moves, { fen, result })).toMatchObject({
        endedBy: "capture",
        captured,
        lastPly,
        contradicts: false,
      });
  });
});

describe("the outcome", () => {
  it.each([
    [QUIET, "1-0", "white", "lost"],
    [QUIET, "0-1", "white", "held"],
    [QUIET, "1/2-1/2", "white", "held"],
    [QUIET, "*", "white", "open"],
    [BLACK_ATTACKS, "0-1", "black", "lost"],
    [BLACK_ATTACKS, "1-0", "black", "held"],
    [BLACK_ATTACKS, "1/2-1/2", "black", "held"],
  ])("of %s with %s, where %s attacks, is for the defender: %s", (fen, result, attacker, outcome) => {
    expect(endingOf("", { fen, result })).toMatchObject({ attacker, outcome });
  });

  it.each<[string, Score, string, boolean]>([
    [QUIET, 0, "1/2-1/2", false],
    [QUIET, 0, "1-0", true],
    [QUIET, 0, "0-1", true],
    [QUIET, 1, "1-0", false],
    [QUIET, 1, "1/2-1/2", true],
    [QUIET, -1, "0-1", false],
    [QUIET, -1, "1-0", true],
    [QUIET, 1, "*", false],
    [BLACK_ATTACKS, 1, "0-1", false],
    [BLACK_ATTACKS, 1, "1-0", true],
  ])("of %s with the verdict %i and the result %s contradicts: %s", (fen, score, result, contradicts) => {
    expect(endingOf("", { fen, scores: [score], result })).toMatchObject({
      entryVerdict: score,
      finalVerdict: score,
      contradicts,
    });
  });

  it("contradicts nothing where the game could not be read to its end", () => {
    const game: Game = { scores: [1, 1, 1], result: "1/2-1/2" };
    expect(endingOf("1. Ra2 Rh4", game).contradicts).toBe(true);
    expect(endingOf("1. Ra2 Rh4 2. Qd1", game).contradicts).toBe(false);
  });
});

describe("errors", () => {
  it("are counted for each side by what they gave away", () => {
    const ending = endingOf("1. Ra2 Rh4 2. Ra1 Rh3 3. Rb1 Rh5 4. Rb2 Rh4", {
      // White gives away half a point, Black half, White a whole one, Black a whole one; then nobody
      scores: [1, 0, 1, -1, 1, 1, 1, 1, 1],
    });
    expect(ending).toMatchObject({
      attackerErrors: [1, 1],
      defenderErrors: [1, 1],
      entryVerdict: 1,
      finalVerdict: 1,
    });
    const records = PositionColumns.from(ending.columns).records();
    expect(records.map(({ error }) => error)).toEqual([1, 1, 2, 2, 0, 0, 0, 0, null]);
    expect(records.map(({ san }) => san)).toEqual([
      ...["Ra2", "Rh4", "Ra1", "Rh3", "Rb1", "Rh5", "Rb2", "Rh4"],
      null,
    ]);
    // the move played is the only one that does not keep the verdict
    expect(records[0].keeping).toBe(records[0].legal - 1);
  });

  it("are the defender's where Black attacks and White errs", () => {
    const ending = endingOf("1... Rd8 2. Rh5 Ra8", { fen: BLACK_ATTACKS, scores: [0, 0, 1, 1] });
    expect(ending).toMatchObject({ attackerErrors: [0, 0], defenderErrors: [1, 0] });
  });
});

describe("a span", () => {
  it("begins with the capture that brings the target about, and has its move number and count", () => {
    const fen = "8/8/3k4/7r/8/3KB3/p7/R7 w - - 7 40";
    expect(endingOf("40. Rxa2 Rh4 41. Ra1 Rh5", { fen })).toMatchObject({
      firstPly: 1,
      lastPly: 4,
      positions: 4,
      firstHalfmoves: 0,
      firstFullmove: 40,
      passing: false,
    });
  });

  it.each([
    ["40. Rxa2", true],
    ["40. Rxa2 Rh4", true],
    ["40. Rxa2 Rh4 41. Ra1", false],
    ["40. Rxa2 Rh3 41. Ra1 Rxe3+", false],
    ["40. Rxa2 Rh2 41. Rxh2", false],
    ["40. Rxa2 Re5 41. Ra1 Rxe3+", false],
  ])("in %s is passing: %s", (moves, passing) => {
    expect(endingOf(moves, { fen: "8/8/3k4/7r/8/3KB3/p7/R7 w - - 7 40" }).passing).toBe(passing);
  });

  it("has no verdict where a king can still castle", () => {
    const ending = endingOf("1. O-O Kd7", { fen: "4k3/7r/8/8/8/8/4B3/4K2R w K - 0 1", scores: [1, 1, 1] });
    expect(ending).toMatchObject({ entryVerdict: null, finalVerdict: 1, attackerErrors: [0, 0] });
    expect(PositionColumns.from(ending.columns).record(0)).toMatchObject({
      san: "O-O",
      verdict: null,
      dtm: null,
    });
  });

  it("has the first clock of each side that tells, in milliseconds", () => {
    const moves = "1. Ra2 Rh4 {[%clk 0:00:30]} 2. Ra1 {[%clk 0:01:00.5]} Rh5 {[%clk 0:00:10]}";
    expect(endingOf(moves)).toMatchObject({ attackerClock: 60_500, defenderClock: 30_000 });
    expect(endingOf("1. Ra2 Rh4")).toMatchObject({ attackerClock: null, defenderClock: null });
  });
});

describe("the fifty-move count", () => {
  it("counts the half-moves of a conversion from the side to move", () => {
    expect(halfMovesFor(1, true)).toBe(1);
    expect(halfMovesFor(1, false)).toBe(2);
    expect(halfMovesFor(50, true)).toBe(99);
  });

  it.each<[Score, number | null, boolean, number, boolean]>([
    [1, 50, true, 1, false],
    [1, 50, true, 2, true],
    [1, 50, false, 0, false],
    [1, 50, false, 1, true],
    [-1, 50, false, 2, true],
    [-1, 50, true, 0, false],
    [0, null, true, 99, false],
    [1, 0, false, 120, false],
  ])(
    "score %i in %s moves, attacker to move %s, after %i half-moves: beyond %s",
    (score, dtc, toMove, count, beyond) => {
      expect(isBeyondFifty(score, dtc, toMove, count)).toBe(beyond);
    },
  );

  it("marks the positions whose win comes too late", () => {
    const fen = QUIET.replace("0 1", "61 90");
    const columns = PositionColumns.from(
      endingOf("90. Ra2 Rh4 91. Ra1", { fen, scores: [1, 1, 1, 1] }).columns,
    );
    // 39 half-moves from the first position, 40 from the second, and so on; 39, 38, 37 and 36 are left
    expect(columns.records().map(({ beyondFifty }) => beyondFifty)).toEqual([false, true, true, true]);
  });
});

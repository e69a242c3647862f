// Playing against the table: every move judged as another rules library and the table say, games that end and draws that
// can be claimed by the Laws, and opponents that are perfect, or err as people do.

import { join } from "node:path";

import { Chess as OtherRules } from "chess.js";
import { makeUci } from "chessops/util";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { readFen } from "../../src/chess/fen.js";
import type { Connection } from "../../src/store/connection.js";
import { openForReading } from "../../src/store/database.js";
import { cacheFolder } from "../../src/places.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { Answers } from "../../src/query/engine/find.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { chancesOfPeople, movesOfPeople, replyOf } from "../../src/exercises/opponent.js";
import { Playing } from "../../src/position/play.js";
import { Prober } from "../../src/position/probe.js";
import { indexBundled, openTables, temporaryFolder } from "../support.js";

openTables();
const prober = new Prober(cacheFolder(), standardCatalogue());
let db: Connection;
beforeAll(async () => {
  const path = join(temporaryFolder(), "bundled.db");
  await indexBundled(path);
  db = openForReading(path);
});
afterAll(() => {
  prober.close();
  db.close();
});

/** Philidor's position, White to move: won (Philidor 1749; moves to mate by the table, checked in tests/solver). */
const PHILIDOR = "3k4/4r3/3K4/3B4/8/8/8/5R2 w - - 0 1";
const SECOND_RANK = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
const after = (start: string, moves: readonly string[]) => {
  const playing = new Playing(prober, start);
  moves.forEach((move) => playing.play(move));
  return playing;
};

describe("a game", () => {
  it("tells what each move did, with what would have kept the result and why it fails", () => {
    const { moves, value, attacker } = after(SECOND_RANK, ["a7e7"]).game();
    expect(attacker).toBe("white");
    expect(moves[0]).toMatchObject({ san: "Re7", by: "black", error: 1, instead: ["Rd7+"] });
    expect(moves[0].before.verdict).toBe("drawn");
    expect(value).toEqual(moves[0].after);
    expect(moves[0].refutation!.line.length).toBeGreaterThan(0);
    // the line is legal by another library's rules
    const other = new OtherRules(SECOND_RANK);
    other.move("Re7");
    for (const san of moves[0].refutation!.line) other.move(san);
    const kept = after(SECOND_RANK, ["a7d7"]).game().moves[0];
    expect(kept).toMatchObject({ error: 0, instead: [], refutation: null });
  });

  it.each([
    ["a7a9", /not legal/],
    ["a7b8", /not legal/],
    ["d6d7", /not legal/],
  ])("refuses %s", (move, message) => {
    expect(() => after(SECOND_RANK, [move])).toThrow(message);
  });

  it("ends by mate, stalemate, and with too few pieces to mate, and goes no further", () => {
    const mate = after("3k4/r7/3K4/3B4/8/8/8/6R1 w - - 0 1", ["g1g8"]);
    expect(mate.end).toEqual({ result: "1-0", because: "checkmate" });
    expect(() => mate.play("d8e8")).toThrow(/the game is over/);
    expect(after("8/8/8/8/8/5k2/5r2/7K w - - 0 1", ["h1g1"]).end).toBeNull();
    const stalemate = after("7k/8/5K2/8/8/8/8/6R1 w - - 0 1", ["f6f7"]);
    expect(stalemate.end).toBeNull(); // the king goes to h7
    expect(after("k7/8/1K6/8/8/8/8/7R w - - 0 1", ["h1h7"]).game().end).toBeNull();
    expect(
      after("k7/7R/2K5/8/8/8/8/8 w - - 0 1", ["c6c7"])
        .game()
        .legal.map(({ uci }) => uci),
    ).toEqual(["a8a7"]);
    expect(after("7k/8/6K1/8/8/8/8/5R2 w - - 0 1", ["f1f7"]).game().end).toBeNull();
    expect(
      after("7k/5K2/8/8/8/8/8/6R1 w - - 0 1", ["g1g6"])
        .game()
        .legal.map(({ uci }) => uci),
    ).toEqual(["h8h7"]);
    expect(after("k7/8/K7/8/8/8/8/1R6 w - - 0 1", ["b1b7"]).end).toMatchObject({ because: "stalemate" });
    const bare = after("8/8/8/8/8/5k2/5r2/6K1 w - - 0 1", []);
    expect(bare.game().legal).not.toHaveLength(0);
    const few = after("8/8/8/4k3/8/8/5K2/5r2 w - - 0 1", ["f2f1"]);
    expect(few.end).toMatchObject({ result: "1/2-1/2", because: expect.stringContaining("5.2.2") });
    expect(few.game()).toMatchObject({ value: null, legal: [] });
  });

  it("tells of draws that can be claimed, and ends where the Laws end it (FIDE Laws 2023, 9.2, 9.3, 9.6)", () => {
    // rooks to and fro, White to move
    const start = "3k4/8/8/8/8/3K4/r7/7R w - - 0 1";
    const round = ["h1h2", "a2a1", "h2h1", "a1a2"];
    const claims = (times: number) => after(start, Array.from({ length: times }, () => round).flat());
    expect(claims(1).game().claim).toBeNull();
    expect(claims(2).game().claim).toContain("third time");
    expect(claims(2).game().claim).toContain("arbiter");
    expect(claims(2).end).toBeNull();
    expect(claims(4).end).toMatchObject({ because: expect.stringContaining("9.6.1") });
    const late = (halfmoves: number) => start.replace(" 0 1", ` ${halfmoves} 90`);
    expect(after(late(98), ["h1h2"]).game().claim).toBeNull();
    expect(after(late(99), ["h1h2"]).game().claim).toContain("9.3");
    expect(after(late(149), ["h1h2"]).end).toMatchObject({ because: expect.stringContaining("9.6.2") });
  });

  it("keeps to its first attacker when the pieces change", () => {
    // White takes the rook and is left with the attack
    const game = after("3k4/8/3K4/3B4/8/8/8/r2R4 b - - 0 1", ["a1d1"]).game();
    expect(game.attacker).toBe("white");
    // now Black has the rook against the bishop: the attacker has lost the win, not become another
    expect(game.moves[0].by).toBe("black");
    expect(["drawn", "lost"]).toContain(game.value!.verdict);
  });
});

describe("the table as opponent", () => {
  it("wins in the fewest moves against itself, which resists the longest", () => {
    const playing = new Playing(prober, PHILIDOR);
    const first = playing.game().value!;
    expect(first.verdict).toBe("won");
    let plies = 0;
    while (!playing.end && plies < 200) {
      playing.play(replyOf(playing, prober, "table", { db: undefined, seed: 1 }));
      ++plies;
    }
    // mated on the very move the table said
    expect(playing.end).toEqual({ result: "1-0", because: "checkmate" });
    expect(plies).toBe(2 * first.dtm! - 1);
    expect(playing.moves.every(({ error }) => error === 0)).toBe(true);
  });

  it("never gives a draw away, and does not run in circles where it need not", () => {
    const playing = new Playing(prober, "8/8/3k4/8/3KB3/8/7R/r7 w - - 0 1");
    expect(playing.game().value!.verdict).toBe("drawn");
    for (let n = 0; n < 60 && !playing.end; ++n)
      playing.play(replyOf(playing, prober, "table", { db: undefined, seed: 1 }));
    expect(playing.moves.every(({ error }) => error === 0)).toBe(true);
    expect(Math.max(...playing.stood.values())).toBeLessThanOrEqual(2);
  });
});

describe("people as opponent", () => {
  it("have legal moves that add up to one, the likelier the more often they were played", () => {
    const playing = new Playing(prober, SECOND_RANK);
    const chances = chancesOfPeople(playing, prober, db);
    expect(chances.reduce((sum, { chance }) => sum + chance, 0)).toBeCloseTo(1, 9);
    const legal = new OtherRules(SECOND_RANK).moves({ verbose: true }).map(({ from, to }) => from + to);
    expect(chances.map(({ move }) => makeUci(move)).sort()).toEqual(legal.sort());
    expect(chances.every(({ chance }) => chance > 0)).toBe(true);
  });

  it("play in a position of a game what was played in it, in any of its twins", () => {
    // a position of the database, its move known
    const found = [...new Answers(db, parseQuestion("only move and defender to move")).positions(20)].filter(
      // a capture leads out of the ending, and is not among its moves
      ({ move }) => move !== null && !move.includes("x"),
    );
    expect(found.length).toBeGreaterThan(0);
    for (const { fen, move } of found) {
      const mirrored = fen.replace(/^\S+/, (board) =>
        board
          .split("/")
          .map((row) => [...row].reverse().join(""))
          .join("/"),
      );
      for (const text of [fen, mirrored]) {
        const { placed, moves } = prober.values(readFen(text));
        const played = movesOfPeople(db, placed).filter(({ weight }) => weight === 1);
        const sans = played.map(
          ({ from, to }) => moves.find((one) => one.from === from && one.to === to)?.san,
        );
        if (text === fen) expect(sans).toContain(move!);
        expect(sans).not.toContain(undefined);
      }
      const count = (text: string) =>
        movesOfPeople(db, prober.values(readFen(text)).placed).filter(({ weight }) => weight === 1).length;
      expect(count(mirrored)).toBe(count(fen));
    }
  });

  it("err as often as expected where nothing was played, and the same for the same seed", () => {
    const playing = new Playing(prober, SECOND_RANK);
    const replies = Array.from({ length: 400 }, (_, seed) =>
      replyOf(playing, prober, "people", { db: undefined, seed }),
    );
    const share = replies.filter((uci) => uci !== "a7d7").length / replies.length;
    const expected = chancesOfPeople(playing, prober, undefined)
      .filter(({ move }) => move.verdict !== "drawn")
      .reduce((sum, { chance }) => sum + chance, 0);
    // four standard errors
    expect(Math.abs(share - expected)).toBeLessThan(
      4 * Math.sqrt((expected * (1 - expected)) / replies.length),
    );
    expect(expected).toBeGreaterThan(0);
    expect(replyOf(playing, prober, "people", { db, seed: 7 })).toBe(
      replyOf(playing, prober, "people", { db, seed: 7 }),
    );
  });
});

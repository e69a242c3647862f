// What tags say of how a game was played.

import { describe, expect, it } from "vitest";

import { readMainLine, readTime } from "../../src/pgn/game/movetext.js";
import { programClass } from "../../src/pgn/game/programs.js";
import { incrementOf, paceOf } from "../../src/pgn/game/circumstances.js";

describe("the pace of a time control", () => {
  it.each([
    // FIDE Laws of Chess 2023, Appendices A.1 and B.1: time for sixty moves; the examples are reckoned by hand
    ["600", "blitz"],
    ["180+2", "blitz"],
    ["180+7", "blitz"],
    ["180+8", "rapid"],
    ["900+10", "rapid"],
    ["3599", "rapid"],
    ["3600", "standard"],
    ["5400+30", "standard"],
    ["40/7200:20/3600:900+30", "standard"],
    ["40/7200", "standard"],
    ["40/1200", "rapid"],
    ["60+0", "bullet"],
    ["1/86400", "correspondence"],
    ["1/259200", "correspondence"],
    ["40/80, SD30; +30", undefined],
    ["40/120", undefined],
    ["*180", undefined],
    ["?", undefined],
    ["0/60", undefined],
    [undefined, undefined],
  ])("%s is %s", (timeControl, pace) => {
    expect(paceOf(timeControl)).toBe(pace);
  });
});

it.each([
  ["300+3", 3],
  ["300", 0],
  ["1500+10.5", 10.5],
  ["40/7200:3600+30", undefined],
  ["40/7200", undefined],
  ["?", undefined],
  [undefined, undefined],
])("the increment of %s is %s", (timeControl, increment) => {
  expect(incrementOf(timeControl)).toBe(increment);
});

describe("games of programs", () => {
  const of = (all: Record<string, string>, commented = 0) =>
    programClass(new Map(Object.entries(all)), commented);
  it.each([
    [{ WhiteType: "program", BlackType: "human" }, "yes"],
    [{ BlackTitle: "BOT" }, "yes"],
    [{ WhiteIsComp: "Yes" }, "yes"],
    [{ Event: "Computer Open of Brindleford" }, "yes"],
    [{ Event: "Botanic Garden Open", WhiteTitle: "GM" }, "no"],
    [{}, "no"],
    [{ White: "Comp Wexel 3.0" }, "yes"],
    [{ White: "Stockfish" }, "yes"],
    [{ Black: "stockfish 12" }, "yes"],
    [{ Black: "Quillon 2.1.3-dev" }, "yes"],
    [{ Black: "Quillon 500e17c1" }, "yes"],
    [{ White: "Deep Junior 10" }, "yes"],
    // people with such names
    [{ White: "Fritz, Alexander" }, "no"],
    [{ White: "Fritz Weber" }, "doubtful"],
    [{ White: "Junior Tester" }, "doubtful"],
    [{ White: "Sorensen,Jan1" }, "no"],
    [{ White: "Player 2" }, "no"],
    [{ WhiteElo: "3105", BlackElo: "3090" }, "doubtful"],
    [{ WhiteElo: "2860", BlackElo: "2790" }, "no"],
  ] as const)("%j: %s", (tags, expected) => {
    expect(of(tags)).toBe(expected);
  });
  it("are told by the comments of programs, which are on their moves and have times", () => {
    expect(of({ White: "Vastrel", Black: "Orme" }, 0.5)).toBe("yes");
    expect(of({ White: "Vastrel", Black: "Orme" }, 0.2)).toBe("no");
    const commented = (text: string) => readMainLine(text).programComments;
    expect(commented("1. e4 {+0.35/20 5.1s} e5 {-0.10/18 4s} 2. Nf3 {book}")).toBe(2);
    expect(commented("1. e4 {d=25, sd=30, mt=5100, tl=1000, wv=0.35} e5 {better is c5}")).toBe(1);
    expect(commented("1. e4 {[%eval 0.35] [%clk 0:05:00]} e5 {[%eval 0.1]}")).toBe(0);
  });
});

describe("clock times in comments", () => {
  it.each([
    ["1:02:03", 3723],
    ["0:00:59.5", 59.5],
    ["62:03", 3723],
    ["90", 90],
    ["1500:00:00", 5_400_000],
    ["1:75:00", undefined],
    ["1:75", undefined],
    ["-0:05", undefined],
    ["5 min", undefined],
    ["", undefined],
  ])("%s is %s seconds", (text, seconds) => {
    expect(readTime(text)).toBe(seconds);
  });
  it("stand behind the moves they are about; what cannot be read is counted", () => {
    const line = readMainLine(
      "1. e4 {[%clk 0:05:00][%emt 0:00:02]} e5 {[%clk 4:58]} 2. Nf3 {[%clk five]} Nc6 {[%emt 3.5]}",
    );
    expect(line.clocks).toEqual([300, 298]);
    expect(Array.from(line.elapsed)).toEqual([2, undefined, undefined, 3.5]);
    expect(line.unreadClocks).toBe(1);
  });
});

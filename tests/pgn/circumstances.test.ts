// What tags say of how a game was played.

import { describe, expect, it } from "vitest";

import { isEngineGame, paceOf } from "../../src/pgn/game/circumstances.js";

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

describe("engine games", () => {
  const tags = (all: Record<string, string>) => isEngineGame(new Map(Object.entries(all)));
  it("are told by the players' tags and by the event", () => {
    expect(tags({ WhiteType: "program", BlackType: "human" })).toBe(true);
    expect(tags({ BlackTitle: "BOT" })).toBe(true);
    expect(tags({ WhiteIsComp: "Yes" })).toBe(true);
    expect(tags({ Event: "Computer Open of Brindleford" })).toBe(true);
    expect(tags({ Event: "Botanic Garden Open", WhiteTitle: "GM" })).toBe(false);
    expect(tags({})).toBe(false);
  });
});

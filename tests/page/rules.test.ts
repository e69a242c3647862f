// What the page decides by itself: what a played game means, what is said of an error; and what it may import.

import { readFileSync, readdirSync } from "node:fs";
import { join, relative, resolve } from "node:path";

import { describe, expect, it } from "vitest";

import { ERRORS, type ErrorCode, LongsideError } from "../../src/errors.js";
import { answeredError } from "../../src/page/call-error.js";
import { ENOUGH, helpIn, judgeTry } from "../../src/page/play-judgement.js";
import { PACKAGE } from "../../src/places.js";
import type { AnswerTo } from "../../src/server/answers.js";

const START = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
type Game = AnswerTo<"play">;
type Move = Game["moves"][number];
type Verdict = Move["before"]["verdict"];

const value = (verdict: Verdict) => ({ verdict, dtm: null, dtc: null });
/** A game that Black defends from a draw: errors of Black's moves in half-points, and how it ended. */
const played = (errors: readonly (0 | 1)[], end: Game["end"] = null, began: Verdict = "drawn"): Game => ({
  start: START,
  attacker: "white",
  moves: errors.map((error) => ({
    san: "Rd7+",
    uci: "a7d7",
    by: "black",
    fen: START,
    before: value(began),
    after: value(error ? "won" : began),
    said: "",
    error,
    instead: [],
    refutation: null,
  })),
  fen: START,
  value: value(began),
  said: null,
  legal: [],
  end,
  claim: null,
});
const draw: Game["end"] = { result: "1/2-1/2", because: "the position stands for the fifth time" };

describe("a try at an exercise", () => {
  it("is open, then won with enough moves, and lost with the first error", () => {
    expect(judgeTry(played([0]), "black")).toEqual({ found: 1, outcome: "open", isShort: false });
    expect(judgeTry(played(Array<0>(ENOUGH).fill(0)), "black").outcome).toBe("won");
    expect(judgeTry(played([0, 1, 0, 0, 0, 0]), "black")).toEqual({
      found: 5,
      outcome: "lost",
      isShort: false,
    });
  });

  it("is won by a draw that was wanted, and lost by one that falls short of a win", () => {
    expect(judgeTry(played([0], draw), "black").outcome).toBe("won");
    expect(judgeTry(played([0], draw, "lost"), "black")).toEqual({
      found: 1,
      outcome: "lost",
      isShort: true,
    });
    expect(judgeTry(played([0], draw, "won"), "black").outcome).toBe("won");
  });
});

describe("help", () => {
  const position = (verdict: Verdict, moves: readonly (readonly [string, Verdict])[], fen = START) =>
    ({
      fen,
      attacker: "white",
      verdict,
      moves: moves.map(([san, after]) => ({ san, verdict: after })),
    }) as unknown as AnswerTo<"position">;

  it("names the moves that keep the result, or says what the result is", () => {
    const [keeps, fails] = [
      ["Rd7+", "drawn"],
      ["Re7", "won"],
    ] as const;
    expect(helpIn(position("drawn", [keeps, fails]))).toBe("Only Rd7+ keeps the result.");
    expect(helpIn(position("drawn", [keeps, keeps, fails]))).toBe("These keep the result: Rd7+, Rd7+.");
    expect(helpIn(position("drawn", [keeps]))).toBe("Every move keeps the draw.");
    expect(helpIn(position("won", [fails]))).toBe("No move changes the result: White wins.");
    expect(helpIn(position("lost", [["Rd7+", "lost"]]))).toBe("Every move keeps the win.");
  });
});

describe("an error on the page", () => {
  /** Errors that only the terminal can meet. */
  const TERMINAL: readonly string[] = ["skipped-games", "no-browser", "bad-address"];

  it.each(Object.keys(ERRORS).filter((code) => !TERMINAL.includes(code)))(
    "%s says nothing of the terminal",
    (code) => {
      const names = [...ERRORS[code as ErrorCode].join(" ").matchAll(/\{(\w+)\}/g)].map(([, name]) => name);
      const values = Object.fromEntries(names.map((name) => [name, name === "option" ? "--by" : name]));
      const { message, hint } = answeredError(new LongsideError(code as ErrorCode, values).toJSON().error);
      expect(`${message}. ${hint}`).not.toMatch(
        /longside [a-z]+ [A-Z"{]|longside (?:serve|index|solve|find|words)|--|README|\.ts\b|\.yaml|LONGSIDE|quote/,
      );
    },
  );
});

describe("the page", () => {
  /** Modules that reach neither files nor the database, which it may have at run time. */
  const PLAIN = [
    "chess/fen-text.js",
    "chess/squares.js",
    "documents/change-map.js",
    "documents/diagram.js",
    "documents/figurines.js",
    "documents/names.js",
    "documents/rule-tree.js",
    "exercises/themes/theme.js",
    "position/wording.js",
    "query/language/completion.js",
    "statistics/percent.js",
  ];
  const folder = join(PACKAGE, "src", "page");
  const files = readdirSync(folder, { recursive: true, encoding: "utf8" }).filter((name) =>
    /\.tsx?$/.test(name),
  );

  it.each(files)("%s takes its types from the table of calls, and only plain modules at run time", (name) => {
    const file = join(folder, name);
    for (const [, type, path] of readFileSync(file, "utf8").matchAll(
      /^import( type)?[^;]*? from "(\.[^"]+)"/gm,
    )) {
      const target = relative(join(PACKAGE, "src"), resolve(file, "..", path)).replaceAll("\\", "/");
      if (target.startsWith("page/")) continue;
      expect(type ? ["server/answers.js"] : PLAIN).toContain(target);
    }
  });
});

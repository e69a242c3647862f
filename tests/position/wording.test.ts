// Positions, moves and games in words.

import { describe, expect, it } from "vitest";

import { namesText, playersText } from "../../src/pgn/game/players.js";
import {
  capital,
  counted,
  endedInWords,
  errorInWords,
  sentence,
  valueInWords,
} from "../../src/position/wording.js";

it("counts of things have their plural, and commas", () => {
  expect([0, 1, 2, 2500].map((n) => counted(n, "file"))).toEqual([
    "0 files",
    "1 file",
    "2 files",
    "2,500 files",
  ]);
});

it("a sentence has a capital letter and an end, if only one", () => {
  expect(sentence(capital("grade 3 of 5"))).toBe("Grade 3 of 5.");
  expect(["Hold on!", "Which?", "So.", ""].map(sentence)).toEqual(["Hold on!", "Which?", "So.", ""]);
  expect(capital("")).toBe("");
});

it.each([
  [{ verdict: "won", dtm: 19 }, "won, mate in 19"],
  [{ verdict: "lost", dtm: 4 }, "lost, mated in 4"],
  [{ verdict: "won", dtm: 0 }, "won, checkmate"],
  [{ verdict: "lost", dtm: 0 }, "lost, checkmate"],
  [{ verdict: "drawn", dtm: null }, "drawn"],
  [{ verdict: null, dtm: null }, "outside the tables"],
] as const)("the value %o is %s", (value, words) => {
  expect(valueInWords(value)).toBe(words);
});

describe("an error", () => {
  const at = { verdict: "drawn", sideToMove: "defender", keeping: 1, legal: 14 } as const;
  it("says what it gave away, what it led to and what would have kept it", () => {
    expect(errorInWords({ ...at, error: "half", fiftyError: "half" }, { verdict: "won", dtm: 21 })).toBe(
      "drawn before: the defender gives away half a point; now won, mate in 21; only one move kept it",
    );
    expect(
      errorInWords(
        { ...at, error: "full", fiftyError: "full", verdict: "won", sideToMove: "attacker", keeping: 3 },
        { verdict: "lost", dtm: 5 },
      ),
    ).toBe("won before: the attacker gives away a full point; now lost, mated in 5; 3 of 14 moves kept it");
  });
  it("is told without what came of it where the ending is over", () => {
    expect(errorInWords({ ...at, error: "half", fiftyError: "half" }, undefined)).toBe(
      "drawn before: the defender gives away half a point; only one move kept it",
    );
  });
  it("is told apart where the fifty-move rule makes a difference", () => {
    expect(errorInWords({ ...at, error: "half", fiftyError: "none" }, { verdict: "won", dtm: 14 })).toMatch(
      /gives away half a point; now won, mate in 14; only one move kept it; on paper only, .*FIDE Laws 9\.3; the arbiter/,
    );
    expect(
      errorInWords(
        { ...at, verdict: "won", sideToMove: "attacker", error: "none", fiftyError: "half" },
        { verdict: "won", dtm: 14 },
      ),
    ).toMatch(/^too slow: still won on paper, but too late for the fifty-move rule/);
  });
  it("is none where the move kept the verdict, or is unknown", () => {
    expect(errorInWords({ ...at, error: "none", fiftyError: "none" }, undefined)).toBeUndefined();
    expect(errorInWords({ ...at, error: null, fiftyError: null }, undefined)).toBeUndefined();
  });
});

it("the end of an ending names the piece that was taken", () => {
  expect(endedInWords({ endedBy: "agreed", captured: null })).toBe("agreed");
  expect(endedInWords({ endedBy: "capture", captured: "attacker's bishop" })).toBe(
    "capture of the attacker's bishop",
  );
});

it("players are named with their ratings where these are known", () => {
  const game = { white: "Adler", black: null, whiteRating: 2310, blackRating: null };
  expect(playersText(game)).toBe("Adler (2310) v ?");
  expect(playersText({ ...game, black: "Brandt", blackRating: 2290 })).toBe("Adler (2310) v Brandt (2290)");
  expect(namesText(game)).toBe("Adler v ?");
});

// Words that judge: passed over and told where a question is not understood with them. And what no game can meet.

import { describe, expect, it } from "vitest";

import { formatQuestion } from "../../src/query/language/ast.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { NO_FACTS } from "../../src/query/language/lexicon/no-facts.js";
import { type KnownNames, readingsOf } from "../../src/query/language/parse.js";

const { known } = standardCatalogue();
const names: KnownNames = {
  isPlayer: (text) => text === "Nice",
  isEvent: (text) => text.toLowerCase() === "real",
  isSite: () => false,
};
const read = (text: string) => readingsOf(text, known, names)[0];
/** What is offered instead of a question that is refused. */
const hint = (text: string): string => {
  try {
    read(text);
  } catch (thrown) {
    return (thrown as { hint: string }).hint;
  }
  return "understood";
};

describe("words that judge", () => {
  it.each([
    ["famous draws in the Cochrane", ["famous"], "draws in the Cochrane"],
    ["an instructive and typical Philidor win", ["instructive", "typical"], "Philidor win"],
    ["tragically missed win", ["tragically"], "missed win"],
    ["the Szén position drawn in a real game", ["real"], "the Szén position drawn in a game"],
    ["Beautiful stalemate trick", ["Beautiful"], "stalemate trick"],
    ["attacker missed a complete draw", ["complete"], "attacker missed a draw"],
  ])("%s", (text, passed, same) => {
    const reading = read(text);
    expect(reading.passed).toEqual(passed);
    expect(formatQuestion(reading.question)).toBe(formatQuestion(read(same).question));
    for (const { words, at, length } of reading.guesses) expect(text.slice(at, at + length)).toBe(words);
  });

  it("are no more than told: a question that is understood with all its words has none", () => {
    expect(read("defender played passively").passed).toBeUndefined();
    expect(read("perfect defence").passed).toBeUndefined();
  });

  it.each([
    // each of these changes what is asked
    "hardly any mistakes by the defender",
    "rarely seen Philidor",
    "defender unconvincingly held the second-rank defence",
    "defender nearly lost the bishop",
    "quickly drawn Philidor",
    // and what is written like a name is not passed over
    "a Famous Philidor",
  ])("but not where they matter: %s", (text) => {
    expect(() => read(text)).toThrow();
  });

  it("offers no word for its contrary", () => {
    const text = "defender uncomfortably held the second-rank defence";
    expect(() => read(text)).toThrow();
    expect(hint(text)).not.toContain("defender comfortably");
  });
});

describe("what nothing can meet", () => {
  it("is taken for the other meaning of its words", () => {
    expect(formatQuestion(read("won, draw agreed").question)).toBe("verdict = won and ended-by = agreed");
  });
  it("is refused where there is none", () => {
    expect(() => read("attacker prevailed, stalemate")).toThrow(/no game can be both/);
  });
});

describe("a refusal", () => {
  it("offers what is wider than a word for which there is no fact", () => {
    expect(hint("only winning move is a bishop retreat")).toContain('"only winning move is a bishop move"');
    expect(hint("Lolli position with the attacker to move")).toContain(
      '"Philidor position with the attacker to move"',
    );
  });
  it("offers the beginning that is understood", () => {
    expect(hint("only move was a rook retreat to the far end")).toContain('"only move was a rook move"');
  });
});

describe("what no fact tells", () => {
  it.each([
    ["repeated moves at least three times before winning", /how often a position came back/],
    ["rook cut off from its king", /cut off from its own king/],
    ["women's games", /not in the games/],
    ["triangulation by the attacking king", /manoeuvre/],
  ])("is refused, and its words are taken for nothing else: %s", (text, message) => {
    expect(() => read(text)).toThrow(message);
  });
  it("is not found in other words", () => {
    expect(formatQuestion(read("a game that lasted ten moves").question)).toBe("length >= 10");
    expect(formatQuestion(read("king cut off by the rook").question)).toContain("king-cut-off");
  });
  it("offers questions that are understood", () => {
    for (const { refused } of NO_FACTS)
      for (const [, offered] of (refused?.[1] ?? "").replace(/ ~ "[^"]*"/g, "").matchAll(/"([^"]+)"/g))
        if (!offered.startsWith("Carlsen")) read(offered);
  });
});

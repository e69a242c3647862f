// Completing a question: what is offered can be taken, and reads as a question once its slots are filled.

import { describe, expect, it } from "vitest";

import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { type Suggestion, complete } from "../../src/query/language/completion.js";
import { type KnownNames, parseQuestion } from "../../src/query/language/parse.js";
import { wordList } from "../../src/query/language/word-list.js";

const catalogue = standardCatalogue();
const known = wordList(catalogue);
const offered = (text: string, cursor = text.length) => complete(text, cursor, known);
const said = (text: string) => offered(text).map(({ say }) => say);
const take = (text: string, { from, to, say }: Suggestion) => text.slice(0, from) + say + text.slice(to);

describe("completing", () => {
  it("finds what was begun, the set-ups first", () => {
    expect(said("second")[0]).toBe("second-rank defence");
    expect(said("sz")[0]).toBe("Szén");
    expect(said("defender dr")).toContain("drew");
  });

  it("passes over little words, accents and capitals, and takes words in any order", () => {
    expect(said("the rook on the lo")).toContain("rook on the long side");
    expect(said("defender drew with the rook on the lo")[0]).toBe("rook on the long side");
    expect(said("SZEN").length).toBe(0); // it is said already
    expect(said("long side rook")).toContain("rook on the long side");
  });

  it("completes the part that the cursor stands in, and leaves the rest", () => {
    const text = "philidor, second-r and drew";
    const [first] = offered(text, "philidor, second-r".length);
    expect(take(text, first)).toBe("philidor, second-rank defence and drew");
  });

  it("offers the values of a fact behind its sign", () => {
    expect(said("outcome = ")).toEqual(["held", "lost", "open"]);
    expect(said("verdict != d")).toEqual(["drawn"]);
    expect(said("in-check = ")).toEqual(["yes", "no"]);
    expect(said("no-such-fact = ")).toEqual([]);
  });

  it("offers nothing where all has been said, or nothing", () => {
    for (const text of ["", " ", "the", "second-rank defence", "drew", "zzzz"])
      expect(said(text)).toEqual([]);
  });

  it("offers for the first letters of anything that can be said just that, and what it offers is understood", () => {
    const names: KnownNames = {
      isPlayer: (text) => /^(?:marlow|brandt)$/i.test(text),
      isEvent: (text) => /^harbour league$/i.test(text),
      isSite: () => false,
    };
    let understood = 0;
    let offers = 0;
    for (const one of known.filter(({ sort }) => sort === "set-up" || sort === "phrase")) {
      const typed = one.say.slice(0, Math.max(3, one.say.length - 2));
      const found = offered(typed);
      if (found.length === 0) continue; // so short that it is whole
      ++offers;
      try {
        parseQuestion(found[0].say, catalogue.known, names);
        ++understood;
      } catch {
        // "as defender" wants somebody before it
      }
    }
    expect(understood / offers).toBeGreaterThan(0.95);
  });
});

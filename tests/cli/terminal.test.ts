// Layout in the terminal: wide characters take two columns, colours none, and nothing is wider than it may be.

import { stripVTControlCharacters } from "node:util";

import { describe, expect, it } from "vitest";

import { definitions, padded, tableText, wrap } from "../../src/cli/terminal.js";

/** Columns of a text of Latin and CJK letters: two for each of the latter (Unicode UAX #11, "Wide"). */
const columnsOf = (text: string): number =>
  [...text.replace(/\u001b\[\d+m/g, "")].reduce(
    (sum, c) => sum + (/[\u3000-\u9fff\uac00-\ud7a3]/.test(c) ? 2 : 1),
    0,
  );

const PLAYERS = ["王小明 – 李大山", "Ann – Bo", "김철수 – Ann"];
const YEARS = ["1999", "2001", "2003"];

describe("a table", () => {
  it("lines up its columns whatever letters are in them", () => {
    const lines = tableText([
      { head: "players", cells: PLAYERS },
      { head: "year", cells: YEARS },
    ]).split("\n");
    const starts = lines.slice(1).map((line, n) => columnsOf(line.slice(0, line.indexOf(YEARS[n]))));
    // the widest cell: six wide letters and three others
    expect(starts).toEqual([15 + 2, 15 + 2, 15 + 2]);
  });

  it("cuts wide letters to the width, and leaves columns out where that does not help", () => {
    const columns = [
      { head: "players", cells: PLAYERS, shrinksTo: 8 },
      { head: "year", cells: YEARS, optional: 1 },
      { head: "result", cells: ["1-0", "0-1", "½-½"], right: true },
    ];
    const cut = tableText(columns, { width: 24 }).split("\n");
    for (const line of cut) expect(columnsOf(line), line).toBeLessThanOrEqual(24);
    expect(cut[1]).toMatch(/^王.*… +1999 +1-0$/);
    const fewer = tableText(columns, { width: 16 });
    expect(fewer).not.toContain("1999");
    expect(fewer).toContain("½-½");
  });

  it("wraps cells between words, and breaks words that are too long", () => {
    const text = tableText([{ head: "meaning", cells: ["one two three extraordinarily"], shrinksTo: 7 }], {
      width: 7,
      wrap: true,
    });
    expect(text.split("\n").slice(1)).toEqual(["one two", "three e", "xtraord", "inarily"]);
  });
});

describe("text", () => {
  it("is wrapped and filled up by columns", () => {
    expect(wrap("王小明 李大山 Ann", 8, 2)).toBe("王小明\n  李大山\n  Ann");
    expect(padded("王小", 6)).toBe("王小  ");
    expect(padded("王小", 6, true)).toBe("  王小");
  });

  it("defines words beside them, or below where they are long", () => {
    const said = ["what it means, at some length, and more"];
    // a machine of tests may call for colour
    const plainly = (list: Parameters<typeof definitions>[0]) =>
      stripVTControlCharacters(definitions(list, 24));
    expect(plainly([{ word: "fact", said }])).toBe(
      "fact  what it means, at\n      some length, and\n      more",
    );
    expect(plainly([{ word: "a long word", said }])).toBe(
      "a long word\n    what it means, at\n    some length, and\n    more",
    );
  });
});

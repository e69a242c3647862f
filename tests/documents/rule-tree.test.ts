// A rule as a tree, with an invented rule: every leaf, board and share is there, in both shapes, and nothing hangs over.

import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";

import { ruleInWords, treeLeaves } from "../../src/documents/rule-text.js";
import {
  TREE_SHAPES,
  joinedPieces,
  ruleTreePieces,
  ruleTreeSvg,
  ruleTreesSvg,
} from "../../src/documents/rule-tree.js";
import type { Leaf } from "../../src/survey/rule.js";

const example = (fen: string, verdict: "won" | "drawn", moves: number) => ({ fen, verdict, moves });
const LEAVES: readonly Leaf[] = [
  {
    when: ["king-file = 1", "attacker-rook-rank = bishop-rank"],
    says: "won",
    of: 2016,
    right: 1552,
    example: example("r7/8/8/B7/K3R3/8/8/k7 w - - 0 1", "won", 15),
    exception: example("r7/B7/2R5/8/K7/8/8/k7 w - - 0 1", "drawn", 0),
  },
  { when: ["bishop-rank = 5"], says: "won", of: 504, right: 504, example: null, exception: null },
  {
    when: [],
    says: "drawn",
    of: 100000,
    right: 99999,
    example: null,
    exception: example("1r6/1BR5/8/8/1K6/8/8/1k6 w - - 0 1", "won", 118),
  },
];
const read = (svg: string) =>
  parseHTML(`<!doctype html><html><body>${svg}</body></html>`).document.querySelector("svg")!;
const textsOf = (svg: ReturnType<typeof read>) =>
  [...svg.querySelectorAll("text")].map((text) => ({
    text: text.textContent,
    x: Number(text.getAttribute("x")),
    y: Number(text.getAttribute("y")),
  }));

describe("the tree of a rule", () => {
  for (const shape of TREE_SHAPES) {
    const svg = read(ruleTreeSvg(treeLeaves(LEAVES), shape, "A <rule>"));
    const texts = textsOf(svg);
    const all = texts.map(({ text }) => text).join(" ");

    it(`${shape}: asks each condition, says yes to all but the last and no between them`, () => {
      expect(all).toMatch(/the attacker's rook and the bishop are on one rank/);
      expect(all).toMatch(/the bishop is on the fifth rank from the edge/);
      expect(texts.filter(({ text }) => text === "yes")).toHaveLength(2);
      expect(texts.filter(({ text }) => text === "no")).toHaveLength(2);
      expect(texts.filter(({ text }) => text === "otherwise")).toHaveLength(1);
    });

    it(`${shape}: tells how often it is right, and never "all" of what has an exception`, () => {
      expect(all).toMatch(/77\.0 % of 2,016 positions/);
      expect(all).toMatch(/all 504 positions/);
      expect(all).toMatch(/99\.9 % of 100,000 positions/);
    });

    it(`${shape}: has a board for each example, those of exceptions in a dashed frame`, () => {
      const boards = [...svg.querySelectorAll("[data-fen]")];
      expect(boards.map((board) => board.getAttribute("data-caption"))).toEqual([
        "won in 15",
        "exception: a draw",
        "exception: won in 118",
      ]);
      expect(boards.map((board) => board.querySelectorAll("[stroke-dasharray]").length)).toEqual([0, 1, 1]);
    });

    it(`${shape}: keeps all text within the drawing, one line below the other`, () => {
      const [, , width, height] = svg.getAttribute("viewBox")!.split(" ").map(Number);
      for (const { text, x, y } of texts) {
        expect(x + 7.3 * text.length).toBeLessThanOrEqual(width);
        expect(y).toBeLessThan(height);
      }
      const places = texts.map(({ x, y }) => `${x} ${y}`);
      expect(new Set(places).size).toBe(places.length);
    });

    it(`${shape}: is black on white, and links to nothing unless the page says where to`, () => {
      const colours = ruleTreeSvg(treeLeaves(LEAVES), shape, "").match(/#[0-9a-f]{3,6}\b/g)!;
      expect(new Set(colours)).toEqual(new Set(["#000", "#fff"]));
      expect(svg.querySelector("a")).toBeNull();
      const linked = read(
        ruleTreeSvg(treeLeaves(LEAVES), shape, "", {
          board: () => ({ body: "", width: 800, height: 800 }),
          linkOf: (fen) => `/board?fen=${encodeURIComponent(fen)}`,
        }),
      );
      expect([...linked.querySelectorAll("a")].map((link) => link.getAttribute("href"))).toHaveLength(3);
    });
  }

  it("in pieces, one for each leaf, is the whole when they are joined", () => {
    const pieces = ruleTreePieces(treeLeaves(LEAVES), "wide", "A rule");
    expect(pieces).toHaveLength(LEAVES.length);
    const [whole, joined] = [ruleTreeSvg(treeLeaves(LEAVES), "wide", "A rule"), joinedPieces(pieces)].map(
      read,
    );
    expect(textsOf(joined)).toEqual(textsOf(whole));
    expect(joined.getAttribute("height")).toBe(whole.getAttribute("height"));
    // they stand below each other without a gap, and each is cut where the next begins
    const nested = [...joined.querySelectorAll("svg")];
    let end = 0;
    for (const one of nested) {
      const [, from, , height] = one.getAttribute("viewBox")!.split(" ").map(Number);
      expect(from).toBe(end);
      expect(Number(one.getAttribute("y"))).toBe(end);
      end = from + height;
      for (const text of textsOf(one)) expect(text.y).toBeGreaterThan(from);
      for (const text of textsOf(one)) expect(text.y).toBeLessThan(end);
    }
    const ids = pieces.flatMap((svg) => [...svg.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id));
    expect(new Set(ids).size).toBe(ids.length);
  });

  it("stands below that of another rule", () => {
    const one = read(ruleTreeSvg(treeLeaves(LEAVES), "wide", ""));
    const two = read(
      ruleTreesSvg([
        { title: "first", leaves: treeLeaves(LEAVES) },
        { title: "second", leaves: treeLeaves(LEAVES) },
      ]),
    );
    const height = (svg: ReturnType<typeof read>) => Number(svg.getAttribute("height"));
    const [first, second] = [...two.querySelectorAll("svg")].map((svg) => Number(svg.getAttribute("y")));
    expect(second - first).toBeGreaterThanOrEqual(height(one));
    expect(height(two)).toBeGreaterThan(second + height(one));
  });
});

it("a rule in words says each term as a teacher does", () => {
  const unless = [["king-file = 1", "kings-files-apart = 3"], ["rook-rank >= 4"]];
  expect(ruleInWords({ usually: "drawn", unless })).toBe(
    "drawn, unless the defender's king is on an edge file and the kings are 3 files apart, or the defender's rook is on the fourth rank from the edge or farther",
  );
});

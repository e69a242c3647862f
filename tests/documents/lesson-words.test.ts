// What blocks of a lesson say: the rule that is worth keeping in mind, files that change the result, what a moment of a game
// changed.

import { h } from "preact";
import { renderToString } from "preact-render-to-string";
import { afterAll, describe, expect, it } from "vitest";

import type { LessonMeans } from "../../src/documents/lesson/means.js";
import { namedSetUps } from "../../src/documents/lesson/named-set-ups.js";
import { readBlock } from "../../src/documents/lesson/outline.js";
import { Examples } from "../../src/documents/lesson/rule-block.js";
import { toKeep } from "../../src/documents/rule-text.js";
import { defaultOutline } from "../../src/documents/lesson/default-outline.js";
import { slidesBlock } from "../../src/documents/lesson/slides-block.js";
import { topicOf, withExample } from "../../src/documents/lesson/topic.js";
import { cacheFolder } from "../../src/places.js";
import { Prober } from "../../src/position/probe.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import type { Rule } from "../../src/survey/rule.js";
import { faultsOf } from "../grammar.js";
import { TARGET } from "../support.js";

const catalogue = standardCatalogue();
const prober = new Prober(cacheFolder(), catalogue);
afterAll(() => prober.close());
const means = { prober, catalogue } as unknown as LessonMeans;

const rule = (unless: readonly (readonly string[])[], right: number): Rule => ({
  usually: "drawn",
  unless,
  right,
  of: 1000,
  wonThough: 0,
  notWonThough: 1000 - right,
  examples: { wonThough: [], notWonThough: [] },
  leaves: [],
});

describe("the rule of a lesson", () => {
  const bare = rule([], 790);
  const fine = rule([["king-file = 1", "bishop-rank = 5"]], 840);
  it("has conditions where they put enough right, and none where they do not", () => {
    expect(toKeep([bare, fine])).toBe(fine);
    expect(toKeep([bare, rule([["king-file = 1"]], 810)])).toBe(bare);
    // more conditions than anybody keeps in mind
    expect(toKeep([bare, fine, rule([["a = 1", "b = 1"], ["c = 1"]], 990)])).toBe(fine);
    expect(toKeep([rule([], 1000)])?.unless).toEqual([]);
  });

  it("without conditions is shown by boards, of which the exception is called one", () => {
    const leaf = {
      when: [],
      says: "drawn" as const,
      of: 1000,
      right: 790,
      example: { fen: "4k3/R7/8/4K3/4B3/8/4r3/8 w - - 0 1", verdict: "drawn" as const, moves: 0 },
      exception: { fen: "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1", verdict: "won" as const, moves: 19 },
    };
    const rules = [{ rule: { ...bare, leaves: [leaf] }, attackerToMove: true }];
    const html = renderToString(h(Examples, { means, rules }));
    const captions = [...html.matchAll(/<figcaption>(.*?)<\/figcaption>/g)].map(([, text]) => text);
    expect(captions).toEqual([
      "White to move: a draw.",
      "An exception. White to move: White wins, mate in 19.",
    ]);
  });
});

describe("a formation moved along the edge", () => {
  /** The first paragraph, without drawings. */
  const said = (fen: string) =>
    /<p>(.*?)<\/p>/.exec(slidesBlock(means, readBlock("slides", `fen: ${fen}`, 1, "lesson.md")))![1];

  it("is told by the files of the defender's king, and by squares where the two sides differ", () => {
    // Philidor 1749
    expect(said("3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1")).toBe(
      "Move all the pieces along the edge together. With either side to move, the position is won on a centre, a bishop's or an edge file and drawn on a knight's file.",
    );
    // Szén set-up, Pintér–Razuvaev 1982
    expect(said("8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1")).toMatch(
      / with Black's king on [a-h]8(, [a-h]8)* or /,
    );
  });

  it("that has no room there is said to have none, and has no such section in a lesson", () => {
    const wide = "3k4/8/3K3r/4B3/8/8/8/R7 w - - 0 1";
    expect(said(wide)).toMatch(/no file over/);
    const outline = (fen: string) => {
      const topic = topicOf(parseQuestion("side checks", catalogue.known), catalogue, prober, TARGET);
      return defaultOutline([withExample(topic, fen, prober)], false);
    };
    expect(outline(wide)).not.toContain("One file over");
    expect(outline("3k4/8/3K2r1/4B3/8/8/8/R7 w - - 0 1")).toContain("One file over");
  });
});

describe("set-ups that a lesson names", () => {
  const names = (body: string, setUps: readonly string[] = []) =>
    namedSetUps(body, [{ setUps }], catalogue).map(({ name }) => name);

  it("are explained at its end, whether the text or a solution names them", () => {
    expect(names("<p>It changes into an attack on the bishop by the rook.</p>")).toEqual([
      "rook on the bishop",
    ]);
    expect(names("<p>Nothing.</p>", ["side checks", "corner defence"])).toEqual([
      "corner defence",
      "side checks",
    ]);
    expect(names("<svg><title>rear pin</title></svg>")).toEqual([]);
  });

  it("are left out where the text shows what they are", () => {
    const { name, picture } = catalogue.setUps[0];
    expect(names(`<h1>${name}</h1>`)).toContain(name);
    expect(names(`<h1>${name}</h1><p>${picture}</p>`)).not.toContain(name);
  });

  it("each have a picture in a whole sentence", () => {
    const all = namedSetUps("", [{ setUps: catalogue.setUps.map(({ name }) => name) }], catalogue);
    expect(all.length).toBe(catalogue.setUps.length);
    for (const { picture } of all) expect(faultsOf(picture), picture).toEqual([]);
  });
});

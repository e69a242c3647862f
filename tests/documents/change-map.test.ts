// The map of changes and the bars of the order of learning: everything that is drawn is what was counted, with invented names.

import { parseHTML } from "linkedom";
import { describe, expect, it } from "vitest";

import { changeMapSvg, orderSvg } from "../../src/documents/change-map.js";
import type { Changes } from "../../src/survey/changes.js";

const changes = (setUp: string, held: number, into: Readonly<Record<string, number>>): Changes => ({
  setUp,
  held,
  moves: 100,
  stay: 40,
  captures: 10,
  into: Object.entries(into).map(([name, moves]) => ({ setUp: name, moves })),
  nameless: 5,
});
const read = (svg: string) => parseHTML(`<!doctype html><html><body>${svg}</body></html>`).document;

describe("the map of changes", () => {
  const table = [
    changes("first <fort>", 400, { second: 30, third: 1 }),
    changes("second", 100, { "first <fort>": 12 }),
    changes("third", 4, {}),
  ];
  const games = [
    {
      from: "first <fort>",
      to: "second",
      changes: 22,
      wonBefore: 0,
      wonToDrawn: 0,
      count: 15,
      of: 20,
      share: 0.75,
      low: 0.53,
      high: 0.89,
      effect: 1,
    },
  ];
  const sizes = { "first <fort>": 400, second: 100, third: 4 };
  const page = read(changeMapSvg({ table, sizes, games }));

  it("has a circle for each set-up, the greater the more frequent", () => {
    const radii = [...page.querySelectorAll("circle")].map((circle) => Number(circle.getAttribute("r")));
    expect(radii).toHaveLength(3);
    expect(radii[0]).toBeGreaterThan(radii[1]);
    expect(radii[1]).toBeGreaterThan(radii[2]);
  });

  it("has an arrow for what is forced often enough, with its share and what it cost in games", () => {
    const arrows = [...page.querySelectorAll("g[data-from]")].map(
      (arrow) => `${arrow.getAttribute("data-from")} > ${arrow.getAttribute("data-to")}`,
    );
    expect(arrows.sort()).toEqual(["first <fort> > second", "second > first <fort>"]);
    const labels = [...page.querySelectorAll("text.share")].map(({ textContent }) => textContent);
    expect(labels.sort()).toEqual(["12", "30 · costs 25"]);
    expect(page.querySelector("fort")).toBeNull();
  });

  it("says in the title of each arrow what the table and games say, and links to nothing on paper", () => {
    const title = page.querySelector('g[data-to="second"] title')!.textContent;
    expect(title).toBe(
      "From first <fort> into second: forced by 30 of 100 of the attacker's moves. In games 22 times; the draw was kept in 15 of 20.",
    );
    expect(page.querySelector("a")).toBeNull();
  });

  it("has arrows that lead where they are told to, with a name, and room for a finger", () => {
    const links = [
      { from: "first <fort>", to: "second", endings: 2, link: "/ask?q=a+%26+b&each=ending" },
      { from: "second", to: "first <fort>", endings: 0, link: "/ask?q=c" },
    ];
    const linked = read(changeMapSvg({ table, sizes, games, links }));
    const found = [...linked.querySelectorAll("g[data-from] > a")];
    expect(found.map((link) => link.getAttribute("href")).sort()).toEqual(
      links.map(({ link }) => link).sort(),
    );
    for (const link of found) {
      expect(link.getAttribute("aria-label")).toBe(link.querySelector("title")!.textContent);
      const widths = [...link.querySelectorAll("path")].map((path) =>
        Number(path.getAttribute("stroke-width")),
      );
      expect(Math.max(...widths)).toBeGreaterThanOrEqual(20);
    }
    expect(linked.querySelector("svg")!.textContent).toMatch(/Open the 2 endings that show it/);
    expect(linked.querySelector("svg")!.textContent).toMatch(/No ending shows it/);
  });

  it("of one set-up has those that it is forced into beside it, and no others", () => {
    const one = read(changeMapSvg({ table: table.slice(1, 2), sizes }));
    expect(one.querySelectorAll("circle")).toHaveLength(2);
    expect(one.querySelectorAll("g[data-from]")).toHaveLength(1);
  });
});

it("the order of learning has a bar for each step, as long as what is kept", () => {
  const order = [
    { setUp: "one", kept: 50 },
    { setUp: "two", kept: 75 },
  ];
  const page = read(orderSvg({ says: "nothing", kept: 25 }, order, 100));
  const widths = [...page.querySelectorAll("rect")].slice(1).map((bar) => Number(bar.getAttribute("width")));
  expect(widths.map((width) => width / widths[0])).toEqual([1, 2, 3]);
  expect(page.querySelector("svg")!.textContent).toContain("75.0 of 100");
});

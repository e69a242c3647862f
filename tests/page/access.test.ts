// The page for everybody: nothing that an accessibility checker (axe-core) finds wrong, on small and on dark screens, at
// twice the size, and with the keyboard alone.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";

import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";

import { dayOf } from "../../src/page/learning.js";
import { type Stored, storageKey } from "../../src/page/stored.js";
import type { AnswerTo } from "../../src/server/answers.js";
import { BROWSER } from "../server/support.js";
import { pageForTests, soon } from "./support.js";

const AXE = readFileSync(createRequire(import.meta.url).resolve("axe-core/axe.min.js"), "utf8");

const FEN = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
/** Something in the tray and an exercise, so that there is something to look at. */
const STORED = {
  collection: [{ key: FEN, title: "second-rank defence", fen: FEN, shown: FEN, note: "" }],
  session: {
    title: "Exercises",
    exercises: [
      { fen: FEN, said: "Black moves. Find the move.", grade: 3, about: "", won: 1, lost: 1, last: "won" },
    ],
  },
  learning: [{ fen: FEN, said: "Black moves. Find the move.", grade: 3, about: "", step: 0, due: 1 }],
  days: [{ day: dayOf(new Date()), won: 3, lost: 1 }],
} satisfies Partial<Stored>;

/** What every position shows when its details have been opened. */
const DETAILS = [".slides li", ".facts dd", "[aria-label='Every legal move'] td"];
/** Addresses, with what each shows at first, and when everything folded has been opened. */
const PLACES: readonly (readonly [string, string, readonly string[]])[] = [
  ["/", ".set-up-boards .small-board", [".facts dt"]],
  // on a phone a chart's words would be too small: its rows have bars
  ["/ask?q=second-rank+defence&by=outcome", ".answers li", [":is(.chart, .share-bar):visible", ".facts dt"]],
  ["/ask?q=second-rank+defence&by=outcome,result", ".answers li", [".cross td"]],
  ["/ask?q=phillidoor", ".summary [role=alert]", [".facts dt"]],
  ["/ending/1", ".verdict", DETAILS],
  ["/board", ".verdict", DETAILS],
  ["/board?way=set-up", "a.main", [".examples button"]],
  [`/play?fen=${encodeURIComponent(FEN)}&you=black&moves=a7e7`, "[role=alert]", [".score li"]],
  ["/practise", ".boards li", []],
  ["/theory", "#rules", []],
  ["/tray", "[aria-label='In the tray'] li", []],
  ["/games", ".entries li", [".figures"]],
];
const SCREENS = [
  { colorScheme: "light", width: 1280 },
  { colorScheme: "dark", width: 360 },
  // between the two; time is short in CI
  ...(process.env.CI ? [] : [{ colorScheme: "light", width: 768 } as const]),
] as const;

interface Violation {
  id: string;
  nodes: { html: string; failureSummary: string }[];
}
const said = ({ id, nodes }: Violation) =>
  `${id}: ${nodes.map(({ html, failureSummary }) => `${html.slice(0, 150)} ${failureSummary}`).join(" | ")}`;

describe.skipIf(BROWSER === undefined)("the page for everybody", () => {
  const { square, said: shows, ...pages } = pageForTests();
  let page: Page;
  const open = async (...at: Parameters<typeof pages.open>) => void (page = await pages.open(...at));
  const beyond = () => page.evaluate("document.documentElement.scrollWidth - innerWidth");
  /** Opens everything folded, what appears by that as well, until something is to be seen. */
  const openUntil = (selector: string) =>
    soon(async () => {
      const folded = page.locator("details:not([open]) > summary");
      while ((await folded.count()) > 0) await folded.first().click();
      return page.locator(selector).first().isVisible();
    }).toBe(true);

  it.each(SCREENS)(
    "$colorScheme, $width pixels wide: nothing for axe, nothing beside the window",
    async ({ colorScheme, width }) => {
      const viewport = { width, height: 800 };
      await open("/tray", { colorScheme, viewport, reducedMotion: "reduce", bypassCSP: true }, AXE);
      const games = (await page.evaluate("document.documentElement.dataset.games")) as string;
      await page.evaluate(
        `localStorage.setItem(${JSON.stringify(storageKey(games))}, ${JSON.stringify(JSON.stringify(STORED))})`,
      );
      for (const [place, first, opened] of PLACES) {
        await page.goto(place);
        await page.locator(first).first().waitFor();
        for (const selector of [first, ...opened]) await openUntil(selector);
        const found = (await page.evaluate("axe.run().then(({ violations }) => violations)")) as Violation[];
        expect(found.map(said), place).toEqual([]);
        expect(await beyond(), `${place} at ${width}`).toBeLessThanOrEqual(0);
      }
    },
  );

  it.each(SCREENS)("a report, $colorScheme, $width pixels wide: the same", async ({ colorScheme, width }) => {
    const viewport = { width, height: 800 };
    await open("/", { colorScheme, viewport, bypassCSP: true }, AXE);
    const asked = await page.request.post("/api/report", { data: { question: "second-rank defence" } });
    const { made } = (await asked.json()) as AnswerTo<"report">;
    await page.goto(made!.address);
    await page.locator(".report figure").first().waitFor();
    const found = (await page.evaluate("axe.run().then(({ violations }) => violations)")) as Violation[];
    expect(found.map(said)).toEqual([]);
    expect(await beyond()).toBeLessThanOrEqual(0);
  });

  it("can be read at twice the size", async () => {
    // 200 % of a window 1280 wide leaves 640 pixels of the page's own
    await open("/ending/1", { viewport: { width: 640, height: 450 }, deviceScaleFactor: 2 });
    await page.getByRole("slider").waitFor();
    expect(await beyond()).toBeLessThanOrEqual(0);
  });

  it("is played with the keyboard alone", async () => {
    await open("/play?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1&you=black");
    await shows("Your move.");
    // to the board by Tab, on it by the arrows
    for (
      let n = 0;
      n < 30 && !(await page.evaluate("document.activeElement.hasAttribute('data-square')"));
      ++n
    )
      await page.keyboard.press("Tab");
    const here = () => page.evaluate("document.activeElement.getAttribute('data-square')");
    const to = async (name: string) => {
      for (let n = 0; n < 16 && (await here()) !== name; ++n) {
        const at = (await here()) as string;
        // Black is below: left is towards the h-file
        const key =
          at[0] !== name[0]
            ? at[0] < name[0]
              ? "ArrowLeft"
              : "ArrowRight"
            : at[1] < name[1]
              ? "ArrowDown"
              : "ArrowUp";
        await page.keyboard.press(key);
      }
    };
    await to("a7");
    await page.keyboard.press("Enter");
    await to("d7");
    await soon(() => square("d7").getAttribute("aria-label")).toContain("can be reached");
    await page.keyboard.press("Enter");
    await soon(() => page.url()).toMatch(/moves=a7d7/);
  });
});

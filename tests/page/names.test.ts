// Names that are written from right to left, and names longer than any line: each keeps its line on the page and on
// paper, turns nothing round beside it, and nothing reaches beyond the screen.

import { writeFileSync } from "node:fs";
import { join } from "node:path";

import type { Frame, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";

import { type RunningServer, serve } from "../../src/server/server.js";
import { BROWSER, optionsFor } from "../server/support.js";
import { longside, temporaryFolder } from "../support.js";
import { pageForTests, soon } from "./support.js";

const ARABIC = "سمير بن ياسر";
const HEBREW = "אורן בר-לביא";
/** Longer than the widest screen, with and without places to break it. */
const LONG = "Maximilienne-Alexandrine van der Sternwaldenburg-Hollerbeeken de la Fontanara "
  .repeat(3)
  .trim();
const UNBROKEN = "Ostrivelraveldornhagenquellmarbrandvar".repeat(5);

const game = (white: string, black: string, event: string) =>
  `[Event "${event}"]
[Date "2019.03.02"]
[White "${white}"]
[WhiteElo "2301"]
[Black "${black}"]
[BlackElo "2417"]
[Result "1/2-1/2"]
[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]

1... Rd7+ 2. Ke5 Re7+ 3. Be6 Kc7 4. Rc1+ Kd8 5. Kd6 Rd7+ 1/2-1/2
`;

/** Stretches from right to left that are not set apart, by the text around them; run in the page or the sheet. */
const NOT_APART = `(() => {
  const fromTheRight = /[\\u0590-\\u08ff]/;
  const faults = [];
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    if (!fromTheRight.test(node.data)) continue;
    let around = node.parentElement;
    while (around && !/isolate/.test(getComputedStyle(around).unicodeBidi)) around = around.parentElement;
    const apart = around && getComputedStyle(around).display === "inline" && !/[0-9a-z]/i.test(around.textContent);
    if (!apart) faults.push(node.data);
  }
  return faults;
})()`;
/** How often such letters are seen at all: a test that looks at none proves nothing. */
const SEEN = `(document.body.innerText.match(/[\\u0590-\\u08ff]/g) || []).length`;
/** What reaches beyond the window, and cannot be scrolled within its own box. */
const TOO_WIDE = `document.documentElement.scrollWidth > innerWidth ? [document.documentElement.scrollWidth] : []`;

const isInLine = async (where: string, at: Page | Frame, hasNames = true) => {
  await soon(async () => ({
    where,
    notApart: await at.evaluate(NOT_APART),
    tooWide: await at.evaluate(TOO_WIDE),
  })).toEqual({ where, notApart: [], tooWide: [] });
  if (hasNames) expect(await at.evaluate(SEEN), where).toBeGreaterThan(5);
};

describe.skipIf(BROWSER === undefined)("names from right to left and very long ones", () => {
  const { open } = pageForTests();
  const folder = temporaryFolder();
  const db = join(folder, "names.db");
  let own: RunningServer;
  beforeAll(async () => {
    const games = join(folder, "names.pgn");
    writeFileSync(
      games,
      [
        game(ARABIC, HEBREW, "בטבע פתוח 2019"),
        game(LONG, ARABIC, LONG),
        game(HEBREW, UNBROKEN, "Lanternside"),
        game(UNBROKEN, LONG, UNBROKEN),
      ].join("\n"),
    );
    await longside(["index", "--db", db, games]);
    own = await serve(optionsFor(db));
  });
  afterAll(() => own.close());

  it.each([360, 390, 1440])("keep their line, %d wide", async (width) => {
    const page = await open("/ask?q=everything", {
      baseURL: own.address,
      viewport: { width, height: 900 },
    });
    try {
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await soon(() => rows.count()).toBe(4);
      await isInLine("answers", page);
      // all of them into the tray
      for (let n = 0; n < 4; ++n)
        await rows
          .nth(n)
          .getByRole("button", { name: /^Into the tray/ })
          .click();
      for (let n = 0; n < 4; ++n) {
        await rows.nth(n).getByRole("link").first().click();
        await page.locator(".explanation").waitFor();
        await isInLine(`ending ${n}`, page, false);
        await page.goBack();
        await soon(() => rows.count()).toBe(4);
      }
      await page.goto(`/ask?q=${encodeURIComponent(`player "${ARABIC}"`)}&by=outcome,defender-rating:200`);
      await page.getByRole("region", { name: "Cross table" }).waitFor();
      await isInLine("cross table", page);
      await page.goto("/tray");
      await page.getByRole("list", { name: "In the tray" }).waitFor();
      await isInLine("tray", page);
      await page.getByRole("button", { name: "Draft a lesson" }).click();
      await page.locator("[data-handle]").first().waitFor();
      await isInLine("lesson", page, false);
      await page.getByRole("button", { name: "See it as it will print" }).click();
      await soon(() => page.frameLocator("iframe").locator("h1").innerText()).toBe("My lesson");
      await isInLine("sheet", page.frames()[1]);
      await isInLine("lesson with its sheet", page, false);
    } finally {
      await page.goto("about:blank");
    }
  });
});

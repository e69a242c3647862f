// The whole job on the page by the keyboard alone, by a mouse alone, and by a finger on a phone alone: ask, look at three
// games, vary a move, undo and redo it, learn a rule, practise, put a lesson together and have it printed, read games, take
// them out again.

import { join } from "node:path";

import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";

import { serve } from "../../src/server/server.js";
import type { AnswerTo } from "../../src/server/answers.js";
import { BROWSER, copyOf, optionsFor } from "../server/support.js";
import { Hand } from "./hand.js";
import { pageForTests, soon } from "./support.js";

/** Tabs that are pressed at most to come to something. */
const MOST_TABS = 400;
/** Milliseconds that a search through a whole table may take on a busy machine. */
const LONG_WORK = 240_000;
/** Pixels that a finger needs. */
const FINGER = 40;

/** What has the focus, as those hear it who do not see the page. */
const FOCUSED = `(() => {
  const at = document.activeElement;
  if (!at || at === document.body) return "";
  return at.ariaLabel || (at.labels && at.labels[0] ? at.labels[0].innerText : at.innerText) || at.tagName;
})()`;

/** An invented game. */
const OWN_GAME = `[White "A"]
[Black "B"]
[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]

1... Rd7+ 1/2-1/2
`;
const OWN_FILE = { name: "own.pgn", mimeType: "text/plain", buffer: Buffer.from(OWN_GAME) };

/** What stands over the rules that were found. */
const RULE = { name: /The attacker to move: .* positions/ };

describe.skipIf(BROWSER === undefined)("the whole job", () => {
  const { server, open, said, square } = pageForTests();

  it("by the keyboard alone, the focus never lost", async () => {
    const db = copyOf(server.db(), join(server.folder, "keyboard.db"));
    const own = await serve(optionsFor(db));
    const page = await open("/", { baseURL: own.address });
    try {
      page.on("dialog", (dialog) => void dialog.accept());
      const focused = () => page.evaluate(FOCUSED) as Promise<string>;
      /** Tabs to what is called so. */
      const tabTo = async (name: RegExp) => {
        for (let n = 0; n < MOST_TABS; ++n) {
          if (name.test(await focused())) return;
          await page.keyboard.press("Tab");
        }
        expect.fail(`no Tab leads to ${name}; at the end it is at "${await focused()}"`);
      };
      /** Presses what is called so, once it is there to be pressed. */
      const press = async (name: RegExp, key = "Enter") => {
        await tabTo(name);
        await page.keyboard.press(key);
      };
      const isKept = () => soon(focused).not.toBe("");
      // a question
      await page.getByRole("heading", { name: "People ask" }).waitFor();
      await tabTo(/^What happened/);
      await page.keyboard.type("second-rank defence");
      await page.keyboard.press("Enter");
      await page.getByRole("list", { name: "Answers" }).getByRole("listitem").first().waitFor();
      // an answer, stepped through, and the next one
      await press(/^Look at .*, ending/);
      await page.locator(".explanation").waitFor();
      await page.keyboard.press("ArrowRight");
      for (const n of [2, 3]) {
        await press(/^The next answer/);
        await page.getByText(`${n} of`).waitFor();
        await page.locator(".explanation").waitFor();
      }
      // what if: a move made on the board by keys
      await press(/^What if/);
      await page.waitForURL(/board/);
      await page.locator(".explanation").waitFor();
      const before = page.url();
      await press(/^(Each of the|The only legal)/);
      await page.getByRole("region", { name: "Every legal move" }).waitFor();
      await press(/^[KRB][a-h]?[1-8]?x?[a-h][1-8]/);
      await soon(() => page.url()).not.toBe(before);
      await isKept();
      const tried = page.url();
      await page.keyboard.press("ControlOrMeta+z");
      await soon(() => page.url()).toBe(before);
      await page.keyboard.press("ControlOrMeta+y");
      await soon(() => page.url()).toBe(tried);
      await isKept();
      // into the tray
      await page.locator(".explanation").waitFor();
      await press(/^Into the tray/);
      await page.getByRole("link", { name: "Tray (1)" }).waitFor();
      await isKept();
      // a lesson out of the tray, a part moved
      await press(/^Tray/);
      await page.waitForURL(/tray/);
      await press(/^Draft a lesson/);
      await page.waitForURL(/lesson/);
      await tabTo(/^Move .* part 2 of/);
      await page.keyboard.press("ArrowUp");
      await soon(focused).toMatch(/^Move .* part 1 of/);
      await press(/^See it as it will print/);
      await soon(() => page.frameLocator("iframe").locator("h1").innerText()).toBe("My lesson");
      await isKept();
      const printed = page.waitForEvent("download");
      await press(/^Save as PDF/);
      expect((await printed).suggestedFilename()).toMatch(/\.pdf$/);
      await isKept();
      // a rule
      await press(/^Theory/);
      await page.waitForURL(/theory/);
      await press(/^Find rules/);
      await page.getByRole("heading", RULE).waitFor({ timeout: LONG_WORK });
      await isKept();
      // taken out of the tray again
      await press(/^Tray/);
      await page.waitForURL(/tray/);
      await press(/^Take out/);
      await page.getByRole("link", { name: "Tray", exact: true }).waitFor();
      // an exercise
      await press(/^Practise$/);
      await page.waitForURL(/practise/);
      await tabTo(/^How many/);
      await page.keyboard.press("ControlOrMeta+a");
      await page.keyboard.type("2");
      await press(/^Make exercises/);
      await said(/2 exercises: 0 won/);
      await isKept();
      await press(/^Play exercise 1/);
      await said(/0 of 5 found/);
      // its hints come before help, by the same button
      await press(/^(?:Hint|Help)/);
      while ((await page.getByRole("button", { name: "Hint", exact: true }).count()) > 0)
        await page.keyboard.press("Enter");
      await page.keyboard.press("Enter");
      await said(/keeps? the result/);
      await isKept();
      // games added, and taken out again
      await press(/^Games$/);
      await page.waitForURL(/games/);
      const files = page.locator("summary").filter({ hasText: /\d+ files?/ });
      const none = await files.innerText();
      const chooser = page.waitForEvent("filechooser");
      await press(/^Files of this computer/);
      await (await chooser).setFiles(OWN_FILE);
      await soon(() => files.innerText()).not.toBe(none);
      await isKept();
      await press(/^\d+ files?$/);
      await page.getByRole("region", { name: "Files whose games are held" }).waitFor();
      const held = await files.innerText();
      await press(/^take out\s+the games of own\.pgn/);
      await soon(focused).toMatch(/^Take out 1 game/);
      await page.keyboard.press("Enter");
      await soon(() => files.innerText()).not.toBe(held);
      await isKept();
    } finally {
      await page.goto("about:blank");
      await own.close();
    }
  });

  it("by a mouse alone, from the question to a lesson on paper, with games added and taken out", async () => {
    const db = copyOf(server.db(), join(server.folder, "mouse.db"));
    const own = await serve(optionsFor(db));
    const page = await open("/", { baseURL: own.address, viewport: { width: 1440, height: 900 } });
    try {
      const hand = new Hand(page);
      const link = (name: string | RegExp) => page.getByRole("link", { name }).first();
      const button = (name: string | RegExp) => page.getByRole("button", { name }).first();
      const saved = async (what: string) => {
        const download = page.waitForEvent("download");
        await hand.press(button(what));
        return (await download).suggestedFilename();
      };
      // a question
      await hand.press(link("defender missed an only move"));
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.nth(2).waitFor();
      // three games, one after another, each out of the list
      const games: string[] = [];
      for (let n = 0; n < 3; ++n) {
        await hand.press(rows.nth(n).getByRole("link").first());
        await page.locator(".explanation").waitFor();
        games.push(await page.locator("h1").innerText());
        const at = page.getByRole("slider", { name: "Position in the ending" });
        const before = Number(await at.inputValue());
        await hand.press(button(before === 0 ? /^On:/ : /^Back:/));
        await soon(async () => Number(await at.inputValue())).toBe(before === 0 ? 1 : before - 1);
        await hand.press(link(/answers?$/));
        await rows.nth(n).waitFor();
      }
      expect(new Set(games).size).toBe(3);
      await hand.press(rows.nth(0).getByRole("link").first());
      await page.locator(".explanation").waitFor();
      // what if: a move that was not played, dragged on the board
      await hand.press(link("What if …"));
      await page.waitForURL(/board/);
      await page.locator(".explanation").waitFor();
      const before = new URL(page.url()).searchParams.get("fen")!;
      const asked = await page.request.post("/api/position", { data: { fen: before } });
      const { uci } = ((await asked.json()) as AnswerTo<"position">).moves.at(-1)!;
      await hand.drag(square(uci.slice(0, 2)), square(uci.slice(2, 4)));
      await soon(() => new URL(page.url()).searchParams.get("fen")).not.toBe(before);
      await page.locator(".explanation").waitFor();
      await hand.press(page.getByRole("button", { name: "Into the tray", exact: true }));
      await page.getByRole("link", { name: "Tray (1)" }).waitFor();
      // a rule
      await hand.press(link("Theory"));
      await hand.press(button("Find rules"));
      // a rule is looked for in the whole table
      await page.getByRole("heading", RULE).waitFor({ timeout: LONG_WORK });
      // exercises: a move in one of them
      await hand.press(link("Practise"));
      await hand.press(button("Make exercises"));
      await said(/exercises: 0 won/);
      await hand.press(link("Play exercise 1"));
      await said(/0 of 5 found/);
      const start = new URL(page.url()).searchParams.get("fen")!;
      const put = await page.request.post("/api/position", { data: { fen: start } });
      const tried = ((await put.json()) as AnswerTo<"position">).moves[0].uci;
      await hand.press(square(tried.slice(0, 2)));
      await hand.press(square(tried.slice(2, 4)));
      await soon(() => new URL(page.url()).searchParams.get("moves")).toMatch(tried);
      // a lesson out of the tray, a part dragged, the sheet looked through and printed
      await hand.press(link(/^Tray/));
      await hand.press(button("Draft a lesson"));
      const handles = page.locator("[data-handle]");
      await handles.first().waitFor();
      const first = await handles.first().getAttribute("aria-label");
      await hand.drag(handles.first(), page.locator(".parts > li").nth(1), { x: 0.1, y: 0.95 });
      await soon(() => handles.first().getAttribute("aria-label")).not.toBe(first);
      await hand.press(button("See it as it will print"));
      const sheet = page.frameLocator("iframe");
      await soon(() => sheet.locator("h1").innerText()).toBe("My lesson");
      // by a picture: what drives the browser may run nothing within the sheet
      await hand.wheelOver(page.locator("iframe"), async () => (await page.screenshot()).toString("base64"));
      expect(await saved("Save as PDF")).toMatch(/\.pdf$/);
      expect(await saved("Save as PGN")).toMatch(/\.pgn$/);
      // games added
      await hand.press(link("Games"));
      const files = page.locator("summary").filter({ hasText: /\d+ files?/ });
      const held = await files.innerText();
      const chooser = page.waitForEvent("filechooser");
      await hand.press(page.getByLabel(/Files of this computer/));
      await (await chooser).setFiles(OWN_FILE);
      await soon(() => files.innerText()).not.toBe(held);
      // and taken out again
      await hand.press(files);
      await hand.press(button("take out the games of own.pgn"));
      await hand.press(button("Take out 1 game"));
      await soon(() => files.innerText()).toBe(held);
    } finally {
      await page.goto("about:blank");
      await own.close();
    }
  });

  it("by a finger on a phone alone, everything as large as a finger and nothing wider than the screen", async () => {
    const db = copyOf(server.db(), join(server.folder, "touch.db"));
    const own = await serve(optionsFor(db));
    const page = await open("/", {
      baseURL: own.address,
      viewport: { width: 390, height: 844 },
      hasTouch: true,
      isMobile: true,
    });
    try {
      page.on("dialog", (dialog) => void dialog.accept());
      /** What is too small for a finger, and what reaches beyond the screen; links within sentences are as high as these. */
      const faults = () =>
        page.evaluate(`(() => {
          const seen = (one) => { const { width, height } = one.getBoundingClientRect(); return width > 2 && height > 2; };
          const size = (one) => one.getBoundingClientRect();
          const pressed = "a, button, summary, select, input:not([type=checkbox], [type=radio], [type=file]), .choice label";
          const small = [...document.querySelectorAll(pressed)].filter(seen)
            .filter((one) => !one.closest("p, dt, .squares, .skip, .score, td, th, .stages"))
            .filter((one) => size(one).height < ${FINGER} - 0.5)
            .map((one) => one.outerHTML.slice(0, 80) + " " + Math.round(size(one).height));
          const wide = document.documentElement.scrollWidth > innerWidth ? [document.documentElement.scrollWidth + " wide"] : [];
          return [...small, ...wide];
        })()`) as Promise<string[]>;
      const isFit = (where: string) => soon(async () => [where, ...(await faults())]).toEqual([where]);
      const place = (name: string | RegExp) => page.getByRole("link", { name }).first().tap();
      await page.getByRole("heading", { name: "People ask" }).waitFor();
      await isFit("the first screen");
      // a question that is there to be tapped, then its order and filters
      await page.getByRole("link", { name: "defender missed an only move" }).tap();
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.first().waitFor();
      await isFit("answers");
      await page.getByRole("button", { name: /^Order, filters/ }).tap();
      await page.getByRole("link", { name: "newest" }).tap();
      await page.waitForURL(/sort=newest/);
      await rows.first().waitFor();
      await isFit("answers and margin");
      await rows.first().getByRole("link").first().tap();
      await page.locator(".explanation").waitFor();
      await isFit("an ending");
      for (const n of [2, 3]) {
        await page.getByRole("link", { name: "The next answer" }).tap();
        await page.getByText(`${n} of`).waitFor();
        await page.locator(".explanation").waitFor();
      }
      await page.getByRole("button", { name: /^On:/ }).tap();
      // what if: another move by two taps
      await page.getByRole("link", { name: "What if …" }).tap();
      await page.waitForURL(/board/);
      await page.locator(".explanation").waitFor();
      const before = page.url();
      await page
        .locator("summary")
        .filter({ hasText: /Each of the|The only legal/ })
        .tap();
      const legal = page.getByRole("region", { name: "Every legal move" });
      await legal.getByRole("button").first().tap();
      await soon(() => page.url()).not.toBe(before);
      await page.locator(".explanation").waitFor();
      await isFit("the board");
      const tried = page.url();
      await page.getByRole("button", { name: "Undo" }).tap();
      await soon(() => page.url()).toBe(before);
      await page.getByRole("button", { name: "Redo" }).tap();
      await soon(() => page.url()).toBe(tried);
      await page.locator(".explanation").waitFor();
      await page.getByRole("button", { name: "Into the tray", exact: true }).tap();
      await page.getByLabel("setting up").tap();
      await page.getByRole("group", { name: "In hand" }).waitFor();
      await isFit("setting up");
      // a lesson out of the tray, a part dragged by a finger
      await place(/^Tray/);
      await page.getByRole("list", { name: "In the tray" }).waitFor();
      await isFit("the tray");
      await page.getByRole("button", { name: "Draft a lesson" }).tap();
      const handles = page.locator("[data-handle]");
      await handles.first().waitFor();
      await isFit("a lesson");
      const first = await handles.first().getAttribute("aria-label");
      await dragByFinger(page);
      await soon(() => handles.first().getAttribute("aria-label")).not.toBe(first);
      await page.getByRole("button", { name: "See it as it will print" }).tap();
      await page.locator("iframe, .error-message").first().waitFor();
      expect(await page.locator(".error-message").allInnerTexts()).toEqual([]);
      await soon(() => page.frameLocator("iframe").locator("h1").innerText()).toBe("My lesson");
      await isFit("a lesson seen");
      const printed = page.waitForEvent("download");
      await page.getByRole("button", { name: "Save as PDF" }).tap();
      expect((await printed).suggestedFilename()).toMatch(/\.pdf$/);
      // exercises
      await place("Practise");
      await page.getByLabel("how many").fill("2");
      await page.getByRole("button", { name: "Make exercises" }).tap();
      await said(/2 exercises: 0 won/);
      await isFit("exercises");
      await page.getByRole("link", { name: "Play exercise 1" }).tap();
      await said(/0 of 5 found/);
      await isFit("an exercise");
      await place("Theory");
      await page.getByRole("button", { name: "Find rules" }).tap();
      await page.getByRole("heading", RULE).waitFor({ timeout: LONG_WORK });
      await isFit("theory and a rule");
      // games added, and taken out again
      await place("Games");
      const files = page.locator("summary").filter({ hasText: /\d+ files?/ });
      const none = await files.innerText();
      const chooser = page.waitForEvent("filechooser");
      await page.getByLabel(/Files of this computer/).tap();
      await (await chooser).setFiles(OWN_FILE);
      await soon(() => files.innerText()).not.toBe(none);
      await files.tap();
      await page.getByRole("region", { name: "Files whose games are held" }).waitFor();
      await isFit("games");
      const held = await files.innerText();
      await page.getByRole("button", { name: "take out the games of own.pgn" }).tap();
      await page.getByRole("button", { name: "Take out 1 game" }).tap();
      await soon(() => files.innerText()).not.toBe(held);
    } finally {
      await page.goto("about:blank");
      await own.close();
    }
  });
});

/** Drags the first part of a lesson over the second, as a finger does. */
async function dragByFinger(page: Page): Promise<void> {
  const handle = page.locator("[data-handle]").first();
  await handle.scrollIntoViewIfNeeded();
  const [start, end] = [
    (await handle.boundingBox())!,
    (await page.locator(".parts > li").nth(1).boundingBox())!,
  ];
  const session = await page.context().newCDPSession(page);
  // a finger that comes to rest before it is lifted: one that is lifted on the way throws, and the next tap only stops that
  let now = Date.now() / 1000;
  const touch = (type: string, y?: number) =>
    session.send("Input.dispatchTouchEvent", {
      type,
      timestamp: (now += 0.2),
      touchPoints: y === undefined ? [] : [{ x: start.x + 15, y }],
    } as Parameters<typeof session.send<"Input.dispatchTouchEvent">>[1]);
  const [from, to] = [start.y + 15, end.y + end.height - 5];
  await touch("touchStart", from);
  for (let n = 1; n <= 5; ++n) await touch("touchMove", from + ((to - from) * n) / 5);
  await touch("touchMove", to);
  await touch("touchEnd");
}

// A lesson put together on the page: drafted, its parts moved by mouse, finger and keys, seen as it prints, saved.

import { readFileSync } from "node:fs";

import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";

import { storageKey } from "../../src/page/stored.js";
import type { AnswerTo } from "../../src/server/answers.js";
import { BROWSER } from "../server/support.js";
import { pageForTests, soon } from "./support.js";

const BOARD = { kind: "block", name: "board", values: { fen: "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1" } };
const PARTS = [
  { kind: "text", text: "First words.", key: "a" },
  { ...BOARD, key: "b" },
  { kind: "heading", depth: 2, text: "A section", key: "c" },
  { kind: "text", text: "Last words.", key: "d" },
];

describe.skipIf(BROWSER === undefined)("a lesson", () => {
  const { open, said } = pageForTests();

  /** The place with a lesson that is known. */
  const withParts = async (parts: readonly object[] = PARTS, options = {}): Promise<Page> => {
    const lesson = { title: "My own", paper: "A4", parts };
    const page = await open("/lesson", options);
    const games = (await page.evaluate("document.documentElement.dataset.games")) as string;
    const text = JSON.stringify(JSON.stringify({ lesson }));
    await page.evaluate(`localStorage.setItem(${JSON.stringify(storageKey(games))}, ${text})`);
    await page.reload();
    await page.getByRole("list", { name: "Parts of the lesson" }).waitFor();
    return page;
  };
  const names = (page: Page) =>
    page
      .locator("[data-handle]")
      .evaluateAll((all) => all.map((one) => /^Move (.*),/.exec(one.ariaLabel!)![1]));
  const handle = (page: Page, n: number) => page.locator("[data-handle]").nth(n);

  it("has its parts moved by dragging, before and behind others", async () => {
    const page = await withParts();
    expect(await names(page)).toEqual(["Text", "A board", "Heading", "Text"]);
    const drag = async (from: number, to: number, lower: boolean) => {
      const row = page.locator(".parts > li").nth(to);
      await row.scrollIntoViewIfNeeded();
      const [start, end] = [(await handle(page, from).boundingBox())!, (await row.boundingBox())!];
      await page.mouse.move(start.x + 10, start.y + 10);
      await page.mouse.down();
      await page.mouse.move(start.x + 10, lower ? end.y + end.height - 5 : end.y + 5, { steps: 5 });
      await page.mouse.up();
    };
    await drag(0, 2, true);
    await soon(() => names(page)).toEqual(["A board", "Heading", "Text", "Text"]);
    await drag(1, 0, false);
    await soon(() => names(page)).toEqual(["Heading", "A board", "Text", "Text"]);
    await page.reload();
    await soon(() => names(page)).toEqual(["Heading", "A board", "Text", "Text"]);
  });

  it("has its parts moved by keys, and taken out, and the focus stays with them", async () => {
    const page = await withParts();
    await handle(page, 1).focus();
    await page.keyboard.press("ArrowDown");
    await soon(() => names(page)).toEqual(["Text", "Heading", "A board", "Text"]);
    const focused = () => page.evaluate("document.activeElement.ariaLabel") as Promise<string>;
    await soon(focused).toContain("Move A board, part 3 of 4");
    await page.keyboard.press("ArrowDown");
    await page.keyboard.press("ArrowDown");
    await soon(() => names(page)).toEqual(["Text", "Heading", "Text", "A board"]);
    await page.getByRole("button", { name: "Take out: Heading" }).focus();
    await page.keyboard.press("Enter");
    await soon(() => names(page)).toEqual(["Text", "Text", "A board"]);
    await soon(focused).toBe("Take out: Text, part 2 of 3");
  });

  it("is seen as it prints, and saved as page, PDF and PGN", async () => {
    const page = await withParts();
    await page.getByRole("button", { name: "See it as it will print" }).click();
    const printed = page.frameLocator("iframe");
    await soon(() => printed.locator("h1").innerText()).toBe("My own");
    expect(await printed.locator("h2").innerText()).toBe("A section");
    // as on paper: the width of the sheet, the letters of the print
    expect(await printed.locator("body").evaluate((body) => getComputedStyle(body).fontSize)).toBe("14px");
    const saved = async (name: string) => {
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name }).click(),
      ]);
      return { name: download.suggestedFilename(), bytes: readFileSync(await download.path()) };
    };
    const whole = await saved("Save as a page");
    expect(whole.name).toBe("lesson.html");
    expect(whole.bytes.toString()).toContain("Last words.");
    const pdf = await saved("Save as PDF");
    expect([pdf.name, pdf.bytes.subarray(0, 5).toString()]).toEqual(["lesson.pdf", "%PDF-"]);
    const pgn = await saved("Save as PGN");
    expect(pgn.name).toBe("lesson.pgn");
    expect(pgn.bytes.toString()).toContain('[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]');
  });

  it("tells at the part itself what is wrong with it", async () => {
    const wrong = { ...BOARD, values: { fen: "3k4/8/8/8/8/8/8/8 w - - 0 1" }, key: "e" };
    const page = await withParts([PARTS[0], wrong]);
    await page.getByRole("button", { name: "See it as it will print" }).click();
    await said(/Part 2, A board, cannot be filled in/);
    await page.locator(".parts > li").nth(1).getByRole("alert").waitFor();
  });

  it("has exercises with the themes that are chosen", async () => {
    const values = { question: "everything", task: "hold", size: "2" };
    const page = await withParts([{ kind: "block", name: "exercises", values, key: "x" }]);
    await page.getByText("Themes: any").click();
    await page.getByLabel("set-up kept", { exact: true }).check();
    await page.getByText("Themes: set-up kept").waitFor();
    await page.getByRole("button", { name: "See it as it will print" }).click();
    const solutions = page.frameLocator("iframe").locator(".solution");
    await soon(() => solutions.count()).toBe(2);
    for (const text of await solutions.allInnerTexts()) expect(text).toContain("Theme: set-up kept");
    // another one beside it, and back to any
    await page.getByLabel("waiting move", { exact: true }).check();
    await page.getByText("Themes: set-up kept, waiting move").waitFor();
    await page.reload();
    await page.getByText("Themes: set-up kept, waiting move").click();
    await page.getByLabel("set-up kept", { exact: true }).uncheck();
    await page.getByLabel("waiting move", { exact: true }).uncheck();
    await page.getByText("Themes: any").waitFor();
  });

  it("shows no line of an outline: questions in words, positions as boards", async () => {
    const rule = {
      kind: "block",
      name: "rule",
      values: { question: "szen and to-move = attacker" },
      key: "r",
    };
    const page = await withParts([rule, PARTS[1]]);
    await said(/the set-up is Szén/);
    const text = await page.locator(".parts").innerText();
    expect(text).not.toMatch(/to-move|```|3k4/);
    expect(await page.locator(".parts .small-board").count()).toBe(1);
  });

  it("says beside the number of an ending who played it", async () => {
    const page = await withParts([{ kind: "block", name: "game", values: { ending: "1" }, key: "g" }]);
    const asked = await page.request.post("/api/ending", { data: { id: 1 } });
    const { players } = (await asked.json()) as AnswerTo<"ending">;
    await soon(() => page.locator(".parts > li").first().innerText()).toContain(players);
    await page.getByLabel("Number of the ending").fill("999999");
    await soon(() => page.locator(".parts > li").first().innerText()).not.toContain(players);
  });
});

// Undo and redo: the steps by themselves, and in each place of the page that changes something, by button and by key.

import fc from "fast-check";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";

import { NO_STEPS, type UndoSteps, redone, undone, withStep } from "../../src/page/undo.js";
import { BROWSER } from "../server/support.js";
import { pageForTests, soon } from "./support.js";

const FEN = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";

describe("steps", () => {
  const stepped = (values: readonly string[]) => {
    let steps: UndoSteps<string> = NO_STEPS;
    let now = "";
    for (const next of values) {
      steps = withStep(steps, { value: now, says: next, at: 0 }, undefined, 0);
      now = next;
    }
    return { steps, now };
  };

  it("are undone one by one to the beginning, and redone one by one to the end", () =>
    fc.assert(
      fc.property(fc.array(fc.string(), { maxLength: 30 }), (values) => {
        let { steps, now } = stepped(values);
        const seen = [now];
        for (let done = undone(steps, now); done; done = undone(steps, now)) {
          [steps, now] = [done.steps, done.step.value];
          seen.push(now);
        }
        expect(seen).toEqual(["", ...values].reverse());
        for (let done = redone(steps, now); done; done = redone(steps, now))
          [steps, now] = [done.steps, done.step.value];
        expect(now).toBe(values.at(-1) ?? "");
        expect(steps.past.map(({ says }) => says)).toEqual(values);
      }),
    ));

  it("that were undone are forgotten with the next one", () => {
    const { steps, now } = stepped(["a", "b"]);
    const back = undone(steps, now)!;
    const next = withStep(back.steps, { value: back.step.value, says: "c", at: 0 }, undefined, 0);
    expect(redone(next, "c")).toBeUndefined();
    expect(undone(next, "c")!.step.value).toBe("a");
  });

  it("are one for what is typed without a rest in one field", () => {
    let steps: UndoSteps<string> = NO_STEPS;
    const type = (value: string, field: string, time: number) =>
      (steps = withStep(steps, { value, says: "", at: 0 }, field, time));
    type("", "note", 0);
    type("a", "note", 400);
    type("ab", "note", 900);
    expect(steps.past.map(({ value }) => value)).toEqual([""]);
    type("abc", "note", 9000);
    type("abcd", "title", 9100);
    expect(steps.past.map(({ value }) => value)).toEqual(["", "abc", "abcd"]);
  });

  it("keep what has become of a thing since: it is there again after undo and redo", () => {
    const { steps } = stepped(["a"]);
    const back = undone(steps, "a, tried")!;
    expect(redone(back.steps, back.step.value)!.step.value).toBe("a, tried");
  });
});

describe.skipIf(BROWSER === undefined)("on the page", () => {
  const { open, said, square, move } = pageForTests();
  let page: Page;
  const begin = async (path: string) => void (page = await open(path));
  const button = (name: "Undo" | "Redo") =>
    page.getByRole("group", { name: "Undo and redo" }).getByRole("button", { name });
  const key = (keys: string) => page.keyboard.press(keys);
  const fenShown = () => new URL(page.url()).searchParams.get("fen");

  it("the question, its order, and what was put into the tray beside it", async () => {
    await begin("/ask?q=second-rank+defence");
    const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
    await rows.first().waitFor();
    // nothing has been done: there is nothing to undo
    await soon(() => button("Undo").isVisible()).toBe(false);
    const line = page.getByRole("combobox");
    await line.fill("Philidor");
    await key("Enter");
    await page.waitForURL(/q=Philidor/);
    await page.getByRole("link", { name: "newest" }).click();
    await page.waitForURL(/sort=newest/);
    await rows.first().waitFor();
    await rows.getByRole("button", { name: "Into the tray" }).first().click();
    await page.getByRole("link", { name: "Tray (1)" }).waitFor();
    await button("Undo").click();
    await page.getByRole("link", { name: "Tray", exact: true }).waitFor();
    await button("Undo").click();
    await soon(() => page.url()).not.toContain("sort=newest");
    await page.locator("body").click({ position: { x: 2, y: 2 } });
    await key("ControlOrMeta+z");
    await page.waitForURL(/q=second-rank/);
    await soon(() => line.inputValue()).toBe("second-rank defence");
    // the step before is not of this page: it is not left
    await soon(() => button("Undo").getAttribute("aria-disabled")).toBe("true");
    await key("ControlOrMeta+Shift+z");
    await page.waitForURL(/q=Philidor/);
    await key("ControlOrMeta+y");
    await page.waitForURL(/sort=newest/);
    await button("Redo").click();
    await page.getByRole("link", { name: "Tray (1)" }).waitFor();
    await soon(() => button("Redo").getAttribute("aria-disabled")).toBe("true");
  });

  it("the board that is set up, and moves that are tried, without leaving the place", async () => {
    await begin("/ending/1");
    await page.getByRole("link", { name: "What if …" }).click();
    await page.waitForURL(/board/);
    const start = fenShown()!;
    await soon(() => button("Undo").isVisible()).toBe(false);
    await page.locator("summary").filter({ hasText: "Each of the" }).click();
    const legal = page.getByRole("region", { name: "Every legal move" });
    await legal.getByRole("button").last().click();
    await soon(fenShown).not.toBe(start);
    const moved = fenShown();
    await button("Undo").click();
    await soon(fenShown).toBe(start);
    await key("ControlOrMeta+Shift+z");
    await soon(fenShown).toBe(moved);
    await page.getByLabel("setting up").check();
    await page.getByRole("button", { name: "Empty the board" }).click();
    await soon(fenShown).toMatch(/^8\/8\/8/);
    await page.getByRole("button", { name: "black queen" }).click();
    await square("d4").click();
    await soon(fenShown).toMatch(/^8\/8\/8\/8\/3q4/);
    await key("ControlOrMeta+z");
    await soon(fenShown).toMatch(/^8\/8\/8\/8\/8\/8/);
    await key("ControlOrMeta+z");
    await soon(fenShown).toBe(moved);
    await button("Redo").click();
    await soon(fenShown).toMatch(/^8\/8\/8\/8\/8\/8/);
  });

  it("the moves of a game", async () => {
    await begin(`/play?fen=${encodeURIComponent(FEN)}&you=black&with=table`);
    await said("Your move.");
    await move("a7d7");
    await said(/Your move, after/);
    const moves = () => new URL(page.url()).searchParams.get("moves");
    const played = moves();
    await button("Undo").click();
    await soon(moves).toBeNull();
    await button("Redo").click();
    await soon(moves).toBe(played);
  });

  it("the tray: what is in it, its order, its notes, and emptying it", async () => {
    await begin("/ask?each=ending");
    page.on("dialog", (dialog) => void dialog.accept());
    const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
    for (const n of [0, 1]) await rows.nth(n).getByRole("button", { name: "Into the tray" }).click();
    await page.getByRole("link", { name: "Tray (2)" }).click();
    const items = page.getByRole("list", { name: "In the tray" }).getByRole("listitem");
    const names = () => items.locator("h2").allInnerTexts();
    await soon(() => items.count()).toBe(2);
    const [first, second] = await names();
    await items.last().getByRole("button", { name: "Up" }).click();
    await soon(names).toEqual([second, first]);
    await items.first().getByRole("button", { name: "Take out" }).click();
    await soon(names).toEqual([first]);
    const note = items.first().getByRole("textbox");
    await note.pressSequentially("a note");
    // where what is typed is stored with every key, a key undoes it as any other step
    await key("ControlOrMeta+z");
    await soon(() => note.inputValue()).toBe("");
    await key("ControlOrMeta+y");
    await soon(() => note.inputValue()).toBe("a note");
    await page.getByRole("button", { name: "Empty the tray" }).click();
    await said("It is empty.");
    await button("Undo").click();
    await soon(() => note.inputValue()).toBe("a note");
    await button("Undo").click();
    await button("Undo").click();
    await soon(names).toEqual([second, first]);
    await button("Undo").click();
    await soon(names).toEqual([first, second]);
    // it is told to those who do not see it
    await soon(() =>
      page.getByRole("group", { name: "Undo and redo" }).getByRole("status").innerText(),
    ).toContain("Undone:");
  });

  it("all answers put into the tray are one step", async () => {
    await begin("/ask?q=Philidor");
    await page.getByRole("button", { name: "into the tray", exact: true }).click();
    await page.getByRole("link", { name: /Tray \(\d+\)/ }).waitFor();
    await button("Undo").click();
    await page.getByRole("link", { name: "Tray", exact: true }).waitFor();
    await soon(() => button("Undo").isVisible()).toBe(true);
    await soon(() => button("Undo").getAttribute("aria-disabled")).toBe("true");
  });

  it("a lesson: its title, its parts, and throwing it away", async () => {
    await begin("/lesson");
    page.on("dialog", (dialog) => void dialog.accept());
    await page.getByRole("button", { name: "Begin with nothing" }).click();
    const title = page.getByLabel("Title");
    await title.fill("Rooks and bishops");
    const parts = page.getByRole("list", { name: "Parts of the lesson" }).getByRole("listitem");
    await page.getByRole("button", { name: "Text", exact: true }).click();
    await parts.first().waitFor();
    // what was put in is gone with a key, though the focus is in its field
    await key("ControlOrMeta+z");
    await soon(() => parts.count()).toBe(0);
    await button("Redo").click();
    await soon(() => parts.count()).toBe(1);
    await page.getByRole("button", { name: "Heading", exact: true }).click();
    await soon(() => parts.count()).toBe(2);
    const text = parts.first().getByRole("textbox");
    await text.fill("own words");
    await parts.first().getByRole("button", { name: /^Down/ }).click();
    await soon(() => parts.last().getByRole("textbox").inputValue()).toBe("own words");
    await parts
      .last()
      .getByRole("button", { name: /^Take out/ })
      .click();
    await soon(() => parts.count()).toBe(1);
    await page.getByRole("button", { name: "Throw it away" }).click();
    await page.getByRole("button", { name: "Begin with nothing" }).waitFor();
    await button("Undo").click();
    await soon(() => title.inputValue()).toBe("Rooks and bishops");
    await button("Undo").click();
    await soon(() => parts.last().getByRole("textbox").inputValue()).toBe("own words");
    await button("Undo").click();
    await soon(() => parts.first().getByRole("textbox").inputValue()).toBe("own words");
    await button("Undo").click();
    await soon(() => parts.first().getByRole("textbox").inputValue()).toBe("");
  });

  it("exercises: another set and putting them away; that a try stays counted is told", async () => {
    await begin("/practise");
    page.on("dialog", (dialog) => void dialog.accept());
    const title = page.getByRole("region", { name: "Exercises under way" }).getByRole("heading");
    const make = async (count: string) => {
      await page.getByLabel("how many").fill(count);
      await page.getByRole("button", { name: "Make exercises" }).click();
      await said(new RegExp(`^${count} exercises`));
    };
    await make("2");
    await make("3");
    await button("Undo").click();
    await said(/^2 exercises/);
    await page.locator("h1").click();
    await key("ControlOrMeta+y");
    await said(/^3 exercises/);
    await page.getByRole("button", { name: "Put these exercises away" }).click();
    await soon(() => title.count()).toBe(0);
    await button("Undo").click();
    await said(/^3 exercises/);
    await page.getByRole("link", { name: "Play exercise 1" }).click();
    await said(/It counts once, and stays counted, whatever is taken back/);
  });

  it("tells before games are taken out that it cannot be undone", async () => {
    await begin("/games");
    await page
      .locator("summary")
      .filter({ hasText: /\d+ files?/ })
      .click();
    await said(/It cannot be undone here: to have the games back, read the file again/);
  });
});

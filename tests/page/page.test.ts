// The page in a real browser: every flow, on the bundled games.

import { readFileSync, renameSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import Database from "better-sqlite3";
import { Chess as OtherRules } from "chess.js";
import type { Page } from "playwright-core";
import { describe, expect, it } from "vitest";

import { serve } from "../../src/server/server.js";
import { dayOf, writtenDay } from "../../src/page/learning.js";
import { storageKey } from "../../src/page/stored.js";
import type { AnswerTo } from "../../src/server/answers.js";
import { setUpAfterIs } from "../../src/query/language/set-up-words.js";
import { BROWSER, copyOf, optionsFor } from "../server/support.js";
import { jsonLines, longside } from "../support.js";
import { gone, pageForTests, soon } from "./support.js";

describe.skipIf(BROWSER === undefined)("the page", () => {
  const { server, forgive, square, said, move, ...pages } = pageForTests();
  let page: Page;
  const open = async (...at: Parameters<typeof pages.open>) => void (page = await pages.open(...at));

  describe("asking", () => {
    it("completes a question, tells how it is understood, and answers with boards", async () => {
      await open("/");
      const line = page.getByRole("combobox", { name: "What happened, in your own words" });
      await line.pressSequentially("defender drew with the rook on the lo");
      const options = page.getByRole("listbox").getByRole("option");
      await options.first().waitFor();
      await page.keyboard.press("ArrowDown");
      await soon(() => line.getAttribute("aria-activedescendant")).not.toBeNull();
      await page.keyboard.press("Enter");
      await soon(() => line.inputValue()).toBe("defender drew with rook on the long side");
      await page.keyboard.press("Enter");
      await page.waitForURL(/q=defender/);
      await said(
        /Endings in which the defender drew and most of the time the defender's rook is on the long side/,
      );
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.first().waitFor();
      const count = await page.locator("main [role=status] b").first().innerText();
      const question = "defender drew with the rook on the long side";
      expect(Number(count)).toBe(
        jsonLines(longside(["find", question, "--json", "--db", server.db()]).stdout).length,
      );
      // the address alone leads there again
      await page.goto(page.url());
      await rows.first().waitFor();
      await soon(() => page.locator("main [role=status] b").first().innerText()).toBe(count);
    });

    it("shows a fault under the word it is about, with what to do", async () => {
      await open("/ask");
      await page.getByRole("combobox").fill("phillidoor and drew");
      const alert = page.getByRole("alert");
      await alert.waitFor();
      expect(await alert.locator("mark").innerText()).toBe("phillidoor");
      await alert.getByRole("button", { name: "philidor and drew" }).click();
      await page.getByRole("list", { name: "Answers" }).getByRole("listitem").first().waitFor();
    });

    it("says of a slip what it was read as", async () => {
      await open("/ask?q=philidoor%20and%20drew");
      await page.getByText("“philidoor” was read as “philidor”").first().waitFor();
      await page.getByRole("list", { name: "Answers" }).getByRole("listitem").first().waitFor();
    });

    it("has every way of speaking under what it means, each meaning once", async () => {
      await open("/ask?q=phillidoor");
      await page.getByText("Every word that is understood").click();
      const sections = page.locator(".vocabulary section");
      await sections.first().waitFor();
      for (const section of await sections.all()) {
        const meanings = await section.locator("dd").allTextContents();
        expect(meanings.length).toBeGreaterThan(1);
        expect(new Set(meanings).size).toBe(meanings.length);
      }
    });

    it("goes on as one scrolls, and says how much there is", async () => {
      await open("/ask?each=position");
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.first().waitFor();
      const first = await rows.count();
      await page.mouse.wheel(0, 20_000);
      await soon(() => rows.count()).toBeGreaterThan(first);
    });

    it("goes on where the end of the list comes into sight only in the last of several entries", async () => {
      const script = `window.IntersectionObserver = class {
        constructor(tell) { this.tell = tell; }
        observe() { setTimeout(() => this.tell([{ isIntersecting: false }, { isIntersecting: true }])); }
        disconnect() {}
      }`;
      await open("/ask?each=ending", {}, script);
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await soon(() => rows.count()).toBeGreaterThan(24);
    });

    it("is narrowed by a click on a filter, bands of numbers too", async () => {
      await open("/ask?q=verdict+%3D+drawn&each=ending");
      const band = page
        .locator(".filter a")
        .filter({ hasText: /\d{4} to \d{4}/ })
        .first();
      await band.waitFor();
      const wanted = (await band.locator(".number").innerText()).trim();
      await band.click();
      await page.waitForURL(/\.\./);
      await soon(() => page.locator(".summary .count").innerText()).toBe(wanted);
    });

    it("counts by any fact, with a chart and shares", async () => {
      await open("/ask?each=ending");
      await page.getByRole("link", { name: "Count by any fact" }).click();
      await page.getByRole("combobox", { name: "by", exact: true }).selectOption("outcome");
      const table = page.getByRole("region", { name: "Table of counts" });
      await table.waitFor();
      await soon(() => table.innerText()).toMatch(/held\s+\d+/);
      await page.getByLabel("share in which").fill("Philidor");
      await page.keyboard.press("Tab");
      await page.waitForURL(/share=Philidor/);
      await said(/95 % interval/);
      await page.getByRole("combobox", { name: "by", exact: true }).selectOption("defender-rating");
      await page.getByLabel("in steps of").fill("200");
      await page.keyboard.press("Tab");
      await page.waitForURL(/by=defender-rating%3A200/);
      await soon(() => table.innerText()).toMatch(/\d{4} to \d{4}/);
      const chart = page.locator("img.chart");
      await soon(() =>
        chart.evaluate((image) => (image as unknown as { naturalWidth: number }).naturalWidth),
      ).toBeGreaterThan(300);
    });
  });

  describe("looking", () => {
    it("steps through an ending by keys and by the slider, each step with an address", async () => {
      await open("/ending/1");
      const slider = page.getByRole("slider", { name: "Position in the ending" });
      await slider.waitFor();
      await page.locator("h1").click();
      await page.keyboard.press("Home");
      await soon(() => slider.inputValue()).toBe("0");
      await page.keyboard.press("ArrowRight");
      await page.keyboard.press("ArrowRight");
      await soon(() => slider.inputValue()).toBe("2");
      // a finger that sweeps to the left goes on, to the right goes back
      const sweep = async (right: number) => {
        const at = (x: number) => ({ pointerType: "touch", clientX: x, clientY: 400, bubbles: true });
        await square("d4").dispatchEvent("pointerdown", at(300));
        await square("d4").dispatchEvent("pointerup", at(300 + right));
      };
      await sweep(-120);
      await soon(() => slider.inputValue()).toBe("3");
      await sweep(120);
      await soon(() => slider.inputValue()).toBe("2");
      const ending = await page.request.post("/api/ending", { data: { id: 1 } });
      const { positions } = (await ending.json()) as AnswerTo<"ending">;
      const address = `${server.at()}/ending/1?ply=${positions[2].ply}`;
      await soon(() => page.url()).toBe(address);
      const text = await slider.getAttribute("aria-valuetext");
      await page.goto(address);
      await slider.waitFor();
      await soon(() => slider.getAttribute("aria-valuetext")).toBe(text);
      expect(text).toMatch(/^\d+\.(\.\.)? \S+: (drawn|won|lost)/);
    });

    it("has the map for any piece by pointing at it, each square with its verdict", async () => {
      await open("/board?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1");
      await page.getByLabel("where it could stand").check();
      await square("a7").click();
      await said(/wins with it on 28 squares, 24 are drawn/);
      // a piece that was picked up for its moves is put down when pointing means something else
      await page.getByLabel("its moves").check();
      await square("d8").click();
      await page.getByLabel("where it could stand").check();
      await square("d8").click();
      await said(/^The .*king \(d8\) elsewhere/);
      await square("a7").click();
      await said(/wins with it on 28 squares, 24 are drawn/);
      await soon(() => square("f2").getAttribute("aria-label")).toBe("f2, drawn");
      await soon(() => square("a1").getAttribute("aria-label")).toContain("drawn");
      await soon(() => square("c1").getAttribute("aria-label")).toMatch(/^c1, (lost|drawn)/);
    });

    it("tells the verdict of every legal move, and makes one", async () => {
      await open("/board?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1");
      await said(/Only Rd7\+ keeps it/);
      await square("a7").click();
      await soon(() => square("d7").getAttribute("aria-label")).toContain("drawn");
      await soon(() => square("e7").getAttribute("aria-label")).toContain("lost, mate in");
      const calls: string[] = [];
      page.on("request", (request) => {
        const { pathname } = new URL(request.url());
        if (pathname.startsWith("/api/")) calls.push(pathname);
      });
      await square("d7").click();
      await page.waitForURL(/fen=3k4%2F3r4%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1\+w\+-\+-\+1\+2/);
      await said(/\(White\) to move/);
      // a legal move is known with the position: only the new position is asked about
      expect(calls).toEqual(["/api/position"]);
    });

    it("lets pieces be dragged about freely, and taken off the board", async () => {
      await open("/board?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1&way=set-up");
      const box = async (name: string) => (await square(name).boundingBox())!;
      await square("a7").waitFor();
      const [from, to] = [await box("a7"), await box("h3")];
      await page.mouse.move(from.x + 10, from.y + 10);
      await page.mouse.down();
      await page.mouse.move(to.x + 10, to.y + 10, { steps: 5 });
      await page.mouse.up();
      await page.waitForURL(/3k4%2F8%2F3K4%2F3B4%2F8%2F7r/);
      const bishop = await box("d5");
      await page.mouse.move(bishop.x + 10, bishop.y + 10);
      await page.mouse.down();
      await page.mouse.move(1100, 880, { steps: 5 });
      await page.mouse.up();
      await page.waitForURL(/3k4%2F8%2F3K4%2F8%2F8%2F7r/);
      await page.getByRole("link", { name: "Look at it" }).click();
      await said(/to move/);
    });

    it("copies the FEN and saves the diagram", async () => {
      await open("/board?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1");
      await page.getByRole("button", { name: "Copy FEN" }).click();
      expect(await page.evaluate("navigator.clipboard.readText()")).toBe(
        "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1",
      );
      const [download] = await Promise.all([
        page.waitForEvent("download"),
        page.getByRole("button", { name: "as PNG" }).click(),
      ]);
      expect(download.suggestedFilename()).toBe("diagram.png");
      const bytes = readFileSync(await download.path());
      expect([...bytes.subarray(0, 4)]).toEqual([0x89, 0x50, 0x4e, 0x47]);
    });
  });

  describe("theory", () => {
    it("counts how every position of a set-up comes out, by a fact", async () => {
      await open("/theory");
      const survey = page.getByRole("region", { name: "How does it come out?" });
      await survey.locator("select").selectOption("foot-room");
      await survey.getByRole("button", { name: "Count" }).click();
      const rows = survey.getByRole("row");
      await rows.nth(1).waitFor({ timeout: 120_000 });
      // own computation, first told in the catalogue: with a room of two files and the attacker to move all is won
      expect(await rows.nth(1).innerText()).toMatch(/2\s+attacker\s+[\d,]+\s+100\.0 %\s+0\.0 %/);
    });

    // the changes of all set-ups take most of a minute to work out; tests/survey holds them to a slow twin
    it.skipIf(process.env.CI)(
      "opens the endings of a change by its arrow, which is wide enough for a finger",
      async () => {
        await open("/theory", { hasTouch: true });
        const map = page.locator(".change-map");
        await page
          .locator("section[aria-labelledby=changes]")
          .getByRole("button", { name: "Work it out" })
          .click();
        await map.waitFor({ timeout: 240_000 });
        const arrows = map.getByRole("link", { name: /Open the \d+ endings that show it/ });
        const says = await arrows.first().getAttribute("aria-label");
        const [, from, into, endings] = /^From (.+) into (.+): .* Open the (\d+) endings/.exec(says!)!;
        // an arrow is hit beside its line too: by the middle of what a finger may touch
        await arrows.first().scrollIntoViewIfNeeded();
        const hit = await arrows
          .first()
          .locator("path.arrow")
          .evaluate((arrow) => {
            const path = arrow as unknown as SVGPathElement;
            const [at, matrix] = [path.getPointAtLength(path.getTotalLength() / 3), path.getScreenCTM()!];
            const point = new DOMPoint(at.x, at.y).matrixTransform(matrix);
            return document
              .elementFromPoint(point.x + 3, point.y + 3)
              ?.closest("a")
              ?.getAttribute("aria-label");
          });
        expect(hit).toBe(says);
        await arrows.first().focus();
        await page.keyboard.press("Enter");
        await page.waitForURL(/\/ask\?q=/);
        await said(
          new RegExp(
            `the set-up is ${setUpAfterIs(from)},.*then within one move.*the set-up is ${setUpAfterIs(into)}`,
          ),
        );
        await soon(() => page.locator("main [role=status] b").first().innerText()).toBe(endings);
      },
      600_000,
    );

    it("draws a rule as a tree, as wide as the window allows, whose boards open", async () => {
      const options = optionsFor(join(server.folder, "none.db"));
      // a smaller ending, since a rule is counted over the whole table
      const own = await serve({ ...options, settings: { ...options.settings, target: "R v B" } });
      try {
        await open("/theory?q=king-rank+%3D+1+and+corner-steps+%3C%3D+1", { baseURL: own.address });
        await page.getByRole("button", { name: "Find rules" }).click();
        const trees = page
          .locator(".rule", { has: page.locator(".rule-tree") })
          .last()
          .locator(".rule-tree");
        await trees.first().waitFor({ timeout: 120_000 });
        // where conditions add nothing that is worth it, a sentence and boards stand in the place of a tree
        const bare = page.locator(".rule", { hasText: "No rule is worth keeping in mind" });
        expect(await bare.innerText()).toMatch(/in mind: \d+\.\d % are drawn\./);
        expect(await bare.locator(".rule-tree").count()).toBe(0);
        expect(await bare.getByRole("link").count()).toBeGreaterThan(0);
        const shownAt = async (width: number) => {
          await page.setViewportSize({ width, height: 800 });
          expect(await page.evaluate(() => document.documentElement.scrollWidth)).toBeLessThanOrEqual(width);
          return Promise.all(
            ["wide", "narrow"].map((shape) => trees.and(page.locator(`.${shape}`)).isVisible()),
          );
        };
        expect(await shownAt(1200)).toEqual([true, false]);
        expect(await shownAt(360)).toEqual([false, true]);
        const board = trees.and(page.locator(".narrow")).getByRole("link").first();
        const fen = await board.locator("xpath=..").getAttribute("data-fen");
        await board.click();
        await page.waitForURL(/\/board\?fen=/);
        expect(new URL(page.url()).searchParams.get("fen")).toBe(fen);
      } finally {
        await page.goto("about:blank");
        await own.close();
      }
    });

    it("tells a win in stages", async () => {
      // a smaller ending with a station of its own, since the whole table is worked out for it
      const setUps = join(server.folder, "stations.yaml");
      writeFileSync(
        setUps,
        "- name: king near\n  side: attacker\n  material: R v B\n  means: king-rank = 1 and attacker-king-rank = 3 and not in-check\n",
      );
      const db = join(server.folder, "none.db");
      const options = optionsFor(db);
      const own = await serve({ ...options, settings: { ...options.settings, setUps } });
      try {
        const fen = "8/8/8/8/5R2/4K3/8/1k4b1 w - - 0 1";
        await open(`/board?fen=${encodeURIComponent(fen)}`, { baseURL: own.address });
        await page.getByText("The win in stages").click();
        const stages = page.locator(".stages > li");
        await stages.first().waitFor({ timeout: 60_000 });
        expect(await stages.last().innerText()).toMatch(/^\s*The win, in at most \d+ moves?/);
      } finally {
        await page.goto("about:blank");
        await own.close();
      }
    });
  });

  describe("playing", () => {
    const START = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
    const at = (more = "") => `/play?fen=${encodeURIComponent(START)}&you=black${more}`;

    it("tells at once that the result has changed, and why, and takes it back", async () => {
      await open(at());
      await said("Your move.");
      await move("a7e7");
      const alert = page.getByRole("alert");
      await alert.waitFor();
      expect(await alert.innerText()).toMatch(/Re7 turns a draw into a loss.*Only Rd7\+ kept it/s);
      await page.getByRole("button", { name: "Take back" }).click();
      await said("Your move.");
      await move("a7d7");
      await soon(() => page.url()).toMatch(/moves=a7d7%2C/);
      // the answer is legal by another library's rules
      const game = new OtherRules(START);
      for (const uci of new URL(page.url()).searchParams.get("moves")!.split(","))
        game.move({ from: uci.slice(0, 2), to: uci.slice(2, 4) });
      expect(game.turn()).toBe("b");
      await gone(page.getByRole("alert"));
    });

    it("says in a lost position who wins when it is asked for help", async () => {
      await open(`/play?fen=${encodeURIComponent("3k4/5R2/3K4/3B4/8/8/4r3/8 b - - 0 1")}&you=black`);
      await said("Your move.");
      await page.getByRole("button", { name: "Help" }).click();
      await said("No move changes the result: White wins.");
    });

    it("tells on request only, where that is wanted, and plays as people did", async () => {
      await open(at());
      await page.getByLabel("when I ask").check();
      await page.getByLabel("people's moves").check();
      await move("a7e7");
      await soon(() => page.url()).toMatch(/moves=a7e7%2C/);
      await said(/Your move, after/);
      expect(await page.getByRole("alert").count()).toBe(0);
      await page.getByRole("button", { name: "Has the result changed?" }).click();
      expect(await page.getByRole("alert").first().innerText()).toContain("turns a draw into a loss");
    });
  });

  it("is done by hand: the second-rank defence asked, looked at, mapped, slid, collected, taught, lost and won", async () => {
    await open("/");
    // asked
    const line = page.getByRole("combobox", { name: "What happened, in your own words" });
    await line.fill("second-rank defence");
    await page.keyboard.press("Enter");
    await page.waitForURL(/q=second-rank/);
    const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
    await rows.nth(2).waitFor();
    /** Waits until so many positions are in the tray. */
    const held = (count: number) => page.getByRole("link", { name: `Tray (${count})` }).waitFor();
    // collected: three of the answers' positions while looking at them
    for (const n of [0, 1, 2]) {
      await rows.nth(n).getByRole("link").first().click();
      await page.waitForURL(/\/ending\//);
      await page.getByRole("slider").waitFor();
      await page.getByRole("button", { name: "Into the tray", exact: true }).click();
      await held(n + 1);
      await page.goBack();
      await rows.nth(2).waitFor();
    }
    // looked at from the catalogue, mapped and slid
    await page.getByRole("link", { name: "Board" }).click();
    await page.getByRole("button", { name: "second-rank defence", exact: true }).click();
    await page.getByRole("link", { name: "Put it on the board" }).click();
    await page.getByLabel("where it could stand").check();
    const rook = page.locator('[data-square][aria-label*="Black rook"]');
    await rook.click();
    await said(/elsewhere, .* to move: the attacker wins/);
    await page.getByText("Moved along the edge").click();
    const slides = page
      .getByRole("list", { name: "The formation moved along the edge" })
      .getByRole("listitem");
    await slides.first().waitFor();
    const slid = await slides.count();
    expect(slid).toBeGreaterThan(1);
    await page.getByRole("button", { name: "Into the tray", exact: true }).click();
    await held(4);
    const address = page.url();
    await slides
      .nth(slid - 1)
      .getByRole("link")
      .click();
    await soon(() => page.url()).not.toBe(address);
    await page.getByRole("button", { name: "Into the tray", exact: true }).click();
    await held(5);
    await page.getByRole("button", { name: "The other side to move" }).click();
    await page.getByRole("button", { name: "Into the tray", exact: true }).click();
    await page.getByRole("link", { name: "Tray (6)" }).click();
    await soon(() => page.getByRole("list", { name: "In the tray" }).getByRole("listitem").count()).toBe(6);
    // games and a sheet out of it
    await page.getByRole("button", { name: "Games as PGN" }).click();
    await said(/The games and positions:/);
    await page.getByRole("button", { name: "Exercise sheet" }).click();
    await said(/A sheet of \d+ exercises?:/);
    // a lesson
    await page.getByRole("button", { name: "Draft a lesson" }).click();
    await page.getByRole("list", { name: "Parts of the lesson" }).waitFor();
    await page.getByRole("button", { name: "Text", exact: true }).click();
    await page.getByLabel("Text", { exact: true }).last().fill("My own *last word*.");
    await page.getByRole("button", { name: "See it as it will print" }).click();
    const lesson = page.frameLocator("iframe");
    await soon(() => lesson.locator("h1").innerText()).toBe("My lesson");
    expect(await lesson.locator("svg").count()).toBeGreaterThanOrEqual(6);
    expect(await lesson.locator("em", { hasText: "last word" }).count()).toBe(1);
    // exercises: lost once, then won
    await page.getByRole("link", { name: "Practise", exact: true }).click();
    await page.getByRole("combobox").fill("second-rank defence");
    await page.keyboard.press("Tab");
    await page.getByLabel("hold the draw").check();
    await page.getByLabel("how many").fill("3");
    await page.getByRole("button", { name: "Make exercises" }).click();
    await said(/3 exercises: 0 won, 0 lost, 3 not tried/);
    await page.getByRole("link", { name: "Play exercise 1", exact: true }).click();
    await said(/0 of 5 found/);
    await move(await moveThat(false));
    await said(/This exercise is lost/);
    // taken back and put right it stays lost, and is not counted again
    await page.getByRole("link", { name: "Look at this position" }).waitFor();
    await page.reload();
    await page.getByRole("button", { name: "Take back" }).click();
    // "0 of 5 found" stands there before and after: the end of the try is what goes
    await gone(page.getByText(/This exercise is lost/));
    // what tells the answer is not to be had before
    await gone(page.getByRole("link", { name: "Look at this position" }));
    await keepOn();
    await said(/this try was lost before/);
    await page.getByRole("link", { name: "All exercises" }).click();
    await said(/3 exercises: 0 won, 1 lost, 2 not tried/);
    await page.getByRole("link", { name: "Play exercise 1", exact: true }).click();
    // hints come before help, and neither counts
    const hint = page.getByRole("button", { name: "Hint" });
    await hint.waitFor();
    while ((await hint.count()) > 0) await hint.click();
    await said(/Move the (king|rook)|each have a move/);
    await page.getByRole("button", { name: "Help" }).click();
    await said(/keeps? the result/);
    await keepOn();
    await said(/with help, which does not count/);
    await page.getByRole("button", { name: "Try it again" }).click();
    await keepOn();
    await said(/Won: you kept the result/);
    await page.getByRole("link", { name: "All exercises" }).click();
    await said(/3 exercises: 1 won, 0 lost, 2 not tried/);
    await said(/won 1, lost 1/);
    // one that is solved with help is not "not tried", and neither won nor lost
    await page.getByRole("link", { name: "Play exercise 2", exact: true }).click();
    await hint.click();
    await keepOn();
    await said(/with help, which does not count/);
    await page.getByRole("link", { name: "All exercises" }).click();
    await said(/3 exercises: 1 won, 0 lost, 1 solved with help, 1 not tried/);
    // and it is still so tomorrow
    await page.reload();
    await said(/won 1, lost 1/);
  });

  it("stores a note while it is typed", async () => {
    await open("/board");
    await page.getByRole("button", { name: "Into the tray", exact: true }).click();
    await page.getByRole("link", { name: "Tray (1)" }).click();
    await page.getByLabel(/^Note/).pressSequentially("still typ");
    await page.reload();
    await soon(() => page.getByLabel(/^Note/).inputValue()).toBe("still typ");
  });

  describe("keeps its promises", () => {
    it("says of an answer what the move did, and what would have held", async () => {
      await open("/ask?q=defender+missed+an+only+move");
      const why = page.locator(".answer .why").first();
      await soon(() => why.innerText()).toMatch(/\d+\.+ \S+\?+ drawn, now won in \d+; held: \S+/);
    });

    it("comes back from an ending to the place in the list, and goes to the answers beside", async () => {
      await open("/ask?each=ending");
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.first().waitFor();
      await soon(async () => {
        await page.mouse.wheel(0, 20_000);
        return rows.count();
      }).toBe(103);
      await rows.nth(25).scrollIntoViewIfNeeded();
      const place = await page.evaluate("scrollY");
      expect(place).toBeGreaterThan(0);
      await rows.nth(25).getByRole("link").first().click();
      await page.getByText("26 of 103").waitFor();
      await page.getByRole("link", { name: "The next answer" }).click();
      await page.getByText("27 of 103").waitFor();
      await page.goBack();
      await page.getByText("26 of 103").waitFor();
      await page.goBack();
      await soon(() => rows.count()).toBe(103);
      await soon(() => page.evaluate("scrollY")).toBe(place);
    });

    it("shows no answers of another question, and says that it looks", async () => {
      await open("/ask?q=second-rank+defence");
      const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
      await rows.first().waitFor();
      let letGo = () => {};
      const held = new Promise<void>((resolve) => (letGo = resolve));
      await page.route("**/api/ask", async (route) => {
        await held;
        await route.continue();
      });
      await page.getByRole("combobox").fill("Philidor");
      await page.keyboard.press("Enter");
      await said("Looking …");
      expect(await rows.count()).toBe(0);
      await page.locator(".to-come").waitFor();
      letGo();
      await rows.first().waitFor();
      expect(await page.locator(".understood").first().innerText()).toContain("Philidor");
    });

    it("keeps what it shows until the next is there, open folds and the focus while one steps", async () => {
      await open("/ending/1");
      const slider = page.getByRole("slider", { name: "Position in the ending" });
      await page.locator(".explanation").waitFor();
      await page.getByText("Every fact").click();
      await page.locator(".facts dt").first().waitFor();
      await slider.focus();
      const script = `window.blank = 0; (function look() {
        if (!document.querySelector(".explanation") || !document.querySelector(".facts dt") ||
          !document.querySelector(".actions")) window.blank++;
        window.looking = requestAnimationFrame(look);
      })()`;
      await page.evaluate(script);
      const before = await slider.inputValue();
      for (let n = 0; n < 6; ++n) await page.keyboard.press("ArrowLeft");
      await soon(() => slider.inputValue()).toBe(String(Math.max(0, Number(before) - 6)));
      await soon(() => page.locator(".stale").count()).toBe(0);
      expect(await page.evaluate("window.blank")).toBe(0);
      expect(await page.evaluate("document.activeElement.type")).toBe("range");
    });

    it("writes no more addresses than browsers take from a page while a key is held, and steps on", async () => {
      const script = `window.written = 0;
        const whole = history.replaceState.bind(history);
        history.replaceState = (state, title, to) => { if (to !== undefined) window.written++; whole(state, title, to); }`;
      await open("/ending/1", {}, script);
      await page.locator(".explanation").waitFor();
      const slider = page.getByRole("slider", { name: "Position in the ending" });
      await page.locator("h1").click();
      await page.keyboard.press("Home");
      await soon(() => slider.inputValue()).toBe("0");
      const ply = () => new URL(page.url()).searchParams.get("ply");
      await soon(ply).not.toBeNull();
      const first = Number(ply());
      await page.evaluate(`for (const key of [...Array(100).fill(["ArrowRight", "ArrowLeft"]).flat(), "ArrowRight"])
        document.body.dispatchEvent(new KeyboardEvent("keydown", { key, bubbles: true }))`);
      await soon(() => slider.inputValue()).toBe("1");
      // the strictest takes a hundred in thirty seconds
      expect(await page.evaluate("window.written")).toBeLessThan(100);
      // the last one is written all the same
      await soon(ply).toBe(String(first + 1));
    });

    it("reads the good files of an upload, and names the bad one in words of the page", async () => {
      const own = await serve(optionsFor(join(server.folder, "upload.db")));
      try {
        await open("/", { baseURL: own.address });
        const good = `[White "A"]\n[Black "B"]\n[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]\n\n1... Rd7+ 1/2-1/2\n`;
        const file = (name: string) => ({ name, mimeType: "text/plain", buffer: Buffer.from(good) });
        await page.getByLabel(/Files of this computer/).setInputFiles([file("notes.txt"), file("good.pgn")]);
        const alert = page.getByRole("alert");
        await alert.waitFor();
        expect(await alert.innerText()).toContain("notes.txt was not taken");
        // the games are there, and the page shows what can be asked
        await page.getByText("1 game ·").waitFor();
      } finally {
        await page.goto("about:blank");
        await own.close();
      }
    });

    it("keeps a tray with its database, whatever comes to lie at the same path", async () => {
      const path = join(server.folder, "replaced.db");
      copyOf(server.db(), path);
      const own = await serve(optionsFor(path));
      try {
        await open("/ask?each=ending", { baseURL: own.address });
        const rows = page.getByRole("list", { name: "Answers" });
        await rows.getByRole("button", { name: "Into the tray" }).first().click();
        await page.getByRole("link", { name: "Tray (1)" }).waitFor();
        const other = new Database(copyOf(server.db(), join(server.folder, "other.db")));
        other.prepare("UPDATE meta SET value = 'another' WHERE key = 'identity'").run();
        other.close();
        renameSync(join(server.folder, "other.db"), path);
        await page.getByRole("link", { name: "newest" }).click();
        await page.getByRole("link", { name: "Tray", exact: true }).waitFor();
      } finally {
        await page.goto("about:blank");
        await own.close();
      }
    });
  });

  it("takes one move at a time, however late the answer comes", async () => {
    await open("/play?fen=3k4%2Fr7%2F3K4%2F3B4%2F8%2F8%2F8%2F6R1+b+-+-+0+1&you=black&with=table");
    await said("Your move.");
    let calls = 0;
    let letGo = () => {};
    const held = new Promise<void>((resolve) => (letGo = resolve));
    await page.route("**/api/play", async (route) => {
      ++calls;
      await held;
      await route.continue();
    });
    await move("a7d7");
    await said("The other side thinks");
    await move("d8e8");
    letGo();
    await said(/Your move, after/);
    // the answer to a move judges the game it leads to: nothing else is asked
    expect(calls).toBe(1);
    const moves = new URL(page.url()).searchParams.get("moves")!.split(",");
    expect(moves).toHaveLength(2);
    expect(moves[0]).toBe("a7d7");
    // one's own moves are steps to go back by
    await page.goBack();
    await said("Your move.");
    expect(new URL(page.url()).searchParams.get("moves")).toBeNull();
  });

  it("tells that the server is gone, and goes on when it is back", async () => {
    const db = server.db();
    const first = await serve(optionsFor(db));
    const { port } = new URL(first.address);
    await open("/ask?each=ending", { baseURL: first.address });
    const rows = page.getByRole("list", { name: "Answers" }).getByRole("listitem");
    await rows.first().waitFor();
    await first.close();
    const alert = page.getByRole("alert").filter({ hasText: "The server does not answer" });
    await alert.waitFor();
    // it is said once
    expect(await page.getByRole("alert").count()).toBe(1);
    const second = await serve(optionsFor(db, { port: Number(port) }));
    try {
      await gone(alert);
      await rows.first().waitFor();
      // a page that listens on would complain of the second end, at whatever time it notices
      await page.goto("about:blank");
    } finally {
      await second.close();
      forgive(); // the browser says that it could not connect
    }
  });

  it("stops what takes its time, and does it when asked again", async () => {
    await open("/practise");
    const make = page.getByRole("button", { name: "Make exercises" });
    await page.getByLabel("how many").fill("2");
    await page.getByLabel("all positions there are").check();
    await make.click();
    await page.getByRole("button", { name: "Stop" }).click();
    await soon(() => make.isEnabled()).toBe(true);
    expect(await page.getByRole("alert").count()).toBe(0);
    await page.getByLabel("games", { exact: true }).check();
    await make.click();
    await said(/2 exercises: 0 won/);
  });

  it("brings back what is due, and says when the next is", async () => {
    await open("/practise");
    const fen = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
    const games = (await page.evaluate("document.documentElement.dataset.games")) as string;
    const store = async (due: number) => {
      const learning = [{ fen, said: "Hold the draw.", grade: 2, about: "", step: 1, due }];
      const text = JSON.stringify(JSON.stringify({ learning }));
      await page.evaluate(`localStorage.setItem(${JSON.stringify(storageKey(games))}, ${text})`);
      await page.reload();
    };
    const today = dayOf(new Date());
    await store(today + 3);
    const comesBack = page.getByRole("region", { name: "What comes back" });
    await soon(() => comesBack.textContent()).toContain(`comes back on ${writtenDay(today + 3)}`);
    await store(today);
    await soon(() => comesBack.textContent()).toContain("1 exercise of 1 to be repeated today");
    await comesBack.getByRole("button", { name: "Repeat it" }).click();
    await said(/1 exercise: 0 won/);
  });

  /** Plays an exercise to its end without an error. */
  const keepOn = async () => {
    for (let n = 0; n < 5; ++n) {
      await said(new RegExp(`${n} of 5 found`));
      if ((await page.locator(".done:not(.lost-exercise)").count()) > 0) break;
      await said(/Your move|The game is over/);
      await move(await moveThat(true));
    }
  };
  /** The position on the board, by the moves in the address. */
  const fenShown = () => {
    const query = new URL(page.url()).searchParams;
    const game = new OtherRules(query.get("fen")!);
    for (const uci of (query.get("moves") ?? "").split(",").filter((move) => move !== ""))
      game.move({ from: uci.slice(0, 2), to: uci.slice(2, 4) });
    return game.fen();
  };
  /** The moves that keep the result there, by the server; undefined where all do. */
  const keeping = async (fen: string) => {
    const response = await fetch(`${server.at()}/api/position`, {
      method: "POST",
      headers: { "content-type": "application/json" },
      body: JSON.stringify({ fen }),
    });
    const { verdict, moves } = (await response.json()) as {
      verdict: string;
      moves: { uci: string; verdict: string }[];
    };
    return (wanted: boolean) => moves.find((one) => (one.verdict === verdict) === wanted)!.uci;
  };
  /** A move that keeps the result of the position on the board, or one that does not. */
  const moveThat = async (keeps: boolean) => (await keeping(fenShown()))(keeps);

  it("reads games that are chosen or are in a folder, shows progress, and lists what could not be read", async () => {
    const db = join(server.folder, "new.db");
    const own = await serve(optionsFor(db));
    try {
      await open("/", { baseURL: own.address });
      await said(/There are no games here yet/);
      await page.getByRole("link", { name: "Games", exact: true }).click();
      await said(/no games yet/);
      const bad = `[White "A"]\n[Black "B"]\n[FEN "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1"]\n\n1... Rd7+ 2. Qh5 *\n`;
      await page
        .getByLabel(/Files of this computer/)
        .setInputFiles([{ name: "bad one.pgn", mimeType: "text/plain", buffer: Buffer.from(bad) }]);
      await said(/Done: 1 file read, 1 game/);
      await page.getByRole("button", { name: new RegExp("games/$") }).click();
      await page.getByRole("button", { name: "Read this whole folder" }).click();
      await said(/endings of R\+B v R with/);
      await page.getByText("1 game that could not be read").click();
      const skipped = page.getByRole("region", { name: "Games that could not be read" });
      await skipped.waitFor();
      expect(await skipped.innerText()).toContain("bad one.pgn");
      await page.getByText(/^\d+ files$/).click();
      const files = page.getByRole("region", { name: "Files whose games are held" });
      await files.waitFor();
      const row = files.getByRole("row").filter({ hasText: "bad one.pgn" });
      await row.getByRole("button", { name: /^take out/ }).click();
      await row.getByRole("button", { name: "keep" }).click();
      await row.getByRole("button", { name: /^take out/ }).click();
      await row.getByRole("button", { name: /^Take out/ }).click();
      await row.waitFor({ state: "detached" });
      await page.getByRole("link", { name: "Ask about them" }).click();
      await page.getByRole("list", { name: "Answers" }).getByRole("listitem").first().waitFor();
    } finally {
      // what the page still asks is not to be cut off
      await page.goto("about:blank");
      await own.close();
    }
  });
});

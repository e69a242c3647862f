// The pictures of README.md, made anew: the page in the installed browser over the bundled games, the terminal, and what
// two commands draw. Look at them before they are kept.
//
//   npm run pictures

import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { type Browser, type Page, chromium } from "playwright-core";

import { DEFAULT_TARGET, parseMaterial } from "../../src/chess/material.js";
import { findBrowser } from "../../src/documents/browser.js";
import { escapeXml } from "../../src/documents/diagram.js";
import { PACKAGE, cacheFolder, gamesFolder } from "../../src/places.js";
import { serve } from "../../src/server/server.js";
import { buildTables } from "../../src/tablebase/build.js";
import { indexBundled } from "../bundled.js";

const PICTURES = join(PACKAGE, "fixtures", "pictures");
const FEN = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
/** Milliseconds that a rule or a lesson may take on a slow machine. */
const PATIENCE = 300_000;

interface Picture {
  readonly size: readonly [width: number, height: number];
  readonly dark?: boolean;
  readonly address: string;
  /** What is to be seen before anything else is done. */
  readonly first: string;
  readonly then?: (page: Page) => Promise<unknown>;
}

/** Goes on from the answers to the first of them. */
const openFirst = async (page: Page) => {
  await page.locator(".answer h2 a").first().click();
  await page.locator(".explanation").waitFor();
};

const OF_THE_PAGE: Readonly<Record<string, Picture>> = {
  "page-first": { size: [1280, 720], address: "/", first: ".set-up-boards .small-board" },
  "page-answers": { size: [1440, 900], address: "/ask?q=second-rank+defence", first: ".with-all" },
  "page-ending": {
    size: [1280, 860],
    dark: true,
    address: "/ask?q=defender+missed+an+only+move",
    first: ".answer .small-board",
    then: openFirst,
  },
  "page-what-if": {
    size: [1000, 720],
    address: `/board?fen=${encodeURIComponent(FEN)}`,
    first: ".explanation",
    then: async (page) => {
      await page.locator('[data-square="a7"]').click();
      await page.locator('[data-square="e7"][aria-label*="lost"]').waitFor();
    },
  },
  "page-rule": {
    size: [1000, 720],
    address: "/theory",
    first: "#rules",
    then: async (page) => {
      await page.getByRole("button", { name: "Find rules" }).click();
      await page.locator(".rule-tree").first().waitFor({ state: "attached", timeout: PATIENCE });
    },
  },
  "page-exercise": {
    size: [1000, 720],
    dark: true,
    address: "/practise",
    first: "button.main",
    then: async (page) => {
      await page.getByRole("button", { name: "Make exercises" }).click();
      await page.getByRole("link", { name: "Play exercise 3" }).click();
      await page.getByText("0 of 5 found").waitFor();
      await page.getByRole("button", { name: "Hint", exact: true }).click();
    },
  },
  "page-lesson": {
    size: [1000, 720],
    address: "/lesson",
    first: "h1",
    then: async (page) => {
      await page.getByRole("combobox").first().fill("Philidor");
      await page.getByRole("button", { name: "Draft" }).click();
      await page.getByRole("button", { name: "See it as it will print" }).click();
      await page.frameLocator("iframe").locator("h1").waitFor({ timeout: PATIENCE });
      await page.getByRole("button", { name: "See it as it will print" }).evaluate((button) => {
        scrollBy(0, button.getBoundingClientRect().top - 20);
      });
    },
  },
  "page-games": {
    size: [1000, 720],
    address: "/games",
    first: ".entries li",
    then: async (page) => {
      await page
        .locator("summary")
        .filter({ hasText: /^\d+ files$/ })
        .click();
      await page.getByRole("region", { name: "Files whose games are held" }).waitFor();
    },
  },
  "page-counts": {
    size: [1000, 720],
    address: "/ask?each=ending&by=defender-rating:200&share=defender+held",
    first: ".chart",
  },
};

/** Saves what the window shows. WebP, since pictures of type are a sixth of the size that they are as PNG. */
async function saveWindow(page: Page, name: string): Promise<void> {
  const session = await page.context().newCDPSession(page);
  const { data } = await session.send("Page.captureScreenshot", { format: "webp", quality: 80 });
  writeFileSync(join(PICTURES, `${name}.webp`), Buffer.from(data, "base64"));
  process.stdout.write(`${name}\n`);
}

async function pictureThePage(browser: Browser, baseURL: string): Promise<void> {
  for (const [name, { size, dark, address, first, then }] of Object.entries(OF_THE_PAGE)) {
    const [width, height] = size;
    const context = await browser.newContext({
      baseURL,
      viewport: { width, height },
      colorScheme: dark ? "dark" : "light",
      reducedMotion: "reduce",
    });
    const page = await context.newPage();
    await page.goto(address);
    await page.locator(first).first().waitFor();
    await then?.(page);
    await page.evaluate("document.activeElement?.blur()");
    await page.waitForLoadState("networkidle");
    await saveWindow(page, name);
    await context.close();
  }
}

/** What the command line prints, in colours, for a terminal of so many columns. */
function printed(args: readonly string[], columns = 124): string {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(PACKAGE, "dist/src/cli/main.js"), ...args],
    {
      encoding: "utf8",
      env: { ...process.env, FORCE_COLOR: "1", COLUMNS: String(columns) },
    },
  );
  if (status !== 0) throw new Error(stderr);
  return stdout;
}

/** The colours that a terminal has for what the program prints. */
const COLOURS: Readonly<Record<string, string>> = {
  2: "opacity: 0.6",
  31: "color: #e06c60",
  32: "color: #8fbf7f",
  33: "color: #e0b860",
  34: "color: #7fa8d8",
};
/** Text with a terminal's codes for colours as HTML. */
const inColours = (text: string): string =>
  text
    .split(/\u001b\[(\d+)m/)
    .map((part, n) =>
      n % 2 === 0 ? escapeXml(part) : part in COLOURS ? `<span style="${COLOURS[part]}">` : "</span>",
    )
    .join("");

async function pictureTheTerminal(browser: Browser, db: string): Promise<void> {
  const question = "defender missed an only move";
  const told = printed(["find", question, "--db", db, "--limit", "6"]);
  const page = await browser.newPage({ viewport: { width: 1237, height: 254 } });
  await page.setContent(
    `<body style="margin: 0; background: #22262a"><pre style="margin: 16px 22px; color: #eceae4; font: 15.3px/1.42 'DejaVu Sans Mono', monospace"><span style="${COLOURS[34]}">$</span> longside find "${question}"\n${inColours(told)}`,
  );
  await saveWindow(page, "terminal");
  await page.close();
}

const folder = mkdtempSync(join(tmpdir(), "longside-pictures-"));
try {
  await buildTables([parseMaterial(DEFAULT_TARGET)], { folder: cacheFolder(), threads: 2 });
  // the page shows where the database is: no path of this machine
  process.chdir(folder);
  const db = "games.db";
  await indexBundled(db);
  const settings = { db, target: DEFAULT_TARGET, setUps: null, folder: cacheFolder(), threads: 2 };
  const server = await serve({ host: "127.0.0.1", port: 0, games: [gamesFolder()], settings });
  const browser = await chromium.launch({ executablePath: findBrowser(), args: ["--no-sandbox"] });
  try {
    await pictureThePage(browser, server.address);
    await pictureTheTerminal(browser, db);
  } finally {
    await browser.close();
    await server.close();
  }
  printed(["changes", "--db", db, "--png", join(PICTURES, "changes.png")]);
  printed(["repertoire", "--order", "--png", join(PICTURES, "order.png")]);
} finally {
  rmSync(folder, { recursive: true, force: true });
}

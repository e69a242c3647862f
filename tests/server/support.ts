// A server with the bundled games, and a browser to look at its page with, where one is installed.

import { copyFileSync } from "node:fs";
import { join } from "node:path";

import { type Browser, type Page, chromium } from "playwright-core";
import { afterAll, beforeAll } from "vitest";

import { findBrowser } from "../../src/documents/browser.js";
import { DEFAULT_TARGET } from "../../src/chess/material.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { type RunningServer, type ServerOptions, serve } from "../../src/server/server.js";
import { indexBundled, temporaryFolder } from "../support.js";

/** Where a browser is; undefined where none is installed, and tests that need one then skip. */
export const BROWSER = (() => {
  try {
    return findBrowser();
  } catch {
    return undefined;
  }
})();

/** Options for a server of tests; `db` may be a file that is not there. */
export const optionsFor = (db: string, more: Partial<ServerOptions> = {}): ServerOptions => ({
  host: "127.0.0.1",
  port: 0,
  games: [gamesFolder()],
  settings: { db, target: DEFAULT_TARGET, setUps: null, folder: cacheFolder(), threads: 2 },
  ...more,
});

/** A server over the bundled games, for the tests of a file. */
export function serverForTests(): { readonly folder: string; db: () => string; at: () => string } {
  const folder = temporaryFolder();
  const db = join(folder, "bundled.db");
  let running: RunningServer;
  beforeAll(async () => {
    await indexBundled(db);
    running = await serve(optionsFor(db));
  });
  afterAll(() => running.close());
  return { folder, db: () => db, at: () => running.address.replace(/\/$/, "") };
}

/** A copy of a database that a test may change. */
export function copyOf(db: string, to: string): string {
  copyFileSync(db, to);
  return to;
}

/** A browser for the tests of a file. */
export function browserForTests(): () => Browser {
  let browser: Browser;
  beforeAll(async () => {
    browser = await chromium.launch({
      executablePath: BROWSER,
      args: [
        "--no-sandbox",
        "--disable-gpu",
        "--disable-quic",
        "--no-first-run",
        "--disable-background-networking",
        "--disable-component-update",
        "--disable-sync",
      ],
    });
  });
  afterAll(() => browser.close());
  return () => browser;
}

/** What a page complained about: errors of its script and of the console. */
export function complaintsOf(page: Page): string[] {
  const said: string[] = [];
  page.on("pageerror", (error) => said.push(String(error)));
  page.on("console", (message) => {
    // an answer that tells of a fault is no complaint of the page's
    if (message.type() === "error" && !/status of 4\d\d/.test(message.text())) said.push(message.text());
  });
  page.on("response", (response) => {
    if (response.status() < 500) return;
    const where = `${response.status()} ${response.url()}`;
    response.text().then(
      (text) => said.push(`${where}: ${text}`),
      () => said.push(where),
    );
  });
  return said;
}

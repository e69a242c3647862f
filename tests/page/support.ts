// The page of a test server in a browser, and what tests do with it.

import { type BrowserContext, type BrowserContextOptions, type Locator, type Page } from "playwright-core";
import { afterEach, beforeEach, expect } from "vitest";

import { browserForTests, complaintsOf, serverForTests } from "../server/support.js";

/** Milliseconds that a busy machine may take to show something. */
const PATIENCE = 60_000;

/** What a page shows follows what is done on it, at some time: a machine may be busy. */
export const soon = <T>(read: () => T | Promise<T>) => expect.poll(read, { timeout: PATIENCE });
export const gone = (what: Locator) => what.first().waitFor({ state: "detached" });

/** A page for each test of a file; a test fails where its page complained. */
export function pageForTests() {
  const server = serverForTests();
  const browser = browserForTests();
  let context: BrowserContext;
  let page: Page;
  let complaints: string[];
  beforeEach(() => (complaints = []));
  afterEach(async () => {
    await context.close();
    expect(complaints).toEqual([]);
  });
  const square = (name: string) => page.locator(`[data-square="${name}"]`);
  return {
    server,
    /** Opens an address in a browser of its own; `script` is run there before any of the page's. */
    open: async (path: string, options: BrowserContextOptions = {}, script = ""): Promise<Page> => {
      const size = { width: 1200, height: 900 };
      context = await browser().newContext({ viewport: size, baseURL: server.at(), ...options });
      await context.grantPermissions(["clipboard-read", "clipboard-write"]);
      if (script !== "") await context.addInitScript(script);
      page = await context.newPage();
      page.setDefaultTimeout(PATIENCE);
      complaints = complaintsOf(page);
      await page.goto(path);
      return page;
    },
    /** Forgets what the page complained about, where that was to be expected. */
    forgive: () => (complaints.length = 0),
    square,
    said: (text: string | RegExp) => page.locator("main").getByText(text).first().waitFor(),
    /** Makes a move given in coordinates by choosing piece and square. */
    move: async (uci: string) => {
      await square(uci.slice(0, 2)).click();
      await square(uci.slice(2, 4)).click();
    },
  };
}

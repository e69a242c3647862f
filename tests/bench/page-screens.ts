// The page as a browser shows it, on a processor four times slower, each figure beside its goal: first paint, answers, a
// key held down, how far things shift, what is fetched. An empty page, measured in turn, says what the browser itself
// takes for that.
//
// Times are taken in the page, from the event to the task after the frame that shows all of it: what drives the browser
// would add its own.

import { once } from "node:events";
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";

import type { Browser, CDPSession, Page } from "playwright-core";

const SLOWED = 4;
const RUNS = 7;
/** Steps by single keys, and by one key held down. */
const KEYS = 30;
const REPEATS = 60;
/** Milliseconds between two keydowns of a key that is held. */
const REPEAT = 33;
/** Milliseconds in which whatever a screen fetches at first has come. */
const SETTLED = 900;

const FEN = encodeURIComponent("3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1");
/** Addresses whose layout and fetching are watched while they load. */
const SCREENS = [
  "/",
  "/ask?q=second-rank+defence",
  "/ask?q=second-rank+defence&by=outcome",
  "/ask?q=phillidoor",
  "/ending/1",
  "/board",
  "/board?way=set-up",
  `/play?fen=${FEN}&you=black`,
  "/practise",
  "/theory",
  "/tray",
  "/lesson",
  "/games",
];
const WIDTHS = [1440, 390] as const;
const QUESTIONS = [
  "Philidor",
  "Szén",
  "rear pin",
  "only move",
  "third-rank defence",
  "side checks",
  "first-rank defence",
];

export interface Told {
  /** Writes a line: what was measured, in which unit, and the most it may be. */
  readonly tell: (what: string, values: number[], goal?: number, unit?: string) => void;
  readonly say: (line: string) => void;
}

/** Looks on from before the first paint: what shifts, when answers are there, how long keys take. */
const WATCH = `
window.shifted = 0; window.worstShift = 0;
new PerformanceObserver((list) => list.getEntries().forEach((one) => {
  if (!one.hadRecentInput) window.shifted += one.value;
  window.worstShift = Math.max(window.worstShift, one.value);
})).observe({ type: "layout-shift", buffered: true });
window.afterFrame = (tell) => requestAnimationFrame(() => {
  const { port1, port2 } = new MessageChannel();
  port1.onmessage = () => tell(performance.now());
  port2.postMessage(0);
});
window.whenThere = (isThere) => new Promise((done) => {
  const look = () => isThere() && (watching.disconnect(), afterFrame(done), true);
  const watching = new MutationObserver(look);
  watching.observe(document, { subtree: true, childList: true, attributes: true, characterData: true });
  look();
});
window.answered = () => document.querySelector("ol[aria-label=Answers] li");
window.answersAt = whenThere(answered);
`;

/** A page on the slowed processor, with nothing kept from before. */
async function slowed(browser: Browser, width: number): Promise<{ page: Page; session: CDPSession }> {
  const context = await browser.newContext({ viewport: { width, height: 900 } });
  const page = await context.newPage();
  const session = await context.newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
  await page.addInitScript(WATCH);
  return { page, session };
}

const firstPaint = (page: Page) =>
  page.evaluate(`new Promise((done) => new PerformanceObserver((list) => done(list.getEntries()[0].startTime))
    .observe({ type: "paint", buffered: true }))`) as Promise<number>;

/** First paint, of an empty page too, and answers from an address. */
async function paints(browser: Browser, address: string, { tell }: Told): Promise<void> {
  const empty = createServer((_request, response) =>
    response.setHeader("content-type", "text/html").end("<!doctype html><title>empty</title><p>One line."),
  ).listen(0, "127.0.0.1");
  await once(empty, "listening");
  const nothing = `http://127.0.0.1:${(empty.address() as AddressInfo).port}/`;
  const floor: number[] = [];
  const first: number[] = [];
  const asked: number[] = [];
  const answers: number[] = [];
  for (let n = 0; n < RUNS; ++n) {
    for (const [url, times] of [
      [nothing, floor],
      [address, first],
      [new URL("/ask?q=second-rank+defence", address).href, asked],
    ] as const) {
      const { page } = await slowed(browser, 1440);
      await page.goto(url);
      times.push(await firstPaint(page));
      if (times === asked) answers.push((await page.evaluate("answersAt")) as number);
      await page.context().close();
    }
  }
  empty.close();
  tell("first paint of an empty page, to compare", floor);
  tell("first paint, first screen", first, 300);
  tell("first paint, a question in the address", asked, 300);
  tell("answers shown, from the address", answers);
}

/** From the key that asks to the frame that shows answers. */
async function questions(browser: Browser, address: string, { tell }: Told): Promise<void> {
  const { page } = await slowed(browser, 1440);
  await page.goto(new URL("/ask?q=second-rank+defence", address).href);
  await page.evaluate("answersAt");
  const times: number[] = [];
  for (const question of QUESTIONS) {
    await page.getByRole("combobox").fill(question);
    // what is checked while one types has been
    await page.waitForTimeout(SETTLED);
    await page.evaluate(`void (window.took = new Promise((done) => addEventListener("keydown", ({ timeStamp }) => {
      const before = answered();
      whenThere(() => answered() && answered() !== before).then((at) => done(at - timeStamp));
    }, { once: true, capture: true })))`);
    await page.keyboard.press("Enter");
    times.push((await page.evaluate("took")) as number);
  }
  tell("question to answers", times, 300);
  await page.context().close();
}

/** The address of the longest ending: one with a long score, and with steps enough. */
async function longestEnding(address: string): Promise<string> {
  const response = await fetch(new URL("/api/ask", address), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ question: "the longest", each: "ending", from: 0, size: 1 }),
  });
  const { rows } = (await response.json()) as { rows: readonly { readonly id: number }[] };
  return new URL(`/ending/${rows[0].id}`, address).href;
}

/** From a key to the frame with everything of the next position; frames that lack something while a key is held. */
async function keys(browser: Browser, address: string, { tell }: Told): Promise<void> {
  const { page, session } = await slowed(browser, 1440);
  await page.goto(await longestEnding(address));
  await page.locator(".explanation").waitFor();
  await page.locator("h1").click();
  await page.keyboard.press("Home");
  await page.waitForTimeout(SETTLED);
  const press = (autoRepeat: boolean) =>
    session.send("Input.dispatchKeyEvent", {
      type: "rawKeyDown",
      key: "ArrowRight",
      code: "ArrowRight",
      windowsVirtualKeyCode: 39,
      autoRepeat,
    });
  const release = () =>
    session.send("Input.dispatchKeyEvent", { type: "keyUp", key: "ArrowRight", code: "ArrowRight" });
  /** Steps until there are no more; each time from the key to the frame that shows another text, and nothing dimmed. */
  const stepsOn = async (at: Page, pressKey: () => Promise<unknown>) => {
    const times: number[] = [];
    for (let n = 0; n < KEYS; ++n) {
      await at.evaluate(`void (window.took = new Promise((done) => addEventListener("keydown", ({ timeStamp }) => {
        const text = () => document.querySelector(".played").textContent, before = text();
        whenThere(() => text() !== before && !document.querySelector(".stale")).then((shown) => done(shown - timeStamp));
        setTimeout(() => done(-1), 2000);
      }, { once: true, capture: true })))`);
      await pressKey();
      const took = (await at.evaluate("took")) as number;
      if (took < 0) break;
      times.push(took);
    }
    return times;
  };
  const floor = await slowed(browser, 1440);
  await floor.page.goto("data:text/html,<p class=played>0");
  await floor.page.evaluate(
    `addEventListener("keydown", () => document.querySelector(".played").textContent++)`,
  );
  tell(
    "from a key to the frame of a page with one word, to compare",
    await stepsOn(floor.page, () => floor.page.keyboard.press("x")),
  );
  await floor.page.context().close();
  tell("key to complete frame, single keys", await stepsOn(page, () => press(false).then(release)), 50);
  await page.keyboard.press("Home");
  await page.waitForTimeout(SETTLED);
  await page.evaluate(`window.worstShift = 0; window.seen = { all: 0, blank: 0, dimmed: 0, last: performance.now(), longest: 0 };
  (function look(at) {
    seen.longest = Math.max(seen.longest, at - seen.last); seen.last = at;
    seen.all++;
    if (!document.querySelector(".explanation p") || !document.querySelector(".actions .main") || !document.querySelector(".board svg .man"))
      seen.blank++;
    if (document.querySelector(".stale")) seen.dimmed++;
    window.looking = requestAnimationFrame(look);
  })(performance.now())`);
  const begin = performance.now();
  for (let n = 0; n < REPEATS; ++n) {
    await press(n > 0);
    await page.waitForTimeout(Math.max(0, begin + (n + 1) * REPEAT - performance.now()));
  }
  await release();
  const seen = (await page.evaluate("({ ...seen, moved: worstShift })")) as {
    all: number;
    blank: number;
    dimmed: number;
    longest: number;
    moved: number;
  };
  tell(`frames without content of ${seen.all} while a key is held`, [seen.blank], 0, "");
  tell("frames that show the position before, dimmed", [seen.dimmed], undefined, "");
  tell("longest time between two frames meanwhile", [seen.longest]);
  tell(
    "layout shift of the worst frame while a key is held, though a key is no cause to count it",
    [seen.moved],
    0.02,
    "",
  );
  await page.context().close();
}

/** What each screen shifts and fetches while it loads. */
async function screens(browser: Browser, address: string, { tell, say }: Told): Promise<void> {
  const shifts: number[] = [];
  const scripts = new Map<string, number>();
  let twice = 0;
  for (const width of WIDTHS) {
    for (const screen of SCREENS) {
      const { page, session } = await slowed(browser, width);
      await session.send("Network.enable");
      const fetched = new Map<string, number>();
      const names = new Map<string, string>();
      session.on("Network.requestWillBeSent", ({ requestId, request }) => {
        const { pathname, search } = new URL(request.url);
        names.set(requestId, pathname);
        const key = `${request.method} ${pathname}${search} ${request.postData ?? ""}`;
        fetched.set(key, (fetched.get(key) ?? 0) + 1);
      });
      session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
        const name = names.get(requestId);
        if (name?.endsWith(".js")) scripts.set(name, encodedDataLength);
      });
      await page.goto(new URL(screen, address).href);
      await page.waitForTimeout(SETTLED);
      const again = [...fetched].filter(([, count]) => count > 1).map(([name]) => name);
      twice += again.length;
      const shift = (await page.evaluate("shifted")) as number;
      shifts.push(shift);
      if (shift > 0.02 || again.length > 0)
        say(
          `${screen} at ${width}: shift ${shift.toFixed(4)}; fetched again: ${again.join(", ") || "nothing"}`,
        );
      await page.context().close();
    }
  }
  tell(`layout shift of the worst of ${shifts.length} screens and widths`, [Math.max(...shifts)], 0.02, "");
  tell("resources and calls fetched again while a screen loads", [twice], 0, "");
  const bytes = [...scripts.values()].reduce((sum, one) => sum + one, 0);
  tell("scripts, compressed", [bytes / 1000], 120, "KB");
}

/** Measures everything, one after the other. */
export async function measureScreens(browser: Browser, address: string, told: Told): Promise<void> {
  for (const measure of [paints, questions, keys, screens]) await measure(browser, address, told);
}

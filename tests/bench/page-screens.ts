// The page as a browser shows it, on a processor four times slower: first paint, answers, a key held down, how far things
// shift, what is fetched.

import type { Browser, Page } from "playwright-core";

const RUNS = 5;
const KEYS = 30;
/** Addresses whose layout is watched while they load. */
const SCREENS = [
  "/",
  "/ask?q=second-rank+defence",
  "/ending/1",
  "/board",
  "/board?way=set-up",
  "/practise",
  "/tray",
  "/games",
];

/** Adds up how far things shift, and writes down frames without content, from before the first paint on. */
const WATCH = `window.shift = 0;
new PerformanceObserver((list) => list.getEntries().forEach((one) => { if (!one.hadRecentInput) window.shift += one.value; }))
  .observe({ type: "layout-shift", buffered: true });`;
const FRAMES = `window.frames_ = []; window.blank = 0;
(function look() {
  if (!document.querySelector(".explanation") || !document.querySelector(".actions")) window.blank++;
  requestAnimationFrame(look);
})();`;

async function slowed(browser: Browser): Promise<Page> {
  const page = await browser.newPage({ viewport: { width: 1440, height: 900 } });
  const session = await page.context().newCDPSession(page);
  await session.send("Emulation.setCPUThrottlingRate", { rate: 4 });
  await page.addInitScript(WATCH);
  return page;
}

/** Milliseconds from a key to the frame after the place has changed with everything there, and frames without content. */
async function keys(page: Page, address: string) {
  await page.goto(new URL("/ending/1", address).href);
  await page.locator(".explanation").waitFor();
  await page.locator("h1").click();
  await page.keyboard.press("Home");
  await page.waitForFunction("!document.querySelector('.stale')");
  await page.evaluate(FRAMES);
  const times: number[] = [];
  for (let n = 0; n < KEYS; ++n) {
    const took = (await page.evaluate(`new Promise((done) => {
      const begin = performance.now(), played = document.querySelector(".played").textContent;
      document.body.dispatchEvent(new KeyboardEvent("keydown", { key: "ArrowRight", bubbles: true }));
      const look = () => document.querySelector(".played").textContent !== played && !document.querySelector(".stale")
        ? requestAnimationFrame(() => done(performance.now() - begin)) : requestAnimationFrame(look);
      requestAnimationFrame(look);
      setTimeout(() => done(-1), 2000);
    })`)) as number;
    if (took >= 0) times.push(took);
    // as fast as a key that is held down repeats
    await page.waitForTimeout(30);
  }
  return { times, blank: (await page.evaluate("window.blank")) as number };
}

/** Measures; `tell` writes a line of times, `say` one of anything else. */
export async function measureScreens(
  browser: Browser,
  address: string,
  tell: (what: string, times: number[]) => void,
  say: (line: string) => void,
): Promise<void> {
  const page = await slowed(browser);
  const paints: number[] = [];
  const answers: number[] = [];
  for (let n = 0; n < RUNS; ++n) {
    await page.goto(new URL("/ask?q=second-rank+defence", address).href);
    await page.locator("ol[aria-label=Answers] li").first().waitFor();
    answers.push((await page.evaluate("performance.now()")) as number);
    paints.push(
      (await page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")) as number,
    );
  }
  tell("processor slowed 4 times: first paint", paints);
  tell("processor slowed 4 times: answers shown from the address", answers);
  const asked: number[] = [];
  for (const question of ["Philidor", "Szén", "rear pin", "only move", "third-rank defence"]) {
    await page.getByRole("combobox").fill(question);
    await page.waitForTimeout(600);
    const begin = performance.now();
    await page.keyboard.press("Enter");
    await page.waitForFunction(
      "document.querySelector('.to-come') || document.querySelector('[aria-label=Answers] li')",
    );
    await page.locator("ol[aria-label=Answers] li").first().waitFor();
    asked.push(performance.now() - begin);
  }
  tell("processor slowed 4 times: question to answers", asked);
  const held = await keys(page, address);
  tell("processor slowed 4 times: key to complete frame", held.times);
  say(`frames without content while a key is held: ${held.blank}`);
  const session = await page.context().newCDPSession(page);
  await session.send("Network.enable");
  let script = 0;
  const fetched = new Map<string, number>();
  const names = new Map<string, string>();
  session.on("Network.requestWillBeSent", ({ requestId, request }) => {
    names.set(requestId, new URL(request.url).pathname);
    const key = `${request.method} ${new URL(request.url).pathname} ${request.postData ?? ""}`;
    fetched.set(key, (fetched.get(key) ?? 0) + 1);
  });
  session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    if (names.get(requestId)?.endsWith(".js")) script = encodedDataLength;
  });
  for (const screen of SCREENS) {
    fetched.clear();
    await page.goto(new URL(screen, address).href);
    await page.waitForLoadState("networkidle").catch(() => undefined);
    await page.waitForTimeout(700);
    const twice = [...fetched].filter(([, count]) => count > 1).map(([name]) => name);
    const shift = (await page.evaluate("window.shift")) as number;
    say(`${screen}: layout shift ${shift.toFixed(4)}; fetched twice: ${twice.join(", ") || "nothing"}`);
  }
  say(`scripts, compressed: ${(script / 1000).toFixed(1)} KB`);
  await page.close();
}

// The page's speed, end to end: from the command to the first answer, from the address to the first paint, from the
// question to its answer over HTTP; then the page as a browser shows it (page-screens.ts), each figure beside its goal.
//
//   npm run bench:page -- DATABASE

import { spawn } from "node:child_process";
import { once } from "node:events";
import { join } from "node:path";

import { chromium } from "playwright-core";

import { findBrowser } from "../../src/documents/browser.js";
import { PACKAGE } from "../../src/places.js";
import { measureScreens } from "./page-screens.js";

const MAIN = join(PACKAGE, "dist", "src", "cli", "main.js");
/** Measures only what the browser shows: `npm run bench:page -- DATABASE screens`. */
const SCREENS_ONLY = process.argv[3] === "screens";
const RUNS = SCREENS_ONLY ? 1 : 7;
const QUESTIONS = [
  "defender drew with the rook on the long side",
  "second-rank defence, defender held for 20 moves",
  "Philidor, attacker failed",
  "reached Szén from the third-rank defence",
  "only move and error != none",
  "like 3k4/r7/3K4/3B4/8/8/8/6R1 b",
];

const db = process.argv[2] ?? "demo.db";
/** Writes the median, the least and the greatest, and whether the median keeps to the most it may be. */
function tell(what: string, values: number[], goal?: number, unit = "ms"): void {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)];
  const written = (one: number) => (Number.isInteger(one) ? String(one) : one.toFixed(one < 10 ? 4 : 0));
  const spread = sorted.length > 1 ? `, ${written(sorted[0])} to ${written(sorted.at(-1)!)}` : "";
  const beside = goal === undefined ? "" : ` (goal ${goal}: ${middle <= goal ? "met" : "not met"})`;
  process.stdout.write(`${what}: ${written(middle)}${unit && ` ${unit}`}${spread}${beside}\n`);
}
const say = (line: string) => process.stdout.write(`${line}\n`);

/** Starts the server; gives its process, its address, and the milliseconds until it had answered once. */
async function start() {
  const begin = performance.now();
  const server = spawn(process.execPath, [MAIN, "serve", "--db", db, "--port", "0"], {
    stdio: ["ignore", "pipe", "ignore"],
  });
  const [line] = (await once(server.stdout, "data")) as [Buffer];
  const address = line.toString().split("\n")[0];
  await (await fetch(address)).text();
  return { server, address, took: performance.now() - begin };
}

const starts: number[] = [];
for (let n = 0; n < RUNS - 1; ++n) {
  const { server, took } = await start();
  starts.push(took);
  server.kill("SIGINT");
  await once(server, "exit");
}
const { server, address, took } = await start();
tell("from the command to the first answer", [...starts, took]);

async function ask(question: string, each: string): Promise<number> {
  const begin = performance.now();
  const response = await fetch(new URL("/api/ask", address), {
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({ question, each, from: 0, size: 24 }),
  });
  const text = await response.text();
  if (!response.ok) throw new Error(text);
  return performance.now() - begin;
}
tell("the very first question", [await ask(QUESTIONS[0], "ending")]);
for (const question of QUESTIONS) {
  for (const each of ["ending", "position"]) {
    const times: number[] = [];
    // a blank more is another question to whoever remembers the last one
    for (let n = 0; n < RUNS; ++n) times.push(await ask(question + " ".repeat(n), each));
    tell(`${question} (${each}s)`, times);
  }
}

const browser = await chromium.launch({
  executablePath: findBrowser(),
  args: ["--no-sandbox", "--disable-gpu"],
});
const paints: number[] = [];
const answers: number[] = [];
for (let n = 0; n < RUNS; ++n) {
  const page = await browser.newPage();
  await page.goto(new URL("/ask?q=second-rank+defence", address).href);
  await page.locator(".answers li").first().waitFor();
  answers.push((await page.evaluate("performance.now()")) as number);
  paints.push(
    (await page.evaluate("performance.getEntriesByName('first-contentful-paint')[0].startTime")) as number,
  );
  await page.close();
}
tell("first paint", paints, 300);
tell("answers shown, from the address", answers);
say("processor slowed 4 times:");
await measureScreens(browser, address, { tell, say });
await browser.close();
server.kill("SIGINT");
await once(server, "exit");

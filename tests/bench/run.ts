// Benchmarks: whole commands as their own processes (time and peak memory), and questions inside one process.
//
//   npm run bench            everything; the archive's figures only where ../shared/data lies beside the project
//   npm run bench -- solve   the parts whose name contains the word
//
// Figures worth keeping go into RESULTS.md, with the machine and the command. Machines are noisy: compare runs
// made together, by medians and ratios.

import { execFileSync, spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, readdirSync, rmSync, statSync } from "node:fs";
import { availableParallelism, cpus, tmpdir, totalmem } from "node:os";
import { join } from "node:path";

import { openForReading } from "../../src/index/database.js";
import { DEFAULT_TARGET, allMaterials, parseMaterial } from "../../src/chess/material.js";
import { Movement } from "../../src/chess/moves.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { PACKAGE, cacheFolder } from "../../src/places.js";
import { buildTables } from "../../src/solver/build.js";
import { sweep } from "../../src/solver/sweep.js";
import { Tables } from "../../src/solver/tables.js";
import { standardCatalogue } from "../../src/questions/catalogue.js";
import { parseQuestion } from "../../src/questions/parse.js";
import { count, readSplit } from "../../src/study/count.js";
import { findEndings, tallyEndings } from "../../src/study/find.js";

const MAIN = join(PACKAGE, "dist", "src", "cli", "main.js");
const WATCH = join(PACKAGE, "dist", "tests", "bench", "watch.js");
const SHARED = join(PACKAGE, "..", "shared", "data");
const RUNS = 5;

const folder = mkdtempSync(join(tmpdir(), "longside-bench-"));
const out = (text: string): void => {
  process.stdout.write(`${text}\n`);
};
const wanted = (name: string) => process.argv.slice(2).every((word) => name.includes(word));
const median = (values: number[]) => [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)];

interface Run {
  readonly seconds: number;
  /** Peak resident memory of the process, in MB. */
  readonly memory: number;
}

/** Runs a command as a process of its own. */
function command(args: readonly string[], env: NodeJS.ProcessEnv = {}): Run {
  const start = performance.now();
  const run = spawnSync(process.execPath, [WATCH, MAIN, ...args], {
    encoding: "utf8",
    env: { ...process.env, ...env },
    maxBuffer: 1 << 28,
  });
  const seconds = (performance.now() - start) / 1000;
  if (run.status !== 0 && run.status !== 1) throw new Error(run.stderr);
  return { seconds, memory: Number(/peak (\d+) MB/.exec(run.stderr)?.[1]) };
}

function report(name: string, runs: readonly Run[], note = ""): void {
  const seconds = runs.map((run) => run.seconds);
  const spread = `${Math.min(...seconds).toFixed(2)}–${Math.max(...seconds).toFixed(2)}`;
  const memory = Math.max(...runs.map((run) => run.memory));
  out(`| ${name} | ${median(seconds).toFixed(2)} s | ${spread} s | ${memory} MB | ${note} |`);
}

const times = (number: number, run: (n: number) => Run) => Array.from({ length: number }, (_, n) => run(n));

function benchStart(): void {
  report(
    "`--help`",
    times(RUNS, () => command(["--help"])),
  );
}

function benchSolve(): void {
  const runs = times(3, (n) => {
    const cache = join(folder, `tables-${n}`);
    const run = command(["solve", "R+B v R"], { LONGSIDE_CACHE: cache });
    if (n < 2) rmSync(cache, { recursive: true });
    return run;
  });
  const cache = join(folder, "tables-2");
  const bytes = readdirSync(cache).reduce((sum, name) => sum + statSync(join(cache, name)).size, 0);
  report('`solve "R+B v R"` from nothing', runs, `${(bytes / 1e6).toFixed(1)} MB on disk`);
}

/** Random probes: first with nothing unpacked (the files warm in the system's cache), then again from memory. */
function benchProbes(): void {
  const material = parseMaterial(DEFAULT_TARGET);
  const random = randomNumbers(1);
  const movement = new Movement(material);
  const placements = Array.from({ length: 20_000 }, () => randomPlacement(material, random, movement));
  const tables = new Tables(material, cacheFolder());
  const pass = (attackerToMove: boolean) => {
    const some = placements.filter((placement) => placement.attackerToMove === attackerToMove);
    const start = performance.now();
    for (const { squares } of some) tables.probe(squares, attackerToMove);
    return ((performance.now() - start) * 1000) / some.length;
  };
  const shown = (values: number[]) => values.map((value) => value.toFixed(2)).join(" / ");
  const line = (name: string, values: number[]) => {
    const mean = (values[0] + values[1]) / 2;
    out(
      `| ${name} | ${mean.toFixed(2)} µs | defender / attacker to move: ${shown(values)} µs | | 20,000 random placements |`,
    );
  };
  line("probe, nothing unpacked", [pass(false), pass(true)]);
  for (let n = 0; n < 3; ++n) pass(n % 2 === 0);
  line("probe, from memory", [pass(false), pass(true)]);
  tables.close();
}

async function benchSweep(): Promise<void> {
  const visitor = new URL("../../src/study/census.js", import.meta.url).href;
  for (const asked of [undefined, "rook-side"]) {
    const runs: number[] = [];
    for (let n = 0; n < 3; ++n) {
      const start = performance.now();
      await sweep(parseMaterial(DEFAULT_TARGET), { threads: availableParallelism(), visitor, asked });
      runs.push((performance.now() - start) / 1000);
    }
    const placements = (2 * 462 * 64 ** 3) / 1e6;
    out(
      `| sweep of R+B v R: census${asked ? ` by ${asked}` : ""} | ${median(runs).toFixed(2)} s | ${Math.min(...runs).toFixed(2)}–${Math.max(...runs).toFixed(2)} s | ${Math.round(process.resourceUsage().maxRSS / 1024)} MB | ${(placements / median(runs)).toFixed(0)} million placements a second |`,
    );
  }
}

/** Every pawnless material of up to five men: some minutes, and some gigabytes in the temporary folder. */
async function benchEverything(): Promise<void> {
  const cache = join(folder, "everything");
  const start = performance.now();
  const built = await buildTables(allMaterials(), { folder: cache, threads: availableParallelism() });
  const seconds = (performance.now() - start) / 1000;
  const bytes = readdirSync(cache).reduce((sum, name) => sum + statSync(join(cache, name)).size, 0);
  const memory = Math.round(process.resourceUsage().maxRSS / 1024);
  out(
    `| every material of up to five men, ${built.length} halves | ${seconds.toFixed(0)} s | one run | ${memory} MB | ${(bytes / 1e9).toFixed(1)} GB on disk |`,
  );
}

/** Five questions as people ask them. */
const QUESTIONS = [
  "defender drew with the rook on the long side",
  "second-rank defence for 30 moves, defender held",
  "Szén, defender to move, only move",
  "entry-verdict = drawn, defender lost, defender errs",
  "defender-rating >= 2600, never rook on the short side",
];

function benchArchive(): void {
  if (!existsSync(join(SHARED, "games.tar.gz"))) {
    out("| the archive | absent, skipped | | | |");
    return;
  }
  execFileSync("tar", ["-xzf", join(SHARED, "games.tar.gz"), "-C", folder]);
  const games = join(folder, "games");
  const db = (n: number) => join(folder, `archive-${n}.db`);
  report(
    "`index` of the archive (116 MB, 117,243 games)",
    times(3, (n) => command(["index", games, "--db", db(n)])),
  );
  report(
    "`index` again, nothing changed",
    times(3, () => command(["index", games, "--db", db(0)])),
  );
  const connection = openForReading(db(0));
  for (const text of QUESTIONS) {
    const question = parseQuestion(text, standardCatalogue().known);
    const runs = times(9, () => {
      const start = performance.now();
      for (const answer of findEndings(connection, question, 20)) void answer;
      tallyEndings(connection, question);
      return { seconds: (performance.now() - start) / 1000, memory: 0 };
    });
    const ms = runs.map((run) => run.seconds * 1000);
    out(
      `| find: ${text} | ${median(ms).toFixed(1)} ms | ${Math.min(...ms).toFixed(1)}–${Math.max(...ms).toFixed(1)} ms | | 13,700 positions |`,
    );
  }
  const ms = times(9, () => {
    const start = performance.now();
    count(connection, parseQuestion(""), {
      by: [readSplit("outcome"), readSplit("defender-rating:200")],
      unit: "ending",
      duplicates: false,
      passing: false,
    });
    return { seconds: (performance.now() - start) / 1000, memory: 0 };
  }).map((run) => run.seconds * 1000);
  out(
    `| count by outcome and defender's rating | ${median(ms).toFixed(1)} ms | ${Math.min(...ms).toFixed(1)}–${Math.max(...ms).toFixed(1)} ms | | |`,
  );
  connection.close();
}

try {
  out(
    `${cpus().length} × ${cpus()[0]?.model.trim()}, ${(totalmem() / 2 ** 30).toFixed(0)} GiB, Node ${process.version}, ${process.platform}\n`,
  );
  out("| what | median | least–most | peak memory | |\n| --- | --- | --- | --- | --- |");
  for (const [name, run] of [
    ["start", benchStart],
    ["solve", benchSolve],
    ["probes", benchProbes],
    ["sweep", benchSweep],
    ["archive", benchArchive],
    ["everything", benchEverything],
  ] as const) {
    if (wanted(name)) await run();
  }
} finally {
  rmSync(folder, { recursive: true, force: true });
}

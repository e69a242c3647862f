// Sabotage of real commands: kills at random moments, damaged databases and tables, a full disk, three runs at once. After each fault the database must open, a run must go on, and its content must be the same as if
// nothing had happened; damage must be found or make no difference. Prints tries and faults; exit status 1 with faults.

import { spawn, spawnSync } from "node:child_process";
import {
  copyFileSync,
  cpSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { PACKAGE, gamesFolder } from "../../src/places.js";
import { openForReading } from "../../src/store/database.js";
import { contentSignature } from "../../src/store/signature.js";
import { Chance } from "../fuzz/campaign.js";

const MAIN = join(PACKAGE, "dist", "src", "cli", "main.js");

interface Ended {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

function run(args: readonly string[], cache?: string): Ended {
  const env = cache === undefined ? process.env : { ...process.env, LONGSIDE_CACHE: cache };
  return spawnSync(process.execPath, [MAIN, ...args], { encoding: "utf8", maxBuffer: 1 << 28, env });
}

/** Changes some bytes of a file, and says where. */
function damage(path: string, draw: (below: number) => number): string {
  const bytes = readFileSync(path);
  const places = Array.from({ length: 1 + draw(3) }, () => [draw(bytes.length), 1 + draw(255)] as const);
  for (const [place, change] of places) bytes[place] ^= change;
  writeFileSync(path, bytes);
  return JSON.stringify(places);
}

const STACK = /^\s+at .*:\d+:\d+\)?$/m;

/** Starts a command and kills it after some milliseconds, if it has not ended before. */
function killed(args: readonly string[], after: number): Promise<void> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [MAIN, ...args], { stdio: "ignore" });
    const timer = setTimeout(() => child.kill("SIGKILL"), after);
    child.on("exit", () => {
      clearTimeout(timer);
      resolve();
    });
  });
}

const ended = (args: readonly string[]): Promise<number | null> =>
  new Promise((resolve) => {
    spawn(process.execPath, [MAIN, ...args], { stdio: "ignore" }).on("exit", (status) => resolve(status));
  });

/** The signature of a database; what was thrown where it cannot be read. */
function signatureOf(path: string): string {
  try {
    const db = openForReading(path);
    try {
      return contentSignature(db);
    } finally {
      db.close();
    }
  } catch (thrown) {
    return String(thrown);
  }
}

export interface Campaign {
  readonly tries: Readonly<Record<string, number>>;
  readonly faults: readonly string[];
}

/** Sabotages for so many seconds, by a seed. */
export async function campaign(seconds: number, seed: number): Promise<Campaign> {
  const chance = new Chance(seed);
  const draw = (below: number) => chance.below(below);
  const folder = mkdtempSync(join(tmpdir(), "longside-faults-"));
  const at = (name: string) => join(folder, name);
  const games = at("games");
  cpSync(gamesFolder(), games, { recursive: true });
  const tries: Record<string, number> = {};
  const faults: string[] = [];
  const count = (what: string) => (tries[what] = (tries[what] ?? 0) + 1);
  const index = (db: string) => ["index", games, "--db", db];
  const clear = (db: string) => {
    for (const end of ["", "-wal", "-shm", "-journal", "-run"]) rmSync(db + end, { force: true });
  };
  const whole = at("whole.db");
  const begun = performance.now();
  const first = run(index(whole));
  const usual = performance.now() - begun;
  if (first.status !== 0) throw new Error(`the first run failed: ${first.stderr}`);
  const signature = signatureOf(whole);
  const question = ["count", "--by", "entry-verdict", "--json", "--db"];
  const answer = run([...question, whole]).stdout;
  // a small material, whose tables are made in a second
  const tables = at("tables");
  const cache = at("cache");
  const probe = ["probe", "3k4/8/3K4/8/8/8/5r2/3Q4 w - - 0 1", "--json"];
  const verdict = run(probe, tables).stdout;
  const page = at("page.html");
  run(["report", "--db", whole, "--html", page]);
  const pageSize = existsSync(page) ? statSync(page).size : 0;

  const attacks: readonly (readonly [string, () => Promise<void> | void])[] = [
    [
      "kill index",
      async () => {
        const db = at("killed.db");
        clear(db);
        for (let n = 1 + draw(3); n > 0; --n) await killed(index(db), draw(usual));
        const last = run(index(db));
        if (last.status !== 0) faults.push(`index does not go on: ${last.stderr}`);
        else if (signatureOf(db) !== signature) faults.push("index goes on to another content");
      },
    ],
    [
      "kill merge",
      async () => {
        const db = at("merged.db");
        clear(db);
        await killed(["merge", whole, "--db", db], draw(usual / 2));
        const last = run(["merge", whole, "--db", db]);
        if (last.status !== 0) faults.push(`merge does not go on: ${last.stderr}`);
        else if (signatureOf(db) !== signature) faults.push("merge goes on to another content");
      },
    ],
    [
      "kill report",
      async () => {
        await killed(["report", "--db", whole, "--html", page], draw(usual));
        if (!existsSync(page) || statSync(page).size < pageSize / 2) faults.push("report left half a page");
      },
    ],
    [
      "three runs at once",
      async () => {
        const db = at("three.db");
        clear(db);
        const statuses = await Promise.all([1, 2, 3].map(() => ended(index(db))));
        if (!statuses.includes(0)) faults.push("of three runs none came to its end");
        if (signatureOf(db) !== signature) faults.push("three runs made another content");
      },
    ],
    [
      "full disk",
      () => {
        const old = readFileSync(page);
        // a limit on the size of files fails as a full disk does, in the middle of a write
        const blocks = 8 + draw(64);
        const command = `ulimit -f ${blocks}; trap '' XFSZ; exec "$0" "$@"`;
        const report = ["report", "--db", whole, "--html", page];
        spawnSync("bash", ["-c", command, process.execPath, MAIN, ...report]);
        if (!readFileSync(page).equals(old) && statSync(page).size < pageSize / 2)
          faults.push("a full disk did not leave the old page");
        const db = at("full.db");
        clear(db);
        spawnSync("bash", ["-c", command, process.execPath, MAIN, ...index(db)]);
        const last = run(index(db));
        if (last.status !== 0) faults.push(`after a full disk index does not go on: ${last.stderr}`);
        else if (signatureOf(db) !== signature) faults.push("a full disk changed the content");
      },
    ],
    [
      "damaged database",
      () => {
        const db = at("damaged.db");
        clear(db);
        copyFileSync(whole, db);
        const places = damage(db, draw);
        const got = run([...question, db]);
        const said = `${got.stdout}${got.stderr}`;
        if (STACK.test(said)) faults.push(`a stack trace: ${said}`);
        const wrong = got.status !== 2 && got.stdout.replaceAll(db, whole) !== answer;
        if (wrong && run(["check", db]).status === 0)
          faults.push(`a wrong answer that check does not see: ${places}`);
        if (wrong) count("wrong answers that only check sees");
      },
    ],
    [
      "damaged table",
      () => {
        cpSync(tables, cache, { recursive: true });
        const files = readdirSync(cache).filter((name) => name.endsWith(".table"));
        const name = files[draw(files.length)];
        const places = damage(join(cache, name), draw);
        const got = run(probe, cache);
        if (STACK.test(`${got.stdout}${got.stderr}`)) faults.push(`a stack trace: ${got.stderr}`);
        if (got.status === 0 && got.stdout !== verdict)
          faults.push(`a wrong verdict from ${name}, changed at ${places}`);
      },
    ],
  ];
  try {
    for (let n = 0; n < attacks.length || performance.now() - begun < seconds * 1000; ++n) {
      if (n > 0 && performance.now() - begun >= seconds * 1000) break;
      const [name, attack] = attacks[n % attacks.length];
      count(name);
      await attack();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
  return { tries, faults };
}

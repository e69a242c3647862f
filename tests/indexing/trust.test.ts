// What must never happen to a database: a run that is killed, a file that moves or goes, copies of games, several
// databases put together. Proved by a signature of the content.

import { spawn } from "node:child_process";
import { once } from "node:events";
import { copyFileSync, mkdirSync, readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

import { describe, expect, it } from "vitest";

import { randomNumbers } from "../../src/chess/random.js";
import { openForReading, openForWriting } from "../../src/store/database.js";
import { contentSignature } from "../../src/store/signature.js";
import { IndexWriter } from "../../src/store/writer.js";
import { PACKAGE, gamesFolder } from "../../src/places.js";
import { TARGET, jsonLines, longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let made = 0;
const newDb = () => join(folder, `${++made}.db`);
const bundled = (name: string) => join(gamesFolder(), `${name}.pgn`);
const winter = readFileSync(bundled("winter-club-cup-2024"), "latin1");

function signature(db: string): string {
  const connection = openForReading(db);
  try {
    return contentSignature(connection);
  } finally {
    connection.close();
  }
}

function place(name: string, files: Record<string, string | Buffer>): string {
  const path = join(folder, name);
  mkdirSync(path);
  for (const [file, content] of Object.entries(files))
    writeFileSync(join(path, file), typeof content === "string" ? Buffer.from(content, "latin1") : content);
  return path;
}

function index(paths: string | string[], db = newDb(), ...options: string[]) {
  const found = longside(["index", ...[paths].flat(), "--db", db, "--json", ...options]);
  expect(found.status, found.stderr).toBe(0);
  return {
    db,
    ...(JSON.parse(found.stdout) as {
      unchanged: number;
      read: number;
      vanished: string[];
      duplicates: number;
    }),
  };
}

/** The same games by other players. */
const renamed = (text: string, copy: number) =>
  text.replace(
    /^\[(White|Black) ".*"\]/gm,
    (_, side: string) => `[${side} "${side}player${"abcdefghijklmnopqrstuvwxyz"[copy]}"]`,
  );

describe("a killed run", () => {
  it("loses and doubles nothing, ten times over", async () => {
    const random = randomNumbers(7);
    // games that hold nothing between them, so that the file has several ranges
    const filler = '[Event "Tarn Cup"]\n[White "A"]\n[Black "B"]\n\n1. e4 e5 2. Nf3 1/2-1/2\n\n'.repeat(6000);
    const long = Array.from({ length: 20 }, (_, copy) => renamed(winter, copy) + filler).join("");
    const games = place("killed", {
      "long.pgn": long,
      "packed.pgn.gz": gzipSync(Buffer.from(renamed(long, 3).slice(0, 3_000_000), "latin1")),
      "short.pgn": winter,
    });
    const whole = index(games);
    const db = newDb();
    let killed = 0;
    for (let n = 0; n < 10; ++n) {
      const main = join(PACKAGE, "dist", "src", "cli", "main.js");
      const child = spawn(process.execPath, [main, "index", games, "--db", db, "--json"], {
        stdio: "ignore",
      });
      const exited = once(child, "exit");
      await new Promise((resolve) => setTimeout(resolve, 100 + 900 * random()));
      child.kill("SIGKILL");
      if ((await exited)[1] === "SIGKILL") ++killed;
    }
    expect(killed).toBeGreaterThan(5);
    index(games, db);
    expect(signature(db)).toBe(signature(whole.db));
  });
});

describe("files that", () => {
  it("have another name or place are known again by their content", () => {
    const games = place("moved", { "a.pgn": winter, "b.pgn": renamed(winter, 1) });
    const { db } = index(games);
    renameSync(join(games, "a.pgn"), join(games, "c.pgn"));
    expect(index(games, db)).toMatchObject({ unchanged: 2, read: 0, vanished: [] });
    expect(signature(db)).toBe(signature(index(games).db));
  });

  it("have gone are reported and kept, and taken out on demand", () => {
    const games = place("gone", { "a.pgn": winter, "b.pgn": winter });
    const { db } = index(games);
    const before = signature(db);
    rmSync(join(games, "a.pgn"));
    expect(index(games, db).vanished).toEqual(["a.pgn"]);
    expect(signature(db)).toBe(before);
    expect(index(games, db, "--drop-missing").vanished).toEqual(["a.pgn"]);
    // the copies that were left count now
    expect(signature(db)).toBe(signature(index(games).db));
  });

  it("have grown or changed are read anew", () => {
    const cut = winter.indexOf('[Event "', winter.length >> 1);
    const games = place("grown", { "a.pgn": winter.slice(0, cut) });
    const { db } = index(games);
    writeFileSync(join(games, "a.pgn"), winter, "latin1");
    expect(index(games, db).read).toBe(1);
    expect(signature(db)).toBe(signature(index(games).db));
  });
});

describe("standard input", () => {
  const read = (input: string | Buffer, db: string) => {
    const found = longside(["index", "-", "--db", db, "--json"], { input });
    expect(found.status, found.stderr).toBe(0);
    return JSON.parse(found.stdout) as { games: number; endings: number; duplicates: number };
  };

  it("is read packed or plain, kept each time, and not twice if it is the same", () => {
    const db = newDb();
    const first = read(winter, db);
    expect(first.games).toBe(40);
    const before = signature(db);
    expect(read(winter, db).endings).toBe(first.endings);
    expect(signature(db)).toBe(before);
    const second = read(gzipSync(Buffer.from(renamed(winter, 4), "latin1")), db);
    expect(second).toMatchObject({ endings: 2 * first.endings, duplicates: first.endings });
    const files = jsonLines<{ file: string }>(
      longside(["find", "--db", db, "--leave-out", "nothing", "--json"]).stdout,
    );
    expect(new Set(files.map((row) => row.file))).toEqual(new Set(["standard input", "standard input 2"]));
  });
});

describe("copies", () => {
  /** The first game of a file that reaches the target late, cut off `plies` before its end. */
  const games = winter.split(/(?=\[Event ")/);
  const cutOff = (game: string) => {
    const words = game.trimEnd().split(/\s+(?=\d+\.|[KQRBNOa-h])/);
    return `${words.slice(0, -14).join(" ")}\n\n`;
  };
  const number = (db: string, question: string) =>
    (JSON.parse(longside(["count", question, "--db", db, "--json"]).stdout) as { count: number }).count;

  it("that break off early are linked to the whole score, whichever comes first", () => {
    const whole = place("near-1", { "a.pgn": winter, "b.pgn": games.map(cutOff).join("") });
    const other = place("near-2", { "a.pgn": games.map(cutOff).join(""), "b.pgn": winter });
    const [one, two] = [index(whole), index(other)];
    const plain = index(place("near-0", { "a.pgn": winter }));
    expect(one.duplicates).toBeGreaterThan(15);
    for (const { db } of [one, two]) {
      expect(number(db, "")).toBe(number(plain.db, ""));
      const found = jsonLines<{ file: string; duplicateOf: { file: string } | null }>(
        longside(["find", "duplicate", "--db", db, "--leave-out", "nothing", "--json"]).stdout,
      );
      expect(new Set(found.map((row) => row.duplicateOf!.file)).size).toBe(1);
    }
  });

  it("with the names of other players are copies still; scores that lack their last move are too", () => {
    const parted = games.map((game) => game.replace(/(\s)(\S+)(\s+(?:1-0|0-1|1\/2-1\/2)\s*)$/, "$1$3"));
    const path = place("apart", { "a.pgn": winter, "b.pgn": renamed(winter, 2), "c.pgn": parted.join("") });
    const { db } = index(path);
    const files = jsonLines<{ file: string }>(
      longside(["find", "duplicate", "--db", db, "--leave-out", "nothing", "--json"]).stdout,
    );
    expect(new Set(files.map((row) => row.file))).toEqual(new Set(["b.pgn", "c.pgn"]));
  });
});

describe("merged databases", () => {
  it("hold what indexing everything in one go would have given, in any order", () => {
    const a = place("merge-a", { "a.pgn": winter, "shared.pgn": renamed(winter, 5) });
    const b = place("merge-b", { "b.pgn": `${winter}${renamed(winter, 6)}` });
    copyFileSync(bundled("harbour-league-2021"), join(b, "harbour.pgn"));
    const whole = index([a, b]);
    const [one, two] = [index(a).db, index(b).db];
    for (const order of [
      [one, two],
      [two, one],
    ]) {
      const db = newDb();
      const merged = longside(["merge", ...order, "--db", db, "--json"]);
      expect(JSON.parse(merged.stdout)).toMatchObject({ taken: 4, left: 0, duplicates: whole.duplicates });
      expect(signature(db)).toBe(signature(whole.db));
      // again, nothing changes
      expect(JSON.parse(longside(["merge", ...order, "--db", db, "--json"]).stdout)).toMatchObject({
        taken: 0,
        left: 4,
      });
      expect(signature(db)).toBe(signature(whole.db));
    }
  });

  it("of different targets are refused", () => {
    const one = index(place("targets", { "a.pgn": winter })).db;
    const other = newDb();
    longside(["index", gamesFolder(), "--db", other, "--target", "R v R"]);
    const refused = longside(["merge", one, other, "--db", newDb()]);
    expect(refused).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/holds R v R, not R\+B v R/) as string,
    });
  });
});

describe("a place that cannot be written", () => {
  it.each([
    ["a folder that is none", join(folder, "nowhere", "x.db")],
    ["a folder of the system's", "/proc/x.db"],
  ])("(%s) is reported, and nothing is read", (_, db) => {
    const found = longside(["index", gamesFolder(), "--db", db]);
    expect(found).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/cannot write|could not be used/) as string,
    });
    expect(found.stderr).not.toMatch(/at .*\.js/);
  });

  it("for lack of space for a moment loses nothing of what was found before", () => {
    const db = newDb();
    const connection = openForWriting(db, TARGET);
    const writer = new IndexWriter(connection, db);
    const source = (name: string) => ({ path: `/games/${name}`, name, size: 1000, modified: 1 });
    /** A block of games none of which can be read. */
    const block = (count: number) => ({
      games: count,
      numbers: count,
      replayed: count,
      found: [],
      skipped: Array.from({ length: count }, (_, n) => ({
        game: n + 1,
        part: 1,
        byte: n,
        ply: null,
        reason: "bad-start" as const,
        detail: "x".repeat(200),
      })),
    });
    const first = writer.begin(source("a.pgn"), false);
    writer.add(first, block(60), 100);
    const most = connection.setting("max_page_count") as number;
    connection.exec(`PRAGMA max_page_count = ${connection.setting("page_count") as number}`);
    expect(() => writer.begin(source("b.pgn"), false)).toThrow(/full/);
    connection.exec(`PRAGMA max_page_count = ${most}`);
    writer.add(first, block(3), 200);
    writer.release();
    expect(connection.prepare("SELECT name, done, numbers, games FROM sources").all()).toEqual([
      { name: "a.pgn", done: 200, numbers: 63, games: 63 },
    ]);
    expect(connection.prepare("SELECT count(*), max(number) FROM skipped").raw().get()).toEqual([63, 63]);
    connection.close();
  });

  it("for lack of space is reported, and what was stored is whole", async () => {
    const games = place("full", {
      "a.pgn": Array.from({ length: 12 }, (_, copy) => renamed(winter, copy)).join(""),
    });
    const db = newDb();
    // a limit on the size of files stands for a full disk: writing fails in the same way
    const main = join(PACKAGE, "dist", "src", "cli", "main.js");
    const child = spawn(
      "bash",
      ["-c", `ulimit -f 1200; exec "$0" "$@"`, process.execPath, main, "index", games, "--db", db],
      {
        stdio: ["ignore", "ignore", "pipe"],
      },
    );
    let stderr = "";
    child.stderr.on("data", (text: Buffer) => (stderr += text.toString()));
    const [status] = (await once(child, "exit")) as [number | null];
    expect(status, stderr).toBe(2);
    expect(stderr).toMatch(/could not be used.*(?:full|disk)/s);
    // with space again, the run goes on to the same end
    index(games, db);
    expect(signature(db)).toBe(signature(index(games).db));
  });
});

// Index runs: everything accounted for, nothing twice, nothing lost.

import { spawn } from "node:child_process";
import { once } from "node:events";
import {
  copyFileSync,
  cpSync,
  mkdirSync,
  readFileSync,
  readdirSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { basename, join } from "node:path";

import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { lockForWriting } from "../../src/store/write-lock.js";
import { positionsOf } from "../../src/store/chunks.js";
import { openForReading, openForWriting } from "../../src/store/database.js";
import { indexGames } from "../../src/indexing/run.js";
import { SCHEMA_VERSION } from "../../src/store/schema.js";
import { findFiles } from "../../src/pgn/files/find.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { TARGET, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let made = 0;

async function index(
  paths: string[],
  db = join(folder, `${++made}.db`),
  signal?: AbortSignal,
  onProgress?: () => void,
) {
  const connection = openForWriting(db, TARGET);
  try {
    const summary = await indexGames(connection, db, await findFiles(paths), {
      target: TARGET,
      folder: cacheFolder(),
      threads: 2,
      signal,
      onProgress,
    });
    return { db, summary };
  } finally {
    connection.close();
  }
}

/** Everything the database holds, less what depends on the place and time of the files. */
function content(db: string) {
  const connection = openForReading(db);
  try {
    const all = (sql: string) => connection.prepare(sql).all();
    return {
      sources: all(
        "SELECT name, size, hash, done, numbers, games, replayed, complete FROM sources ORDER BY name",
      ),
      games: all(
        "SELECT s.name, g.* FROM games g JOIN sources s ON s.id = g.source_id ORDER BY s.name, number, part",
      ).map((row) => ({
        ...(row as object),
        id: 0,
        source_id: 0,
        duplicate_of: (row as { duplicate_of: unknown }).duplicate_of !== null,
      })),
      positions: (
        all(
          `SELECT s.name, g.number, e.id, e.first_ply FROM endings e JOIN games g ON g.id = e.game_id
           JOIN sources s ON s.id = g.source_id ORDER BY s.name, g.number, e.first_ply`,
        ) as { name: string; number: number; id: number; first_ply: number }[]
      ).flatMap(({ name, number, id, first_ply }) => {
        const positions = positionsOf(connection, id);
        return positions
          .records()
          .map((record, n) => ({ name, number, ply: first_ply + n, facts: positions.facts(n), ...record }));
      }),
    };
  } finally {
    connection.close();
  }
}

const bundled = (name: string) => join(gamesFolder(), `${name}.pgn`);

describe("indexing", () => {
  it("the same files twice changes nothing", async () => {
    const { db, summary } = await index([gamesFolder()]);
    expect(summary).toMatchObject({ files: 4, unchanged: 0, games: 160, unreadable: [], stopped: false });
    const before = content(db);
    expect(before.positions.length).toBeGreaterThan(5000);
    const again = await index([gamesFolder()], db);
    expect(again.summary).toMatchObject({ files: 4, unchanged: 4, games: 0 });
    expect(content(db)).toEqual(before);
  });

  it("a file whose time alone has changed is left alone; a file that has changed is read anew", async () => {
    const path = join(folder, "changing.pgn");
    copyFileSync(bundled("harbour-league-2021"), path);
    const { db } = await index([path]);
    const before = content(db);
    utimesSync(path, 1, 1);
    expect((await index([path], db)).summary).toMatchObject({ unchanged: 1 });
    expect(content(db)).toEqual(before);
    const half = readFileSync(path, "latin1");
    writeFileSync(path, half.slice(0, half.indexOf('[Event "', half.length / 2)), "latin1");
    expect((await index([path], db)).summary).toMatchObject({ unchanged: 0 });
    const fresh = await index([path]);
    expect(content(db)).toEqual(content(fresh.db));
    expect(content(db).games.length).toBeLessThan(before.games.length);
  });

  it("goes on inside the file where it was stopped, with the same result", async () => {
    const long = join(folder, "long");
    mkdirSync(long);
    const text = readFileSync(bundled("winter-club-cup-2024"), "latin1");
    const copies = Math.ceil((10 << 20) / text.length);
    // without the moves beyond the first, so that the games are read and rejected quickly
    const short = text.replace(/\n\n1\. [^[]*/g, "\n\n1. e4 *\n\n");
    const games = Array.from({ length: copies }, (_, n) => (n % 100 === 0 ? text : short.repeat(4)));
    writeFileSync(join(long, "long.pgn"), games.join(""), "latin1");
    const stopping = new AbortController();
    const first = await index([long], undefined, stopping.signal, () => {
      stopping.abort();
    });
    expect(first.summary).toMatchObject({ stopped: true });
    const done = () => {
      const connection = openForReading(first.db);
      const row = connection.prepare("SELECT done, size, complete FROM sources").get();
      connection.close();
      return row as { done: number; size: number; complete: number };
    };
    expect(done().done).toBeGreaterThan(0);
    expect(done()).toMatchObject({ complete: 0 });
    const { summary } = await index([long], first.db);
    const whole = await index([long]);
    expect(summary.games).toBeLessThan(whole.summary.games);
    expect(summary.games + first.summary.games).toBe(whole.summary.games);
    expect(content(first.db)).toEqual(content(whole.db));
  });

  it("ends at once when it is stopped, however much waits to be read", async () => {
    const dense = join(folder, "dense.pgn");
    const text = readFileSync(bundled("winter-club-cup-2024"), "latin1");
    // every game holds an ending, and no two scores are the same
    const copies = Array.from({ length: Math.ceil((20 << 20) / text.length) }, (_, n) =>
      text.replaceAll("1. ", `1. {copy ${n}} `),
    );
    writeFileSync(dense, copies.join(""), "latin1");
    const stopping = new AbortController();
    setTimeout(() => stopping.abort(), 1500);
    const { db, summary } = await index([dense], undefined, stopping.signal);
    expect(summary).toMatchObject({ stopped: true, read: 0 });
    expect(content(db).sources).toMatchObject([{ complete: 0 }]);
  });

  it("reports what goes wrong between two files, and ends", async () => {
    const games = join(folder, "two");
    mkdirSync(games);
    for (const name of ["a.pgn", "b.pgn"])
      writeFileSync(join(games, name), readFileSync(bundled("winter-club-cup-2024")));
    const db = join(folder, `${++made}.db`);
    const connection = openForWriting(db, TARGET);
    // the second file is not to be begun
    connection.exec(`CREATE TRIGGER full BEFORE INSERT ON sources WHEN NEW.name = 'b.pgn'
      BEGIN SELECT raise(ABORT, 'the disk is full'); END`);
    const found = await findFiles([games]);
    const options = { target: TARGET, folder: cacheFolder(), threads: 2 };
    await expect(indexGames(connection, db, found, options)).rejects.toThrow("the disk is full");
    connection.exec("DROP TRIGGER full");
    const summary = await indexGames(connection, db, found, options);
    expect(summary.read + summary.unchanged).toBe(2);
    connection.close();
    const whole = await index([games]);
    expect(content(db)).toEqual(content(whole.db));
  });

  it("the same game in two files is kept twice and marked once", async () => {
    const copies = join(folder, "copies");
    mkdirSync(copies);
    copyFileSync(bundled("winter-club-cup-2024"), join(copies, "one.pgn"));
    const text = readFileSync(bundled("winter-club-cup-2024"), "latin1");
    // the moves decide, whatever the names
    writeFileSync(
      join(copies, "two.pgn"),
      text.replace(/^(\[(?:White|Black) "\S+), \S+"/gm, '$1"'),
      "latin1",
    );
    writeFileSync(join(copies, "zed.pgn"), text.replace(/^(\[White ").*"/gm, '$1Somebody Else"'), "latin1");
    const { db } = await index([copies]);
    const games = content(db).games as unknown as { name: string; duplicate_of: boolean }[];
    const marked = (name: string) => new Set(games.filter((g) => g.name === name).map((g) => g.duplicate_of));
    expect(marked("one.pgn")).toEqual(new Set([false]));
    expect(marked("two.pgn")).toEqual(new Set([true]));
    expect(marked("zed.pgn")).toEqual(new Set([true]));
    // when the original goes, its duplicate takes its place
    writeFileSync(join(copies, "one.pgn"), "");
    await index([copies], db);
    const left = content(db).games as unknown as { name: string; duplicate_of: boolean }[];
    const stays = (name: string) => new Set(left.filter((g) => g.name === name).map((g) => g.duplicate_of));
    expect([stays("one.pgn").size, stays("two.pgn"), stays("zed.pgn")]).toEqual([
      0,
      new Set([false]),
      new Set([true]),
    ]);
  });

  it("a damaged file is reported, the others are read", async () => {
    const mixed = join(folder, "mixed");
    mkdirSync(mixed);
    writeFileSync(join(mixed, "packed.pgn"), Buffer.from([0x1f, 0x8b, 8, 0, 0]));
    copyFileSync(bundled("winter-club-cup-2024"), join(mixed, "plain.pgn"));
    const { summary } = await index([mixed]);
    expect(summary.unreadable.map((error) => error.code)).toEqual(["damaged-input"]);
    expect(summary.games).toBe(40);
  });

  it("what cannot be read and what holds no game is reported, the rest is read", async () => {
    const mixed = join(folder, "unreadable");
    mkdirSync(mixed);
    symlinkSync(join(folder, "nowhere"), join(mixed, "dangling.pgn"));
    writeFileSync(join(mixed, "prose.pgn"), "These are no games.\n");
    copyFileSync(bundled("winter-club-cup-2024"), join(mixed, "plain.pgn"));
    const { summary } = await index([mixed]);
    expect(summary.unreadable.map((error) => error.where.file)).toEqual([join(mixed, "dangling.pgn")]);
    expect(summary).toMatchObject({ empty: ["prose.pgn"], games: 40 });
  });

  it("UTF-16 is read like UTF-8", async () => {
    const text = readFileSync(bundled("winter-club-cup-2024"), "utf8");
    const wide = Buffer.from(`\ufeff${text}`, "utf16le");
    writeFileSync(join(folder, "le.pgn"), wide);
    writeFileSync(join(folder, "be.pgn"), Buffer.from(wide).swap16());
    const { db, summary } = await index([join(folder, "le.pgn"), join(folder, "be.pgn")]);
    expect(summary.games).toBe(80);
    const plain = content((await index([bundled("winter-club-cup-2024")])).db).games;
    const wides = content(db).games as unknown as { name: string; moves: string; white: string }[];
    const of = (name: string) => wides.filter((game) => game.name.endsWith(name)).map((game) => game.white);
    expect(of("le.pgn")).toEqual((plain as unknown as { white: string }[]).map((game) => game.white));
    expect(of("be.pgn")).toEqual(of("le.pgn"));
  });

  it("a table found damaged by a worker is reported with its file and what to do", async () => {
    const broken = join(folder, "tables");
    cpSync(cacheFolder(), broken, { recursive: true });
    for (const name of readdirSync(broken)) {
      const path = join(broken, name);
      const bytes = readFileSync(path);
      if (name !== "RB-beats-R.table") continue;
      bytes.fill(0xaa, bytes.length >> 1);
      writeFileSync(path, bytes);
    }
    const db = join(folder, `${++made}.db`);
    const connection = openForWriting(db, TARGET);
    const files = await findFiles([bundled("winter-club-cup-2024")]);
    const run = indexGames(connection, db, files, { target: TARGET, folder: broken, threads: 1 });
    await expect(run).rejects.toMatchObject({
      code: "table-damaged",
      hint: expect.stringMatching(/longside solve "KRBvKR"/) as string,
    });
    connection.close();
  });
});

describe("a database", () => {
  it.each([
    [
      "that is none",
      (path: string) => writeFileSync(path, "these are no rows at all, only words; and many of them"),
      /is not a longside database/,
    ],
    [
      "of another program",
      (path: string) => new Database(path).exec("CREATE TABLE t (a)").close(),
      /belongs to something else/,
    ],
    [
      "of a newer version",
      (path: string) => {
        openForWriting(path, TARGET).close();
        const db = new Database(path);
        db.pragma(`user_version = ${SCHEMA_VERSION + 1}`);
        db.close();
      },
      /newer longside/,
    ],
  ])("%s is refused and left as it is", (_, make, why) => {
    const path = join(folder, `${++made}.db`);
    make(path);
    const before = readFileSync(path);
    expect(() => openForReading(path)).toThrow(why);
    expect(() => openForWriting(path, TARGET)).toThrow(why);
    expect(readFileSync(path).equals(before)).toBe(true);
  });

  it("of another target is refused", () => {
    const path = join(folder, `${++made}.db`);
    openForWriting(path, parseMaterial("R v B")).close();
    expect(() => openForWriting(path, TARGET)).toThrow(/holds R v B, not R\+B v R/);
  });

  it("that another run writes is refused; the lock ends with the run", async () => {
    const { db } = await index([bundled("winter-club-cup-2024")]);
    const lock = lockForWriting(db);
    await expect(index([bundled("harbour-league-2021")], db)).rejects.toThrow(/being written by another run/);
    lock.release();
    expect((await index([bundled("harbour-league-2021")], db)).summary.games).toBe(40);
    expect(readdirSync(folder).filter((name) => name.startsWith(basename(db)))).toEqual([basename(db)]);
  });

  it("that a killed run had locked is free again", async () => {
    const { db } = await index([bundled("winter-club-cup-2024")]);
    const code = `new (require("better-sqlite3"))(process.argv[1]).exec("BEGIN EXCLUSIVE"); console.log("held"); setInterval(() => {}, 1000);`;
    const child = spawn(process.execPath, ["-e", code, `${db}-run`], {
      stdio: ["ignore", "pipe", "inherit"],
    });
    await once(child.stdout, "data");
    expect(() => lockForWriting(db)).toThrow(/being written by another run/);
    child.kill("SIGKILL");
    await once(child, "exit");
    lockForWriting(db).release();
  });

  it("that is not there is reported", () => {
    expect(() => openForReading(join(folder, "nowhere.db"))).toThrow(/there is no database/);
  });
});

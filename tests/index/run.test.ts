// Index runs: everything accounted for, nothing twice, nothing lost.

import { copyFileSync, mkdirSync, readFileSync, utimesSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import Database from "better-sqlite3";
import { describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { openForReading, openForWriting, setMeta } from "../../src/index/database.js";
import { indexGames } from "../../src/index/run.js";
import { SCHEMA_VERSION } from "../../src/index/schema.js";
import { findFiles } from "../../src/pgn/read.js";
import { cacheFolder, gamesFolder } from "../../src/places.js";
import { TARGET, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let made = 0;

async function index(paths: string[], db = join(folder, `${++made}.db`), signal?: AbortSignal) {
  const connection = openForWriting(db, TARGET);
  try {
    const summary = await indexGames(connection, db, await findFiles(paths), {
      target: TARGET,
      folder: cacheFolder(),
      threads: 2,
      signal,
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
      positions: all(
        `SELECT s.name, g.number, p.* FROM positions p JOIN endings e ON e.id = p.ending_id JOIN games g ON g.id = e.game_id
         JOIN sources s ON s.id = g.source_id ORDER BY s.name, g.number, p.ply`,
      ).map((row) => ({ ...(row as object), ending_id: 0 })),
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

  it("goes on where it was stopped, with the same result", async () => {
    const stopping = new AbortController();
    stopping.abort();
    const { db, summary } = await index([gamesFolder()], undefined, stopping.signal);
    expect(summary).toMatchObject({ stopped: true });
    await index([gamesFolder()], db);
    expect(content(db)).toEqual(content((await index([gamesFolder()])).db));
  });

  it("the same game in two files is kept twice and marked once", async () => {
    const copies = join(folder, "copies");
    mkdirSync(copies);
    copyFileSync(bundled("winter-club-cup-2024"), join(copies, "one.pgn"));
    const text = readFileSync(bundled("winter-club-cup-2024"), "latin1");
    // another spelling of the names is the same player; another player is another game
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
    expect(marked("zed.pgn")).toEqual(new Set([false]));
    // when the original goes, its duplicate takes its place
    writeFileSync(join(copies, "one.pgn"), "");
    await index([copies], db);
    const left = content(db).games as unknown as { name: string; duplicate_of: boolean }[];
    expect(left.some((g) => g.duplicate_of)).toBe(false);
    expect(left.some((g) => g.name === "two.pgn")).toBe(true);
  });

  it("a compressed file is refused with its kind, the others are read", async () => {
    const mixed = join(folder, "mixed");
    mkdirSync(mixed);
    writeFileSync(join(mixed, "packed.pgn"), Buffer.from([0x1f, 0x8b, 8, 0, 0]));
    copyFileSync(bundled("winter-club-cup-2024"), join(mixed, "plain.pgn"));
    const { summary } = await index([mixed]);
    expect(summary.unreadable.map((error) => error.code)).toEqual(["compressed-input"]);
    expect(summary.games).toBe(40);
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

  it("that another run writes is refused; a dead run's claim is not", async () => {
    const { db } = await index([bundled("winter-club-cup-2024")]);
    const claim = (pid: number) => {
      const connection = new Database(db);
      setMeta(connection, "writer", String(pid));
      connection.close();
    };
    claim(process.ppid);
    await expect(index([bundled("harbour-league-2021")], db)).rejects.toThrow(/being written by another run/);
    claim(2 ** 22 + 12345);
    expect((await index([bundled("harbour-league-2021")], db)).summary.games).toBe(40);
  });

  it("that is not there is told", () => {
    expect(() => openForReading(join(folder, "nowhere.db"))).toThrow(/there is no database/);
  });
});

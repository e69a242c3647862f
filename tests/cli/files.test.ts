// Files that a command is to write, and those that it is to read: no output takes the place of an input, a database is a plain
// file with one name, and one that is not complete says so.

import {
  copyFileSync,
  existsSync,
  linkSync,
  readFileSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { gamesFolder } from "../../src/places.js";
import { openForWriting, setMeta } from "../../src/store/database.js";
import { TARGET, indexBundled, longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const at = (name: string) => join(folder, name);
const db = at("demo.db");
const games = at("winter.pgn");
const outline = at("outline.md");
beforeAll(async () => {
  await indexBundled(db);
  copyFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"), games);
  writeFileSync(outline, "# Own\n");
  symlinkSync(db, at("link.html"));
  linkSync(games, at("twin.jsonl"));
});

describe("an output", () => {
  it.each([
    ["the database", () => ["report", "--db", db, "--html", db]],
    ["the database through a link", () => ["report", "--db", db, "--html", at("link.html")]],
    ["a file of the database", () => ["report", "--db", db, "--html", `${db}-wal`]],
    ["the games", () => ["index", games, "--db", at("new.db"), "--skipped", games]],
    [
      "the games by another name",
      () => ["index", games, "--db", at("new.db"), "--skipped", at("twin.jsonl")],
    ],
    ["a file in the folder of games", () => ["index", folder, "--db", at("new.db"), "--skipped", outline]],
    [
      "the database that is to be made",
      () => ["index", games, "--db", at("new.db"), "--skipped", at("new.db")],
    ],
    ["the outline", () => ["lesson", "--outline", outline, "--db", db, "--html", outline]],
    ["another output", () => ["exercises", "--db", db, "--html", at("a.html"), "--pdf", at("a.html")]],
    ["the codebook", () => ["find", "--db", db, "--data", at("a.csv"), "--svg", at("a.csv.codebook.csv")]],
  ])("is never %s", (_, command) => {
    const before = [db, games, outline].map((path) => readFileSync(path));
    const { status, stderr } = longside(command());
    expect(status, stderr).toBe(2);
    expect([db, games, outline].map((path) => readFileSync(path))).toEqual(before);
    expect(existsSync(at("new.db"))).toBe(false);
  });

  it("may stand beside them", () => {
    expect(longside(["index", games, "--db", at("new.db"), "--skipped", at("skipped.jsonl")]).status).toBe(0);
    expect(readFileSync(at("skipped.jsonl"), "utf8")).toBe("");
  });

  it("of a merge is none of the databases merged", () => {
    const { status, stderr } = longside(["merge", db, at("new.db"), "--db", db]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/one of the databases that are to be merged/);
  });
});

describe("a database", () => {
  it.each(["", " ", ":memory:", ":other:"])("is no name such as %j", (name) => {
    const { status, stderr } = longside(["index", games, "--db", name]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/no file's name/);
  });

  it("with two names is not written to", () => {
    copyFileSync(db, at("one.db"));
    linkSync(at("one.db"), at("two.db"));
    const { status, stderr } = longside(["index", games, "--db", at("two.db")]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/2 names \(hard links\)/);
    // but it can be read
    expect(longside(["count", "--db", at("two.db")]).status).toBe(0);
  });

  it("says of a file with the size and time it had what has changed, if it is asked to look", () => {
    const path = at("same.pgn");
    const text = readFileSync(games, "latin1");
    const time = new Date("2024-01-02T03:04:05Z");
    const write = (content: string) => {
      writeFileSync(path, content, "latin1");
      utimesSync(path, time, time);
    };
    write(text);
    const index = (...more: string[]) =>
      JSON.parse(longside(["index", path, "--db", at("same.db"), "--json", ...more]).stdout) as Record<
        string,
        number
      >;
    expect(index()).toMatchObject({ read: 1 });
    write(text.replace(/\[White "./, '[White "X'));
    expect(index()).toMatchObject({ read: 0, unchanged: 1 });
    expect(index("--recheck")).toMatchObject({ read: 1, unchanged: 0 });
    expect(index("--recheck")).toMatchObject({ read: 0, unchanged: 1 });
  });

  it("whose last run was stopped, or had files that could not be read, says so wherever it answers", () => {
    const path = at("part.db");
    copyFileSync(db, path);
    const own = openForWriting(path, TARGET);
    setMeta(
      own,
      "expected",
      JSON.stringify([join(gamesFolder(), "winter-club-cup-2024.pgn"), "/not/read/yet.pgn"]),
    );
    own.close();
    const said = /not complete: the last run was stopped with 1 of 2 files read; index again/;
    expect(longside(["find", "--db", path]).stderr).toMatch(said);
    expect(longside(["count", "--db", path]).stderr).toMatch(said);
    expect(longside(["report", "--db", path, "--html", at("part.html")]).stdout.replace(/\s+/g, " ")).toMatch(
      said,
    );
    // the next run that comes to its end has nothing to say
    longside(["index", gamesFolder(), "--db", path]);
    expect(longside(["count", "--db", path]).stderr).not.toMatch(/not complete/);
  });
});

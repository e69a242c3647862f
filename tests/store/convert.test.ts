// Databases of older schemas are brought up to this one, and lose nothing.
//
// fixtures/databases/schema-8.db.gz was written by the program of that schema, from the first nine of the bundled games.

import { readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gunzipSync } from "node:zlib";

import { beforeEach, describe, expect, it } from "vitest";

import { PACKAGE, gamesFolder } from "../../src/places.js";
import { Connection } from "../../src/store/connection.js";
import { columnStoreOf } from "../../src/store/column-store.js";
import { SCHEMA_VERSION } from "../../src/store/schema.js";
import { contentSignature } from "../../src/store/signature.js";
import { longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const old = join(folder, "old.db");
const games = join(folder, "club.pgn");

beforeEach(() => {
  writeFileSync(old, gunzipSync(readFileSync(join(PACKAGE, "fixtures", "databases", "schema-8.db.gz"))));
  const all = readFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"), "utf8");
  writeFileSync(
    games,
    all.slice(0, all.indexOf("[Event", all.split("[Event ", 10).join("[Event ").length - 1)),
  );
});

/** What a database holds, but for where its files lay. */
function contentOf(path: string) {
  const db = new Connection(path);
  db.exec("UPDATE sources SET name = 'club.pgn', size = 0, hash = NULL, done = 0");
  const { positions } = columnStoreOf(db);
  const content = [db.setting("user_version"), positions, contentSignature(db)];
  db.close();
  return content;
}

describe("a database of schema 8", () => {
  it("is refused by what only reads, with what to do; nothing is changed", () => {
    const before = readFileSync(old);
    const { status, stderr } = longside(["find", "Philidor", "--db", old]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/older longside \(schema 8[\s\S]*longside check .*old\.db --mend/);
    expect(readFileSync(old).equals(before)).toBe(true);
  });

  it.each([
    ["check", ["check", old, "--mend"]],
    ["index", ["index", games, "--db", old]],
  ])("is brought up to date by %s, to what this program makes of the same games", (command, args) => {
    const { status, stdout } = longside(args);
    expect(status).toBe(0);
    if (command === "check") {
      expect(stdout).toMatch(/brought up to date/);
      const fresh = join(folder, "fresh.db");
      expect(longside(["index", games, "--db", fresh]).status).toBe(0);
      const [version, positions] = contentOf(fresh);
      expect([version, positions]).toEqual([SCHEMA_VERSION, 428]);
      expect(contentOf(old)).toEqual(contentOf(fresh));
    }
    expect(longside(["check", old]).stdout).toMatch(/Everything is what was written/);
  });
});

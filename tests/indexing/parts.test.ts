// A collection that is read in parts, by several runs, and merged is the collection read in one go.

import { readFileSync, readdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { gamesFolder } from "../../src/places.js";
import { Connection } from "../../src/store/connection.js";
import { contentSignature } from "../../src/store/signature.js";
import { longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const PARTS = [1, 2, 3];
const db = (name: string) => join(folder, `${name}.db`);

/** Games that cannot reach the ending, as many bytes of them. */
const filler = (bytes: number): string => {
  const game =
    '[Event "Filler"]\n[White "Vastrel, Orrin"]\n[Black "Orme, Kit"]\n\n1. e4 e5 2. Nf3 Nc6 1/2-1/2\n\n';
  return game.repeat(Math.ceil(bytes / game.length));
};

const signatureOf = (path: string): string => {
  const connection = new Connection(path);
  const signature = contentSignature(connection);
  connection.close();
  return signature;
};

beforeAll(() => {
  const files = readdirSync(gamesFolder()).sort();
  const text = (n: number) => readFileSync(join(gamesFolder(), files[n]), "utf8");
  writeFileSync(
    join(folder, "large.pgn"),
    [text(0), filler(3e6), text(1), filler(3e6), text(2), filler(1e6)].join("\n"),
  );
  writeFileSync(join(folder, "small.pgn"), text(3));
  for (const part of PARTS) {
    const read = longside([
      "index",
      join(folder, "large.pgn"),
      join(folder, "small.pgn"),
      "--part",
      `${part}/3`,
      "--db",
      db(`part-${part}`),
    ]);
    expect(read.status).toBe(0);
  }
  expect(
    longside(["index", join(folder, "large.pgn"), join(folder, "small.pgn"), "--db", db("whole")]).status,
  ).toBe(0);
});

describe("a collection in parts", () => {
  it.each([
    ["in order", [1, 2, 3]],
    ["in another order", [3, 1, 2]],
  ])("is, merged %s, what it is in one go", (name, order) => {
    const merged = db(`merged ${name}`);
    expect(longside(["merge", ...order.map((part) => db(`part-${part}`)), "--db", merged]).status).toBe(0);
    expect(signatureOf(merged)).toBe(signatureOf(db("whole")));
    expect(longside(["check", merged]).status).toBe(0);
    // and is known again as read
    const again = longside(["index", join(folder, "large.pgn"), join(folder, "small.pgn"), "--db", merged]);
    expect(again.stdout).toMatch(/2 files indexed before and not changed/);
  });

  it("says so while parts are missing, and each part holds some of it", () => {
    const some = db("some");
    expect(longside(["merge", db("part-1"), db("part-3"), "--db", some]).status).toBe(0);
    const { stdout } = longside(["find", "everything", "--db", some, "--json", "--limit", "1000"]);
    expect(stdout).toMatch(/large\.pgn \(part 1 of 3\)/);
    expect(stdout).not.toMatch(/part 2 of 3/);
    const sizes = PARTS.map(
      (part) => longside(["find", "everything", "--db", db(`part-${part}`), "--json"]).stdout,
    );
    expect(new Set(sizes).size).toBe(3);
    expect(longside(["merge", db("part-2"), "--db", some]).status).toBe(0);
    expect(signatureOf(some)).toBe(signatureOf(db("whole")));
  });

  it("holds no game twice where one file is read in parts and as a whole, whichever comes first", () => {
    const both = db("both");
    const read = (...more: string[]) => longside(["index", join(folder, "large.pgn"), ...more, "--db", both]);
    expect(read("--part", "2/3").status).toBeLessThan(2);
    expect(read().status).toBe(0);
    const whole = signatureOf(both);
    expect(longside(["check", both]).status).toBe(0);
    // the whole file has this part too
    expect(read("--part", "2/3").stdout).toMatch(/1 file indexed before and not changed/);
    expect(longside(["merge", db("part-1"), db("part-3"), "--db", both]).stdout).toMatch(
      /1 file there already|2 files there already/,
    );
    const alone = db("alone");
    expect(longside(["index", join(folder, "large.pgn"), "--db", alone]).status).toBe(0);
    expect(whole).toBe(signatureOf(alone));
    // other parts take the place of those that were there
    const other = db("other parts");
    for (const part of ["1/2", "1/3", "2/3", "3/3"])
      expect(
        longside(["index", join(folder, "large.pgn"), "--part", part, "--db", other]).status,
      ).toBeLessThan(2);
    expect(signatureOf(other)).toBe(signatureOf(alone));
  });

  it.each(["0/3", "4/3", "1", "a/b"])("is not read as part %s", (part) => {
    const { status, stderr } = longside(["index", folder, "--part", part, "--db", db("none")]);
    expect(status).toBe(2);
    expect(stderr).toMatch(/is no part of a whole; write it like 3\/8/);
  });
});

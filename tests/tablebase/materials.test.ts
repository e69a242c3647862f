// Other materials than the default: built from nothing, held against published values, indexed, asked, probed.

import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { parseMaterial } from "../../src/chess/material.js";
import { gamesFolder } from "../../src/places.js";
import { buildTables, missingHalves } from "../../src/tablebase/build.js";
import { verifyTables } from "../../src/survey/verify.js";
import { jsonLines, longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const SMALL = [
  "R v K",
  "Q v K",
  "R v B",
  "R v N",
  "Q v R",
  "R v R",
  "B+N v K",
  "B+B v K",
  "N+N v K",
  "B v N",
];

beforeAll(async () => {
  const materials = SMALL.map(parseMaterial);
  await buildTables(materials, { folder, threads: 2 });
  expect(missingHalves(folder, materials)).toEqual([]);
});

describe.each(SMALL)("%s", (name) => {
  it("passes every check of verify: published lengths with their source, chessops' moves, symmetry, signature", async () => {
    for (const check of await verifyTables(parseMaterial(name), folder, 1000, 1)) {
      expect(check.passed, `${check.name}: ${check.detail}`).toBe(true);
    }
  });
});

describe("every placement of Q v K", () => {
  // four pieces take two minutes: `longside verify "R v B" --every`
  it("passes them too", async () => {
    const checks = await verifyTables(parseMaterial("Q v K"), folder, "every", 2);
    for (const check of checks) expect(check.passed, `${check.name}: ${check.detail}`).toBe(true);
    // all legal ones by the signature: attacker to move, defender to move
    const all = (18_492 + 28_644).toLocaleString("en");
    expect(checks.filter((check) => check.detail === `${all} placements, every one`)).toHaveLength(3);
  });
});

describe("another target", () => {
  const db = join(folder, "rooks.db");
  const env = { LONGSIDE_CACHE: folder };
  it("is indexed, found, counted and shown", () => {
    const index = longside(["index", gamesFolder(), "--db", db, "--target", "rook against rook"], { env });
    expect(index.stderr).toMatch(/Now ask/);
    // all of them come by a capture and last one ply
    expect(longside(["find", "--db", db], { env }).stderr).toMatch(
      /No ending in .*rooks\.db answers that\. Left out: 8 in endings shorter than two half-moves \(--leave-out nothing shows them\)\./,
    );
    const endings = jsonLines<{ id: number }>(
      longside(["find", "--leave-out", "nothing", "--json", "--db", db], { env }).stdout,
    );
    expect(endings.length).toBeGreaterThan(5);
    const positions = jsonLines<Record<string, unknown>>(
      longside(
        [
          "find",
          "rook on the long side",
          "--each",
          "position",
          "--leave-out",
          "nothing",
          "--json",
          "--db",
          db,
        ],
        { env },
      ).stdout,
    );
    expect(positions.length).toBeGreaterThan(0);
    for (const row of positions)
      expect(row).toMatchObject({ verdict: expect.stringMatching(/won|drawn|lost/) });
    expect(
      longside(["count", "--by", "entry-verdict", "--leave-out", "duplicates", "--db", db], { env }).status,
    ).toBe(0);
    expect(longside(["show", String(endings[0].id), "--db", db], { env }).stdout).toMatch(/R v R|rook|drawn/);
  });
  it("is probed", () => {
    const probe = JSON.parse(
      longside(["probe", "8/8/8/8/8/2k5/8/K2r4 w - - 0 1", "--json"], { env }).stdout,
    ) as object;
    expect(probe).toMatchObject({
      material: "R v K",
      attacker: "black",
      sideToMove: "defender",
      verdict: "won",
    });
  });
  it("of another material is refused by the same database", () => {
    expect(longside(["index", gamesFolder(), "--db", db, "--target", "R v B"], { env })).toMatchObject({
      status: 2,
      stderr: expect.stringMatching(/holds R v R, not R v B/),
    });
  });
});

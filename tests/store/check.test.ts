// Damage in a database is told, never answered with; `check` says what is hurt, and mends it from the games.

import { copyFileSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { beforeAll, describe, expect, it } from "vitest";

import { Connection } from "../../src/store/connection.js";
import { contentSignature } from "../../src/store/signature.js";
import { readSealed, writeSealed } from "../../src/survey/remembered.js";
import { gamesFolder } from "../../src/places.js";
import { longside, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const whole = join(folder, "whole.db");
const games = join(folder, "games.pgn");
beforeAll(() => {
  copyFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"), games);
  expect(longside(["index", games, "--db", whole]).status).toBe(0);
});

const signatureOf = (path: string) => {
  const db = new Connection(path, { readonly: true });
  const signature = contentSignature(db);
  db.close();
  return signature;
};

/** A copy of the database that is hurt by an SQL statement. */
function damaged(sql: string): string {
  const path = join(folder, "hurt.db");
  copyFileSync(whole, path);
  const db = new Connection(path);
  expect(db.prepare(sql).run().changes).toBeGreaterThan(0);
  db.close();
  return path;
}

/** A blob with its last byte changed. */
const FLIPPED = "CAST(substr(data, 1, length(data) - 1) || x'5a' AS BLOB)";

describe("damage", () => {
  it("there is none in what was written", () => {
    const { status, stdout } = longside(["check", whole]);
    expect(status).toBe(0);
    expect(stdout).toMatch(
      /looked at \d+ games, \d+ endings and 1 chunk of columns.\s+Everything is what was written/,
    );
  });

  it.each<[string, string, string[] | undefined]>([
    ["the list of a chunk's endings", `UPDATE chunks SET data = ${FLIPPED}`, ["show", "1"]],
    ["a column", `UPDATE columns SET data = ${FLIPPED} WHERE name = 'verdict'`, ["find", "verdict = won"]],
    [
      "a column that is cut",
      "UPDATE columns SET data = substr(data, 1, length(data) - 7) WHERE name = 'placement'",
      ["show", "2"],
    ],
    ["a player's name", "UPDATE games SET white = 'Other' WHERE id = 1", undefined],
    [
      "a result",
      "UPDATE games SET result = '0-1' WHERE id = (SELECT min(id) FROM games WHERE result = '1-0')",
      undefined,
    ],
    ["how an ending ended", "UPDATE endings SET ended_by = 'time' WHERE id = 3", undefined],
    ["a column that is gone", "DELETE FROM columns WHERE name = 'error'", undefined],
    [
      "another column that is gone",
      "DELETE FROM columns WHERE name = 'king-rank from the other edge'",
      undefined,
    ],
  ])("of %s is found, told, and mended from the games", (_, sql, question) => {
    const path = damaged(sql);
    if (question) {
      const asked = longside([...question, "--db", path]);
      expect(asked.status).toBe(2);
      expect(asked.stderr).toMatch(/is damaged: .* is not what was written[\s\S]*longside check/);
    }
    const found = longside(["check", path]);
    expect(found.status).toBe(1);
    expect(found.stdout).toMatch(/hurt: /);
    const mended = longside(["check", path, "--mend"]);
    expect(mended.stdout).toMatch(/Everything is whole now/);
    expect(mended.status).toBe(0);
    expect(signatureOf(path)).toBe(signatureOf(whole));
    expect(longside(["check", path]).status).toBe(0);
  });

  /** Mends a database while its games are not there. */
  function mendedWithout(path: string) {
    const text = readFileSync(games);
    rmSync(games);
    const mended = longside(["check", path, "--mend"]);
    writeFileSync(games, text);
    return mended;
  }

  it.each(["san", "placement", "king-rank", "verdict"])(
    "of the column %s whose file is gone is worked out again from the stored moves",
    (name) => {
      const path = damaged(`UPDATE columns SET data = ${FLIPPED} WHERE name = '${name}'`);
      const { stdout, status } = mendedWithout(path);
      expect(stdout).toMatch(
        new RegExp(
          `Worked out again from the stored moves, the files being gone: a chunk of the column ${name}, endings 1 to \\d+`,
        ),
      );
      expect(status).toBe(0);
      expect(signatureOf(path)).toBe(signatureOf(whole));
    },
  );

  it("of a game's row whose file is gone is taken out, and told", () => {
    const path = damaged("UPDATE games SET white = 'Other' WHERE id = 1");
    const { stdout, status } = mendedWithout(path);
    expect(stdout).toMatch(/Taken out, since the files are no longer there: game \d+ of/);
    expect(status).toBe(0);
    expect(longside(["find", "--db", path]).status).toBe(0);
  });
});

it("what is remembered is sealed: a changed digit is as if it were not there", () => {
  const path = join(folder, "seal.json");
  expect(readSealed(path)).toBeUndefined();
  writeSealed(path, { won: 1234 });
  expect(readSealed(path)).toEqual({ won: 1234 });
  writeFileSync(path, readFileSync(path, "utf8").replace("1234", "1235"));
  expect(readSealed(path)).toBeUndefined();
});

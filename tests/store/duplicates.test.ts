// Which games are one game: made cases, two thousand copies and as many games that only begin alike.

import { makeUci } from "chessops";
import { beforeEach, describe, expect, it } from "vitest";

import { join } from "node:path";

import type { Connection } from "../../src/store/connection.js";
import { packMoves } from "../../src/store/packing.js";
import { openForWriting } from "../../src/store/database.js";
import { Duplicates, copyKeys } from "../../src/store/duplicates.js";
import { namesAgree } from "../../src/store/names-agree.js";
import { TARGET, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
let db: Connection;
let duplicates: Duplicates;
let made = 0;
beforeEach(() => {
  db = openForWriting(join(folder, `${++made}.db`), TARGET);
  duplicates = new Duplicates(db);
  for (const id of [1, 2])
    db.prepare("INSERT INTO sources VALUES (?, ?, ?, 0, 0, NULL, 0, 0, 0, 0, 1, 1, 1)").run(
      id,
      `/${id}`,
      `${id}.pgn`,
    );
});

interface Made {
  readonly moves: readonly string[];
  readonly white?: string | null;
  readonly black?: string | null;
  readonly source?: number;
}

/** Stores a game of which only moves and names matter here. */
function store({ moves, white = "Vastrel, Ilja", black = "Orme, Kit", source = 1 }: Made): number {
  const number = Number(db.prepare("SELECT count(*) FROM games").pluck().get()) + 1;
  const text = moves.join(" ");
  const fields: Record<string, unknown> = {
    source_id: source,
    number,
    part: 1,
    byte_start: 0,
    byte_end: 0,
    white,
    black,
    unread_clocks: 0,
    engine_game: 0,
    result: "*",
    fischer_random: 0,
    moves: packMoves(text),
    plies: moves.length,
    digest: Buffer.from(text),
    encoding: "utf-8",
    ...copyKeys({ start: null, moves: text }),
  };
  const names = Object.keys(fields);
  const { lastInsertRowid } = db
    .prepare(`INSERT INTO games (${names.join()}) VALUES (${names.map((name) => `@${name}`).join()})`)
    .run(fields);
  duplicates.link(lastInsertRowid);
  return Number(lastInsertRowid);
}
const originalOf = (id: number) =>
  db.prepare("SELECT duplicate_of FROM games WHERE id = ?").pluck().get(id) as number | null;

/** The number of two squares as a move between them. */
const madeUp = (number: number): string =>
  makeUci({ from: number & 63, to: (number >> 6) & 63, promotion: undefined });
/** Made-up moves: only their being equal matters. `seed`, below 4,096, tells games apart, from ply `from` on. */
const game = (seed: number, plies: number, from = 0): string[] =>
  Array.from({ length: plies }, (_, ply) => madeUp((13 * ply + (ply < from ? 0 : 977 * (seed + 1))) % 4096));

describe("a copy", () => {
  const long = game(1, 150);
  it.each<[string, Made]>([
    ["with the same names", { moves: long }],
    ["with a short first name", { moves: long, white: "Vastrel,I", black: "Orme,K" }],
    ["with names spelt otherwise", { moves: long, white: "Wastreljev", black: "Ormeh" }],
    ["with the names of other people", { moves: long, white: "Nobody", black: "Else" }],
    ["without names", { moves: long, white: null, black: null }],
    ["that breaks off", { moves: long.slice(0, 100) }],
    ["that breaks off early, the names agreeing", { moves: long.slice(0, 60), white: "Vastrel" }],
    ["with another end", { moves: [...long.slice(0, 144), "h8h1", "h8g1"] }],
  ])("%s is one", (_, copy) => {
    const first = store({ moves: long });
    const second = store(copy);
    expect([originalOf(first), originalOf(second)]).toEqual([null, first]);
  });

  it("longer than what was there counts instead, with all that it had", () => {
    const ids = [60, 100, 120].map((plies) => store({ moves: long.slice(0, plies) }));
    const whole = store({ moves: long, source: 2 });
    expect(ids.map(originalOf)).toEqual([whole, whole, whole]);
    expect(originalOf(whole)).toBeNull();
  });

  it("in an earlier file counts, whichever came first", () => {
    const later = store({ moves: long, source: 2 });
    const copy = store({ moves: long, source: 2 });
    const earlier = store({ moves: long, source: 1 });
    expect([later, copy, earlier].map(originalOf)).toEqual([earlier, earlier, null]);
  });
});

describe("no copy", () => {
  it.each<[string, Made]>([
    ["is a game that leaves after 79 half-moves", { moves: game(2, 150, 79) }],
    ["is a short score of other people", { moves: game(1, 60), white: "Nobody", black: "Else" }],
    ["is a short score that goes another way", { moves: [...game(1, 59), "h8h1"] }],
    ["is a score of thirty half-moves", { moves: game(1, 30) }],
  ])("%s", (_, other) => {
    const first = store({ moves: game(1, 150) });
    const second = store(other);
    expect([originalOf(first), originalOf(second)]).toEqual([null, null]);
  });

  it("does a short score make of two games that begin with it", () => {
    const one = store({ moves: game(1, 150, 60) });
    const two = store({ moves: game(2, 140, 60) });
    const short = store({ moves: game(0, 60, 60) });
    expect([one, two, short].map(originalOf)).toEqual([null, null, one]);
  });
});

it("finds all of 2,000 made copies, and takes none of 2,000 games that begin alike for one", () => {
  const names = ["Vastrel", "Orme", "Adler", "Brandt"];
  db.transaction(() => {
    for (let n = 0; n < 1000; ++n) {
      const moves = game(n, 90 + (n % 80), n % 79);
      const original = store({ moves, white: names[n % 4], black: names[(n + 1) % 4] });
      const white = [names[n % 4], null, `${names[n % 4]}, X`, "Misspelt"][n % 4];
      const copies = [
        store({ moves: moves.slice(0, Math.max(80, moves.length - (n % 30))), white, source: 2 }),
        store({ moves: [...moves.slice(0, 80 + (n % 10)), "h8h1"], white: null, source: 2 }),
      ];
      for (const copy of copies)
        expect(originalOf(copy) === original || originalOf(original) === copy).toBe(true);
    }
  })();
  // the thousand games share up to 78 half-moves with each other
  const counting = db.prepare("SELECT count(*) FROM games WHERE duplicate_of IS NULL").pluck().get();
  expect(counting).toBe(1000);
});

it("of ten thousand copies compares each with the one that counts", () => {
  const moves = game(1, 150);
  const compared: number[] = [];
  db.transaction(() => {
    for (let n = 0; n < 10_000; ++n) {
      store({ moves });
      if (n % 1000 === 999)
        compared.push(
          Number(db.prepare("SELECT count(*) FROM games WHERE duplicate_of IS NULL").pluck().get()),
        );
    }
  })();
  expect(compared).toEqual(Array.from({ length: 10 }, () => 1));
});

describe("names", () => {
  it.each([
    ["Kortschnoj, Viktor", "Korchnoi,V", true],
    ["Jussupow, Artur", "Yusupov, Artur", true],
    ["Tschigorin", "Chigorin, M", true],
    ["Zeschkowski", "Tseshkovsky, Vitaly", true],
    ["Adler, Tom", "Tom Adler", true],
    ["Müller", "Mueller", true],
    ["Brandt", "Brant", true],
    ["?", "Adler", true],
    [null, "Adler", true],
    ["Adler", "Brandt", false],
    ["Orme, Kit", "Vastrel, Ilja", false],
  ])("%s and %s: %s", (a, b, agree) => {
    expect(namesAgree(a, b)).toBe(agree);
  });
});

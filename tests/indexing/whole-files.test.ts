// Each game of a file is read, or told with its place and its reason, whatever the file is made of.

import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { gzipSync } from "node:zlib";

import { describe, expect, it } from "vitest";
import { CompressStream } from "zstd-napi";

import { LONGEST_GAME } from "../../src/pgn/files/block-end.js";
import { MOST_PLIES } from "../../src/pgn/game/replay.js";
import { run } from "../fuzz/terminal.js";
import { jsonLines, temporaryFolder } from "../support.js";

const folder = temporaryFolder();
const FEN = "8/8/3k4/8/8/3KB3/8/R6r w - - 0 1";
const MOVES = "1. Ra6+ Kd5 2. Ra5+ Kc6 1/2-1/2";
/** A game that holds the ending, by its White. */
const game = (white: string, moves = MOVES, fen = FEN) =>
  `[Event "Tarn Cup"]\n[White "${white}"]\n[Black "B"]\n[SetUp "1"]\n[FEN "${fen}"]\n\n${moves}\n\n`;
const wide = (text: string, order: "le" | "be" = "le") => {
  const bytes = Buffer.from(`\ufeff${text}`, "utf16le");
  return order === "le" ? bytes : bytes.swap16();
};

interface Row {
  readonly white: string;
  readonly whiteRating: number | null;
  readonly date: string | null;
}

let made = 0;
/** Indexes bytes as a file; gives the Whites of the endings found, and what was not read. */
async function indexed(bytes: Buffer | string, { name = ".pgn", options = [] as string[] } = {}) {
  const place = join(folder, `${++made}`);
  mkdirSync(place);
  const path = join(place, `games${name}`);
  writeFileSync(path, bytes);
  const db = join(place, "games.db");
  const told = join(place, "skipped.jsonl");
  const found = await run(["index", path, "--db", db, "--json", "--skipped", told, ...options]);
  const { games, unreadable } = JSON.parse(found.stdout) as {
    games: number;
    unreadable: { code: string; hint: string }[];
  };
  const rows = jsonLines<Row>((await run(["find", "", "--db", db, "--json", "--duplicates"])).stdout);
  const skipped = jsonLines<{
    game: number;
    byte: number;
    ply: number | null;
    reason: string;
    detail: string;
  }>(readFileSync(told, "utf8"));
  return { db, games, unreadable, rows, whites: rows.map(({ white }) => white).sort(), skipped };
}

describe("a file in which", () => {
  it("tags without moves stand before other tags gives each game its own", async () => {
    const untold = game("B").replace('[Event "Tarn Cup"]\n', "");
    const { games, rows, skipped } = await indexed(
      `${game("A")}[Event "X"]\n[White "No Moves"]\n[WhiteElo "2700"]\n[Black "C"]\n[Result "1-0"]\n\n${untold}${game("D")}`,
    );
    expect(games).toBe(4);
    expect(rows.map(({ white, whiteRating }) => [white, whiteRating])).toEqual(
      expect.arrayContaining([
        ["A", null],
        ["B", null],
        ["D", null],
      ]),
    );
    expect(skipped).toEqual([]);
  });

  it("a blank line stands between the tags of one game gives one game", async () => {
    const apart = game("A").replace("[SetUp", '\n[Annotator "C"]\n\n[SetUp');
    const { games, whites } = await indexed(apart + game("B"));
    expect([games, whites]).toEqual([2, ["A", "B"]]);
  });

  it.each(["le", "be"] as const)(
    "games of one byte a letter follow others of two (%s) gives all",
    async (order) => {
      const many = Array.from({ length: 4000 }, () => game("W", "1. e4 e5 *", "startpos")).join("");
      for (const filler of order === "le" ? ["", many] : [""]) {
        const bytes = Buffer.concat([wide(game("A") + filler, order), Buffer.from(filler + game("B"))]);
        const { whites, unreadable } = await indexed(bytes);
        expect([whites, unreadable]).toEqual([["A", "B"], []]);
      }
    },
  );

  it.each(["le", "be"] as const)(
    "games of two bytes a letter (%s) stand among others tells them",
    async (order) => {
      const [first, odd] = [Buffer.from(game("A")), wide(game("B"), order)];
      const { whites, skipped } = await indexed(Buffer.concat([first, odd, Buffer.from(game("C"))]));
      expect(whites).toEqual(["A", "C"]);
      expect(skipped).toMatchObject([{ reason: "two-encodings", game: 1, byte: first.length, ply: null }]);
    },
  );

  it("text is in no game tells where it begins, and passes over % lines and blanks", async () => {
    const { whites, skipped } = await indexed(`\n% exported\nSome words first.\n\n${game("A")}`);
    expect(whites).toEqual(["A"]);
    expect(skipped).toMatchObject([{ reason: "no-game", game: 0, byte: 12, detail: "Some words first." }]);
    expect((await indexed(`\ufeff\n% exported\n${game("A")}`)).skipped).toEqual([]);
  });

  const long = (bytes: number, line: string) => `1. Ra6+ {${line.repeat(bytes / line.length)}} Kd5 1/2-1/2`;
  it.each([
    ["a game has more bytes than may be", long(LONGEST_GAME + 4000, "so it is\n")],
    ["a line does", long(27_000_000, "so it is ")],
  ])("%s tells it, and gives the others, packed or not", async (_, moves) => {
    const text = game("A") + game("Long", moves) + game("C");
    for (const [bytes, name] of [
      [text, ".pgn"],
      [gzipSync(text), ".pgn.gz"],
    ] as const) {
      const { whites, skipped } = await indexed(bytes, { name });
      expect(whites).toEqual(["A", "C"]);
      expect(skipped).toMatchObject([{ reason: "too-long", game: 2, byte: game("A").length }]);
      expect(skipped[0].detail).toContain("Long");
    }
  });

  it("a game has as many bytes as may be gives it, packed or not", async () => {
    const text = game("A") + game("Long", long(LONGEST_GAME - 1000, "so it is\n")) + game("C");
    expect((await indexed(text)).whites).toEqual(["A", "C", "Long"]);
    expect((await indexed(gzipSync(text), { name: ".pgn.gz" })).whites).toEqual(["A", "C", "Long"]);
  });

  it("a game has more moves than can be gives what can be, and tells it", async () => {
    const { rows, skipped } = await indexed(game("A", "Ra6+ Kd7 Ra1 Kd6 ".repeat(6000)) + game("B"));
    expect(rows).toHaveLength(2);
    expect(skipped).toMatchObject([{ reason: "too-many-moves", game: 1, ply: MOST_PLIES }]);
  });

  it("a frame needs much memory is refused unless that is asked for", async () => {
    // a stream whose length is not told, so that the window is as asked for
    const pack = new CompressStream({ windowLog: 28 });
    const packed: Buffer[] = [];
    pack.on("data", (part: Buffer) => packed.push(part));
    const ended = new Promise((done) => pack.on("end", done));
    pack.write(Buffer.from(game("A")));
    pack.end();
    await ended;
    const bytes = Buffer.concat(packed);
    const refused = await indexed(bytes, { name: ".pgn.zst" });
    expect(refused.unreadable).toMatchObject([{ code: "large-window" }]);
    expect(refused.unreadable[0].hint).toContain("--large-windows");
    expect((await indexed(bytes, { name: ".pgn.zst", options: ["--large-windows"] })).whites).toEqual(["A"]);
  });
});

describe("numbers that a file may hold, and what becomes of others", () => {
  /** A game for each of some values, named by it. */
  const gamesOf = (cases: readonly (readonly [string, unknown])[], make: (value: string) => string) =>
    indexed(cases.map(([value]) => make(value).replace(/White "A"/, `White "${value}"`)).join(""));
  const tagged = (tag: string) => game("A").replace("[SetUp", `${tag}\n[SetUp`);

  it("ratings are 1 to 4,999", async () => {
    const cases = [
      ["1", 1],
      ["4999", 4999],
      ["5000", null],
      ["-5", null],
      ["99999999999999999999", null],
      ["2400 (est.)", 2400],
    ] as const;
    const { rows } = await gamesOf(cases, (rating) => tagged(`[WhiteElo "${rating}"]`));
    expect(new Map(rows.map(({ white, whiteRating }) => [white, whiteRating]))).toEqual(new Map(cases));
  });

  it("clocks are up to 24 days, longer ones as long as that, and what is no time is counted", async () => {
    const cases = [
      ["0:00:00", 0],
      ["596:31:23", 2147483],
      ["2000:00:00", 2147483.647],
      ["99999:59:59", 2147483.647],
      ["999999999:59:59", null],
      ["0:00:-3", null],
    ] as const;
    const { db } = await gamesOf(cases, (clock) =>
      game("A", `1. Ra6+ {[%clk ${clock}]} Kd5 2. Ra5+ Kc6 1/2-1/2`),
    );
    const found = (await run(["find", "", "--each", "position", "--duplicates", "--db", db, "--json"]))
      .stdout;
    const first = jsonLines<{ white: string; ply: number; clock: number | null }>(found).filter(
      ({ ply }) => ply === 0,
    );
    expect(new Map(first.map(({ white, clock }) => [white, clock]))).toEqual(new Map(cases));
  });

  it("years have four digits", async () => {
    const dates = ["2024.01.01", "0001.01.01", "0000.01.01", "99999.01.01"].map(
      (date) => [date, null] as const,
    );
    const { db } = await gamesOf(dates, (date) => tagged(`[Date "${date}"]`));
    const found = (await run(["find", "year >= 1", "--duplicates", "--db", db, "--json"])).stdout;
    const years = jsonLines<{ white: string }>(found).map(({ white }) => white);
    expect(years.sort()).toEqual(["0001.01.01", "2024.01.01"]);
  });

  it("counts of moves in a FEN are up to 9,999", async () => {
    const cases = [
      ["9999 9999", true],
      ["10000 1", false],
      ["0 10000", false],
      ["-1 1", false],
      ["99999999999999999999 1", false],
    ] as const;
    const { whites, skipped } = await gamesOf(cases, (counts) =>
      game("A", MOVES, FEN.replace("0 1", counts)),
    );
    expect(whites).toEqual(["9999 9999"]);
    expect(skipped.map(({ reason, game: number }) => [reason, number])).toEqual(
      [2, 3, 4, 5].map((n) => ["bad-start", n]),
    );
  });
});

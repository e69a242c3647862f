// Plain files range by range: whatever the bytes, the blocks of neighbouring ranges meet, and hold the same games as
// the whole.

import { createHash } from "node:crypto";
import { truncateSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { bytesDigest, combinedDigest } from "../../src/pgn/files/digest.js";
import { findGames } from "../../src/pgn/scan/game-finder.js";
import { BlockReader, rangesOf } from "../../src/pgn/files/block-reader.js";
import { temporaryFolder } from "../support.js";

const folder = temporaryFolder();

/** Games found in bytes: where each begins and ends. */
function gamesOf(bytes: Uint8Array, offset = 0): string[] {
  const games: string[] = [];
  findGames(bytes, ({ start, end }) => games.push(`${offset + start}-${offset + end}`));
  return games;
}

let files = 0;
function written(bytes: Uint8Array): string {
  const path = join(folder, `${++files}.pgn`);
  writeFileSync(path, bytes);
  return path;
}

/** Checks that ranges of a size make up the file, in any order of reading, and gives their games. */
function inPieces(bytes: Uint8Array, size: number, longest?: number): string[] {
  const path = written(bytes);
  const reader = new BlockReader((length) => new Uint8Array(length), size, longest);
  const count = rangesOf(bytes.length, size);
  const ranges = Array.from({ length: count }, (_, n) => reader.read(path, bytes.length, count - 1 - n));
  reader.close();
  ranges.reverse();
  let reached = 0;
  for (const range of ranges) {
    expect(range.offset).toBe(reached);
    reached += range.bytes.length;
  }
  expect(Buffer.concat(ranges.map((range) => range.bytes)).equals(bytes)).toBe(true);
  return ranges.flatMap((range) => gamesOf(range.bytes, range.offset));
}

const game = (n: number, moves: string) => `[Event "Tarn Cup"]\n[White "${n}"]\n[Black "B"]\n\n${moves}\n\n`;

const parts = fc.array(
  fc.oneof(
    fc.nat(9).map((n) => game(n, "1. e4 e5 2. Nf3 1-0")),
    fc.constantFrom(
      '[Event "x',
      "{ never closed\n",
      "[Kf2]\n",
      "\n\n",
      '\n[Site "y"]\n',
      "1. d4 *\n",
      "% [Event]\n",
    ),
    fc.string({ maxLength: 20 }),
  ),
  { maxLength: 30 },
);
const size = fc.integer({ min: 1, max: 300 });

describe("a file in ranges", () => {
  it("holds the same games as the whole, however small the ranges", () => {
    fc.assert(
      fc.property(parts, size, (some, range) => {
        const bytes = Buffer.from(some.join(""), "latin1");
        expect(inPieces(bytes, range)).toEqual(gamesOf(bytes));
      }),
      { numRuns: 400 },
    );
  });

  it("leaves no byte out and none twice, however long a game may be", () => {
    fc.assert(
      fc.property(parts, size, size, (some, range, longest) => {
        inPieces(Buffer.from(some.join(""), "latin1"), range, longest);
      }),
      { numRuns: 1000 },
    );
  });

  it("finds where games begin that are longer than what is looked at first", () => {
    const long = Buffer.from(
      Array.from({ length: 12 }, (_, n) =>
        game(n, "1. e4 {so it is} e5 ".repeat(n % 3 === 0 ? 9000 : 40)),
      ).join(""),
    );
    expect(long.length).toBeGreaterThan(600_000);
    expect(gamesOf(long)).toHaveLength(12);
    for (const size of [5_000, 70_001, 1 << 20]) expect(inPieces(long, size)).toEqual(gamesOf(long));
  });

  it("takes bytes without a game for what they are", () => {
    const nothing = Buffer.alloc(300_000, "no game here ");
    expect(inPieces(nothing, 20_000)).toEqual([]);
    // no place to cut at: every game begins with a tag that is not known to begin one
    const games = Buffer.from(`[GameId "1"]\n${game(1, "1. e4 *")}`.repeat(4000));
    expect(inPieces(games, 10_000, 50_000)).toHaveLength(4000);
    expect(inPieces(Buffer.alloc(0), 20_000)).toEqual([]);
  });

  it("has a digest that threads can work out together", () => {
    const bytes = Buffer.from(game(1, "1. e4 *").repeat(50));
    const path = written(bytes);
    const reader = new BlockReader((length) => new Uint8Array(length), 1000);
    const digests = Array.from(
      { length: rangesOf(bytes.length, 1000) },
      (_, n) => reader.read(path, bytes.length, n).digest,
    );
    reader.close();
    const sha = (part: Uint8Array) => createHash("sha256").update(part).digest();
    const parts = Array.from({ length: digests.length }, (_, n) => bytes.subarray(n * 1000, (n + 1) * 1000));
    expect(digests.map((digest) => Buffer.from(digest).toString("hex"))).toEqual(
      parts.map((part) => sha(part).toString("hex")),
    );
    expect(combinedDigest(digests)).toBe(sha(Buffer.concat(parts.map(sha))).toString("hex"));
    expect(combinedDigest([bytesDigest(bytes)])).not.toBe(combinedDigest(digests));
  });

  it("says so when the file becomes shorter, or is gone", () => {
    const bytes = Buffer.from(game(1, "1. e4 *").repeat(50));
    const path = written(bytes);
    const reader = new BlockReader((length) => new Uint8Array(length), 1000);
    reader.read(path, bytes.length, 0);
    truncateSync(path, 1500);
    expect(() => reader.read(path, bytes.length, 1)).toThrow(/shorter/);
    reader.close();
    expect(() => reader.read(join(folder, "none.pgn"), 100, 0)).toThrow(
      expect.objectContaining({ code: "not-readable" }) as Error,
    );
  });
});

// From a block to its endings: any bytes in without a crash, no game lost for what is beside it, and a game replayed once
// gives the same as one replayed again.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { GameReader } from "../../src/endings/game-reader.js";
import { CandidateFinder, type CandidateOptions } from "../../src/endings/candidates.js";
import { gamesFolder } from "../../src/places.js";
import { TARGET, openTables } from "../support.js";

const tables = openTables();
const finder = new CandidateFinder(TARGET);
const reader = new GameReader(TARGET, tables);
/** Finds the candidates of a block and reads them. */
const scan = (bytes: Uint8Array, options: CandidateOptions = {}, by = reader) =>
  by.read(finder.find(bytes, options).candidates);
const games = readFileSync(join(gamesFolder(), "winter-club-cup-2024.pgn"), "latin1").split(/(?=\[Event ")/);
const bytesOf = (text: string) => new Uint8Array(Buffer.from(text, "latin1"));
const endingsOf = (text: string) =>
  scan(bytesOf(text)).found.map((game) => [game.white, game.moves, game.result]);
const [one, other] = games.filter((game) => endingsOf(game).length === 1);

const junk = fc.oneof(
  fc.uint8Array({ maxLength: 300 }).map((bytes) => Buffer.from(bytes).toString("latin1")),
  fc
    .array(
      fc.oneof(
        fc.constantFrom(
          ...'()[]{};%$"\\\n\r\t.*',
          "1. e4 ",
          "Rxd4 ",
          "{[%clk ",
          '[Event "',
          '[FEN "8/8',
          "1-0",
          "--",
          "\0",
          "O-O",
          "((((",
          "e8(Q)",
        ),
        fc.string({ maxLength: 10 }),
      ),
      { maxLength: 60 },
    )
    .map((parts) => parts.join("")),
);

describe("a block", () => {
  it("loses no game for what stands before or behind it, and never crashes", () => {
    const [before, behind] = [endingsOf(one)[0], endingsOf(other)[0]];
    fc.assert(
      fc.property(junk, (text) => {
        // a whole tag before the next game's Event belongs to that game, whatever it says
        fc.pre(!/\[\s*\w+\s*".*"\s*\]/.test(text));
        const found = endingsOf(`${one.trimEnd()}\n${text}\n\n${other}`);
        expect(found[0]).toEqual(before);
        expect(found.at(-1)).toEqual(behind);
      }),
      { numRuns: 1500 },
    );
  });

  it("finds the same in any bytes with and without the reject", () => {
    const pieces = fc.array(fc.oneof(fc.constantFrom(...games.slice(0, 12)), junk), { maxLength: 6 });
    fc.assert(
      fc.property(pieces, (parts) => {
        const bytes = bytesOf(parts.join("\n"));
        const key = ({ found }: ReturnType<typeof scan>) =>
          found.map((game) => [game.byteStart, game.digest]);
        expect(key(scan(bytes))).toEqual(key(scan(bytes, { noReject: true })));
      }),
      { numRuns: 150 },
    );
  });

  it("gives a copy of a game what it gave the game, with the copy's own names and place", () => {
    const copy = one.replace(/\[White ".*"\]/, '[White "Somebody Else"]');
    const [first, second] = scan(bytesOf(`${one}${copy}`)).found;
    const fresh = scan(bytesOf(copy), {}, new GameReader(TARGET, tables)).found[0];
    expect(second).toEqual({ ...fresh, game: 2, byteStart: one.length, byteEnd: one.length + copy.length });
    expect(second.endings).toEqual(first.endings);
    // another result is another ending
    const won = one.replaceAll("1/2-1/2", "1-0").replaceAll("0-1", "1-0");
    expect(scan(bytesOf(won)).found[0].result).toBe("1-0");
  });
});

// The bundled games are what the generator makes, byte for byte, and are legal by another rules library.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { Chess } from "chess.js";
import { describe, expect, it } from "vitest";

import { EVENTS, eventText } from "../fixtures/generator/main.js";
import { gamesFolder } from "../src/places.js";
import { TARGET, openTables } from "./support.js";

const tables = openTables();

describe("the generator", () => {
  it.each(EVENTS)("makes $file as it is bundled", (which) => {
    const made = eventText(which, TARGET, tables, 3);
    const bundled = readFileSync(join(gamesFolder(), `${which.file}.pgn`), "utf8");
    expect(bundled.startsWith(made)).toBe(true);
    const games = made.split(/(?=\[Event ")/);
    expect(games).toHaveLength(3);
    for (const game of games) {
      const chess = new Chess();
      chess.loadPgn(game); // throws at an illegal move
      expect(chess.history().length).toBeGreaterThan(40);
    }
  });

  it("tells different events apart by their seed", () => {
    const [one, other] = EVENTS;
    const text = eventText({ ...one, seed: other.seed }, TARGET, tables, 1);
    expect(text).not.toBe(eventText(one, TARGET, tables, 1));
  });
});

// Contrasts: each is legal by chess.js, comes out otherwise by the table, and differs in what is said.

import { Chess } from "chess.js";
import { describe, expect, it } from "vitest";

import { placementOf, readFen } from "../../src/chess/fen.js";
import { contrasts } from "../../src/position/contrast.js";
import { Prober } from "../../src/position/probe.js";
import { standardCatalogue } from "../../src/query/language/catalogue.js";
import { cacheFolder } from "../../src/places.js";
import { openTables } from "../support.js";

const tables = openTables();
const catalogue = standardCatalogue();
const prober = new Prober(cacheFolder(), catalogue);

describe("contrasts", () => {
  // Szén set-up, Pintér–Razuvaev 1982, in an encyclopaedia article on this ending; Philidor 1749, in Howell 1997
  it.each(["8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1", "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"])("of %s", (fen) => {
    const found = contrasts(fen, prober, catalogue);
    expect(found.contrasts.length).toBeGreaterThan(3);
    const own = placementOf(readFen(fen));
    for (const { fen: other, value, steps, changed } of found.contrasts) {
      // legal for the side to move: the other side is not in check
      expect(() => new Chess(other)).not.toThrow();
      expect(value.verdict).not.toBe(found.value.verdict);
      const placed = placementOf(readFen(other));
      const score = Math.sign(tables.probe(placed.squares, placed.attackerToMove));
      expect({ won: 1, drawn: 0, lost: -1 }[value.verdict], other).toBe(score);
      expect(changed.length).toBe(steps);
      if (changed.every((said) => said.includes("→"))) {
        const moved = placed.squares.filter((square, n) => square !== own.squares[n]).length;
        expect(moved).toBeGreaterThan(0);
        expect(moved).toBeLessThanOrEqual(steps);
      }
    }
    const distances = found.contrasts.map(({ steps }) => steps);
    expect(distances).toEqual([...distances].sort((a, b) => a - b));
  });

  it("says where a file aside changes the result: the Szén set-up nearer to the corner is lost", () => {
    const found = contrasts("8/2R5/8/1r6/4b3/4k3/8/3K4 b - - 0 1", prober, catalogue);
    const aside = found.contrasts.find(({ changed }) => changed.join() === "one file to the left");
    expect(aside).toMatchObject({ value: { verdict: "won" }, steps: 1 });
    expect(aside!.setUps).toContain("Szén");
  });
});

// Every fact of the geometry by an example that has it and one that has it not, from all eight sides of the board and
// with either colour as the attacker. The positions are made for this test unless published ones are used: Philidor
// 1749 (in Howell 1997), Cochrane set-up (Budnikov–Novik 1991), Szén set-up (Pintér–Razuvaev 1982), both from an
// encyclopaedia article on this ending, and the stalemate in Haworth, ICGA Journal 37(3), 2014.

import { describe, expect, it } from "vitest";

import { placementOf, readFen } from "../../src/chess/fen.js";
import { SYMMETRIES, imageOf } from "../../src/chess/squares.js";
import { GEOMETRY, Geometer } from "../../src/geometry/facts.js";
import { shownFact } from "../../src/query/engine/rows.js";
import { knownValues } from "../../src/tablebase/known-values.js";
import { TARGET } from "../support.js";

const rows = knownValues("fact-examples.csv");
const geometer = new Geometer(TARGET);

/** The FEN with the colours exchanged and the board upside down, which is the same position for the other side. */
function otherColours(fen: string): string {
  const [board, turn, ...rest] = fen.split(" ");
  const swapped = board
    .split("/")
    .reverse()
    .join("/")
    .replace(/[a-z]/gi, (c) => (c === c.toLowerCase() ? c.toUpperCase() : c.toLowerCase()));
  return [swapped, turn === "w" ? "b" : "w", ...rest].join(" ");
}

const text = (value: number | string | boolean | null) =>
  value === null ? "none" : value === true ? "yes" : value === false ? "no" : String(value);

describe("an example and a counter-example of", () => {
  it("every fact", () => {
    expect(rows.map((row) => row.fact)).toEqual(GEOMETRY.map((fact) => fact.name));
  });

  it.each(rows)("$fact: $value, not $other_value", ({ fact, value, fen, other_value, other_fen }) => {
    const n = GEOMETRY.findIndex((one) => one.name === fact);
    expect(value).not.toBe(other_value);
    for (const [shown, wanted] of [
      [fen, value],
      [other_fen, other_value],
    ]) {
      for (const one of [shown, otherColours(shown)]) {
        const { squares, attackerToMove } = placementOf(readFen(one));
        for (const g of SYMMETRIES) {
          const twin = { squares: squares.map((square) => imageOf(g, square)), attackerToMove };
          expect(text(shownFact(GEOMETRY[n], geometer.facts(twin)[n])), one).toBe(wanted);
        }
      }
    }
  });
});

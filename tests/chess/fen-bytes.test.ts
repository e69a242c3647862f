import type { Color } from "chessops";
import fc from "fast-check";
import { expect, it } from "vitest";

import { placementFen } from "../../src/chess/fen.js";
import { FenBytes } from "../../src/chess/fen-bytes.js";
import { parseMaterial } from "../../src/chess/material.js";
import { placementNumber } from "../../src/chess/placement.js";

it.each(["R+B v R", "B+N v K", "Q v R"])("FENs of %s are the same as bytes and as texts", (name) => {
  const material = parseMaterial(name);
  const one = fc.record({
    squares: fc.uniqueArray(fc.integer({ min: 0, max: 63 }), {
      minLength: material.men,
      maxLength: material.men,
    }),
    attackerToMove: fc.boolean(),
    attacker: fc.constantFrom<Color>("white", "black"),
    halfmoves: fc.oneof(fc.integer({ min: 0, max: 120 }), fc.constant(30_000)),
    fullmove: fc.oneof(fc.integer({ min: 1, max: 300 }), fc.constant(29_999)),
  });
  fc.assert(
    fc.property(fc.array(one, { maxLength: 20 }), (some) => {
      const fens = new FenBytes(material, some.length);
      for (const { attacker, halfmoves, fullmove, ...placement } of some)
        fens.add(placementNumber(placement), attacker, halfmoves, fullmove);
      const text = Buffer.from(fens.bytes).toString();
      const texts = [...fens.ends].map((end, n) => text.slice(n === 0 ? 0 : fens.ends[n - 1], end));
      expect(texts).toEqual(
        some.map(({ attacker, halfmoves, fullmove, ...placement }) =>
          placementFen(placement, material, attacker, halfmoves, fullmove),
        ),
      );
    }),
  );
});

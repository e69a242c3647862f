// No mate is looked for where the tables say that the other side could not win: what is found must be the same as when it is
// looked for.

import { expect, it } from "vitest";

import { MoveList } from "../../src/chess/moves.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { GEOMETRY, Geometer, geometryIndex } from "../../src/geometry/facts.js";
import { TARGET, openTables } from "../support.js";

it("a threat of mate needs a win", () => {
  const tables = openTables();
  const geometer = new Geometer(TARGET);
  const [list, kinds] = [new MoveList(), new Int32Array(128)];
  const random = randomNumbers(271_828);
  let [without, threats] = [0, 0];
  for (let n = 0; n < 20_000; ++n) {
    const placement = randomPlacement(TARGET, random);
    const found = (mayThreaten: boolean) => {
      const facts = geometer.everything(placement, list, kinds, mayThreaten).slice(0, GEOMETRY.length);
      return { facts: Array.from(facts), kinds: Array.from(kinds.subarray(0, list.count)) };
    };
    const all = found(true);
    threats += all.facts[geometryIndex("mate-threat")];
    const other = tables.verdict(placement.squares, !placement.attackerToMove);
    if (other === (placement.attackerToMove ? -1 : 1)) continue;
    ++without;
    expect(found(false)).toEqual(all);
  }
  expect(without).toBeGreaterThan(5000);
  expect(threats).toBeGreaterThan(30);
});

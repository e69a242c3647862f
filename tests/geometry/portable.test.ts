// The facts and kinds of move run as JavaScript and as the compiled kernel: the same lines, the same values, for every
// placement of R v B (a part of them where time is short) and for random ones of other materials. And the numbers of the
// facts are their places in the table.

import { describe, expect, it } from "vitest";

import { type Material, parseMaterial } from "../../src/chess/material.js";
import { Movement } from "../../src/chess/moves.js";
import type { Placement } from "../../src/chess/placement.js";
import { randomNumbers, randomPlacement } from "../../src/chess/random.js";
import { GEOMETRY } from "../../src/geometry/facts.js";
import { KINDS_OF_MOVE } from "../../src/geometry/move-kinds.js";
import { type GeometryKernel, kernelOf } from "../../src/geometry/geometry-kernel.js";

Object.assign(globalThis, { StaticArray: Int32Array });

interface Portable {
  readonly squares: Int32Array;
  readonly values: Int32Array;
  readonly kindsOfMoves: Int32Array;
  setMen(attackers: number, defenders: number): void;
  setKind(piece: number, kind: number): void;
  settle(): void;
  setTurn(side: number): void;
  frameSymmetry(sorted: Int32Array): number;
  turnBy(symmetry: number): void;
  allFacts(): void;
  findKinds(): void;
}
// the names are put together so that the compiler of the program, which wants other addresses, leaves them alone
const folder = "../../src/geometry/portable";
const parts = await Promise.all(
  ["board", "frame", "facts", "kinds"].map((name) => import(`${folder}/${name}.ts`) as Promise<Portable>),
);
const portable: Portable = Object.assign({}, ...parts) as Portable;
const numbers = (await import(`${folder}/numbers.ts`)) as Readonly<Record<string, number>>;

function begin({ attacker, defender }: Material): void {
  portable.setMen(attacker.length, defender.length);
  [...attacker, ...defender].forEach((kind, n) => portable.setKind(2 + n, kind));
  portable.settle();
}

const sorted = new Int32Array(8);
/** What differs between the two forms at a placement. */
function differences(kernel: GeometryKernel, { squares, attackerToMove }: Placement): string[] {
  kernel.place(squares, attackerToMove);
  const symmetry = kernel.toSortedFrame();
  kernel.allFacts();
  squares.forEach((square, n) => (portable.squares[n] = square));
  portable.setTurn(attackerToMove ? 0 : 1);
  const own = portable.frameSymmetry(sorted);
  portable.squares.set(sorted);
  portable.allFacts();
  const found = GEOMETRY.filter((_, n) => kernel.values[n] !== portable.values[n]).map(({ name }) => name);
  if (own !== symmetry) found.push("frame");
  kernel.findKinds();
  portable.findKinds();
  if (kernel.kinds.some((kinds, n) => kinds !== portable.kindsOfMoves[n])) found.push("kinds");
  return found.map((name) => `${name} at ${squares.join()} ${attackerToMove}`);
}

describe("facts and kinds of move", () => {
  it("have the numbers of their places in the table", () => {
    const names = GEOMETRY.map(({ name }) => name.toUpperCase().replaceAll("-", "_"));
    const { FACTS, ...rest } = numbers;
    expect(Object.entries(rest).sort(([, a], [, b]) => a - b)).toEqual(names.map((name, n) => [name, n]));
    expect(FACTS).toBe(names.length);
    expect(KINDS_OF_MOVE.length).toBe(20);
  });

  it("are the same in both forms at placements of R v B", () => {
    const material = parseMaterial("R v B");
    const movement = new Movement(material);
    const kernel = kernelOf(material);
    begin(material);
    const found: string[] = [];
    // every placement with LONGSIDE_EVERY=1, else one in 389 of them
    const step = process.env.LONGSIDE_EVERY ? 1 : 389;
    for (let n = 0; n < 2 * 64 ** 4; n += step) {
      const squares = [(n >> 18) & 63, (n >> 12) & 63, (n >> 6) & 63, n & 63];
      const attackerToMove = n < 64 ** 4;
      if (new Set(squares).size < 4 || movement.inCheck(squares, attackerToMove ? 1 : 0)) continue;
      found.push(...differences(kernel, { squares, attackerToMove }));
    }
    expect(found).toEqual([]);
  });

  it.each(["R+B v R", "Q v R", "B+B v N", "R+R v R", "B+N v R"])(
    "are the same in both forms at random placements of %s",
    (name) => {
      const material = parseMaterial(name);
      const kernel = kernelOf(material);
      begin(material);
      const random = randomNumbers(2024);
      const found: string[] = [];
      const count = Number(process.env.LONGSIDE_EVERY ?? 0) > 0 ? 2_000_000 : 4000;
      for (let n = 0; n < count; ++n) found.push(...differences(kernel, randomPlacement(material, random)));
      expect(found).toEqual([]);
    },
  );
});

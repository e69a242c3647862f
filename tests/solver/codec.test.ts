// The kernel's compression and its undoing: any plane comes back as it was.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { BLOCK, decodeBlock } from "../../src/solver/codec.js";
import { declare, newKernel } from "../../src/solver/kernel.js";
import { halfNamed } from "../../src/solver/half.js";

const kernel = newKernel();
declare(kernel, halfNamed("R-beats-K"));
kernel.settle();

function roundTrip(plane: Uint8Array): Uint8Array {
  const count = plane.length / BLOCK;
  const at = kernel.sliceRoom(8); // more than the planes below need
  new Uint8Array(kernel.memory.buffer, at, plane.length).set(plane);
  const lengths = at + plane.length;
  const packed = lengths + count * 2;
  const end = kernel.encodeBlocks(at, count, packed, lengths);
  const bytes = new Uint8Array(kernel.memory.buffer).slice(packed, end);
  const back = new Uint8Array(plane.length);
  let from = 0;
  new Uint16Array(kernel.memory.buffer, lengths, count).forEach((length, n) => {
    if (length > 0) expect(decodeBlock(bytes, from, back, n * BLOCK)).toBe(length);
    from += length;
  });
  expect(from).toBe(bytes.length);
  return back;
}

/** Rows that are like their neighbours, as in real planes, and rows that are not. */
const rows = fc
  .array(
    fc.oneof(
      fc.constant("again" as const),
      fc.constant("zero" as const),
      fc.array(fc.tuple(fc.nat(63), fc.nat(255)), { maxLength: 6 }),
      fc.uint8Array({ minLength: 64, maxLength: 64 }),
    ),
    { minLength: 64, maxLength: 64 },
  )
  .map((parts) => {
    const plane = new Uint8Array(BLOCK);
    parts.forEach((part, row) => {
      const at = row * 64;
      if (part instanceof Uint8Array) plane.set(part, at);
      else if (part !== "zero") {
        const back = row % 3 === 0 ? 512 : 64;
        if (at >= back) plane.copyWithin(at, at - back, at - back + 64);
        if (part !== "again") for (const [n, value] of part) plane[at + n] = value;
      }
    });
    return plane;
  });

describe("blocks", () => {
  it("come back as they were", () => {
    fc.assert(
      fc.property(rows, (plane) => {
        expect(roundTrip(plane)).toEqual(plane);
      }),
      { numRuns: 500 },
    );
  });

  it("of zeros take no room", () => {
    expect(roundTrip(new Uint8Array(2 * BLOCK))).toEqual(new Uint8Array(2 * BLOCK));
  });
});

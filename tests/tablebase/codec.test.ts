// The kernel's compression and its undoing: any plane comes back as it was.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { BLOCK, decodeBlock } from "../../src/tablebase/codec.js";
import { declare, newKernel } from "../../src/tablebase/solver-kernel.js";
import { halfNamed } from "../../src/tablebase/half.js";

const kernel = newKernel();
declare(kernel, halfNamed("R-beats-K"));
kernel.settle();

/**
 * Packs and unpacks a plane of R v K from king pair 0 on. In each row only the squares of the two kings do not
 * matter: the kernel overwrites them with what they will come back as.
 */
function roundTrip(plane: Uint8Array): void {
  const count = plane.length / BLOCK;
  const at = kernel.sliceRoom(300); // room for more than the planes below
  new Uint8Array(kernel.memory.buffer, at, plane.length).set(plane);
  const lengths = at + plane.length;
  const packed = lengths + count * 2;
  const end = kernel.encodeBlocks(at, 0, count, packed, lengths, 0);
  const written = new Uint8Array(kernel.memory.buffer, at, plane.length);
  for (let row = 0; row < plane.length; row += 64) {
    let changed = 0;
    for (let n = row; n < row + 64; ++n) if (written[n] !== plane[n]) ++changed;
    expect(changed).toBeLessThanOrEqual(2);
  }
  const bytes = new Uint8Array(kernel.memory.buffer).slice(packed, end);
  const back = new Uint8Array(plane.length);
  let from = 0;
  new Uint16Array(kernel.memory.buffer, lengths, count).forEach((length, n) => {
    if (length > 0) expect(decodeBlock(bytes.subarray(from, from + length), back, n * BLOCK)).toBe(length);
    from += length;
  });
  expect(from).toBe(bytes.length);
  expect(Buffer.compare(back, written)).toBe(0);
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
        roundTrip(plane);
      }),
      { numRuns: 500 },
    );
  });

  it("of zeros take no room", () => {
    const at = kernel.sliceRoom(300);
    const lengths = at + 2 * BLOCK;
    expect(kernel.encodeBlocks(at, 0, 2, lengths + 4, lengths, 0)).toBe(lengths + 4);
  });
});

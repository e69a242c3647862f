// The compiled passes over columns (kernel/masks.ts), as TypeScript sees them: blocks of a column go into the kernel's
// memory, and masks come out.

import { masksKernelFile } from "../../places.js";
import type { ColumnValues } from "../../store/packing.js";
import { instantiate } from "../../wasm.js";

interface Exports {
  readonly memory: WebAssembly.Memory;
  blockSize(): number;
  valuesAddress(): number;
  maskAddress(): number;
  rangeOfBytes(count: number, low: number, high: number, flip: number, narrows: number): void;
  rangeOfInts(count: number, low: number, high: number, flip: number, narrows: number): void;
  setsWith(count: number, bit: number, wanted: number, none: number): void;
}

interface MaskKernel {
  readonly exports: Exports;
  readonly block: number;
  readonly bytes: Int8Array;
  readonly ints: Int32Array;
  readonly mask: Uint8Array;
}

function made(): MaskKernel {
  const exports = instantiate<Exports>(masksKernelFile());
  const { buffer } = exports.memory;
  const block = exports.blockSize();
  return {
    exports,
    block,
    // the memory never grows, so that these stay good
    bytes: new Int8Array(buffer, exports.valuesAddress(), block),
    ints: new Int32Array(buffer, exports.valuesAddress(), block),
    mask: new Uint8Array(buffer, exports.maskAddress(), block),
  };
}
let kernel: MaskKernel | undefined;
/** This thread's. */
const theKernel = (): MaskKernel => (kernel ??= made());

/** Runs a pass block by block, its results put in a mask. `narrows`: the mask is read as well. */
function passOver(
  mask: Uint8Array,
  values: ColumnValues,
  narrows: boolean,
  run: (exports: Exports, count: number) => void,
): void {
  const { exports, block, bytes, ints, mask: room } = theKernel();
  const { length } = mask;
  for (let from = 0; from < length; from += block) {
    const end = Math.min(length, from + block);
    const part = from === 0 && end === values.length ? values : values.subarray(from, end);
    if (part instanceof Int8Array) bytes.set(part);
    else ints.set(part);
    if (narrows) room.set(mask.subarray(from, end));
    run(exports, end - from);
    mask.set(room.subarray(0, end - from), from);
  }
}

const BYTE = { least: -128, greatest: 127 };

/** Marks the values from `low` to `high`, or all others; or takes away what is marked and not among them. */
export function passOfRange(
  mask: Uint8Array,
  values: ColumnValues,
  low: number,
  high: number,
  inside: boolean,
  narrows: boolean,
): void {
  const flip = inside ? 0 : -1;
  if (!(values instanceof Int8Array)) {
    passOver(mask, values, narrows, (kernel, count) =>
      kernel.rangeOfInts(count, low, high, flip, narrows ? 1 : 0),
    );
    return;
  }
  let [least, most] = [Math.max(low, BYTE.least), Math.min(high, BYTE.greatest)];
  // nothing lies in such a range
  if (least > most) [least, most] = [1, 0];
  passOver(mask, values, narrows, (kernel, count) =>
    kernel.rangeOfBytes(count, least, most, flip, narrows ? 1 : 0),
  );
}

/** Marks the sets of which the bits `bit` are `wanted`; `none` is no set. */
export const passOfSets = (
  mask: Uint8Array,
  values: Int32Array,
  bit: number,
  wanted: number,
  none: number,
): void => passOver(mask, values, false, (kernel, count) => kernel.setsWith(count, bit, wanted, none));

// Undoing the compression of a block (AssemblyScript), for probing: a module of its own, so that whoever only probes
// needs no solver. The format is described in codec.ts.

import { BACK, BLOCK, CONTROLS, ROW } from "./codec";

/** Where the compressed block is put, where the block comes out, and where its bits do. */
const SOURCE: usize = 0;
const TARGET: usize = 8192;
const BITS: usize = TARGET + BLOCK;

export function sourceAddress(): usize {
  return SOURCE;
}

export function targetAddress(): usize {
  return TARGET;
}

export function bitsAddress(): usize {
  return BITS;
}

/** A bit for each placement of the block unpacked last: whether its byte is anything but 0. */
export function nonzeroBits(): void {
  for (let n: usize = 0; n < BLOCK; n += 16) {
    const zero = i8x16.bitmask(i8x16.eq(v128.load(TARGET + n), i8x16.splat(0)));
    store<u16>(BITS + (n >> 3), <u16>~zero);
  }
}

/** Unpacks the block. Returns how many bytes of the source it took. */
export function decodeBlock(): i32 {
  let p = SOURCE + CONTROLS;
  for (let row: usize = 0; row < BLOCK / ROW; ++row) {
    const nibble = (load<u8>(SOURCE + (row >> 1)) >> <u8>((row & 1) << 2)) & 7;
    const to = TARGET + row * ROW;
    const from = nibble & 3;
    if (from == 0) {
      memory.fill(to, 0, ROW);
    } else {
      // the row before, or the row eight before
      const back = to - (from == 1 ? ROW : 8 * ROW);
      for (let n: usize = 0; n < ROW; n += 16) v128.store(to + n, v128.load(back + n));
    }
    if (nibble < 4) continue;
    for (let eighths = <i32>load<u8>(p++); eighths; eighths &= eighths - 1) {
      const eighth = to + (<usize>ctz(eighths) << 3);
      for (let mask = <i32>load<u8>(p++); mask; mask &= mask - 1) store<u8>(eighth + ctz(mask), load<u8>(p++));
    }
  }
  return <i32>(p - SOURCE);
}

/** Unpacks a block of bits, to where `nonzeroBits` puts them. */
export function decodeBits(): void {
  let p = SOURCE + CONTROLS;
  for (let row: i32 = 0; row < 64; ++row) {
    const nibble = (load<u8>(SOURCE + (row >> 1)) >> <u8>((row & 1) << 2)) & 15;
    const to = BITS + (<usize>row << 3);
    const back = BACK[nibble & 7];
    let word: u64 = back == 0 || row < back ? 0 : load<u64>(to - (<usize>back << 3));
    if (nibble >= 8) {
      for (let mask = <i32>load<u8>(p++); mask; mask &= mask - 1)
        word ^= (<u64>load<u8>(p++)) << <u64>(ctz(mask) << 3);
    }
    store<u64>(to, word);
  }
}

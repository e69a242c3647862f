// Passes over columns, sixteen positions at a time: which values lie in a range, which sets have a kind.
//
// AssemblyScript, compiled to WebAssembly with SIMD. A block of a column is put into VALUES, and a mask of bytes, 1 where
// a condition is met, comes out in MASK; what lies behind the end of the block is never read by the caller.

/** Positions in a block. */
export const BLOCK: i32 = 65536;
const VALUES: usize = 0;
const MASK: usize = (<usize>BLOCK) * 4;

export function blockSize(): i32 {
  return BLOCK;
}
export function valuesAddress(): usize {
  return VALUES;
}
export function maskAddress(): usize {
  return MASK;
}

/** Writes sixteen lanes, all bits set or none, as ones and noughts; or takes away of a mask what they do not have. */
@inline function put(at: usize, met: v128, narrows: bool): void {
  const ones = v128.and(met, i8x16.splat(1));
  v128.store(MASK + at, narrows ? v128.and(v128.load(MASK + at), ones) : ones);
}

@inline function within(values: v128, low: v128, high: v128): v128 {
  return v128.and(i32x4.ge_s(values, low), i32x4.le_s(values, high));
}

/** Four times four lanes of four bytes as sixteen of one. */
@inline function narrowed(a: v128, b: v128, c: v128, d: v128): v128 {
  return i8x16.narrow_i16x8_s(i16x8.narrow_i32x4_s(a, b), i16x8.narrow_i32x4_s(c, d));
}

/** Marks values of one byte from `low` to `high`, or with `flip` -1 all others. */
export function rangeOfBytes(count: i32, low: i32, high: i32, flip: i32, narrows: bool): void {
  const least = i8x16.splat(<i8>low);
  const most = i8x16.splat(<i8>high);
  const turn = i8x16.splat(<i8>flip);
  for (let n: usize = 0; n < <usize>count; n += 16) {
    const values = v128.load(VALUES + n);
    const met = v128.and(i8x16.ge_s(values, least), i8x16.le_s(values, most));
    put(n, v128.xor(met, turn), narrows);
  }
}

/** The same for values of four bytes. */
export function rangeOfInts(count: i32, low: i32, high: i32, flip: i32, narrows: bool): void {
  const least = i32x4.splat(low);
  const most = i32x4.splat(high);
  const turn = i8x16.splat(<i8>flip);
  for (let n: usize = 0; n < <usize>count; n += 16) {
    const at = VALUES + (n << 2);
    const met = narrowed(
      within(v128.load(at), least, most),
      within(v128.load(at, 16), least, most),
      within(v128.load(at, 32), least, most),
      within(v128.load(at, 48), least, most),
    );
    put(n, v128.xor(met, turn), narrows);
  }
}

@inline function has(sets: v128, bit: v128, wanted: v128, none: v128): v128 {
  return v128.andnot(i32x4.eq(v128.and(sets, bit), wanted), i32x4.eq(sets, none));
}

/** Marks sets, four bytes each, of which the bits `bit` are `wanted`; `none` is no set. */
export function setsWith(count: i32, bit: i32, wanted: i32, none: i32): void {
  const bits = i32x4.splat(bit);
  const want = i32x4.splat(wanted);
  const no = i32x4.splat(none);
  for (let n: usize = 0; n < <usize>count; n += 16) {
    const at = VALUES + (n << 2);
    const met = narrowed(
      has(v128.load(at), bits, want, no),
      has(v128.load(at, 16), bits, want, no),
      has(v128.load(at, 32), bits, want, no),
      has(v128.load(at, 48), bits, want, no),
    );
    put(n, met, false);
  }
}

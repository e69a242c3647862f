// Compression of planes: a block is 64 rows of 64 placements, and a row is often the row beside it or below it.
//
//   32 bytes   a nibble for each row (the even one low): bits 0–1 what it is predicted from (0 nothing, 1 the row
//              before, 2 the row eight before), bit 2 whether it differs
//   then       for each row that differs: a byte that tells in which eighths, for each of these a byte that
//              tells at which placements, for each of these the value
//
// A block of bits is 64 rows of 64 bits. A nibble for each row: bits 0–2 how many rows back it is predicted from (one of
// BACK), bit 3 whether it differs; then for each row that differs a byte that tells in which bytes, and these, each as its
// difference (exclusive or).
//
// Placements that nobody asks about (two men on one square, equal pieces in the other order) may come back as
// anything: the caller says which matter. Rows before the first of the block count as empty. Neighbouring rows
// differ by one step of a piece, along the rank or the file, so that this beats a general compressor in size and
// costs almost nothing to undo. The decoder is decode.ts.

export const BLOCK: usize = 4096;
export const ROW: usize = 64;
export const CONTROLS: usize = 32;

/** The bytes in which two words differ, as the bits of a byte. */
@inline function differing(a: u64, b: u64): i32 {
  let mask = 0;
  for (let x = a ^ b; x; ) {
    const n = <i32>(ctz(x) >> 3);
    mask |= 1 << n;
    x &= ~((255 as u64) << (n << 3));
  }
  return mask;
}

/** A word of the row predicted: `distance` rows back, 0 or beyond the block's start for nothing. */
@inline function predicted(row: usize, distance: i32, index: i32, eighth: i32): u64 {
  return distance == 0 || index < distance ? 0 : load<u64>(row - <usize>distance * ROW + (<usize>eighth << 3));
}

/** A byte for each bit of a byte: 255 where it is set. */
@inline function bytesOf(bits: u64): u64 {
  // bit n to the low end of byte n, then through the whole byte
  let x = bits & 0xff;
  x = (x | (x << 28)) & 0x0000000f0000000f;
  x = (x | (x << 14)) & 0x0003000300030003;
  x = (x | (x << 7)) & 0x0101010101010101;
  return x * 255;
}

/** Bytes needed for a row if it is predicted from `distance` rows back. */
function cost(row: usize, distance: i32, index: i32, care: u64): i32 {
  let bytes = 0;
  for (let e = 0; e < 8; ++e) {
    const matter = bytesOf(care >> (e << 3));
    const word = load<u64>(row + (<usize>e << 3));
    const mask = differing(word & matter, predicted(row, distance, index, e) & matter);
    if (mask) bytes += 1 + popcnt(mask);
  }
  return bytes;
}

/**
 * Compresses the block at `block` to `out` (room for 4,800 bytes). `cares` are 64 words, one for each row: the
 * placements that matter. The others are overwritten with what they will come back as. Returns the length, 0 if
 * all that matters is zero.
 */
export function encodeBlock(block: usize, out: usize, cares: usize): i32 {
  memory.fill(out, 0, CONTROLS);
  let end = out + CONTROLS;
  let used = false;
  for (let index = 0; index < 64; ++index) {
    const row = block + <usize>index * ROW;
    const care = load<u64>(cares + (<usize>index << 3));
    let best = 0;
    let least = cost(row, 0, index, care);
    if (least && index >= 1) {
      const bytes = cost(row, 1, index, care);
      if (bytes < least) {
        least = bytes;
        best = 1;
      }
    }
    if (least && index >= 8) {
      const bytes = cost(row, 8, index, care);
      if (bytes < least) {
        least = bytes;
        best = 2;
      }
    }
    const control = out + (index >> 1);
    const nibble = best | (least ? 4 : 0);
    if (nibble) used = true;
    store<u8>(control, load<u8>(control) | <u8>(nibble << ((index & 1) << 2)));
    const distance = best == 2 ? 8 : best;
    const eighths = end;
    if (least) ++end;
    let flags = 0;
    for (let e = 0; e < 8; ++e) {
      const at = row + (<usize>e << 3);
      const matter = bytesOf(care >> (e << 3));
      const guess = predicted(row, distance, index, e);
      const word = (load<u64>(at) & matter) | (guess & ~matter);
      store<u64>(at, word);
      const mask = differing(word, guess);
      if (!mask) continue;
      flags |= 1 << e;
      store<u8>(end++, <u8>mask);
      for (let bits = mask; bits; bits &= bits - 1) store<u8>(end++, <u8>(word >> (ctz(bits) << 3)));
    }
    if (least) store<u8>(eighths, <u8>flags);
  }
  return used ? <i32>(end - out) : 0;
}

/** Bytes of a block of bits. */
export const BIT_BLOCK: usize = BLOCK / 8;

/** How far back a row of bits may be predicted from: neighbours along rank, file and diagonal, and nothing. */
export const BACK: StaticArray<i32> = [0, 1, 2, 7, 8, 9, 16, 18];

/** The row of bits predicted, `distance` rows back. */
@inline function predictedBits(row: usize, distance: i32, index: i32): u64 {
  return distance == 0 || index < distance ? 0 : load<u64>(row - (<usize>distance << 3));
}

/** The same as `encodeBlock` for a block of bits; `out` has room for 610 bytes. */
export function encodeBits(block: usize, out: usize, cares: usize): i32 {
  memory.fill(out, 0, CONTROLS);
  let end = out + CONTROLS;
  let used = false;
  for (let index = 0; index < 64; ++index) {
    const row = block + (<usize>index << 3);
    const care = load<u64>(cares + (<usize>index << 3));
    const word = load<u64>(row);
    let best = 0;
    let least = 9;
    for (let way = 0; way < 8 && least > 0; ++way) {
      const bytes: i32 = popcnt(differing(word & care, predictedBits(row, BACK[way], index) & care));
      if (bytes >= least) continue;
      least = bytes;
      best = way;
    }
    const nibble = best | (least ? 8 : 0);
    if (nibble) used = true;
    const control = out + (index >> 1);
    store<u8>(control, load<u8>(control) | <u8>(nibble << ((index & 1) << 2)));
    const guess = predictedBits(row, BACK[best], index);
    const known = (word & care) | (guess & ~care);
    store<u64>(row, known);
    if (!least) continue;
    const mask = differing(known, guess);
    store<u8>(end++, <u8>mask);
    for (let bits = mask; bits; bits &= bits - 1) store<u8>(end++, <u8>((known ^ guess) >> (ctz(bits) << 3)));
  }
  return used ? <i32>(end - out) : 0;
}

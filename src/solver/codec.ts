// Undoing the kernel's compression of a block; the format is described in src/solver/kernel/codec.ts.

/** Placements (bytes) in a block. */
export const BLOCK_BITS = 12;
export const BLOCK = 1 << BLOCK_BITS;
const CONTROLS = 32;
const BACK = [0, 64, 512] as const;

/**
 * Unpacks the block at `from` in `source` to `at` in `target`, where BLOCK bytes must be zero. Returns how many
 * bytes of the source it took.
 */
export function decodeBlock(source: Uint8Array, from: number, target: Uint8Array, at: number): number {
  let p = from + CONTROLS;
  for (let row = 0; row < 64; ++row) {
    const nibble = (source[from + (row >> 1)] >> ((row & 1) << 2)) & 7;
    if (nibble === 0) continue;
    const to = at + row * 64;
    const back = BACK[nibble & 3];
    if (back > 0) target.copyWithin(to, to - back, to - back + 64);
    if (nibble < 4) continue;
    const flags = source[p++];
    for (let e = 0; e < 8; ++e) {
      if (!((flags >> e) & 1)) continue;
      const mask = source[p++];
      const eighth = to + e * 8;
      for (let n = 0; n < 8; ++n) if ((mask >> n) & 1) target[eighth + n] = source[p++];
    }
  }
  return p - from;
}

/** FNV-1a, 32 bits (Fowler, Noll, Vo; draft-eastlake-fnv), of a part of `bytes`. */
export function checksum(bytes: Uint8Array, from: number, to: number): number {
  let hash = 0x811c9dc5;
  for (let p = from; p < to; ++p) hash = Math.imul(hash ^ bytes[p], 0x01000193);
  return hash >>> 0;
}

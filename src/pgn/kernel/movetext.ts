// The kernel of the game finder (AssemblyScript): movetext sixteen bytes at a time.
//
// It counts what may be captures and looks for pawn captures without a sign, up to the next byte at which the finder
// has to think. src/pgn/movescan.ts has the twin in TypeScript, which says the same a byte at a time.

/** Bytes before the text, so that the byte before the first can be read. */
const ROOM: i32 = 64;

let captures: i32 = 0;
let unsigned: i32 = 0;

/** Makes room for `length` bytes of text, and gives the address at which to put them. Zeros follow the text. */
export function room(length: i32): i32 {
  const pages = (ROOM + length + 64 + 0xffff) >>> 16;
  const missing = pages - memory.size();
  if (missing > 0) memory.grow(missing);
  memory.fill(ROOM + length, 0, 64);
  return ROOM;
}

/** Captures counted since the last call. */
export function takeCaptures(): i32 {
  const count = captures;
  captures = 0;
  return count;
}

/** Whether a pawn capture without a sign has been seen since the last call. */
export function takeUnsigned(): i32 {
  const seen = unsigned;
  unsigned = 0;
  return seen;
}

/** Where from `from` on the first of [ { ; % stands, or `end`; both count from the start of the text. */
export function scan(from: i32, end: i32): i32 {
  let count = 0;
  const stop = ROOM + end;
  for (let p = ROOM + from; p < stop; p += 16) {
    const v = v128.load(p);
    const stops = v128.or(
      v128.or(i8x16.eq(v, i8x16.splat(0x5b)), i8x16.eq(v, i8x16.splat(0x7b))),
      v128.or(i8x16.eq(v, i8x16.splat(0x3b)), i8x16.eq(v, i8x16.splat(0x25))),
    );
    // x : X
    const signs = v128.or(
      i8x16.eq(v128.or(v, i8x16.splat(0x20)), i8x16.splat(0x78)),
      i8x16.eq(v, i8x16.splat(0x3a)),
    );
    // a file's letter before another, not inside a word
    const before = i8x16.sub(v128.or(v128.load(p - 1), i8x16.splat(0x20)), i8x16.splat(0x61));
    const files = v128.and(
      i8x16.lt_u(i8x16.sub(v, i8x16.splat(0x61)), i8x16.splat(8)),
      i8x16.lt_u(i8x16.sub(v128.load(p + 1), i8x16.splat(0x61)), i8x16.splat(8)),
    );
    const pairs = v128.andnot(files, i8x16.lt_u(before, i8x16.splat(26)));
    const at = i8x16.bitmask(stops);
    const seen = at === 0 ? 0xffff : (at & -at) - 1;
    count += popcnt(i8x16.bitmask(signs) & seen);
    unsigned |= i8x16.bitmask(pairs) & seen;
    if (at !== 0) {
      captures += count;
      return min(p - ROOM + ctz(at), end);
    }
  }
  captures += count;
  return end;
}

// The kernel of the game finder (AssemblyScript): sixteen bytes at a time.
//
// It passes over whole games that are plain, and over movetext up to the next byte at which the finder has to think:
// what may be captures is counted, pawn captures without a sign are looked for. src/pgn/scan/game-finder.ts says what a
// game is, a byte at a time; whatever is not plain is left to it. Addresses count from the start of the kernel's memory.

import { CLOSE_COMMENT, CLOSE_TAG, NEWLINE, OPEN_COMMENT, OPEN_TAG, PERCENT, QUOTE, SPACE } from "./bytes";

export { addPiece, begin, clearTarget, mayReach, playNext } from "./material-filter";
export { boardAddress } from "./board";

/** Where the text may begin; what is found is written at the start of memory, and tables stand between. */
const ROOM: i32 = 4096;

// Addresses of what is found, in 32-bit words.
const TEXT: i32 = 0;
const CAPTURES: i32 = 4;
const UNSIGNED: i32 = 8;

const NOT_PLAIN: i32 = -1;

let captures: i32 = 0;
let unsigned: i32 = 0;

/** Makes room for `length` bytes of text, and gives the address at which to put them. */
export function room(length: i32): i32 {
  const pages = (ROOM + length + 64 + 0xffff) >>> 16;
  const missing = pages - memory.size();
  if (missing > 0) memory.grow(missing);
  return ROOM;
}

/** Sets a text that has been put there, with zeros before it and behind. */
export function setText(start: i32, end: i32): void {
  store<u8>(start - 1, 0);
  memory.fill(end, 0, 64);
}

@inline function isLetter(byte: u8): bool {
  return ((byte | 32) - 0x61) < 26;
}

@inline function isNamePart(byte: u8): bool {
  return isLetter(byte) || (byte - 0x30) < 10 || byte == 0x5f;
}

/**
 * Counts what may be captures from `from` up to the first of [ { ; % or `end`, and gives its address. Adds to
 * `captures` and `unsigned`.
 */
@inline function pass(from: i32, end: i32): i32 {
  let count = 0;
  let seenPairs = 0;
  for (let p = from; p < end; p += 16) {
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
    seenPairs |= i8x16.bitmask(pairs) & seen;
    if (at !== 0) {
      captures += count;
      unsigned |= seenPairs;
      return min(p + ctz(at), end);
    }
  }
  captures += count;
  unsigned |= seenPairs;
  return end;
}

/** Begins to count. */
function begin(): void {
  captures = 0;
  unsigned = 0;
}

/** Writes down what has been counted. */
function note(): void {
  store<i32>(CAPTURES, captures);
  store<i32>(UNSIGNED, unsigned);
}

/** Address of the first of [ { ; % from `from` on, or `end`; notes what was passed over. */
export function scan(from: i32, end: i32): i32 {
  begin();
  const stop = pass(from, end);
  note();
  return stop;
}

/** Where the value of the tag at `p` begins, or NOT_PLAIN if there is no tag. */
@inline function tagValue(p: i32): i32 {
  let q = p + 1;
  if (load<u8>(p) != OPEN_TAG || !isLetter(load<u8>(q))) return NOT_PLAIN;
  do ++q;
  while (isNamePart(load<u8>(q)));
  while (load<u8>(q) == SPACE || load<u8>(q) == 9) ++q;
  return load<u8>(q) == QUOTE ? q + 1 : NOT_PLAIN;
}

/** Behind the bracket that closes the tag whose value begins at `p`; NOT_PLAIN if its line ends before. */
@inline function tagEnd(p: i32, end: i32): i32 {
  for (; p < end; p += 16) {
    const v = v128.load(p);
    let at = i8x16.bitmask(v128.or(i8x16.eq(v, i8x16.splat(QUOTE)), i8x16.eq(v, i8x16.splat(NEWLINE))));
    for (; at; at &= at - 1) {
      let q = p + ctz(at);
      if (load<u8>(q) == NEWLINE) return NOT_PLAIN;
      do ++q;
      while (load<u8>(q) == SPACE);
      if (load<u8>(q) == CLOSE_TAG) return q + 1;
    }
  }
  return NOT_PLAIN;
}

/** Address of the first of [ } from `p` on, inside a comment, or `end`. */
export function commentStop(p: i32, end: i32): i32 {
  for (; p < end; p += 16) {
    const v = v128.load(p);
    const at = i8x16.bitmask(v128.or(i8x16.eq(v, i8x16.splat(OPEN_TAG)), i8x16.eq(v, i8x16.splat(CLOSE_COMMENT))));
    if (at) return min(p + ctz(at), end);
  }
  return end;
}

/** Behind the brace that closes the comment before `p`; NOT_PLAIN if there is none, or if the comment may hold a tag. */
@inline function commentEnd(p: i32, end: i32): i32 {
  for (p = commentStop(p, end); p < end; p = commentStop(p, end)) {
    if (load<u8>(p) == CLOSE_COMMENT) return p + 1;
    do ++p;
    while (load<u8>(p) == SPACE);
    if (isLetter(load<u8>(p))) return NOT_PLAIN;
  }
  return NOT_PLAIN;
}

/** Whether the tag at `p` is the Event. */
@inline function isEvent(p: i32): bool {
  return load<u32>(p + 1) == 0x6e657645 && load<u8>(p + 5) == 0x74 && !isNamePart(load<u8>(p + 6));
}

/** Behind the tag section that begins at `p`; NOT_PLAIN also if it tells of another start or variant. */
function sectionEnd(p: i32, end: i32): i32 {
  let seenEvent = false;
  do {
    const value = tagValue(p);
    if (value < 0) return NOT_PLAIN;
    const name = load<u32>(p + 1);
    if ((name & 0xffffff) == 0x4e4546) return NOT_PLAIN; // FEN…
    if ((load<u64>(p + 1) & 0xffffffffffffff) == 0x746e6169726156) return NOT_PLAIN; // Variant…
    if (isEvent(p)) {
      if (seenEvent) return p;
      seenEvent = true;
    }
    p = tagEnd(value, end);
    if (p < 0) return NOT_PLAIN;
    let lines = 0;
    for (; p < end && load<u8>(p) <= SPACE; ++p) lines += i32(load<u8>(p) == NEWLINE);
    if (load<u8>(p) == PERCENT) return NOT_PLAIN;
    // tags behind a blank line may be those of another game
    if (lines > 1 && load<u8>(p) == OPEN_TAG && tagValue(p) >= 0 && !(seenEvent && isEvent(p))) return NOT_PLAIN;
  } while (load<u8>(p) == OPEN_TAG);
  return p;
}

/**
 * Where the game that begins at `p` ends, if it is plain: a section of whole tags at the usual start, then movetext and
 * whole comments up to a tag at the start of a line, or to `end`. Notes where its movetext begins, and its captures.
 */
export function plainGame(p: i32, end: i32): i32 {
  begin();
  p = sectionEnd(p, end);
  if (p < 0) return NOT_PLAIN;
  store<i32>(TEXT, p);
  if (p < end && load<u8>(p) != OPEN_TAG) {
    for (;;) {
      const from = p;
      p = pass(from, end);
      if (p == end) break;
      const byte = load<u8>(p);
      if (byte == OPEN_COMMENT) {
        p = commentEnd(p + 1, end);
        if (p < 0) return NOT_PLAIN;
      } else {
        if (byte != OPEN_TAG || p == from || load<u8>(p - 1) != NEWLINE || tagValue(p) < 0) return NOT_PLAIN;
        break;
      }
    }
  }
  note();
  return p;
}

// The tokens of a game's main line (AssemblyScript): where each is and what kind of move it plainly is.
//
// Comments, side lines, glyphs, numbers and words are passed over by the rules of src/pgn/game/movetext.ts. What
// is not plainly a move is called unclear, and the game is then left to that reader and the rules library.

import {
  CLOSE_COMMENT, CLOSE_SIDE, CLOSE_TAG, DASH, DIGIT_OR_DOT, DOT, ENDS_TOKEN, FILE, GLYPH, NEWLINE, OPEN_COMMENT,
  OPEN_SIDE, OPEN_TAG, PERCENT, PIECE_LETTER, RANK, SEMICOLON, SIGN, SPACE, TAIL, WORD, is, isCastling, isDigit,
} from "./bytes";

// What a token is.
/** A move of a piece by its letter, not a capture; or castling. */
export const PIECE_MOVE: i32 = 1;
export const PIECE_CAPTURE: i32 = 2;
export const PAWN_MOVE: i32 = 3;
export const PROMOTION: i32 = 4;
export const PAWN_CAPTURE: i32 = 5;
/** Perhaps a move, perhaps a result, perhaps neither. */
export const UNCLEAR: i32 = 6;

/** The token at hand: where it begins, where it ends, what it is. */
export let token: i32 = 0;
export let tokenEnd: i32 = 0;
export let kind: i32 = UNCLEAR;
/** Where reading goes on, and the movetext's end. */
let place: i32 = 0;
let end: i32 = 0;
let lineStart: bool = true;
/** A move has been seen: the next result ends the main line. */
let moves: bool = false;

/** Begins the movetext from `from` to `to`. */
export function setMovetext(from: i32, to: i32): void {
  place = from;
  end = to;
  lineStart = true;
  moves = false;
}

function isResult(p: i32, to: i32): bool {
  const length = to - p;
  if (length == 1) return load<u8>(p) == 0x2a; // *
  // 1-0, 0-1
  if (length == 3) {
    const three = load<u32>(p) & 0xffffff;
    return three == 0x302d31 || three == 0x312d30;
  }
  // 1/2-1/2
  return length == 7 && (load<u64>(p) & 0xffffffffffffff) == 0x322f312d322f31;
}

/**
 * Whether the bytes from `p` to `to` are certainly neither a move, nor a null move, nor a result: "N", "+=", "with".
 * False for some words, too: the test is a quick one.
 */
function isWord(p: i32, to: i32): bool {
  if (is(p, FILE) || isCastling(load<u8>(p))) return false;
  if (to - p == 2 && load<u16>(p) == 0x2d2d) return false; // --
  for (; p < to; ++p) if (!is(p, WORD)) return false;
  return true;
}

/** Kind of the token from `p` to `to`. */
function kindOf(p: i32, to: i32): i32 {
  let q = p;
  let takes = false;
  let last = false; // it reaches the last rank
  const castles = isCastling(load<u8>(p));
  const piece = is(p, PIECE_LETTER);
  if (piece) {
    // file, rank or square it comes from; sign; square it goes to, the last file and rank
    ++q;
    let squares = 0;
    for (; q < to && squares < 4; ++q) {
      if (is(q, FILE | RANK)) ++squares;
      else if (is(q, SIGN) && !takes) takes = true;
      else break;
    }
    if (squares < 2 || !is(q - 1, RANK) || !is(q - 2, FILE)) return UNCLEAR;
  } else if (is(p, FILE)) {
    ++q;
    if (is(q, SIGN) && is(q + 1, FILE)) {
      takes = true;
      q += 2;
    }
    if (q >= to || !is(q, RANK)) return UNCLEAR;
    last = load<u8>(q) == 0x31 || load<u8>(q) == 0x38;
    ++q;
  } else if (castles) {
    while (q < to && (isCastling(load<u8>(q)) || load<u8>(q) == DASH)) ++q;
    if (q - p != 3 && q - p != 5) return UNCLEAR;
  } else {
    return UNCLEAR;
  }
  while (q < to && is(q, TAIL)) ++q;
  if (q < to) return UNCLEAR;
  if (takes) return piece ? PIECE_CAPTURE : PAWN_CAPTURE;
  return piece || castles ? PIECE_MOVE : last ? PROMOTION : PAWN_MOVE;
}

/** Address of the first `byte` from `p` on, or the end. */
@inline function find(byte: u8, p: i32): i32 {
  for (; p < end; p += 16) {
    const found = i8x16.bitmask(i8x16.eq(v128.load(p), i8x16.splat(byte)));
    if (found) return min(p + ctz(found), end);
  }
  return end;
}

/** Behind the side line that begins at `p`; -1 if it never closes. */
function endOfSideLine(p: i32, lineComments: bool): i32 {
  const open = load<u8>(p);
  const close = open == OPEN_SIDE ? CLOSE_SIDE : CLOSE_TAG;
  for (let depth = 0; p < end; ++p) {
    const byte = load<u8>(p);
    if (byte == OPEN_COMMENT) {
      p = find(CLOSE_COMMENT, p);
      if (p >= end) return -1;
    } else if (byte == SEMICOLON && lineComments) {
      p = find(NEWLINE, p);
    } else if (byte == open) {
      ++depth;
    } else if (byte == close && --depth == 0) {
      return p + 1;
    }
  }
  return -1;
}

@inline function take(from: i32, to: i32, what: i32): bool {
  token = from;
  tokenEnd = to;
  kind = what;
  place = to;
  return true;
}

/** Goes to the next token; false at the end. Something that never closes is an unclear token. */
export function next(): bool {
  let p = place;
  while (p < end) {
    const byte = load<u8>(p);
    if (byte <= SPACE) {
      if (byte == NEWLINE) lineStart = true;
      ++p;
      continue;
    }
    if ((byte == PERCENT && lineStart) || byte == SEMICOLON) {
      p = find(NEWLINE, p);
      continue;
    }
    lineStart = false;
    if (byte == OPEN_COMMENT) {
      const close = find(CLOSE_COMMENT, p);
      if (close >= end) return take(p, end, UNCLEAR);
      p = close + 1;
      continue;
    }
    if (byte == OPEN_SIDE || byte == OPEN_TAG) {
      let close = endOfSideLine(p, true);
      // a semicolon that begins no comment must not hide the end
      if (close < 0) close = endOfSideLine(p, false);
      if (close < 0) return take(p, end, UNCLEAR);
      p = close;
      continue;
    }
    if (byte == GLYPH) {
      for (++p; p < end && isDigit(load<u8>(p)); ++p);
      continue;
    }
    if (is(p, ENDS_TOKEN)) {
      ++p;
      continue;
    }
    // numbers and dots first; the digits of 1-0 and 0-0 are none
    const start = p;
    while (p < end && is(p, DIGIT_OR_DOT)) ++p;
    if (p < end && !is(p, ENDS_TOKEN)) while (p > start && load<u8>(p - 1) != DOT) --p;
    const from = p;
    while (p < end && !is(p, ENDS_TOKEN)) ++p;
    if (from == p) continue;
    const what = kindOf(from, p);
    if (what != UNCLEAR) moves = true;
    else if (isWord(from, p)) continue;
    else if (moves && isResult(from, p)) return false;
    return take(from, p, what);
  }
  place = p;
  return false;
}

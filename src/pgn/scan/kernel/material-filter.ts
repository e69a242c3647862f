// The cut in the kernel (AssemblyScript), for games from the usual start: src/pgn/scan/material-filter.ts with its words (words.ts) and
// its board (lean.ts), line for line. Those say why; a property test holds both to the same.

const NEWLINE: u8 = 10;
const SPACE: u8 = 32;
const DASH: u8 = 45;
const DOT: u8 = 46;
const OPEN_SIDE: u8 = 40;
const CLOSE_SIDE: u8 = 41;
const OPEN_TAG: u8 = 91;
const CLOSE_TAG: u8 = 93;
const OPEN_COMMENT: u8 = 123;
const CLOSE_COMMENT: u8 = 125;
const REST: u8 = 59;
const GLYPH: u8 = 36;
const PERCENT: u8 = 37;
const CASTLES: u8 = 79;

// What a byte is, bit by bit.
const FILE: u8 = 1;
const RANK: u8 = 2;
const SIGN: u8 = 4;
const TAIL: u8 = 8;
const ENDS_WORD: u8 = 16;
const DIGIT: u8 = 32;
const PIECE_LETTER: u8 = 64;
const DIGIT_OR_DOT: u8 = 128;

// What a word is.
const PIECE: i32 = 1;
const PIECE_TAKES: i32 = 2;
const PAWN: i32 = 3;
const PROMOTES: i32 = 4;
const PAWN_TAKES: i32 = 5;
const UNCLEAR: i32 = 6;

const PAWN_MAN: i32 = 1;
const KNIGHT: i32 = 2;
const BISHOP: i32 = 3;
const ROOK: i32 = 4;
const QUEEN: i32 = 5;
const KING: i32 = 6;
const BLACK: i32 = 8;

const CLASSES = memory.data(256);
/** White's man by his letter. */
const MEN = memory.data(256);
/** Letters of the pieces that the target has. */
const LETTERS = memory.data(256);
const BOARD = memory.data(128);
const USUAL = memory.data(128);
// along ranks and files first, then across
const WAYS = memory.data<i8>([1, -1, 16, -16, 15, 17, -15, -17]);
const LEAPS = memory.data<i8>([14, 18, 31, 33, -14, -18, -31, -33]);
const KINGS = memory.data(2);
const FIRST_RANK = memory.data<u8>([4, 2, 3, 5, 6, 3, 2, 4]);

function mark(from: i32, to: i32, bit: u8): void {
  for (let byte = from; byte <= to; ++byte) store<u8>(CLASSES + byte, load<u8>(CLASSES + byte) | bit);
}

function man(letter: i32, kind: i32): void {
  store<u8>(MEN + letter, <u8>kind);
  if (kind != PAWN_MAN) mark(letter, letter, PIECE_LETTER);
}

mark(97, 104, FILE);
mark(49, 56, RANK);
mark(120, 120, SIGN);
mark(58, 58, SIGN);
mark(88, 88, SIGN);
mark(48, 57, DIGIT | DIGIT_OR_DOT);
mark(46, 46, DIGIT_OR_DOT);
mark(0, 32, ENDS_WORD);
for (let sign: i32 = 0; sign < 256; ++sign) {
  const byte = <u8>sign;
  if (
    byte == OPEN_SIDE ||
    byte == CLOSE_SIDE ||
    byte == OPEN_TAG ||
    byte == CLOSE_TAG ||
    byte == OPEN_COMMENT ||
    byte == CLOSE_COMMENT ||
    byte == REST ||
    byte == GLYPH
  )
    mark(sign, sign, ENDS_WORD);
  // + # ! ? = Q R B N
  if (
    byte == 43 || byte == 35 || byte == 33 || byte == 63 || byte == 61 ||
    byte == 81 || byte == 82 || byte == 66 || byte == 78
  )
    mark(sign, sign, TAIL);
}
man(80, PAWN_MAN);
man(78, KNIGHT);
man(66, BISHOP);
man(82, ROOK);
man(81, QUEEN);
man(75, KING);
for (let file: i32 = 0; file < 8; ++file) {
  const kind = load<u8>(FIRST_RANK + file);
  store<u8>(USUAL + file, kind);
  store<u8>(USUAL + 16 + file, <u8>PAWN_MAN);
  store<u8>(USUAL + 96 + file, <u8>(PAWN_MAN + BLACK));
  store<u8>(USUAL + 112 + file, kind + <u8>BLACK);
}

@inline function is(at: i32, bits: u8): bool {
  return (load<u8>(CLASSES + load<u8>(at)) & bits) != 0;
}

let usualMen: u64 = 0;
for (let at: i32 = 0; at < 128; ++at) usualMen += weight(load<u8>(USUAL + at));

/** What a man adds to `men`: four bits for each kind but the kings, White's then Black's. */
function weight(man: i32): u64 {
  const kind = man & 7;
  return kind == 0 || kind == KING ? 0 : (1 as u64) << (4 * (kind - 1 + (man < BLACK ? 0 : 5)));
}

// --- words

let word: i32 = 0;
let wordEnd: i32 = 0;
let kind: i32 = UNCLEAR;
let place: i32 = 0;
let end: i32 = 0;
let lineStart: bool = true;
let moves: bool = false;

function setWords(from: i32, to: i32): void {
  place = from;
  end = to;
  lineStart = true;
  moves = false;
}

function isResult(p: i32, to: i32): bool {
  const length = to - p;
  if (length == 1) return load<u8>(p) == 42;
  // 1-0, 0-1
  if (length == 3) {
    const three = load<u32>(p) & 0xffffff;
    return three == 0x302d31 || three == 0x312d30;
  }
  // 1/2-1/2
  return length == 7 && (load<u64>(p) & 0xffffffffffffff) == 0x322f312d322f31;
}

function kindOf(p: i32, to: i32): i32 {
  const first = load<u8>(p);
  let q = p;
  let takes = false;
  let last = false;
  const piece = is(p, PIECE_LETTER);
  if (piece) {
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
    last = load<u8>(q) == 49 || load<u8>(q) == 56;
    ++q;
  } else if (first == CASTLES) {
    while (q < to && (load<u8>(q) == CASTLES || load<u8>(q) == DASH)) ++q;
    if (q - p != 3 && q - p != 5) return UNCLEAR;
  } else {
    return UNCLEAR;
  }
  while (q < to && is(q, TAIL)) ++q;
  if (q < to) return UNCLEAR;
  if (takes) return piece ? PIECE_TAKES : PAWN_TAKES;
  return piece || first == CASTLES ? PIECE : last ? PROMOTES : PAWN;
}

function endOfSideLine(p: i32, lineComments: bool): i32 {
  const open = load<u8>(p);
  const close = open == OPEN_SIDE ? CLOSE_SIDE : CLOSE_TAG;
  for (let depth = 0; p < end; ++p) {
    const byte = load<u8>(p);
    if (byte == OPEN_COMMENT) {
      while (p < end && load<u8>(p) != CLOSE_COMMENT) ++p;
      if (p >= end) return -1;
    } else if (byte == REST && lineComments) {
      while (p < end && load<u8>(p) != NEWLINE) ++p;
    } else if (byte == open) {
      ++depth;
    } else if (byte == close && --depth == 0) {
      return p + 1;
    }
  }
  return -1;
}

@inline function take(from: i32, to: i32, what: i32): bool {
  word = from;
  wordEnd = to;
  kind = what;
  place = to;
  return true;
}

function next(): bool {
  let p = place;
  while (p < end) {
    const byte = load<u8>(p);
    if (byte <= SPACE) {
      if (byte == NEWLINE) lineStart = true;
      ++p;
      continue;
    }
    if ((byte == PERCENT && lineStart) || byte == REST) {
      while (p < end && load<u8>(p) != NEWLINE) ++p;
      continue;
    }
    lineStart = false;
    if (byte == OPEN_COMMENT) {
      const start = p;
      while (p < end && load<u8>(p) != CLOSE_COMMENT) ++p;
      if (p >= end) return take(start, end, UNCLEAR);
      ++p;
      continue;
    }
    if (byte == OPEN_SIDE || byte == OPEN_TAG) {
      let close = endOfSideLine(p, true);
      if (close < 0) close = endOfSideLine(p, false);
      if (close < 0) return take(p, end, UNCLEAR);
      p = close;
      continue;
    }
    if (byte == GLYPH) {
      for (++p; p < end && is(p, DIGIT); ++p);
      continue;
    }
    if (is(p, ENDS_WORD)) {
      ++p;
      continue;
    }
    const start = p;
    while (p < end && is(p, DIGIT_OR_DOT)) ++p;
    if (p < end && p > start && load<u8>(p - 1) != DOT && !is(p, ENDS_WORD)) p = start;
    const from = p;
    while (p < end && !is(p, ENDS_WORD)) ++p;
    if (from == p) continue;
    const what = kindOf(from, p);
    if (what != UNCLEAR) moves = true;
    else if (moves && isResult(from, p)) return false;
    return take(from, p, what);
  }
  place = p;
  return false;
}

function hasSign(): bool {
  for (let p = word; p < wordEnd; ++p) if (is(p, SIGN)) return true;
  return false;
}

// --- the board

let black: bool = false;
let count: i32 = 0;
let men: u64 = 0;

@inline function at(square: i32): i32 {
  return load<u8>(BOARD + square);
}

@inline function put(square: i32, man: i32): void {
  store<u8>(BOARD + square, <u8>man);
}

function setUsual(): void {
  memory.copy(BOARD, USUAL, 128);
  store<u8>(KINGS, 4);
  store<u8>(KINGS, 116, 1);
  black = false;
  count = 32;
  men = usualMen;
}

function takeOff(square: i32): void {
  const man = at(square);
  if (man == 0) return;
  put(square, 0);
  --count;
  men -= weight(man);
}

function shift(from: i32, to: i32): void {
  const man = at(from);
  put(to, man);
  put(from, 0);
  if ((man & 7) == KING) store<u8>(KINGS + (man >> 3), <u8>to);
}

function inCheck(colour: i32): bool {
  const king = <i32>load<u8>(KINGS + colour);
  const other = colour == 0 ? BLACK : 0;
  for (let n = 0; n < 8; ++n) {
    const leap = king + load<i8>(LEAPS + n);
    if ((leap & 0x88) == 0 && at(leap) == other + KNIGHT) return true;
  }
  for (let n = 0; n < 8; ++n) {
    const step = <i32>load<i8>(WAYS + n);
    const liner = n < 4 ? ROOK : BISHOP;
    for (let square = king + step; (square & 0x88) == 0; square += step) {
      const stands = at(square);
      if (stands == 0) continue;
      if (stands == other + liner || stands == other + QUEEN) return true;
      break;
    }
  }
  const ahead = colour == 0 ? 16 : -16;
  for (let side = -1; side <= 1; side += 2) {
    const square = king + ahead + side;
    if ((square & 0x88) == 0 && at(square) == other + PAWN_MAN) return true;
  }
  return false;
}

function exposes(from: i32, to: i32): bool {
  const man = at(from);
  const taken = at(to);
  put(to, man);
  put(from, 0);
  const exposed = inCheck(man >> 3);
  put(from, man);
  put(to, taken);
  return exposed;
}

function origin(man: i32, to: i32, file: i32, rank: i32, tested: bool): i32 {
  const kind = man & 7;
  const slides = kind != KNIGHT && kind != KING;
  const steps = kind == KNIGHT ? LEAPS : kind == BISHOP ? WAYS + 4 : WAYS;
  const length = kind == ROOK || kind == BISHOP ? 4 : 8;
  let found = -1;
  for (let n = 0; n < length; ++n) {
    const step = <i32>load<i8>(steps + n);
    for (let square = to + step; (square & 0x88) == 0; square += step) {
      const stands = at(square);
      const named = (file < 0 || (square & 7) == file) && (rank < 0 || square >> 4 == rank);
      if (stands == man && named && !(tested && exposes(square, to))) {
        if (found >= 0) return tested ? -1 : origin(man, to, file, rank, true);
        found = square;
      }
      if (stands != 0 || !slides) break;
    }
  }
  return found;
}

function castle(short: bool): bool {
  const colour: i32 = black ? 1 : 0;
  const king = <i32>load<u8>(KINGS + colour);
  const rank = king & 0x70;
  const rookMan = ROOK + colour * BLACK;
  let rook = -1;
  for (let file = king & 7; file >= 0 && file < 8; file += short ? 1 : -1)
    if (at(rank + file) == rookMan) rook = rank + file;
  if (rook < 0) return false;
  put(king, 0);
  put(rook, 0);
  put(rank + (short ? 5 : 3), rookMan);
  const goal = rank + (short ? 6 : 2);
  store<u8>(KINGS + colour, <u8>goal);
  put(goal, KING + colour * BLACK);
  return true;
}

@inline function squareAt(p: i32): i32 {
  return (<i32>load<u8>(p + 1) - 49) * 16 + <i32>load<u8>(p) - 97;
}

function pawn(from: i32, to: i32, kind: i32): bool {
  const colour = black ? BLACK : 0;
  const step = black ? -16 : 16;
  const man = PAWN_MAN + colour;
  const goal = kind == PAWN_TAKES ? from + 2 : from;
  const square = squareAt(goal);
  let origin = ((square - step) >> 4) * 16 + <i32>load<u8>(from) - 97;
  if ((origin & 0x88) != 0) return false;
  if (kind == PAWN_TAKES) {
    if (at(square) == 0) {
      // in passing
      if (at(square - step) != (man ^ BLACK)) return false;
      takeOff(square - step);
    }
    takeOff(square);
  } else {
    if (at(square) != 0) return false;
    if (at(origin) == 0) origin -= step;
  }
  if ((origin & 0x88) != 0 || at(origin) != man) return false;
  shift(origin, square);
  const rank = square >> 4;
  if (kind == PROMOTES || rank == 0 || rank == 7) {
    let made = QUEEN;
    for (let p = goal + 2; p < to; ++p) {
      const named = <i32>load<u8>(MEN + load<u8>(p));
      if (named > PAWN_MAN && named < KING) made = named;
    }
    if (load<u8>(to) == OPEN_SIDE) return false;
    takeOff(square);
    put(square, made + colour);
    ++count;
    men += weight(made + colour);
  }
  return true;
}

function piece(from: i32, to: i32, takes: bool): bool {
  const man = <i32>load<u8>(MEN + load<u8>(from)) + (black ? BLACK : 0);
  let p = from + 1;
  while (p < to && is(p, FILE | RANK | SIGN)) ++p;
  const square = squareAt(p - 2);
  let file = -1;
  let rank = -1;
  for (let d = from + 1; d < p - 2; ++d) {
    if (is(d, FILE)) file = <i32>load<u8>(d) - 97;
    else if (is(d, RANK)) rank = <i32>load<u8>(d) - 49;
  }
  if (takes == (at(square) == 0)) return false;
  const start = origin(man, square, file, rank, false);
  if (start < 0) return false;
  takeOff(square);
  shift(start, square);
  return true;
}

function play(): bool {
  if (kind == UNCLEAR) return false;
  const done =
    load<u8>(word) == CASTLES
      ? castle(load<u8>(word + 3) != DASH)
      : kind == PIECE || kind == PIECE_TAKES
        ? piece(word, wordEnd, kind == PIECE_TAKES)
        : pawn(word, wordEnd, kind);
  black = !black;
  return done;
}

// --- the cut

let targetMen: i32 = 0;
let targetSide: u64 = 0;
let otherSide: u64 = 0;

/** Sets the target: its men, and what they are with White and with Black as the attacker. */
export function setTarget(count: i32, side: u64, other: u64): void {
  targetMen = count;
  targetSide = side;
  otherSide = other;
  memory.fill(LETTERS, 0, 256);
}

/** A letter of the target's pieces. */
export function addLetter(letter: i32): void {
  store<u8>(LETTERS + letter, 1);
}

/** Behind the capture whose sign stands at `p` in a text, or -1 if the word is not plainly one. */
function captureEnd(start: i32, p: i32, to: i32): i32 {
  let from = p - 1;
  if (from < start + 4) return -1; // so near to the start nothing is looked for before it
  if (is(from, FILE) && !is(from - 1, FILE | RANK | PIECE_LETTER)) {
    // a pawn
  } else {
    for (let n = 0; n < 2 && is(from, FILE | RANK); ++n) --from;
    if (!is(from, PIECE_LETTER)) return -1;
  }
  // its number may stand before it
  --from;
  if (load<u8>(from) == DOT) while (from >= start && is(from, DIGIT_OR_DOT)) --from;
  if ((from >= start && !is(from, ENDS_WORD)) || !is(p + 1, FILE) || !is(p + 2, RANK)) return -1;
  p += 3;
  while (is(p, TAIL)) ++p;
  return p >= to || is(p, ENDS_WORD) ? p : -1;
}

/**
 * Behind the capture that is the last one needed, sixteen bytes at a time; -1 if anything before it is not plain, so
 * that the words must be looked at one by one.
 */
function behindCaptures(from: i32, to: i32, needed: i32): i32 {
  for (let p = from; p < to; p += 16) {
    const v = v128.load(p);
    // ( [ { ; % * : X, or a hyphen behind a digit: side lines, comments, results, other signs
    const digits = i8x16.lt_u(i8x16.sub(v128.load(p - 1), i8x16.splat(0x30)), i8x16.splat(10));
    const odd = v128.or(
      v128.or(
        v128.or(i8x16.eq(v, i8x16.splat(0x28)), i8x16.eq(v, i8x16.splat(0x5b))),
        v128.or(i8x16.eq(v, i8x16.splat(0x7b)), i8x16.eq(v, i8x16.splat(0x3b))),
      ),
      v128.or(
        v128.or(i8x16.eq(v, i8x16.splat(0x25)), i8x16.eq(v, i8x16.splat(0x2a))),
        v128.or(
          v128.or(i8x16.eq(v, i8x16.splat(0x3a)), i8x16.eq(v, i8x16.splat(0x58))),
          v128.and(i8x16.eq(v, i8x16.splat(0x2d)), digits),
        ),
      ),
    );
    const oddAt = i8x16.bitmask(odd);
    for (let signs = i8x16.bitmask(i8x16.eq(v, i8x16.splat(0x78))); signs; signs &= signs - 1) {
      const bit = signs & -signs;
      if (oddAt & (bit - 1)) return -1;
      const end = captureEnd(from, p + ctz(bit), to);
      if (end < 0 || end > to) return -1;
      if (--needed == 0) return end;
    }
    if (oddAt) return -1;
  }
  return -1;
}

function stretchAllows(): bool {
  const needed = 32 - targetMen;
  let captures = 0;
  const behind = needed > 0 ? behindCaptures(place, end, needed) : -1;
  if (behind >= 0) {
    place = behind;
    lineStart = false;
    moves = true;
    captures = needed;
  }
  let pawnless = true;
  while (next()) {
    if (captures < needed) {
      if (kind == PIECE_TAKES || kind == PAWN_TAKES) ++captures;
      else if (kind == UNCLEAR && hasSign()) return true;
      continue;
    }
    if (kind == UNCLEAR) return true;
    if (kind == PAWN_TAKES) return false;
    if (kind == PAWN || kind == PROMOTES) {
      pawnless = kind == PROMOTES;
      continue;
    }
    const letter = load<u8>(word);
    if (letter != CASTLES && load<u8>(LETTERS + letter) == 0) return false;
    if (kind == PIECE_TAKES) return pawnless;
  }
  return captures >= needed && pawnless;
}

@inline function holds(): bool {
  return men == targetSide || men == otherSide;
}

function menAllow(): bool {
  setUsual();
  while (next()) {
    if (!play()) return true;
    if (count > targetMen) continue;
    if (count < targetMen) return false;
    if (holds()) return true;
  }
  return false;
}

/** Whether the game from the usual start whose movetext lies between may hold the target. */
export function mayHold(from: i32, to: i32): bool {
  setWords(from, to);
  if (!stretchAllows()) return false;
  setWords(from, to);
  return menAllow();
}

// The values of all placements of a pair of kings, with each side to move, from what is stored of a half: the moves to mate
// of what is lost with the loser to move (AssemblyScript, compiled to WebAssembly).
//
// With the winner to move a placement is won one move later than the soonest of those losses that a move leads to. Placements
// are looked at 64 at a time, those that differ by the square of the last piece only: a row. A move of another piece leads
// from row to row, and who is in its way is the same for the whole row but for the last piece, which blocks in one place of it.
//
// The memory is shared by all threads of a sweep: the tables of the board, the rows of all halves that are needed, and
// room for each thread. What is lost in d moves stands in a row as 255 − d, and what is not as 0, so that the soonest is the
// greatest, and rows where nothing is lost need not be written.

import {
  attacking,
  attacks,
  boardInit,
  firstDirection,
  inverse,
  lastDirection,
  loserKing,
  next,
  stepAt,
  stepCount,
  stepPair,
  stepSquare,
  stepSym,
  stepsOf,
  sym,
  winnerKing,
  bit,
  KNIGHT,
} from "./board";

const WINNER: i32 = 0;
const LOSER: i32 = 1;
/** Bytes of a row. */
const ROW: i32 = 64;
/** What is lost in no moves, in planes of both halves together; `SWEPT_LOST` in values.ts. */
const LOST_FROM: i32 = 128;

// ---------------------------------------------------------------- what each thread has for itself

let room: usize = 0;
const AT: usize = 0; // i32[3] squares of the pieces of a row, by slot
const KINDS: usize = 16; // i32[3] their kinds
const SMALLER: usize = 32; // u32[3] the rows of the half without the piece; 0 where it is the winner's
const STRIDES: usize = 48; // i32[3], see `setStride`
const TURNED: usize = 64; // a row seen through a symmetry
const ROWS: usize = 0x200; // eight rows, on their way to a plane
const SLICES: usize = 0x1000; // planes of a pair of kings: with the winner to move, with the loser to move

/** Fills the tables of the board: once for a memory, before anyone else looks at it. */
export function fillTables(): void {
  boardInit();
}
/** Gives the thread room for itself. */
export function attach(address: usize): void {
  room = address;
}
/** Address of the plane with the winner, or the loser, to move: `show` writes them, `keep` reads the second. */
export function sliceAddress(turn: i32): usize {
  return room + SLICES + (turn == WINNER ? 0 : <usize>pairSize);
}

// ---------------------------------------------------------------- the half looked at

let pieces: i32 = 0;
let winners: i32 = 0;
let rows: usize = 0;
/** Rows of a pair of kings, as a power of two, and its placements. */
let shift: i32 = 0;
let pairSize: i32 = 0;

/** How many bits the square of the piece in a slot stands above the lowest in the planes of the half in which the other side wins. */
export function setStride(slot: i32, bits: i32): void {
  store<i32>(room + (<usize>slot << 2), bits, STRIDES);
}
@inline function strideOf(slot: i32): i32 {
  return load<i32>(room + (<usize>slot << 2), STRIDES);
}

/** Says which half is looked at: its pieces, how many of them are the winner's, and the address of its rows. */
export function lookAt(count: i32, ofWinner: i32, address: usize): void {
  pieces = count;
  winners = ofWinner;
  rows = address;
  shift = 6 * (count - 1);
  pairSize = 1 << (6 * count);
}
/** The piece in a slot: its kind, and the address of the rows of the half without it. */
export function setSlot(slot: i32, kind: i32, smaller: usize): void {
  const at = room + (<usize>slot << 2);
  store<i32>(at, kind, KINDS);
  store<u32>(at, <u32>smaller, SMALLER);
}

@inline function squareOf(slot: i32): i32 {
  return load<i32>(room + (<usize>slot << 2), AT);
}
@inline function kindOf(slot: i32): i32 {
  return load<i32>(room + (<usize>slot << 2), KINDS);
}
@inline function smallerOf(slot: i32): usize {
  return load<u32>(room + (<usize>slot << 2), SMALLER);
}

/**
 * Where a placement begins in the rows of a half: the kings' pair and the squares of all pieces in slots but `left` (-1 for
 * none) and the last, seen through symmetry `g`, with the piece in `slot` on `to`. With the last piece left out it is one
 * placement, else a row.
 */
@inline function placeOf(half: usize, pair: i32, g: i32, left: i32, slot: i32, to: i32): usize {
  let place = pair;
  for (let m = 0; m < pieces - 1; ++m) {
    if (m != left) place = (place << 6) | sym(g, m == slot ? to : squareOf(m));
  }
  return half + (left == pieces - 1 ? <usize>place : <usize>place << 6);
}

// ---------------------------------------------------------------- eight rows of eight bytes

/** 64 bytes as eight rows of eight, their rows and columns exchanged; those of `from` lie `step` bytes apart, those of `to` `stride`. */
@inline function exchange(from: usize, step: usize, to: usize, stride: usize): void {
  let a = v128.load64_zero(from);
  let b = v128.load64_zero(from + 2 * step);
  let c = v128.load64_zero(from + 4 * step);
  let d = v128.load64_zero(from + 6 * step);
  a = v128.load64_lane(from + step, a, 1);
  b = v128.load64_lane(from + 3 * step, b, 1);
  c = v128.load64_lane(from + 5 * step, c, 1);
  d = v128.load64_lane(from + 7 * step, d, 1);
  // the number of a byte has six bits; each round moves the first to the end, three exchange rows and columns
  for (let round = 0; round < 3; ++round) {
    const low = i8x16.shuffle(a, c, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
    const high = i8x16.shuffle(a, c, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
    const lowOther = i8x16.shuffle(b, d, 0, 16, 1, 17, 2, 18, 3, 19, 4, 20, 5, 21, 6, 22, 7, 23);
    const highOther = i8x16.shuffle(b, d, 8, 24, 9, 25, 10, 26, 11, 27, 12, 28, 13, 29, 14, 30, 15, 31);
    a = low;
    b = high;
    c = lowOther;
    d = highOther;
  }
  v128.store64_lane(to, a, 0);
  v128.store64_lane(to + stride, a, 1);
  v128.store64_lane(to + 2 * stride, b, 0);
  v128.store64_lane(to + 3 * stride, b, 1);
  v128.store64_lane(to + 4 * stride, c, 0);
  v128.store64_lane(to + 5 * stride, c, 1);
  v128.store64_lane(to + 6 * stride, d, 0);
  v128.store64_lane(to + 7 * stride, d, 1);
}

/** Bytes of a vector in the other order, in each half of it. */
@inline function mirrored(v: v128): v128 {
  return i8x16.shuffle(v, v, 7, 6, 5, 4, 3, 2, 1, 0, 15, 14, 13, 12, 11, 10, 9, 8);
}
/** The halves of a vector exchanged. */
@inline function swapped(v: v128): v128 {
  return i8x16.shuffle(v, v, 8, 9, 10, 11, 12, 13, 14, 15, 0, 1, 2, 3, 4, 5, 6, 7);
}

/** A row as it is seen before symmetry `g`: what it tells of square `sym(g, s)` stands at `s`. Returns where. */
function seenThrough(row: usize, g: i32): usize {
  if (g == 0) return row;
  const out = room + TURNED;
  let from = row;
  if (g & 4) {
    exchange(row, 8, out, 8);
    from = out;
  }
  let a = v128.load(from);
  let b = v128.load(from, 16);
  let c = v128.load(from, 32);
  let d = v128.load(from, 48);
  if (g & 1) {
    a = mirrored(a);
    b = mirrored(b);
    c = mirrored(c);
    d = mirrored(d);
  }
  if (g & 2) {
    const first = swapped(d);
    const second = swapped(c);
    d = swapped(a);
    c = swapped(b);
    a = first;
    b = second;
  }
  v128.store(out, a);
  v128.store(out, b, 16);
  v128.store(out, c, 32);
  v128.store(out, d, 48);
  return out;
}

// ---------------------------------------------------------------- what is lost, into rows

/** Takes the plane of a pair of kings with the loser to move, as it is stored, into the rows of the half. */
export function keep(pair: i32): void {
  const plane = sliceAddress(1);
  const to = rows + (<usize>pair << (shift + 6));
  if (shift == 0) {
    for (let n: usize = 0; n < 64; n += 16) v128.store(to + n, i8x16.neg(v128.load(plane + n)));
    return;
  }
  const step = (1 as usize) << shift;
  const block = room + ROWS;
  for (let square: usize = 0; square < 64; square += 8) {
    for (let rest: usize = 0; rest < step; rest += 8) {
      const from = plane + square * step + rest;
      let any: u64 = 0;
      for (let n: usize = 0; n < 8; ++n) any |= load<u64>(from + n * step);
      if (!any) continue;
      exchange(from, step, block, 8);
      for (let n: usize = 0; n < 8; n += 2) {
        const two = i8x16.neg(v128.load(block + (n << 3)));
        v128.store64_lane(to + ((rest + n) << 6) + square, two, 0);
        v128.store64_lane(to + ((rest + n + 1) << 6) + square, two, 1);
      }
    }
  }
}

/**
 * Gives the rows of a pair of kings what is stored in one order of equal pieces only, that of rising squares. `equal`: a bit
 * for each slot whose piece is like that of the next one.
 */
export function putInOrder(pair: i32, equal: i32): void {
  const to = rows + (<usize>pair << (shift + 6));
  for (let place = 0; place < pairSize; ++place) {
    let sorted = place;
    for (let pass = popcnt(equal); pass > 0; --pass) {
      for (let slots = equal; slots; slots &= slots - 1) {
        const low = 6 * (pieces - 2 - ctz(slots));
        const first = (sorted >> (low + 6)) & 63;
        const second = (sorted >> low) & 63;
        // exchanging two numbers is adding their difference to one and taking it from the other
        if (first > second) sorted += ((first - second) << low) - ((first - second) << (low + 6));
      }
    }
    if (sorted != place) store<u8>(to + place, load<u8>(to + sorted));
  }
}

// ---------------------------------------------------------------- what is won with the winner to move

// the row of what is won, and in which of its places somebody is in the way of the piece that moves
let found0: v128 = i64x2.splat(0);
let found1: v128 = i64x2.splat(0);
let found2: v128 = i64x2.splat(0);
let found3: v128 = i64x2.splat(0);

@inline function places(n: i32): v128 {
  const numbers = i8x16(0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15);
  return i8x16.add(numbers, i8x16.splat(<i8>(n << 4)));
}

/** Adds the losses of a row, but for place `but`, where the last piece stands in the way. */
@inline function add(row: usize, but: i32): void {
  const square = i8x16.splat(<i8>but);
  const a = v128.andnot(v128.load(row), i8x16.eq(square, places(0)));
  const b = v128.andnot(v128.load(row, 16), i8x16.eq(square, places(1)));
  const c = v128.andnot(v128.load(row, 32), i8x16.eq(square, places(2)));
  const d = v128.andnot(v128.load(row, 48), i8x16.eq(square, places(3)));
  found0 = i8x16.max_u(found0, a);
  found1 = i8x16.max_u(found1, b);
  found2 = i8x16.max_u(found2, c);
  found3 = i8x16.max_u(found3, d);
}
/** Adds one loss at a place of the row. */
@inline function addAt(place: i32, loss: u8): void {
  if (!loss) return;
  const mask = i8x16.splat(<i8>loss);
  const square = i8x16.splat(<i8>place);
  const quarter = place >> 4;
  if (quarter == 0) found0 = i8x16.max_u(found0, v128.and(mask, i8x16.eq(square, places(0))));
  else if (quarter == 1) found1 = i8x16.max_u(found1, v128.and(mask, i8x16.eq(square, places(1))));
  else if (quarter == 2) found2 = i8x16.max_u(found2, v128.and(mask, i8x16.eq(square, places(2))));
  else found3 = i8x16.max_u(found3, v128.and(mask, i8x16.eq(square, places(3))));
}

/** The slot of the loser's piece on a square, the last one left out; -1 where none stands. */
@inline function takenOn(square: i32): i32 {
  for (let slot = winners; slot < pieces - 1; ++slot) if (squareOf(slot) == square) return slot;
  return -1;
}

/** Adds what the moves of the piece in `slot`, one of the winner's and not the last, lead to. `fixed`: the squares of all but the last piece. */
function addMoves(pair: i32, slot: i32, fixed: u64): void {
  const last = pieces - 1;
  const takes = winners < pieces ? smallerOf(last) : 0;
  const kind = kindOf(slot);
  const square = squareOf(slot);
  const row = placeOf(rows, pair, 0, -1, -1, 0);
  const stride = (1 as isize) << (6 * (pieces - 1 - slot));
  const never = i8x16.splat(0);
  let best0 = found0;
  let best1 = found1;
  let best2 = found2;
  let best3 = found3;
  for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
    // where the last piece has been passed
    let a = never;
    let b = never;
    let c = never;
    let e = never;
    for (let s = next(d, square); s < 64; s = next(d, s)) {
      if (fixed & bit(s)) {
        const taken = takenOn(s);
        if (taken >= 0) {
          const from = placeOf(smallerOf(taken), pair, 0, taken, slot, s);
          best0 = i8x16.max_u(best0, v128.andnot(v128.load(from), a));
          best1 = i8x16.max_u(best1, v128.andnot(v128.load(from, 16), b));
          best2 = i8x16.max_u(best2, v128.andnot(v128.load(from, 32), c));
          best3 = i8x16.max_u(best3, v128.andnot(v128.load(from, 48), e));
        }
        break;
      }
      // on a line no place comes twice, so that the last piece is not behind itself
      const here = i8x16.splat(<i8>s);
      const is0 = i8x16.eq(here, places(0));
      const is1 = i8x16.eq(here, places(1));
      const is2 = i8x16.eq(here, places(2));
      const is3 = i8x16.eq(here, places(3));
      if (takes) {
        const loss = i8x16.splat(load<i8>(placeOf(takes, pair, 0, last, slot, s)));
        best0 = i8x16.max_u(best0, v128.and(loss, is0));
        best1 = i8x16.max_u(best1, v128.and(loss, is1));
        best2 = i8x16.max_u(best2, v128.and(loss, is2));
        best3 = i8x16.max_u(best3, v128.and(loss, is3));
      }
      a = v128.or(a, is0);
      b = v128.or(b, is1);
      c = v128.or(c, is2);
      e = v128.or(e, is3);
      const from = row + <usize>((<isize>(s - square)) * stride);
      best0 = i8x16.max_u(best0, v128.andnot(v128.load(from), a));
      best1 = i8x16.max_u(best1, v128.andnot(v128.load(from, 16), b));
      best2 = i8x16.max_u(best2, v128.andnot(v128.load(from, 32), c));
      best3 = i8x16.max_u(best3, v128.andnot(v128.load(from, 48), e));
      if (kind == KNIGHT) break;
    }
  }
  found0 = best0;
  found1 = best1;
  found2 = best2;
  found3 = best3;
}

/** Adds what the moves of the winner's king lead to. */
function addKingMoves(pair: i32, fixed: u64): void {
  const last = pieces - 1;
  const steps = stepsOf(WINNER, pair);
  for (let n = 0, count = stepCount(steps); n < count; ++n) {
    const step = stepAt(steps, n);
    const square = stepSquare(step);
    const g = stepSym(step);
    if (fixed & bit(square)) {
      const taken = takenOn(square);
      if (taken >= 0) add(seenThrough(placeOf(smallerOf(taken), stepPair(step), g, taken, -1, 0), g), 64);
      continue;
    }
    add(seenThrough(placeOf(rows, stepPair(step), g, -1, -1, 0), g), square);
    if (winners < pieces) addAt(square, load<u8>(placeOf(smallerOf(last), stepPair(step), g, last, -1, 0)));
  }
}

/** Adds what the moves of the last piece lead to, which is the winner's: places of the same row. */
function addMovesOfLast(pair: i32, fixed: u64): void {
  const row = placeOf(rows, pair, 0, -1, -1, 0);
  const kind = kindOf(pieces - 1);
  for (let square = 0; square < 64; ++square) {
    let best: u8 = 0;
    for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
      for (let s = next(d, square); s < 64 && !(fixed & bit(s)); s = next(d, s)) {
        best = max(best, load<u8>(row + s));
        if (kind == KNIGHT) break;
      }
    }
    addAt(square, best);
  }
}

/** Adds what is won of a row to `found`. */
function findRow(pair: i32, fixed: u64): void {
  for (let slot = 0; slot < min(winners, pieces - 1); ++slot) addMoves(pair, slot, fixed);
  if (winners == pieces) addMovesOfLast(pair, fixed);
  addKingMoves(pair, fixed);
}

// ---------------------------------------------------------------- both turns of a pair of kings

/** A byte for each of 16 bits, 255 where it is not set. */
@inline function notSet(bits: u64, quarter: i32): v128 {
  const both = i16x8.splat(<i16>(bits >> (<u64>quarter << 4)));
  const spread = i8x16.swizzle(both, i8x16(0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 1, 1, 1, 1, 1, 1));
  const each = v128.and(spread, i8x16(1, 2, 4, 8, 16, 32, 64, -128, 1, 2, 4, 8, 16, 32, 64, -128));
  return i8x16.eq(each, i8x16.splat(0));
}

/** Moves of what is lost and stands in a row, plus 1; 0 of what is not. */
@inline function lost(found: v128): v128 {
  return i8x16.neg(found);
}
/** The same of what is won in one move more. */
@inline function won(found: v128): v128 {
  const isWon = i8x16.ne(found, i8x16.splat(0));
  return v128.and(i8x16.add(i8x16.neg(found), i8x16.splat(1)), isWon);
}

/** The squares of the last piece with which a side's king is attacked, the king of the winner (0) or of the loser (1). */
function attacked(pair: i32, side: i32, fixed: u64): u64 {
  const king = side == WINNER ? winnerKing(pair) : loserKing(pair);
  const first = side == WINNER ? winners : 0;
  const end = side == WINNER ? pieces : winners;
  let squares: u64 = 0;
  for (let slot = first; slot < min(end, pieces - 1); ++slot)
    squares |= attacking(kindOf(slot), squareOf(slot), king, fixed);
  if (end == pieces && first < end) squares |= attacks(kindOf(pieces - 1), king, fixed);
  return squares;
}

/** The legal places of the row looked at, with the winner and with the loser to move. */
let mayWin: u64 = 0;
let mayLose: u64 = 0;

/** Looks at row `rest` of a pair of kings: which of its places are legal, and with `values` what is won, in `found`. */
function look(pair: i32, rest: i32, values: bool): void {
  let fixed = bit(winnerKing(pair)) | bit(loserKing(pair));
  for (let slot = 0; slot < pieces - 1; ++slot) {
    const square = (rest >> (6 * (pieces - 2 - slot))) & 63;
    store<i32>(room + (<usize>slot << 2), square, AT);
    fixed |= bit(square);
  }
  const onOwnSquares = popcnt(fixed) == pieces + 1;
  mayWin = onOwnSquares ? ~fixed & ~attacked(pair, LOSER, fixed) : 0;
  mayLose = onOwnSquares ? ~fixed & ~attacked(pair, WINNER, fixed) : 0;
  found0 = i64x2.splat(0);
  found1 = i64x2.splat(0);
  found2 = i64x2.splat(0);
  found3 = i64x2.splat(0);
  if (values && mayWin) findRow(pair, fixed);
}

/**
 * Writes both planes of a pair of kings in the order in which planes are stored: 0 not won, else the moves to mate + 1, 255
 * not legal. Without `values` what is legal is 0.
 */
export function show(pair: i32, values: bool): void {
  const count = 1 << shift;
  const wins = room + ROWS;
  const losses = wins + 8 * ROW;
  const first = rows + (<usize>pair << (shift + 6));
  const zero = i64x2.splat(0);
  for (let rest = 0; rest < count; ++rest) {
    look(pair, rest, values);
    const row = <usize>((rest & 7) << 6);
    v128.store(wins + row, v128.or(won(found0), notSet(mayWin, 0)));
    v128.store(wins + row, v128.or(won(found1), notSet(mayWin, 1)), 16);
    v128.store(wins + row, v128.or(won(found2), notSet(mayWin, 2)), 32);
    v128.store(wins + row, v128.or(won(found3), notSet(mayWin, 3)), 48);
    const from = first + (<usize>rest << 6);
    const lose = values && mayLose;
    v128.store(losses + row, v128.or(lose ? lost(v128.load(from)) : zero, notSet(mayLose, 0)));
    v128.store(losses + row, v128.or(lose ? lost(v128.load(from, 16)) : zero, notSet(mayLose, 1)), 16);
    v128.store(losses + row, v128.or(lose ? lost(v128.load(from, 32)) : zero, notSet(mayLose, 2)), 32);
    v128.store(losses + row, v128.or(lose ? lost(v128.load(from, 48)) : zero, notSet(mayLose, 3)), 48);
    if (count == 1) {
      memory.copy(sliceAddress(WINNER), wins, 64);
      memory.copy(sliceAddress(LOSER), losses, 64);
    } else if ((rest & 7) == 7) {
      const step = <usize>count;
      for (let square: usize = 0; square < 64; square += 8) {
        const to = square * step + <usize>(rest & ~7);
        exchange(wins + square, ROW, sliceAddress(WINNER) + to, step);
        exchange(losses + square, ROW, sliceAddress(LOSER) + to, step);
      }
    }
  }
}

/** Which bytes of a vector are not zero, as bits. */
@inline function someOf(v: v128): u64 {
  return <u64>(~i8x16.bitmask(i8x16.eq(v, i8x16.splat(0))) & 0xffff);
}

/** Adds to a plane of the other half what stands in a row, given as four vectors, at legal places of it; nearly all is zero. */
@inline function addRow(a: v128, b: v128, c: v128, d: v128, legal: u64, g: i32, to: usize): void {
  let places = legal & (someOf(a) | (someOf(b) << 16) | (someOf(c) << 32) | (someOf(d) << 48));
  if (!places) return;
  const row = room + ROWS;
  v128.store(row, a);
  v128.store(row, b, 16);
  v128.store(row, c, 32);
  v128.store(row, d, 48);
  let base = 0;
  for (let slot = 0; slot < pieces - 1; ++slot) base |= sym(g, squareOf(slot)) << strideOf(slot);
  for (; places; places &= places - 1) {
    const place = <i32>ctz(places);
    const value = <u8>(LOST_FROM + load<u8>(row + place) - 1);
    store<u8>(to + base + (sym(g, place) << strideOf(pieces - 1)), value);
  }
}

/**
 * Adds what this half says of a pair of kings to the planes of the half in which the other side wins: there it is lost, and
 * stands as 128 + moves to mate. `g` brings the squares of this pair to those of the other's, `toLose` and `toWin` are
 * the addresses of its planes with that half's winner and loser to move.
 */
export function addTo(pair: i32, g: i32, toWin: usize, toLose: usize): void {
  const first = rows + (<usize>pair << (shift + 6));
  for (let rest = 0, count = 1 << shift; rest < count; ++rest) {
    look(pair, rest, true);
    addRow(won(found0), won(found1), won(found2), won(found3), mayWin, g, toLose);
    const from = first + (<usize>rest << 6);
    const a = lost(v128.load(from));
    const b = lost(v128.load(from, 16));
    const c = lost(v128.load(from, 32));
    const d = lost(v128.load(from, 48));
    addRow(a, b, c, d, mayLose, g, toWin);
  }
}

// Board arithmetic of the kernel: squares, symmetry, sets of squares in a 64-bit word.
//
// AssemblyScript, compiled to WebAssembly. Squares are numbered a1 = 0, b1 = 1 … h8 = 63, and bit n of a
// word is square n. The tables below are filled once by `boardInit` and never change afterwards.

export const QUEEN: i32 = 0;
export const ROOK: i32 = 1;
export const BISHOP: i32 = 2;
export const KNIGHT: i32 = 3;

/** Placements of two kings up to the eight symmetries of the board. */
export const KING_PAIRS: i32 = 462;

const FILE_A: u64 = 0x0101010101010101;
const FILE_H: u64 = 0x8080808080808080;
const FILES_AB: u64 = 0x0303030303030303;
const FILES_GH: u64 = 0xc0c0c0c0c0c0c0c0;

/** The lookup tables lie below, static data of the compiler between 0x30000 and here, a solution above. */
export const TABLES_END: usize = 0x60000;

const SYM: usize = 0x1000; // u8[8][64]   image of a square under a symmetry
const INVERSE: usize = 0x1200; // u8[8]   the symmetry that undoes one
const NEXT: usize = 0x1300; // u8[16][64] next square in a direction, 64 = off the board
const PAIR: usize = 0x2000; // i16[64][64] number of the king pair, -1 = kings touch
const PAIR_SYM: usize = 0x4000; // u8[64][64] symmetry that brings two kings into their pair
const PAIR_KINGS: usize = 0x5000; // u8[462][2] winner's and loser's king of a pair
const BETWEEN: usize = 0x6000; // u64[64][64] squares strictly between two in line
const ALIGNED: usize = 0xe000; // u8[64][64] 0 not in line, 1 on a rank or file, 2 on a diagonal
const STEPS: usize = 0x10000; // king steps: [2 sides][462 pairs] of count, then 8 × step (8 bytes each)
const STEP_ROW: usize = 72;

@inline export function bit(square: i32): u64 {
  return (1 as u64) << square;
}
@inline export function sym(g: i32, square: i32): i32 {
  return load<u8>(SYM + (g << 6) + square);
}
@inline export function inverse(g: i32): i32 {
  return load<u8>(INVERSE + g);
}
/** Directions 0–3 are a rook's, 4–7 a bishop's, 8–15 a knight's. */
@inline export function next(direction: i32, square: i32): i32 {
  return load<u8>(NEXT + (direction << 6) + square);
}
@inline export function pairOf(winner: i32, loser: i32): i32 {
  return load<i16>(PAIR + (((winner << 6) + loser) << 1));
}
@inline export function pairSym(winner: i32, loser: i32): i32 {
  return load<u8>(PAIR_SYM + (winner << 6) + loser);
}
@inline export function winnerKing(pair: i32): i32 {
  return load<u8>(PAIR_KINGS + (pair << 1));
}
@inline export function loserKing(pair: i32): i32 {
  return load<u8>(PAIR_KINGS + (pair << 1) + 1);
}
@inline export function between(a: i32, b: i32): u64 {
  return load<u64>(BETWEEN + (((a << 6) + b) << 3));
}
@inline export function aligned(a: i32, b: i32): i32 {
  return load<u8>(ALIGNED + (a << 6) + b);
}
@inline export function firstDirection(piece: i32): i32 {
  return piece == KNIGHT ? 8 : piece == BISHOP ? 4 : 0;
}
@inline export function lastDirection(piece: i32): i32 {
  return piece == KNIGHT ? 16 : piece == ROOK ? 4 : 8;
}

/** Address of the king's steps of a side (0 winner, 1 loser) from a pair: i32 count, then the steps. */
@inline export function stepsOf(side: i32, pair: i32): usize {
  return STEPS + <usize>(side * KING_PAIRS + pair) * STEP_ROW;
}
@inline export function stepCount(row: usize): i32 {
  return load<i32>(row);
}
@inline export function stepAt(row: usize, n: i32): usize {
  return row + 8 + (n << 3);
}
/** Square the king steps to, in the frame of the pair it leaves. */
@inline export function stepSquare(step: usize): i32 {
  return load<u8>(step);
}
@inline export function stepSym(step: usize): i32 {
  return load<u8>(step + 1);
}
/** 1 if the pair arrived at is its own mirror image, so that its placements are stored twice. */
@inline export function stepTwice(step: usize): i32 {
  return load<u8>(step + 2);
}
@inline export function stepPair(step: usize): i32 {
  return load<u16>(step + 4);
}

/** The word whose bit `sym(g, n)` is bit n of `word`. */
export function permute(word: u64, g: i32): u64 {
  if (g & 1) {
    word = ((word >> 1) & 0x5555555555555555) | ((word & 0x5555555555555555) << 1);
    word = ((word >> 2) & 0x3333333333333333) | ((word & 0x3333333333333333) << 2);
    word = ((word >> 4) & 0x0f0f0f0f0f0f0f0f) | ((word & 0x0f0f0f0f0f0f0f0f) << 4);
  }
  if (g & 2) word = bswap<u64>(word);
  if (g & 4) {
    let t = (word ^ (word << 28)) & 0x0f0f0f0f00000000;
    word ^= t ^ (t >> 28);
    t = (word ^ (word << 14)) & 0x3333000033330000;
    word ^= t ^ (t >> 14);
    t = (word ^ (word << 7)) & 0x5500550055005500;
    word ^= t ^ (t >> 7);
  }
  return word;
}

/** Squares reached from those of `from` by sliding up through `open`. Kogge and Stone's parallel prefix. */
@inline function slideUp(from: u64, open: u64, by: u64): u64 {
  const first = open;
  from |= open & (from << by);
  open &= open << by;
  from |= open & (from << (by << 1));
  open &= open << (by << 1);
  from |= open & (from << (by << 2));
  return first & (from << by);
}
@inline function slideDown(from: u64, open: u64, by: u64): u64 {
  const first = open;
  from |= open & (from >> by);
  open &= open >> by;
  from |= open & (from >> (by << 1));
  open &= open >> (by << 1);
  from |= open & (from >> (by << 2));
  return first & (from >> by);
}

/**
 * Squares of `empty` that a piece of this kind reaches in one move from some square of `from`.
 * Read backwards it is also the squares from which such a piece reaches one of `from`.
 */
export function spread(piece: i32, from: u64, empty: u64): u64 {
  if (piece == KNIGHT) {
    const west1 = (from >> 1) & ~FILE_H;
    const west2 = (from >> 2) & ~FILES_GH;
    const east1 = (from << 1) & ~FILE_A;
    const east2 = (from << 2) & ~FILES_AB;
    const one = west1 | east1;
    const two = west2 | east2;
    return ((one << 16) | (one >> 16) | (two << 8) | (two >> 8)) & empty;
  }
  let reached: u64 = 0;
  const notA = empty & ~FILE_A;
  const notH = empty & ~FILE_H;
  if (piece != BISHOP) {
    reached |= slideUp(from, empty, 8);
    reached |= slideDown(from, empty, 8);
    reached |= slideUp(from, notA, 1);
    reached |= slideDown(from, notH, 1);
  }
  if (piece != ROOK) {
    reached |= slideUp(from, notA, 9);
    reached |= slideUp(from, notH, 7);
    reached |= slideDown(from, notA, 7);
    reached |= slideDown(from, notH, 9);
  }
  return reached;
}

/** Squares attacked by a piece on `square`; `occupied` stops sliders and is itself attacked. */
export function attacks(piece: i32, square: i32, occupied: u64): u64 {
  let reached: u64 = 0;
  for (let d = firstDirection(piece), end = lastDirection(piece); d < end; ++d) {
    let s = next(d, square);
    while (s < 64) {
      reached |= bit(s);
      if (piece == KNIGHT || occupied & bit(s)) break;
      s = next(d, s);
    }
  }
  return reached;
}

/**
 * The squares of a last piece, which has not been put on the board, with which a piece on `square` attacks the king: all that
 * are not in between; none where another of the squares `fixed` is in between, or it goes another way.
 */
export function attacking(piece: i32, square: i32, king: i32, fixed: u64): u64 {
  if (piece == KNIGHT) return attacks(KNIGHT, king, 0) & bit(square) ? ~(0 as u64) : 0;
  const line = aligned(king, square);
  if (line == 0 || (line == 1 && piece == BISHOP) || (line == 2 && piece == ROOK)) return 0;
  const gap = between(king, square);
  return gap & fixed ? 0 : ~gap;
}

@inline function fileOf(square: i32): i32 {
  return square & 7;
}
@inline function rankOf(square: i32): i32 {
  return square >> 3;
}
@inline function touch(a: i32, b: i32): bool {
  return abs(fileOf(a) - fileOf(b)) <= 1 && abs(rankOf(a) - rankOf(b)) <= 1;
}

// outside of functions, so that they are data of the module's: a function would make them anew, somewhere in the memory
const DIRECTION_FILES: StaticArray<i32> = [0, 0, 1, -1, 1, -1, 1, -1, 1, 2, 2, 1, -1, -2, -2, -1];
const DIRECTION_RANKS: StaticArray<i32> = [1, -1, 0, 0, 1, 1, -1, -1, 2, 1, -1, -2, -2, -1, 1, 2];

/** A pair is canonical with the loser's king in a1–d1–d4, and on its diagonal the winner's not above it. */
function canonical(winner: i32, loser: i32): bool {
  const f = fileOf(loser);
  const r = rankOf(loser);
  if (f > 3 || r > f) return false;
  return r < f || rankOf(winner) <= fileOf(winner);
}

/** Addresses of the numbering of king pairs (i16[64][64]) and of their symmetries (u8[64][64]). */
export function pairsAddress(): usize {
  return PAIR;
}
export function pairSymsAddress(): usize {
  return PAIR_SYM;
}

/** Fills the lookup tables. Call once, before anything else. */
export function boardInit(): void {
  for (let g = 0; g < 8; ++g) {
    for (let s = 0; s < 64; ++s) {
      let t = s;
      if (g & 1) t ^= 7;
      if (g & 2) t ^= 56;
      if (g & 4) t = (t >> 3) | ((t & 7) << 3);
      store<u8>(SYM + (g << 6) + s, t);
    }
  }
  for (let g = 0; g < 8; ++g) {
    for (let h = 0; h < 8; ++h) {
      if (sym(h, sym(g, 1)) == 1 && sym(h, sym(g, 8)) == 8) store<u8>(INVERSE + g, h);
    }
  }
  for (let d = 0; d < 16; ++d) {
    for (let s = 0; s < 64; ++s) {
      const f = fileOf(s) + DIRECTION_FILES[d];
      const r = rankOf(s) + DIRECTION_RANKS[d];
      store<u8>(NEXT + (d << 6) + s, f < 0 || f > 7 || r < 0 || r > 7 ? 64 : r * 8 + f);
    }
  }
  for (let d = 0; d < 8; ++d) {
    for (let s = 0; s < 64; ++s) {
      let line: u64 = 0;
      for (let t = next(d, s); t < 64; t = next(d, t)) {
        store<u64>(BETWEEN + (((s << 6) + t) << 3), line);
        store<u8>(ALIGNED + (s << 6) + t, d < 4 ? 1 : 2);
        line |= bit(t);
      }
    }
  }
  let pairs = 0;
  for (let loser = 0; loser < 64; ++loser) {
    for (let winner = 0; winner < 64; ++winner) {
      store<i16>(PAIR + (((winner << 6) + loser) << 1), -1);
      if (touch(winner, loser) || !canonical(winner, loser)) continue;
      store<u8>(PAIR_KINGS + (pairs << 1), winner);
      store<u8>(PAIR_KINGS + (pairs << 1) + 1, loser);
      store<i16>(PAIR + (((winner << 6) + loser) << 1), pairs++);
    }
  }
  for (let loser = 0; loser < 64; ++loser) {
    for (let winner = 0; winner < 64; ++winner) {
      if (touch(winner, loser)) continue;
      for (let g = 0; g < 8; ++g) {
        const w = sym(g, winner);
        const l = sym(g, loser);
        if (!canonical(w, l)) continue;
        store<u8>(PAIR_SYM + (winner << 6) + loser, g);
        if (pairOf(winner, loser) < 0) store<i16>(PAIR + (((winner << 6) + loser) << 1), pairOf(w, l));
        break;
      }
    }
  }
  for (let side = 0; side < 2; ++side) {
    for (let pair = 0; pair < KING_PAIRS; ++pair) {
      const row = stepsOf(side, pair);
      const mover = side == 0 ? winnerKing(pair) : loserKing(pair);
      const other = side == 0 ? loserKing(pair) : winnerKing(pair);
      let count = 0;
      for (let d = 0; d < 8; ++d) {
        const s = next(d, mover);
        if (s == 64 || touch(s, other)) continue;
        const w = side == 0 ? s : other;
        const l = side == 0 ? other : s;
        const step = stepAt(row, count++);
        const g = pairSym(w, l);
        store<u8>(step, s);
        store<u8>(step + 1, g);
        store<u8>(step + 2, fileOf(sym(g, w)) == rankOf(sym(g, w)) && fileOf(sym(g, l)) == rankOf(sym(g, l)) ? 1 : 0);
        store<u16>(step + 4, pairOf(w, l));
      }
      store<i32>(row, count);
    }
  }
}

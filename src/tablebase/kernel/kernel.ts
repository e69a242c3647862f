// The retrograde iteration: which placements the winner wins, and in how many moves.
//
// AssemblyScript, compiled to WebAssembly. One instance solves one "half" of a material at a time: the wins of
// one side (the winner) against the other (the loser); the table of a material is made of two halves.
//
// A placement is a king pair, a square for each other piece, and the side to move. The last piece is the *word
// piece*: its 64 squares are the bits of one word, so that every step below treats 64 placements at once.
// Wins are found by *unmoves* from the lost placements of the step before (any one move is enough); losses
// are proposed by unmoves from the new wins and then checked, since every move must lose. A word is touched
// only when one of its neighbours has changed. What is found is appended to a log, and the log, ordered by
// distance, is the result: no array of distances is ever held.
//
// Placements with both kings on the long diagonal are stored in both their mirror images; a king's unmove
// onto the diagonal therefore marks both (see `unmoveKing`).

import {
  KING_PAIRS,
  TABLES_END,
  attacking,
  attacks,
  bit,
  boardInit,
  firstDirection,
  inverse,
  lastDirection,
  loserKing,
  next,
  permute,
  spread,
  stepAt,
  stepCount,
  stepPair,
  stepSquare,
  stepSym,
  stepTwice,
  stepsOf,
  sym,
  winnerKing,
  BISHOP,
  KNIGHT,
  ROOK,
} from "./board";

export { pairsAddress, pairSymsAddress } from "./board";
import { BIT_BLOCK, BLOCK, encodeBits, encodeBlock } from "./codec";

const WINNER: i32 = 0;
const LOSER: i32 = 1;

/** Values of a smaller table: not won (but legal), and not a legal placement; distance d stands as d + 1. */
const NOT_WON: u8 = 0;
const ILLEGAL: u8 = 255;
const MAX_DISTANCE: i32 = 253;

// The pieces beside the kings, in slots; the last slot is the word piece's.
let pieceCount: i32 = 0;
const pieceKind: StaticArray<i32> = [0, 0, 0];
const pieceSide: StaticArray<i32> = [0, 0, 0];
const pieceShift: StaticArray<i32> = [0, 0, 0]; // words per square, as a power of two; slots before the last
let words: i32 = 0;
let wordKind: i32 = 0;
let wordSide: i32 = 0;
const releaseBounds: usize = 0x28000; // u32[256], above the lookup tables

// The placement the kernel is looking at: set by `look`.
let pair: i32 = 0;
const at: StaticArray<i32> = [0, 0, 0];
let rest: i32 = 0; // the squares of all pieces but kings and word piece, as they stand in a word's number
let fixed: u64 = 0; // squares of the kings and of every piece but the word piece

// Arrays of `words` words each, laid out by hand.
let openWins: usize = 0; // winner to move: legal, not yet known won
let openLosses: usize = 0; // loser to move: legal, can still turn out lost
let pending: usize = 0; // marks of the step in progress
let legalWins: usize = 0; // winner to move: legal; while moves to mate are found its room serves `waiting`
let waiting: usize = 0; // losses that must wait for their longest capture (moves to mate only)
let touched: usize = 0; // one bit a word: has marks. Walked in order, so that neighbours stay near in memory
let touchedOther: usize = 0; // the same for a second set of marks (see `keepInside`)
let ready: usize = 0; // one bit a word: some open loss has no move of the word piece left that holds out (see `note`)
let readyOnly: bool = false;
let marking: usize = 0; // the array whose bits a mark must meet: openWins or openLosses
let smaller: usize = 0; // end of what is laid out so far; the smaller tables go there

// The log: entries of 12 bytes (u32 word, u64 placements), in segments.
let logEnd: usize = 0;

// Smaller tables reached by a capture.
const SUBS_MAX: i32 = 4;
let subCount: i32 = 0;
const subSide: StaticArray<i32> = [0, 0, 0, 0]; // who captures
const subSlot: StaticArray<i32> = [0, 0, 0, 0]; // slot of the piece captured
const subValues: StaticArray<usize> = [0, 0, 0, 0]; // u8 per placement
const subOrder: StaticArray<usize> = [0, 0, 0, 0]; // u32 placements, ordered by value
const subBounds: StaticArray<usize> = [0, 0, 0, 0]; // u32[257] where each value begins in the order

/** Must be called once after instantiation. */
export function start(): void {
  boardInit();
}

/** Declares a piece: slot 0 upward, kind (queen 0, rook 1, bishop 2, knight 3), side (winner 0, loser 1). */
export function setPiece(slot: i32, kind: i32, side: i32): void {
  pieceKind[slot] = kind;
  pieceSide[slot] = side;
}

/** Lays out the memory for `count` pieces (1 to 3). Declare the pieces first. Returns the number of words. */
export function layout(count: i32): i32 {
  pieceCount = count;
  words = KING_PAIRS << (6 * (count - 1));
  for (let slot = 0; slot < count - 1; ++slot) pieceShift[slot] = 6 * (count - 2 - slot);
  wordKind = pieceKind[count - 1];
  wordSide = pieceSide[count - 1];
  const size = (<usize>words) << 3;
  openWins = TABLES_END;
  openLosses = openWins + size;
  pending = openLosses + size;
  legalWins = pending + size;
  waiting = legalWins;
  touched = legalWins + size;
  const map = ((<usize>words) >> 3) + 8;
  ready = touched + map;
  touchedOther = ready + map;
  smaller = (touchedOther + map + 15) & ~15;
  subCount = 0;
  reserve(smaller);
  memory.fill(openWins, 0, smaller - openWins);
  imagesInit();
  return words;
}

/**
 * Declares the smaller table after `side` captures the piece in `slot`, and returns the address to which the
 * caller must copy its values (one byte per placement) before `settle`.
 * The pieces that remain keep their order.
 */
export function addSub(side: i32, slot: i32): usize {
  const n = subCount++;
  const placements = KING_PAIRS << (6 * (pieceCount - 1));
  subSide[n] = side;
  subSlot[n] = slot;
  subValues[n] = smaller;
  subBounds[n] = (smaller + placements + 7) & ~7;
  subOrder[n] = subBounds[n] + 257 * 4;
  smaller = (subOrder[n] + ((<usize>placements) << 2) + 15) & ~15;
  reserve(smaller);
  return subValues[n];
}

/** Room for a set of placements, one u64 a word, emptied. Call before `settle`. */
export function addSet(): usize {
  const set = smaller;
  smaller += (<usize>words) << 3;
  reserve(smaller);
  memory.fill(set, 0, (<usize>words) << 3);
  return set;
}

/** Orders the smaller tables by value and puts the log behind them. */
export function settle(): void {
  const placements = KING_PAIRS << (6 * (pieceCount - 1));
  for (let n = 0; n < subCount; ++n) {
    const bounds = subBounds[n];
    memory.fill(bounds, 0, 257 * 4);
    for (let p = 0; p < placements; ++p) {
      const slot = bounds + ((<usize>load<u8>(subValues[n] + p)) << 2) + 4;
      store<u32>(slot, load<u32>(slot) + 1);
    }
    for (let v = 1; v <= 256; ++v) {
      const slot = bounds + (<usize>v << 2);
      store<u32>(slot, load<u32>(slot) + load<u32>(slot - 4));
    }
    // each value's bound runs through its segment while the order is written, then all move back by one
    for (let p = 0; p < placements; ++p) {
      const slot = bounds + ((<usize>load<u8>(subValues[n] + p)) << 2);
      const i = load<u32>(slot);
      store<u32>(subOrder[n] + ((<usize>i) << 2), p);
      store<u32>(slot, i + 1);
    }
    memory.copy(bounds + 4, bounds, 256 * 4);
    store<u32>(bounds, 0);
  }
  logEnd = smaller;
}

/** Empties the log, so that another iteration can begin with `legal`. */
export function resetLog(): void {
  logEnd = smaller;
}
/** End of the log: the caller remembers it as the bound of a segment. */
export function logTop(): usize {
  return logEnd;
}
/** Address of the open wins: after `legal`, the legal placements with the winner to move (u64 per word). */
export function winsAddress(): usize {
  return openWins;
}

/** Memory is taken in large steps: each one costs the JavaScript side a new buffer object. */
const STEP: i32 = 512; // pages of 64 KiB

function reserve(end: usize): void {
  const pages = <i32>((end + 0xffff) >> 16) - memory.size();
  if (pages > 0 && memory.grow(max(pages, min(STEP, memory.size()))) < 0) unreachable();
}

function look(word: i32): void {
  const shift = 6 * (pieceCount - 1);
  pair = word >> shift;
  rest = word & ((1 << shift) - 1);
  fixed = bit(winnerKing(pair)) | bit(loserKing(pair));
  for (let slot = 0; slot < pieceCount - 1; ++slot) {
    const square = (word >> pieceShift[slot]) & 63;
    at[slot] = square;
    fixed |= bit(square);
  }
}

@inline function flag(map: usize, word: i32): void {
  const byte = map + (word >> 3);
  store<u8>(byte, load<u8>(byte) | ((1 as u8) << (<u8>word & 7)));
}
@inline function flagged(map: usize, word: i32): bool {
  return ((load<u8>(map + (word >> 3)) >> (<u8>word & 7)) & 1) != 0;
}

/** Marks placements of a word that the step in progress may still change. */
@inline function markHere(word: i32, bits: u64): void {
  const offset = (<usize>word) << 3;
  bits &= load<u64>(marking + offset);
  if (!bits) return;
  store<u64>(pending + offset, load<u64>(pending + offset) | bits);
  flag(touched, word);
}
/** The same, but while losses are proposed only for words that are ready. */
@inline function mark(word: i32, bits: u64): void {
  if (!readyOnly || flagged(ready, word)) markHere(word, bits);
}

@inline function log(word: i32, bits: u64): void {
  store<u32>(logEnd, word);
  store<u64>(logEnd + 4, bits);
  logEnd += 12;
}

// ---------------------------------------------------------------- legal placements

/** Squares of the word piece for which `side`'s king is attacked, in the placement looked at. */
function kingAttacked(side: i32): u64 {
  const king = side == WINNER ? winnerKing(pair) : loserKing(pair);
  let attacked: u64 = 0;
  for (let slot = 0; slot < pieceCount - 1; ++slot)
    if (pieceSide[slot] != side) attacked |= attacking(pieceKind[slot], at[slot], king, fixed);
  if (wordSide != side) attacked |= attacks(wordKind, king, fixed);
  return attacked;
}

/** Looks at a word: those of its placements that are legal with the winner to move. */
function legalToWin(word: i32): u64 {
  look(word);
  return popcnt(fixed) == pieceCount + 1 ? ~fixed & ~kingAttacked(LOSER) : 0;
}

/** Finds the legal placements, for each side to move. */
export function legal(): void {
  for (let word = 0; word < words; ++word) {
    const wins = legalToWin(word);
    if (popcnt(fixed) != pieceCount + 1) continue;
    const offset = (<usize>word) << 3;
    store<u64>(openWins + offset, wins);
    store<u64>(legalWins + offset, wins);
    store<u64>(openLosses + offset, ~fixed & ~kingAttacked(WINNER));
  }
}

// ---------------------------------------------------------------- moves backwards

/** Marks the placements from which `side`, with one quiet move, reaches one of `bits` of the placement looked at. */
function unmove(word: i32, bits: u64, side: i32): void {
  if (wordSide == side) markHere(word, spread(wordKind, bits, ~fixed));
  for (let slot = 0; slot < pieceCount - 1; ++slot) {
    if (pieceSide[slot] != side) continue;
    const square = at[slot];
    const shift = pieceShift[slot];
    const kind = pieceKind[slot];
    for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
      let open = bits;
      for (let s = next(d, square); s < 64; s = next(d, s)) {
        if (fixed & bit(s)) break;
        open &= ~bit(s);
        if (!open) break;
        mark(word + ((s - square) << shift), open);
        if (kind == KNIGHT) break;
      }
    }
  }
  unmoveKing(bits, side);
}

/** The king's part of `unmove`. A king never steps onto a piece but the word piece, whose squares are bits. */
function unmoveKing(bits: u64, side: i32): void {
  const row = stepsOf(side, pair);
  for (let n = 0, count = stepCount(row); n < count; ++n) {
    const step = stepAt(row, n);
    const square = stepSquare(step);
    if (fixed & bit(square)) continue;
    const g = stepSym(step);
    markImage(imageWord(stepPair(step), g), bits, square, g);
    // g ^ 4 is g followed by the mirror in the long diagonal
    if (stepTwice(step)) markImage(imageWord(stepPair(step), g ^ 4), bits, square, g ^ 4);
  }
}

/** Marks what `bits`, less `square`, become under symmetry `g`; turns them only if the word can use them. */
@inline function markImage(word: i32, bits: u64, square: i32, g: i32): void {
  if (readyOnly && !flagged(ready, word)) return;
  if (!load<u64>(marking + ((<usize>word) << 3))) return;
  const open = bits & ~bit(square);
  if (open) mark(word, permute(open, g));
}

const IMAGES: usize = 0x40000; // u16[8][4096]: the image of a `rest` under each symmetry

function imagesInit(): void {
  for (let g = 0; g < 8; ++g) {
    for (let all = 0; all < 1 << (6 * (pieceCount - 1)); ++all) {
      let image = 0;
      for (let slot = 0; slot < pieceCount - 1; ++slot) image = (image << 6) | sym(g, (all >> pieceShift[slot]) & 63);
      store<u16>(IMAGES + (<usize>((g << 12) + all) << 1), <u16>image);
    }
  }
}

/** The word of the pieces looked at, seen through symmetry `g`, with the kings on `kings`. */
@inline function imageWord(kings: i32, g: i32): i32 {
  return (kings << (6 * (pieceCount - 1))) | load<u16>(IMAGES + (<usize>((g << 12) + rest) << 1));
}

// ---------------------------------------------------------------- moves forwards

/** The set that every quiet move must be answered back into, those of its placements that are still open; or none (see `keepInside`). */
let inside: usize = 0;
/** A check by the winner must be answered so that the set can be come back to; else any answer that is open will do. */
let pursued: bool = false;

/** Those of `bits` (loser to move) that are not held by coming back to the set (see `keepInside`). */
function allMovesLeave(word: i32, bits: u64): u64 {
  // the loser is in check where the winner could not be to move
  const quiet = load<u64>(legalWins + ((<usize>word) << 3));
  const calm = bits & quiet;
  const checked = pursued ? bits & ~quiet : 0;
  return (calm ? allMovesLose(word, calm, inside) : 0) | (checked ? allMovesLose(word, checked, openWins) : 0);
}

/** Those of `bits` (loser to move) whose every quiet legal move leaves a set of placements with the winner to move. */
function allMovesLose(word: i32, bits: u64, wins: usize): u64 {
  if (wordSide == LOSER) {
    bits &= ~spread(wordKind, load<u64>(wins + ((<usize>word) << 3)), ~fixed);
    if (!bits) return 0;
  }
  const row = stepsOf(LOSER, pair);
  for (let n = 0, count = stepCount(row); n < count; ++n) {
    const step = stepAt(row, n);
    const square = stepSquare(step);
    if (fixed & bit(square)) continue;
    const g = stepSym(step);
    const held = load<u64>(wins + ((<usize>imageWord(stepPair(step), g)) << 3));
    if (!held) continue;
    bits &= ~(permute(held, inverse(g)) & ~bit(square));
    if (!bits) return 0;
  }
  for (let slot = 0; slot < pieceCount - 1; ++slot) {
    if (pieceSide[slot] != LOSER) continue;
    const square = at[slot];
    const shift = pieceShift[slot];
    const kind = pieceKind[slot];
    for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
      let open = bits;
      for (let s = next(d, square); s < 64; s = next(d, s)) {
        if (fixed & bit(s)) break;
        open &= ~bit(s);
        if (!open) break;
        const held = load<u64>(wins + ((<usize>(word + ((s - square) << shift))) << 3));
        bits &= ~(open & held);
        open &= bits;
        if (kind == KNIGHT) break;
      }
      if (!bits) return 0;
    }
  }
  return bits;
}

// ---------------------------------------------------------------- captures backwards

/** Marks every placement from which a capture leads to a placement of smaller table `n` with value `v`. */
function uncaptureValue(n: i32, v: i32): void {
  const bounds = subBounds[n] + ((<usize>v) << 2);
  const order = subOrder[n];
  for (let i = load<u32>(bounds), end = load<u32>(bounds + 4); i < end; ++i) {
    uncapture(n, load<u32>(order + ((<usize>i) << 2)));
  }
}

/** Marks the placements that lead by a capture to placement `p` of smaller table `n`. */
function uncapture(n: i32, p: u32): void {
  const captured = subSlot[n];
  const side = subSide[n];
  const last = pieceCount - 1;
  pair = p >> (6 * last);
  fixed = bit(winnerKing(pair)) | bit(loserKing(pair));
  for (let slot = pieceCount - 1; slot >= 0; --slot) {
    if (slot == captured) continue;
    at[slot] = p & 63;
    fixed |= bit(p & 63);
    p >>= 6;
  }
  for (let slot = 0; slot < pieceCount; ++slot) {
    if (slot == captured || pieceSide[slot] != side) continue;
    const from = at[slot];
    const kind = pieceKind[slot];
    at[captured] = from;
    restInit();
    if (slot == last) {
      mark(imageWord(pair, 0), spread(kind, bit(from), ~fixed));
      continue;
    }
    const word = imageWord(pair, 0) - (from << pieceShift[slot]);
    const bits = bit(at[last]);
    const shift = pieceShift[slot];
    for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
      for (let s = next(d, from); s < 64; s = next(d, s)) {
        if (fixed & bit(s)) break;
        mark(word + (s << shift), bits);
        if (kind == KNIGHT) break;
      }
    }
  }
  at[captured] = side == WINNER ? winnerKing(pair) : loserKing(pair);
  restInit();
  unmoveKing(bit(at[last]), side);
}

/** Makes `rest` from the pieces's squares. */
@inline function restInit(): void {
  rest = 0;
  for (let slot = 0; slot < pieceCount - 1; ++slot) rest = (rest << 6) | at[slot];
}

// ---------------------------------------------------------------- one step of the iteration

// The words that a map has, in order and from its groups of 64 between two, taken out of the map as they are come to:
// `for (let word = firstOf(map, from, to); word >= 0; word = nextMarked())`.
let markedMap: usize = 0;
let markedEnd: i32 = 0;
let markedGroup: i32 = 0;
let markedBits: u64 = 0;

@inline function firstOf(map: usize, from: i32, to: i32): i32 {
  markedMap = map;
  markedEnd = to;
  markedGroup = from - 1;
  markedBits = 0;
  return nextMarked();
}
/** The first of all marked words. */
@inline function firstMarked(): i32 {
  return firstOf(touched, 0, (words + 63) >> 6);
}
@inline function nextMarked(): i32 {
  while (!markedBits) {
    if (++markedGroup >= markedEnd) return -1;
    const group = markedMap + ((<usize>markedGroup) << 3);
    markedBits = load<u64>(group);
    if (markedBits) {
      store<u64>(group, 0);
      reserve(logEnd + 64 * 12);
    }
  }
  const word = (markedGroup << 6) + <i32>ctz(markedBits);
  markedBits &= markedBits - 1;
  return word;
}
/** Takes a word's marks out of a set of them. */
@inline function takeFrom(set: usize, word: i32): u64 {
  const slot = set + ((<usize>word) << 3);
  const bits = load<u64>(slot);
  store<u64>(slot, 0);
  return bits;
}
/** Takes a word's marks out of `pending`. */
@inline function takeMarks(word: i32): u64 {
  return takeFrom(pending, word);
}
/** Closes placements of an open set. */
@inline function close(set: usize, word: i32, bits: u64): void {
  const slot = set + ((<usize>word) << 3);
  store<u64>(slot, load<u64>(slot) & ~bits);
}

/** Logs the marked wins and closes them. Returns the number of words that changed. */
function collectWins(): i32 {
  let changed = 0;
  for (let word = firstMarked(); word >= 0; word = nextMarked()) {
    const bits = takeMarks(word);
    close(openWins, word, bits);
    log(word, bits);
    ++changed;
  }
  return changed;
}

/** Logs the marked losses that have no move left which holds out, and closes them. Returns how many words changed. */
function collectLosses(wait: bool): i32 {
  let changed = 0;
  for (let word = firstMarked(); word >= 0; word = nextMarked()) {
    let bits = takeMarks(word);
    if (wait) bits &= ~load<u64>(waiting + ((<usize>word) << 3));
    if (!bits) continue;
    look(word);
    bits = allMovesLose(word, bits, openWins);
    if (!bits) continue;
    close(openLosses, word, bits);
    log(word, bits);
    ++changed;
  }
  return changed;
}

/**
 * Notes whether the word looked at has an open loss that the word piece's moves hold no longer. Only such words
 * can take marks from moves of other pieces: a placement that the word piece still holds is marked by the word piece
 * when his last move is lost, and all its moves are checked then. Few words are ready, and the map of them is
 * small, so that most marks end here.
 */
function note(word: i32): void {
  const offset = (<usize>word) << 3;
  let bits = load<u64>(openLosses + offset);
  if (wordSide == LOSER && bits) {
    const held = spread(wordKind, load<u64>(openWins + offset), ~fixed);
    if (inside) {
      const quiet = load<u64>(legalWins + offset);
      bits &= ~((pursued ? held & ~quiet : ~quiet) | (spread(wordKind, load<u64>(inside + offset), ~fixed) & quiet));
    } else bits &= ~held;
  }
  const byte = ready + (word >> 3);
  const mask = (1 as u8) << (<u8>word & 7);
  store<u8>(byte, bits ? load<u8>(byte) | mask : load<u8>(byte) & ~mask);
}

/** Notes every word. */
function noteAll(): void {
  for (let word = 0; word < words; ++word) {
    if (load<u64>(openLosses + ((<usize>word) << 3))) look(word);
    note(word);
  }
}

/** Marks what leads by one quiet move of `side` to the log's entries from `from` to `to`. */
function unmoveSegment(from: usize, to: usize, side: i32): void {
  readyOnly = side == LOSER;
  for (let entry = from; entry < to; entry += 12) {
    const word = load<u32>(entry);
    look(word);
    if (readyOnly) note(word);
    unmove(word, load<u64>(entry + 4), side);
  }
  readyOnly = false;
}

/**
 * Distance 0, moves to conversion: the loser is mated, or can only capture into endings that are lost.
 * Drops the losses that a capture saves and the stalemates.
 */
export function conversionStart(): void {
  marking = openLosses;
  for (let n = 0; n < subCount; ++n) if (subSide[n] == LOSER) uncaptureValue(n, NOT_WON);
  for (let word = firstMarked(); word >= 0; word = nextMarked()) close(openLosses, word, takeMarks(word));
  for (let n = 0; n < subCount; ++n) {
    if (subSide[n] != LOSER) continue;
    for (let v = 1; v < <i32>ILLEGAL; ++v) uncaptureValue(n, v);
  }
  for (let word = 0; word < words; ++word) {
    let bits = load<u64>(openLosses + ((<usize>word) << 3));
    if (!bits) continue;
    look(word);
    bits = allMovesLose(word, bits, openWins);
    if (!bits) continue;
    const inCheck = ~load<u64>(openWins + ((<usize>word) << 3));
    const lost = bits & (inCheck | load<u64>(pending + ((<usize>word) << 3)));
    close(openLosses, word, bits);
    if (!lost) continue;
    reserve(logEnd + 12);
    log(word, lost);
  }
  for (let word = firstMarked(); word >= 0; word = nextMarked()) takeMarks(word);
  noteAll();
}

/** Wins in `distance` moves to conversion, from the losses logged between `from` and `to`. */
export function conversionWins(distance: i32, from: usize, to: usize): i32 {
  marking = openWins;
  if (distance == 1) {
    for (let n = 0; n < subCount; ++n) {
      if (subSide[n] != WINNER) continue;
      for (let v = 1; v < <i32>ILLEGAL; ++v) uncaptureValue(n, v);
    }
  }
  unmoveSegment(from, to, WINNER);
  return collectWins();
}

/** Losses at the distance of the wins logged from `from` to the end. They take the wins' place in the log. */
export function conversionLosses(from: usize): i32 {
  const to = logEnd;
  marking = openLosses;
  unmoveSegment(from, to, LOSER);
  const changed = collectLosses(false);
  if (!winsKept) dropSegment(from, to);
  return changed;
}

let winsKept: bool = false;

/** Keeps the wins in the log, in front of the losses of their distance, instead of dropping them. */
export function keepWins(): void {
  winsKept = true;
}

/** Takes a segment out of the log, once what comes of it has been found; that moves down. */
export function dropSegment(from: usize, to: usize): void {
  memory.copy(from, to, logEnd - to);
  logEnd -= to - from;
}

/** Between the two iterations: opens all wins again, and closes all losses. */
export function closeLosses(): void {
  const size = (<usize>words) << 3;
  memory.copy(openWins, legalWins, size);
  memory.fill(openLosses, 0, size);
  memory.fill(waiting, 0, size);
}

/** Opens the losses in the log from `from` to `to` again. Moves to mate need look at no others. */
export function openAgain(from: usize, to: usize): void {
  for (let entry = from; entry < to; entry += 12) {
    const slot = openLosses + ((<usize>load<u32>(entry)) << 3);
    store<u64>(slot, load<u64>(slot) | load<u64>(entry + 4));
  }
}

/**
 * Prepares moves to mate, with the losses opened again. `from` to `to`
 * are the losses of distance 0 to conversion. Logs, longest first, when the losses with captures are released:
 * the u32[256] at `boundsAddress` receives the end of each value's segment. Then logs the mates.
 */
export function mateStart(from: usize, to: usize): void {
  const bounds = releaseBounds;
  marking = openLosses;
  for (let v = MAX_DISTANCE; v >= 0; --v) {
    if (v > 0) {
      for (let n = 0; n < subCount; ++n) if (subSide[n] == LOSER) uncaptureValue(n, v + 1);
      for (let word = firstMarked(); word >= 0; word = nextMarked()) {
        const slot = waiting + ((<usize>word) << 3);
        const bits = takeMarks(word) & ~load<u64>(slot);
        if (!bits) continue;
        store<u64>(slot, load<u64>(slot) | bits);
        log(word, bits);
      }
    }
    store<u32>(bounds + ((<usize>v) << 2), <u32>logEnd);
  }
  for (let entry = from; entry < to; entry += 12) {
    const word = load<u32>(entry);
    const bits = load<u64>(entry + 4) & ~load<u64>(waiting + ((<usize>word) << 3));
    if (!bits) continue;
    close(openLosses, word, bits);
    reserve(logEnd + 12);
    log(word, bits);
  }
  noteAll();
}

export function boundsAddress(): usize {
  return releaseBounds;
}

/** Wins in `distance` moves to mate, from the losses logged between `from` and `to`. */
export function mateWins(distance: i32, from: usize, to: usize): i32 {
  marking = openWins;
  for (let n = 0; n < subCount; ++n) if (subSide[n] == WINNER) uncaptureValue(n, distance);
  unmoveSegment(from, to, WINNER);
  return collectWins();
}

/**
 * Losses at the distance of the wins logged from `from` to the end; they take the wins' place in the log.
 * `releaseFrom` to `releaseTo` are the losses whose longest capture takes that many moves.
 */
export function mateLosses(from: usize, releaseFrom: usize, releaseTo: usize): i32 {
  const to = logEnd;
  marking = openLosses;
  for (let entry = releaseFrom; entry < releaseTo; entry += 12) {
    const word = load<u32>(entry);
    const bits = load<u64>(entry + 4);
    close(waiting, word, bits);
    markHere(word, bits);
  }
  unmoveSegment(from, to, LOSER);
  const changed = collectLosses(true);
  if (!winsKept) dropSegment(from, to);
  return changed;
}

// ---------------------------------------------------------------- from the log to a plane of distances

/** Legal placements with a side to move. Call after `legal` and before the iterations. */
export function countLegal(side: i32): f64 {
  return countBits(side == WINNER ? openWins : openLosses);
}

/** Placements won with the winner to move. Call between the two iterations, before `closeLosses`. */
export function countWon(): f64 {
  return countBits(legalWins) - countBits(openWins);
}

function countBits(set: usize): f64 {
  let count: i64 = 0;
  for (let word = 0; word < words; ++word) count += popcnt(load<u64>(set + ((<usize>word) << 3)));
  return <f64>count;
}

/** Placements of one king pair. */
@inline function pairSize(): i32 {
  return 1 << (6 * pieceCount);
}

/**
 * Room for a slice of a plane behind the log, emptied: one byte for each placement of `pairs` king pairs. A
 * plane's order is king pair, word piece's square, squares of the other pieces, so that the moves of the winner's
 * pieces stay close together.
 */
export function sliceRoom(pairs: i32): usize {
  const size = (<usize>(pairs * pairSize()) + BLOCK - 1) & ~(BLOCK - 1);
  const out = (logEnd + 15) & ~15;
  // behind the slice: room for its blocks' lengths and, should nothing compress, a little more than its size
  reserve(out + size * 3);
  memory.fill(out, 0, size);
  return out;
}

/**
 * Writes `value` for the placements that the log's entries from `entry` on hold in king pairs `first` to
 * `first + pairs - 1`. A segment of the log is in word order: returns where its next slice begins.
 */
export function slicePaint(out: usize, first: i32, pairs: i32, entry: usize, end: usize, value: i32): usize {
  const shift = 6 * (pieceCount - 1);
  const rest = (1 << shift) - 1;
  const limit = <u32>((first + pairs) << shift);
  for (; entry < end; entry += 12) {
    const word = load<u32>(entry);
    if (word >= limit) break;
    const row = out + <usize>((((word >> shift) - first) << (shift + 6)) + (word & rest));
    for (let bits = load<u64>(entry + 4); bits; bits &= bits - 1) {
      store<u8>(row + ((<usize>ctz(bits)) << shift), <u8>value);
    }
  }
  return entry;
}

const CARES: usize = 0x50000; // u64[64]: the placements that matter in the rows of a block

/** The placements of a row of the plane that anyone asks about: pieces on squares of their own, equal pieces in order. */
function careOf(row: i32): u64 {
  const last = pieceCount - 1;
  const kings = row >> (6 * last);
  if (kings >= KING_PAIRS) return 0;
  // the plane's order: word piece first, then the others; the last of them is the column
  const column = pieceCount == 1 ? 0 : last - 1;
  let taken = bit(winnerKing(kings)) | bit(loserKing(kings));
  for (let slot = column - 1, digits = row; slot >= -1; --slot, digits >>= 6) {
    const piece = slot < 0 ? last : slot;
    if (piece == column) break;
    at[piece] = digits & 63;
    if (taken & bit(at[piece])) return 0;
    taken |= bit(at[piece]);
  }
  let care = ~taken;
  for (let slot = 0; slot < pieceCount; ++slot) {
    for (let other = slot + 1; other < pieceCount; ++other) {
      if (pieceKind[slot] != pieceKind[other] || pieceSide[slot] != pieceSide[other]) continue;
      if (slot == column) care &= bit(at[other]) - 1;
      else if (other == column) care &= ~(bit(at[slot]) | (bit(at[slot]) - 1));
      else if (at[slot] > at[other]) return 0;
    }
  }
  return care;
}

/**
 * Writes a word for each word of king pairs `first` to `first + pairs - 1`: which of its placements are won with the
 * winner to move. Their order is the kernel's own, so that what a move of the word piece leads to lies in one word. Call
 * after the iterations.
 */
export function sliceWins(out: usize, first: i32, pairs: i32): void {
  const shift = 6 * (pieceCount - 1);
  for (let word = first << shift, end = (first + pairs) << shift; word < end; ++word, out += 8)
    store<u64>(out, legalToWin(word) & ~load<u64>(openWins + ((<usize>word) << 3)));
}

/** The placements of a word that anyone asks about: see `careOf`; of those with the winner to move, the legal ones. */
function careOfWord(word: i32): u64 {
  if (word >= words) return 0;
  let care = legalToWin(word);
  const last = pieceCount - 1;
  for (let slot = 0; slot < last; ++slot) {
    for (let other = slot + 1; other <= last; ++other) {
      if (pieceKind[slot] != pieceKind[other] || pieceSide[slot] != pieceSide[other]) continue;
      if (other == last) care &= ~(bit(at[slot]) | (bit(at[slot]) - 1));
      else if (at[slot] > at[other]) return 0;
    }
  }
  return care;
}

/**
 * Compresses `count` blocks of the slice at `block`, which begins with king pair `first`, one behind the other
 * to `out`; `lengths` (u16 each) receives their lengths. Blocks of bits are in the kernel's own order. Returns the end.
 */
export function encodeBlocks(
  block: usize,
  first: i32,
  count: i32,
  out: usize,
  lengths: usize,
  bits: bool,
): usize {
  let row = first << (6 * (pieceCount - 1));
  const size = bits ? BIT_BLOCK : BLOCK;
  for (let n = 0; n < count; ++n, block += size) {
    for (let m = 0; m < 64; ++m, ++row) store<u64>(CARES + (<usize>m << 3), bits ? careOfWord(row) : careOf(row));
    const length = bits ? encodeBits(block, out, CARES) : encodeBlock(block, out, CARES);
    store<u16>(lengths + (<usize>n << 1), <u16>length);
    out += <usize>length;
  }
  return out;
}

// ---------------------------------------------------------------- sets of placements: what can be kept, where moves lead

/** Writes what is open to two sets, for `keepInside`: call after the iteration. */
export function keepOpen(wins: usize, losses: usize): void {
  memory.copy(wins, openWins, (<usize>words) << 3);
  memory.copy(losses, openLosses, (<usize>words) << 3);
}

/**
 * Leaves in a set those of its placements that the loser can keep for ever, from what `keepOpen` wrote: after every quiet move
 * it must come back to the set. A check that the loser gives does not leave the set: placements with the winner in check are
 * added to it. A check that the winner gives may be answered by any move that is open; with `checks` only by one after which
 * the set can be come back to.
 *
 * Nobody asks in how many moves, so that a word is followed up with all that has been found of it until then, not step by step.
 */
export function keepInside(set: usize, wins: usize, losses: usize, checks: bool): void {
  // the log is not written meanwhile: in its place stand the marks of wins
  const marks = smaller;
  reserve(marks + ((<usize>words) << 3));
  memory.fill(marks, 0, (<usize>words) << 3);
  pursued = checks;
  memory.copy(openWins, wins, (<usize>words) << 3);
  memory.copy(openLosses, losses, (<usize>words) << 3);
  inside = set;
  for (let word = 0; word < words; ++word) {
    const offset = (<usize>word) << 3;
    const open = load<u64>(wins + offset);
    if (open) look(word);
    store<u64>(set + offset, open ? open & (load<u64>(set + offset) | kingAttacked(WINNER)) : 0);
    const proposed = load<u64>(losses + offset);
    if (!proposed) continue;
    store<u64>(pending + offset, proposed);
    flag(touched, word);
  }
  noteAll();
  while (followUp(marks)) {}
  inside = 0;
}

/** From here on marks are written to another set and its map. */
function swapMarks(other: usize): usize {
  const set = pending;
  const map = touched;
  pending = other;
  touched = touchedOther;
  touchedOther = map;
  return set;
}

/**
 * Goes over the pairs of kings once, and at each over its words until nothing changes: most moves stay with a pair, and its words
 * in the processor's cache. Returns whether there was anything to do.
 */
function followUp(marks: usize): bool {
  // the set-ups of both sides need a piece each: two at least
  const groups = 1 << (6 * (pieceCount - 2));
  let any = false;
  for (let first = 0; first << 6 < words; first += groups) {
    while (checkLosses(first, first + groups, marks) | followWins(first, first + groups, marks)) any = true;
  }
  return any;
}

/** Checks the losses that are marked in groups of words, and marks wins from them. Returns whether there was any. */
function checkLosses(first: i32, end: i32, marks: usize): bool {
  const proposed = swapMarks(marks);
  marking = openWins;
  let any = false;
  for (let word = firstOf(touchedOther, first, end); word >= 0; word = nextMarked()) {
    any = true;
    look(word);
    const bits = allMovesLeave(word, takeFrom(proposed, word));
    if (!bits) continue;
    close(openLosses, word, bits);
    unmove(word, bits, WINNER);
  }
  swapMarks(proposed);
  return any;
}

/** Closes the wins that are marked in groups of words, and marks losses from them. Returns whether there was any. */
function followWins(first: i32, end: i32, marks: usize): bool {
  marking = openLosses;
  readyOnly = true;
  let any = false;
  for (let word = firstOf(touchedOther, first, end); word >= 0; word = nextMarked()) {
    any = true;
    const bits = takeFrom(marks, word);
    close(openWins, word, bits);
    close(inside, word, bits);
    look(word);
    note(word);
    unmove(word, bits, LOSER);
  }
  readyOnly = false;
  return any;
}

/** Closes and logs those placements of a set that are open. */
function reach(open: usize, set: usize): void {
  for (let word = 0; word < words; ++word) {
    const bits = load<u64>(set + ((<usize>word) << 3)) & load<u64>(open + ((<usize>word) << 3));
    if (!bits) continue;
    close(open, word, bits);
    reserve(logEnd + 12);
    log(word, bits);
  }
}
/** Adds the placements of a set, loser to move, to those that are lost at once: call after `conversionStart`. */
export function reachLosses(set: usize): void {
  reach(openLosses, set);
  noteAll();
}
/** The same with the winner to move: they are logged as wins, from which `conversionLosses` goes on. */
export function reachWins(set: usize): void {
  reach(openWins, set);
}

/** Writes to a set the placements with the loser to move from which a quiet move leads into another set. Call after `legal`. */
export function leadInto(into: usize, out: usize): void {
  marking = openLosses;
  for (let word = 0; word < words; ++word) {
    const bits = load<u64>(into + ((<usize>word) << 3));
    if (!bits) continue;
    look(word);
    unmove(word, bits, LOSER);
  }
  takeAll(out);
}

/** Writes to a set the placements with the loser to move from which a capture leads to an ending that is not lost. */
export function saveByCapture(out: usize): void {
  marking = openLosses;
  for (let n = 0; n < subCount; ++n) if (subSide[n] == LOSER) uncaptureValue(n, NOT_WON);
  takeAll(out);
}

/** Moves all marks to a set. */
function takeAll(out: usize): void {
  memory.fill(out, 0, (<usize>words) << 3);
  for (let word = firstMarked(); word >= 0; word = nextMarked()) store<u64>(out + ((<usize>word) << 3), takeMarks(word));
}

const countSets: StaticArray<usize> = new StaticArray<usize>(32);
let sets: i32 = 0;
/**
 * Counted moves: all; those the first set holds; of the others, those a capture saves; of the rest, those into each of the
 * other sets; those into none.
 */
const counts: StaticArray<f64> = new StaticArray<f64>(36);
let captureSet: usize = 0;
let weight: f64 = 1;

/** Begins a list of sets for `countMoves`; then `countInto` names them, the first of which is one's own. */
export function beginCount(captures: usize): void {
  sets = 0;
  captureSet = captures;
}
export function countInto(set: usize): void {
  countSets[sets++] = set;
}
export function countsAddress(): usize {
  return changetype<usize>(counts);
}

/** Counts placements that the winner's quiet moves lead to, by the sets they are in. */
function countAt(word: i32, bits: u64): void {
  const offset = (<usize>word) << 3;
  bits &= load<u64>(openLosses + offset);
  if (!bits) return;
  counts[0] += weight * <f64>popcnt(bits);
  const own = bits & load<u64>(countSets[0] + offset);
  counts[1] += weight * <f64>popcnt(own);
  let rest = bits & ~own;
  if (!rest) return;
  const saved = rest & load<u64>(captureSet + offset);
  counts[2] += weight * <f64>popcnt(saved);
  rest &= ~saved;
  if (!rest) return;
  let named: u64 = 0;
  for (let n = 1; n < sets; ++n) {
    const into = rest & load<u64>(countSets[n] + offset);
    named |= into;
    if (into) counts[n + 2] += weight * <f64>popcnt(into);
  }
  counts[sets + 2] += weight * <f64>popcnt(rest & ~named);
}

/**
 * Counts the winner's quiet legal moves from the placements of a set: all of them, those after which some reply leads back
 * into the first set that was named, those after which none does but a capture saves, those after which one leads into
 * each of the others, and those after which none leads into any. The word piece must be the loser's. Call after `legal`.
 */
export function countMoves(from: usize): void {
  for (let n = 0; n < sets + 3; ++n) counts[n] = 0;
  for (let word = 0; word < words; ++word) {
    const bits = load<u64>(from + ((<usize>word) << 3));
    if (!bits) continue;
    look(word);
    const w = winnerKing(pair);
    const l = loserKing(pair);
    // a pair that is its own mirror image is stored twice
    weight = (w & 7) == w >> 3 && (l & 7) == l >> 3 ? 4 : 8;
    for (let slot = 0; slot < pieceCount - 1; ++slot) {
      if (pieceSide[slot] != WINNER) continue;
      const square = at[slot];
      const kind = pieceKind[slot];
      for (let d = firstDirection(kind), end = lastDirection(kind); d < end; ++d) {
        let open = bits;
        for (let s = next(d, square); s < 64; s = next(d, s)) {
          if (fixed & bit(s)) break;
          open &= ~bit(s);
          if (!open) break;
          countAt(word + ((s - square) << pieceShift[slot]), open);
          if (kind == KNIGHT) break;
        }
      }
    }
    const row = stepsOf(WINNER, pair);
    for (let n = 0, count = stepCount(row); n < count; ++n) {
      const step = stepAt(row, n);
      const square = stepSquare(step);
      if (fixed & bit(square)) continue;
      const open = bits & ~bit(square);
      if (open) countAt(imageWord(stepPair(step), stepSym(step)), permute(open, stepSym(step)));
    }
  }
}

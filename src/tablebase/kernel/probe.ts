// Probing: the exact value of a placement, and of the moves from it (AssemblyScript, compiled to WebAssembly).
//
// The memory is shared by every thread that looks at the same tables (probe-memory.ts lays it out). What is written here
// while looking lies in a page that each thread has for itself, so that no data of the compiler's may lie in the memory:
// no static array, no text.
//
// Distances are those of placements with the loser to move. With the winner to move, they are one move more than the least
// among those moves that lead to a loss; the plane is zero where the loser could take the king, so that moves into check
// need no test.

import { BISHOP, KNIGHT, ROOK } from "./board";

/** Unpacks a block of a half in the calling program. Gives its state. */
@external("env", "unpack")
declare function unpack(half: i32, part: i32, block: i32): i32;

/** Placements in a block: 1 << BLOCK_BITS, as codec.ts has it, which has an array among its constants. */
const BLOCK_BITS: i32 = 12;

/** What can be unpacked of a block, as its flags are numbered: a bit for what is lost, for what is won, the distances. */
const LOST: i32 = 0;
const WINS: i32 = 1;
const DISTANCES: i32 = 2;
/** The state of a block that is there; above it, of one that is all zero; below it, of one that is not there. */
const READY: i32 = 2;

/** What a probe wants to know: distances too, or only who wins, in any number of moves or in so many at most. */
const WANT_DISTANCES: i32 = -1;
const WANT_VERDICT: i32 = 255;

/** What is added to the distances of a win, so that a mate on the board is not 0. */
const WON: i32 = 65536;
/** More than any number of moves. */
const ENDLESS: i32 = 256;

// ---------------------------------------------------------------- what all threads share

const KING_PAIRS: usize = 0x1000; // i16[64][64] number of two kings, winner's first; -1 = they touch
const PAIR_SYMS: usize = 0x3000; // u8[64][64] symmetry that brings two kings into their pair
const IMAGES: usize = 0x4000; // u8[8][64] image of a square under a symmetry
const NEXT: usize = 0x4200; // i8[64][8] next square in a direction, -1 beyond the edge; 0–3 a rook's, 4–7 a bishop's
const KING_STEPS: usize = 0x4400; // [64] rows of ROW bytes: how many, then the squares
const LEAPS: usize = 0x4800; // the same of a knight
const ROW: usize = 16;
const HALVES: usize = 0x5000; // [64] rows of 128 bytes, see `declareHalf`
const NODES: usize = 0x7000; // [8] rows of 32 bytes, see `declareNode`

export function kingPairsAddress(): usize {
  return KING_PAIRS;
}
export function pairSymsAddress(): usize {
  return PAIR_SYMS;
}
export function imagesAddress(): usize {
  return IMAGES;
}
export function nextAddress(): usize {
  return NEXT;
}
/** Where the row of a king's steps begins; of a knight's. */
export function kingStepsAddress(square: i32): usize {
  return KING_STEPS + <usize>square * ROW;
}
export function leapsAddress(square: i32): usize {
  return LEAPS + <usize>square * ROW;
}

@inline function halfAt(half: i32): usize {
  return HALVES + (<usize>half << 7);
}
@inline function piecesOf(half: usize): i32 {
  return load<i32>(half);
}
@inline function winnersOf(half: usize): i32 {
  return load<i32>(half, 4);
}
/** A bit for each slot whose piece is like that of the next one: only the order of rising squares is stored. */
@inline function equalOf(half: usize): i32 {
  return load<i32>(half, 8);
}
@inline function pairSizeOf(half: usize): i32 {
  return load<i32>(half, 12);
}
@inline function blocksOf(half: usize): i32 {
  return load<i32>(half, 16);
}
@inline function bitsOf(half: usize, part: i32): usize {
  return load<u32>(half + (<usize>part << 2), 20);
}
@inline function flagsOf(half: usize): usize {
  return load<u32>(half, 28);
}
@inline function pairsOf(half: usize): usize {
  return load<u32>(half, 32);
}
@inline function ranksOf(half: usize): usize {
  return load<u32>(half, 36);
}
/** By slot: the kind of piece, places from one square of it to the next with the loser and with the winner to move, and
 * the half when it has been taken, -1 where nobody can win that. */
@inline function kindOf(half: usize, slot: i32): i32 {
  return load<i32>(half + (<usize>slot << 2), 48);
}
@inline function stridesOf(half: usize, winnerToMove: bool): usize {
  return half + (winnerToMove ? 80 : 64);
}
@inline function smallerOf(half: usize, slot: i32): i32 {
  return load<i32>(half + (<usize>slot << 2), 96);
}

/** Tells of a half; addresses are those of its bits, its blocks' flags, its distances and where they are. */
export function declareHalf(
  half: i32,
  pieces: i32,
  winners: i32,
  equal: i32,
  blocks: i32,
  lost: usize,
  wins: usize,
  flags: usize,
  pairs: usize,
  ranks: usize,
): void {
  const at = halfAt(half);
  store<i32>(at, pieces);
  store<i32>(at, winners, 4);
  store<i32>(at, equal, 8);
  store<i32>(at, 1 << (6 * pieces), 12);
  store<i32>(at, blocks, 16);
  store<u32>(at, <u32>lost, 20);
  store<u32>(at, <u32>wins, 24);
  store<u32>(at, <u32>flags, 28);
  store<u32>(at, <u32>pairs, 32);
  store<u32>(at, <u32>ranks, 36);
}
export function declareSlot(half: i32, slot: i32, kind: i32, smaller: i32): void {
  const at = halfAt(half) + (<usize>slot << 2);
  const pieces = piecesOf(halfAt(half));
  store<i32>(at, kind, 48);
  // the last piece's square comes first (see `sliceRoom` in kernel.ts); the other way round with the winner to move
  store<i32>(at, 1 << (6 * (slot == pieces - 1 ? pieces - 1 : pieces - 2 - slot)), 64);
  store<i32>(at, 1 << (6 * (pieces - 1 - slot)), 80);
  store<i32>(at, smaller, 96);
}

@inline function nodeAt(node: i32): usize {
  return NODES + (<usize>node << 5);
}
/** The halves of a material, -1 for one that nobody can win, and how many pieces each side has beside its king. */
export function declareNode(
  node: i32,
  attackerWins: i32,
  defenderWins: i32,
  attackers: i32,
  defenders: i32,
): void {
  const at = nodeAt(node);
  store<i32>(at, attackerWins);
  store<i32>(at, defenderWins, 4);
  store<i32>(at, attackers, 8);
  store<i32>(at, defenders, 12);
}
@inline function attackerWinsOf(node: usize): i32 {
  return load<i32>(node);
}
@inline function defenderWinsOf(node: usize): i32 {
  return load<i32>(node, 4);
}
@inline function attackersOf(node: usize): i32 {
  return load<i32>(node, 8);
}
@inline function defendersOf(node: usize): i32 {
  return load<i32>(node, 12);
}

// ---------------------------------------------------------------- what each thread has for itself

let page: usize = 0;
const SQUARES: usize = 0; // u8[8] the placement: kings, attacker's pieces, defender's pieces
const AFTER: usize = 8; // the same after a move
const ORDERS: usize = 16; // u8[2][8] the pieces of the placement in slot order of each half
const AFTER_ORDERS: usize = 32;
const REST: usize = 48; // u8[8] pieces without one that has been taken
const MOVED: usize = 56; // u8[8] pieces, one of them moved
const SORTED: usize = 64; // u8[8] images of pieces in the order that is stored
const MOVES: usize = 128; // i8[3][128] piece, new square, piece taken of each move
const VERDICTS: usize = 512; // i8[128]
const CONVERSIONS: usize = 640; // i16[128]

/** Gives the thread a page of the memory for itself. */
export function attach(number: i32): void {
  page = <usize>number << 16;
}
export function squaresAddress(): usize {
  return page + SQUARES;
}
/** Lists of 128 places: 0 pieces, 1 new squares, 2 pieces taken. */
export function movesAddress(list: i32): usize {
  return page + MOVES + (<usize>list << 7);
}
export function verdictsAddress(): usize {
  return page + VERDICTS;
}
export function conversionsAddress(): usize {
  return page + CONVERSIONS;
}

// ---------------------------------------------------------------- places in a table

@inline function image(symmetry: usize, square: i32): i32 {
  return load<u8>(symmetry + square);
}
@inline function symmetryOf(pair: i32): usize {
  return IMAGES + (<usize>load<u8>(PAIR_SYMS + pair) << 6);
}
@inline function pieceAt(pieces: usize, slot: i32): i32 {
  return load<u8>(pieces + slot);
}
@inline function strideAt(strides: usize, slot: i32): i32 {
  return load<i32>(strides + (<usize>slot << 2));
}

/** The place of a placement; below 0 where the kings touch. `pair` is winner's king × 64 + loser's king. */
function placeOf(half: usize, pair: i32, pieces: usize, winnerToMove: bool): i32 {
  const symmetry = symmetryOf(pair);
  const strides = stridesOf(half, winnerToMove);
  const count = piecesOf(half);
  let place = <i32>load<i16>(KING_PAIRS + (<usize>pair << 1)) * pairSizeOf(half);
  if (equalOf(half) == 0) {
    for (let slot = 0; slot < count; ++slot)
      place += image(symmetry, pieceAt(pieces, slot)) * strideAt(strides, slot);
    return place;
  }
  const sorted = page + SORTED;
  for (let slot = 0; slot < count; ++slot) store<u8>(sorted + slot, image(symmetry, pieceAt(pieces, slot)));
  // neighbours only: with three equal pieces, as many passes as there are pairs sort them
  const passes = popcnt(equalOf(half));
  for (let pass = 0; pass < passes; ++pass) {
    for (let equal = equalOf(half); equal != 0; equal &= equal - 1) {
      const at = sorted + ctz(equal);
      const first = load<u8>(at);
      const second = load<u8>(at, 1);
      if (first <= second) continue;
      store<u8>(at, second);
      store<u8>(at, first, 1);
    }
  }
  for (let slot = 0; slot < count; ++slot) place += pieceAt(sorted, slot) * strideAt(strides, slot);
  return place;
}

@inline function isUnpacked(half: usize, part: i32, block: i32): i32 {
  const state = atomic.load<i32>(flagsOf(half) + (<usize>(part * blocksOf(half) + block) << 2));
  return state >= READY ? state : unpack(<i32>((half - HALVES) >> 7), part, block);
}
/** A bit of a half, LOST or WINS, at a place of 0 or more. */
@inline function has(half: usize, part: i32, place: i32): bool {
  if (isUnpacked(half, part, place >> BLOCK_BITS) != READY) return false;
  return ((<i32>load<u8>(bitsOf(half, part) + (place >> 3)) >> (place & 7)) & 1) != 0;
}
/** Whether the placement is lost with the loser to move; one with touching kings has no place, and is not. */
@inline function isLost(half: usize, place: i32): bool {
  return place >= 0 && has(half, LOST, place);
}
/** 256 × moves to mate + moves to conversion of a placement that is lost. */
function distances(half: usize, place: i32): i32 {
  isUnpacked(half, DISTANCES, place >> BLOCK_BITS);
  const word = (<usize>(place >> 5)) << 2;
  const before = load<u32>(bitsOf(half, LOST) + word) & ((1 << (place & 31)) - 1);
  return load<u16>(pairsOf(half) + (<usize>(load<u32>(ranksOf(half) + word) + popcnt(before)) << 1));
}

// ---------------------------------------------------------------- one half

/**
 * 0 not won, else WON + 256 × moves to mate + moves to conversion; the loser is to move. Where no distances are wanted: 0
 * or WON.
 */
function loserToMove(half: usize, winnerKing: i32, loserKing: i32, pieces: usize, wanted: i32): i32 {
  const place = placeOf(half, (winnerKing << 6) + loserKing, pieces, false);
  if (!isLost(half, place)) return 0;
  if (wanted == WANT_VERDICT) return WON;
  const found = distances(half, place);
  return wanted == WANT_DISTANCES ? WON + found : (found & 255) <= wanted ? WON : 0;
}

/** The least values over the winner's moves. */
let leastMate: i32 = 0;
let leastConversion: i32 = 0;

/** Considers a move of the winner's by the place it leads to. */
@inline function consider(half: usize, place: i32, wanted: i32): void {
  if (!isLost(half, place)) return;
  const found = distances(half, place);
  const conversion = found & 255;
  if (wanted != WANT_DISTANCES) {
    if (conversion + 1 <= wanted) leastMate = 0;
    return;
  }
  leastMate = min(leastMate, found >> 8);
  leastConversion = min(leastConversion, conversion);
}

/** Considers the winner's piece in `slot` (-1 the king) taking the piece in slot `taken` on `to`. */
function considerCapture(
  half: usize,
  winnerKing: i32,
  loserKing: i32,
  pieces: usize,
  slot: i32,
  to: i32,
  taken: i32,
  wanted: i32,
): void {
  const smaller = smallerOf(half, taken);
  if (smaller < 0) return;
  const rest = page + REST;
  for (let m = 0, n = 0; m < piecesOf(half); ++m)
    if (m != taken) store<u8>(rest + n++, m == slot ? to : pieceAt(pieces, m));
  // a capture is a conversion, whatever comes after it
  const limit = wanted == WANT_DISTANCES ? WANT_DISTANCES : WANT_VERDICT;
  const value = loserToMove(halfAt(smaller), winnerKing, loserKing, rest, limit);
  if (value == 0) return;
  leastMate = min(leastMate, (value & 0xffff) >> 8);
  leastConversion = 0;
}

/** The slot of the loser's piece on a square where one stands. */
@inline function slotOn(half: usize, pieces: usize, square: i32): i32 {
  let slot = winnersOf(half);
  while (pieceAt(pieces, slot) != square) ++slot;
  return slot;
}

/**
 * The place of a placement after the piece in `slot` has moved from `from` to `to`; `place` is where it was, `pair` the
 * kings.
 */
@inline function placeAfter(
  half: usize,
  pair: i32,
  pieces: usize,
  slot: i32,
  from: i32,
  to: i32,
  place: i32,
  winnerToMove: bool,
): i32 {
  if (equalOf(half) == 0) {
    const symmetry = symmetryOf(pair);
    return (
      place + (image(symmetry, to) - image(symmetry, from)) * strideAt(stridesOf(half, winnerToMove), slot)
    );
  }
  // equal pieces must be put in order
  const moved = page + MOVED;
  for (let m = 0; m < piecesOf(half); ++m) store<u8>(moved + m, m == slot ? to : pieceAt(pieces, m));
  return placeOf(half, pair, moved, winnerToMove);
}

/** Looks at the winner's moves; ends early where a win is found and no distances are wanted. */
function search(half: usize, winnerKing: i32, loserKing: i32, pieces: usize, wanted: i32): void {
  const whether = wanted != WANT_DISTANCES;
  const pair = (winnerKing << 6) + loserKing;
  const place = placeOf(half, pair, pieces, false);
  const winners = winnersOf(half);
  let loser: u64 = 0;
  let all: u64 = ((1 as u64) << winnerKing) | ((1 as u64) << loserKing);
  for (let slot = 0; slot < piecesOf(half); ++slot) {
    const on = (1 as u64) << pieceAt(pieces, slot);
    all |= on;
    if (slot >= winners) loser |= on;
  }
  for (let slot = 0; slot < winners; ++slot) {
    const kind = kindOf(half, slot);
    const from = pieceAt(pieces, slot);
    if (kind == KNIGHT) {
      const row = LEAPS + <usize>from * ROW;
      for (let n: usize = load<u8>(row); n > 0; --n) {
        const to: i32 = load<u8>(row + n);
        const on = (1 as u64) << to;
        if (!(all & on))
          consider(half, placeAfter(half, pair, pieces, slot, from, to, place, false), wanted);
        else if (loser & on)
          considerCapture(half, winnerKing, loserKing, pieces, slot, to, slotOn(half, pieces, to), wanted);
      }
      if (whether && leastMate < ENDLESS) return;
      continue;
    }
    const end = kind == ROOK ? 4 : 8;
    for (let d = kind == BISHOP ? 4 : 0; d < end; ++d) {
      for (let to: i32 = load<i8>(NEXT + (from << 3) + d); to >= 0; to = load<i8>(NEXT + (to << 3) + d)) {
        const on = (1 as u64) << to;
        if (!(all & on)) {
          consider(half, placeAfter(half, pair, pieces, slot, from, to, place, false), wanted);
          continue;
        }
        if (loser & on)
          considerCapture(half, winnerKing, loserKing, pieces, slot, to, slotOn(half, pieces, to), wanted);
        break;
      }
      if (whether && leastMate < ENDLESS) return;
    }
  }
  const row = KING_STEPS + <usize>winnerKing * ROW;
  for (let n: usize = load<u8>(row); n > 0; --n) {
    const to: i32 = load<u8>(row + n);
    const next = (to << 6) + loserKing;
    if (load<i16>(KING_PAIRS + (<usize>next << 1)) < 0) continue;
    const on = (1 as u64) << to;
    if (!(all & on)) consider(half, placeOf(half, next, pieces, false), wanted);
    else if (loser & on) considerCapture(half, to, loserKing, pieces, -1, to, slotOn(half, pieces, to), wanted);
    if (whether && leastMate < ENDLESS) return;
  }
}

/** Whether it is won with the winner to move. */
@inline function isWon(half: usize, winnerKing: i32, loserKing: i32, pieces: usize): bool {
  const place = placeOf(half, (winnerKing << 6) + loserKing, pieces, true);
  return place >= 0 && has(half, WINS, place);
}

/** As `loserToMove`, with the winner to move. */
function winnerToMove(half: usize, winnerKing: i32, loserKing: i32, pieces: usize, wanted: i32): i32 {
  if (!isWon(half, winnerKing, loserKing, pieces)) return 0;
  if (wanted == WANT_VERDICT) return WON;
  leastMate = ENDLESS;
  leastConversion = ENDLESS;
  search(half, winnerKing, loserKing, pieces, wanted);
  if (leastMate == ENDLESS) return 0;
  return wanted == WANT_DISTANCES ? WON + 256 * (leastMate + 1) + leastConversion + 1 : WON;
}

// ---------------------------------------------------------------- both halves

/** Writes the pieces in the slot order of each half: the attacker's wins, then 8 bytes on the defender's. */
function putInOrder(node: usize, squares: usize, orders: usize): void {
  const attackers = attackersOf(node);
  const defenders = defendersOf(node);
  for (let n = 0; n < attackers; ++n) {
    const square = load<u8>(squares + n, 2);
    store<u8>(orders + n, square);
    store<u8>(orders + defenders + n, square, 8);
  }
  for (let n = 0; n < defenders; ++n) {
    const square = load<u8>(squares + attackers + n, 2);
    store<u8>(orders + attackers + n, square);
    store<u8>(orders + n, square, 8);
  }
}

function look(node: usize, squares: usize, orders: usize, attackerToMove: bool, wanted: i32): i32 {
  const king: i32 = load<u8>(squares);
  const enemy: i32 = load<u8>(squares, 1);
  putInOrder(node, squares, orders);
  const attackerWins = attackerWinsOf(node);
  if (attackerWins >= 0) {
    const half = halfAt(attackerWins);
    const value = attackerToMove
      ? winnerToMove(half, king, enemy, orders, wanted)
      : loserToMove(half, king, enemy, orders, wanted);
    if (value != 0) return value;
  }
  const defenderWins = defenderWinsOf(node);
  if (defenderWins >= 0) {
    const half = halfAt(defenderWins);
    return attackerToMove
      ? -loserToMove(half, enemy, king, orders + 8, wanted)
      : -winnerToMove(half, enemy, king, orders + 8, wanted);
  }
  return 0;
}

/**
 * The value of the placement in `squares`: 0 drawn; else ±(65536 + 256 × moves to mate + moves to conversion), positive
 * when the attacker wins. `wanted`: see WANT_DISTANCES; 255 who wins, in any number of moves, or in so many at most.
 */
export function probe(attackerToMove: bool, wanted: i32): i32 {
  return look(nodeAt(0), page + SQUARES, page + ORDERS, attackerToMove, wanted);
}

/** The same after a move. */
export function probeAfter(piece: i32, to: i32, attackerToMove: bool, wanted: i32): i32 {
  const squares = page + SQUARES;
  const after = page + AFTER;
  const men = 2 + attackersOf(nodeAt(0)) + defendersOf(nodeAt(0));
  let node = 0;
  for (let n = 0, m: usize = 0; n < men; ++n) {
    const square: i32 = load<u8>(squares + n);
    // the material without piece n comes as node n - 1
    if (n != piece && square == to) node = n - 1;
    else store<u8>(after + m++, n == piece ? to : square);
  }
  return look(nodeAt(node), after, page + AFTER_ORDERS, !attackerToMove, wanted);
}

/** No number of moves. */
const UNTOLD: i32 = -1;

/**
 * The value of the placement, and what is known of each of its legal moves, which are given: who wins after it, and the
 * winner's moves to conversion that are left where the side to move wins by a move that takes nothing, else UNTOLD. Where
 * the side to move wins, its moves are looked at once for both.
 */
export function probeMoves(attackerToMove: bool, count: i32): i32 {
  const node = nodeAt(0);
  const squares = page + SQUARES;
  const king: i32 = load<u8>(squares + (attackerToMove ? 0 : 1));
  const enemy: i32 = load<u8>(squares + (attackerToMove ? 1 : 0));
  const sign = attackerToMove ? 1 : -1;
  const oursNumber = attackerToMove ? attackerWinsOf(node) : defenderWinsOf(node);
  const theirsNumber = attackerToMove ? defenderWinsOf(node) : attackerWinsOf(node);
  const ours = halfAt(oursNumber);
  const theirs = halfAt(theirsNumber);
  const ourPieces = page + ORDERS + (attackerToMove ? 0 : 8);
  const theirPieces = page + ORDERS + (attackerToMove ? 8 : 0);
  memory.fill(page + CONVERSIONS, 255, <usize>count << 1);
  putInOrder(node, squares, page + ORDERS);
  if (theirsNumber >= 0) {
    const lost = loserToMove(theirs, enemy, king, theirPieces, WANT_DISTANCES);
    if (lost != 0) {
      // whoever is lost loses by every move
      memory.fill(page + VERDICTS, <u8>-sign, count);
      return -sign * lost;
    }
  }
  const won = oursNumber >= 0 && isWon(ours, king, enemy, ourPieces);
  const ourPair = (king << 6) + enemy;
  const theirPair = (enemy << 6) + king;
  const ourPlace = won ? placeOf(ours, ourPair, ourPieces, false) : 0;
  const theirPlace = theirsNumber >= 0 ? placeOf(theirs, theirPair, theirPieces, true) : 0;
  // what leads from a piece's index to its slot
  const ourFirst = attackerToMove ? -2 : -2 - attackersOf(node);
  const theirFirst = attackerToMove ? defendersOf(node) - 2 : -2;
  let mate = ENDLESS;
  let conversion = ENDLESS;
  for (let m = 0; m < count; ++m) {
    const piece: i32 = load<i8>(page + MOVES + m);
    const to: i32 = load<i8>(page + MOVES + m, 128);
    let verdict = 0;
    if (load<i8>(page + MOVES + m, 256) >= 0) {
      const after = probeAfter(piece, to, attackerToMove, won ? WANT_DISTANCES : WANT_VERDICT);
      verdict = after > 0 ? 1 : after < 0 ? -1 : 0;
      // a capture is a conversion, whatever comes after it
      if (won && verdict == sign) {
        mate = min(mate, ((after * sign) & 0xffff) >> 8);
        conversion = 0;
      }
    } else {
      const from: i32 = load<u8>(squares + piece);
      if (won) {
        const place =
          piece < 2
            ? placeOf(ours, (to << 6) + enemy, ourPieces, false)
            : placeAfter(ours, ourPair, ourPieces, ourFirst + piece, from, to, ourPlace, false);
        if (isLost(ours, place)) {
          const found = distances(ours, place);
          verdict = sign;
          store<i16>(page + CONVERSIONS + (<usize>m << 1), <i16>(found & 255));
          mate = min(mate, found >> 8);
          conversion = min(conversion, found & 255);
        }
      }
      if (verdict == 0 && theirsNumber >= 0) {
        const place =
          piece < 2
            ? placeOf(theirs, (enemy << 6) + to, theirPieces, true)
            : placeAfter(theirs, theirPair, theirPieces, theirFirst + piece, from, to, theirPlace, true);
        if (has(theirs, WINS, place)) verdict = -sign;
      }
    }
    store<i8>(page + VERDICTS + m, <i8>verdict);
  }
  return won ? sign * (WON + 256 * (mate + 1) + conversion + 1) : 0;
}

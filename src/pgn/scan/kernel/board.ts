// A board that plays the plain moves of a movetext (AssemblyScript), for knowing which pieces stand on it.
//
// It trusts the game: a move is not tested for legality unless two pieces could make it. What it cannot follow it says,
// and the game is then replayed with the rules library.

import { DASH, FILE, OPEN_SIDE, RANK, SIGN, SLASH, SPACE, is, isCastling } from "./bytes";
import { PAWN_CAPTURE, PIECE_CAPTURE, PIECE_MOVE, PROMOTION, UNCLEAR, kind, token, tokenEnd } from "./tokens";

// Pieces by number: these are White's, and Black's are 8 more.
const PAWN: i32 = 1;
const KNIGHT: i32 = 2;
const BISHOP: i32 = 3;
const ROOK: i32 = 4;
const QUEEN: i32 = 5;
const KING: i32 = 6;
export const BLACK: i32 = 8;

const USUAL_START = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w ";

/** The usual start as bytes, at its end a byte that may be anything. */
const USUAL = memory.data(64);
/** Number of a piece by its letter in a FEN. */
const PIECES = memory.data(256);
/** Sixteen columns to a rank, so that a step over the side is seen by a bit (0x88). */
const BOARD = memory.data(128);
/** Squares of White's king and Black's. */
const KINGS = memory.data(2);
// along ranks and files first, then across
const DIRECTIONS = memory.data<i8>([1, -1, 16, -16, 15, 17, -15, -17]);
const LEAPS = memory.data<i8>([14, 18, 31, 33, -14, -18, -31, -33]);

for (let n = 0; n < USUAL_START.length; ++n) store<u8>(USUAL + n, <u8>USUAL_START.charCodeAt(n));
for (let n = 0; n < 6; ++n) {
  store<u8>(PIECES + "PNBRQK".charCodeAt(n), <u8>(n + PAWN));
  store<u8>(PIECES + "pnbrqk".charCodeAt(n), <u8>(n + PAWN + BLACK));
}

let black: bool = false;
/** Men on the board. */
export let count: i32 = 0;
/** How many there are of each kind, see `weight`. */
export let material: u64 = 0;

/** Number of the piece that has this letter in a FEN; 0 if none has. */
@inline export function pieceOf(letter: u8): i32 {
  return load<u8>(PIECES + letter);
}

/** What a piece adds to `material`: six bits for each kind but the kings, White's then Black's. */
export function weight(piece: i32): u64 {
  const kind = piece & 7;
  return kind == 0 || kind == KING ? 0 : (1 as u64) << (6 * (kind - 1 + (piece < BLACK ? 0 : 5)));
}

/** Address of the board: 128 bytes, a1 first, sixteen to a rank, of which the last eight are not used. */
export function boardAddress(): i32 {
  return <i32>BOARD;
}

@inline function at(square: i32): i32 {
  return load<u8>(BOARD + square);
}

@inline function put(square: i32, piece: i32): void {
  store<u8>(BOARD + square, <u8>piece);
}

function add(square: i32, piece: i32): void {
  put(square, piece);
  ++count;
  material += weight(piece);
  if ((piece & 7) == KING) store<u8>(KINGS + (piece >> 3), <u8>square);
}

function remove(square: i32): void {
  const piece = at(square);
  if (piece == 0) return;
  put(square, 0);
  --count;
  material -= weight(piece);
}

function move(from: i32, to: i32): void {
  const piece = at(from);
  put(to, piece);
  put(from, 0);
  if ((piece & 7) == KING) store<u8>(KINGS + (piece >> 3), <u8>to);
}

/** Sets up the FEN at `fen`, or the usual start where that is 0. False if it cannot be followed. */
export function setBoard(fen: i32): bool {
  memory.fill(BOARD, 0, 128);
  count = 0;
  material = 0;
  let file = 0;
  let rank = 7;
  let p = fen == 0 ? <i32>USUAL : fen;
  for (; load<u8>(p) != SPACE; ++p) {
    const byte = load<u8>(p);
    if (byte == SLASH) {
      if (file != 8 || rank == 0) return false;
      file = 0;
      --rank;
    } else if (is(p, RANK)) {
      file += byte - 48;
    } else {
      if (pieceOf(byte) == 0 || file > 7) return false;
      add(rank * 16 + file++, pieceOf(byte));
    }
    if (file > 8) return false;
  }
  const turn = load<u8>(p + 1);
  black = turn == 0x62;
  return rank == 0 && file == 8 && (black || turn == 0x77);
}

function inCheck(colour: i32): bool {
  const king = <i32>load<u8>(KINGS + colour);
  const other = colour == 0 ? BLACK : 0;
  for (let n = 0; n < 8; ++n) {
    const leap = king + load<i8>(LEAPS + n);
    if ((leap & 0x88) == 0 && at(leap) == other + KNIGHT) return true;
  }
  for (let n = 0; n < 8; ++n) {
    const step = <i32>load<i8>(DIRECTIONS + n);
    const slider = n < 4 ? ROOK : BISHOP;
    for (let square = king + step; (square & 0x88) == 0; square += step) {
      const piece = at(square);
      if (piece == 0) continue;
      if (piece == other + slider || piece == other + QUEEN) return true;
      break;
    }
  }
  const ahead = colour == 0 ? 16 : -16;
  for (let side = -1; side <= 1; side += 2) {
    const square = king + ahead + side;
    if ((square & 0x88) == 0 && at(square) == other + PAWN) return true;
  }
  return false;
}

/** Whether a piece that goes from a square to another leaves its king in check. */
function exposes(from: i32, to: i32): bool {
  const piece = at(from);
  const taken = at(to);
  put(to, piece);
  put(from, 0);
  const exposed = inCheck(piece >> 3);
  put(from, piece);
  put(to, taken);
  return exposed;
}

/**
 * Square of the piece that can go to a square, by what is said of its file and rank (-1: nothing); -1 if there is none,
 * or more than one. Where several could go, those that would leave their king in check (`tested`) cannot.
 */
function origin(piece: i32, to: i32, file: i32, rank: i32, tested: bool): i32 {
  const kind = piece & 7;
  const slides = kind != KNIGHT && kind != KING;
  const steps = kind == KNIGHT ? LEAPS : kind == BISHOP ? DIRECTIONS + 4 : DIRECTIONS;
  const length = kind == ROOK || kind == BISHOP ? 4 : 8;
  const one = weight(piece);
  const isOnly = (material & (63 * one)) == one; // of its kind, as a king always is
  let found = -1;
  for (let n = 0; n < length; ++n) {
    const step = <i32>load<i8>(steps + n);
    for (let square = to + step; (square & 0x88) == 0; square += step) {
      const here = at(square);
      const named = (file < 0 || (square & 7) == file) && (rank < 0 || square >> 4 == rank);
      if (here == piece && named && !(tested && exposes(square, to))) {
        if (found >= 0) return tested ? -1 : origin(piece, to, file, rank, true);
        if (isOnly) return square;
        found = square;
      }
      if (here != 0 || !slides) break;
    }
  }
  return found;
}

function castle(short: bool): bool {
  const colour: i32 = black ? 1 : 0;
  const king = <i32>load<u8>(KINGS + colour);
  const rank = king & 0x70;
  const rookPiece = ROOK + colour * BLACK;
  let rook = -1;
  for (let file = king & 7; file >= 0 && file < 8; file += short ? 1 : -1)
    if (at(rank + file) == rookPiece) rook = rank + file;
  if (rook < 0) return false;
  put(king, 0);
  put(rook, 0);
  put(rank + (short ? 5 : 3), rookPiece);
  const goal = rank + (short ? 6 : 2);
  store<u8>(KINGS + colour, <u8>goal);
  put(goal, KING + colour * BLACK);
  return true;
}

/** The square named at `p`. */
@inline function squareAt(p: i32): i32 {
  return (<i32>load<u8>(p + 1) - 49) * 16 + <i32>load<u8>(p) - 97;
}

function movePawn(): bool {
  const colour = black ? BLACK : 0;
  const step = black ? -16 : 16;
  const pawn = PAWN + colour;
  const takes = kind == PAWN_CAPTURE;
  const goal = takes ? token + 2 : token;
  const to = squareAt(goal);
  let from = ((to - step) >> 4) * 16 + <i32>load<u8>(token) - 97;
  if ((from & 0x88) != 0) return false;
  if (takes) {
    if (at(to) == 0) {
      // in passing
      if (at(to - step) != (pawn ^ BLACK)) return false;
      remove(to - step);
    }
    remove(to);
  } else {
    if (at(to) != 0) return false;
    if (at(from) == 0) from -= step;
  }
  if ((from & 0x88) != 0 || at(from) != pawn) return false;
  move(from, to);
  const rank = to >> 4;
  if (kind == PROMOTION || rank == 0 || rank == 7) {
    let made = QUEEN;
    for (let p = goal + 2; p < tokenEnd; ++p) {
      const named = pieceOf(load<u8>(p));
      if (named > PAWN && named < KING) made = named;
    }
    if (load<u8>(tokenEnd) == OPEN_SIDE) return false; // "e8(R)"
    remove(to);
    add(to, made + colour);
  }
  return true;
}

function movePiece(): bool {
  const piece = pieceOf(load<u8>(token)) + (black ? BLACK : 0);
  // the last file and rank are the goal; what is before them tells which piece
  let p = token + 1;
  while (p < tokenEnd && is(p, FILE | RANK | SIGN)) ++p;
  const to = squareAt(p - 2);
  let file = -1;
  let rank = -1;
  for (let q = token + 1; q < p - 2; ++q) {
    if (is(q, FILE)) file = <i32>load<u8>(q) - 97;
    else if (is(q, RANK)) rank = <i32>load<u8>(q) - 49;
  }
  if ((kind == PIECE_CAPTURE) == (at(to) == 0)) return false;
  const from = origin(piece, to, file, rank, false);
  if (from < 0) return false;
  remove(to);
  move(from, to);
  return true;
}

/** Plays the token at hand; false if it cannot be followed. */
export function play(): bool {
  if (kind == UNCLEAR) return false;
  const done =
    isCastling(load<u8>(token))
      ? castle(load<u8>(token + 3) != DASH)
      : kind == PIECE_MOVE || kind == PIECE_CAPTURE
        ? movePiece()
        : movePawn();
  black = !black;
  return done;
}

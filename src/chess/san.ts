// Moves in standard algebraic notation as numbers, so that a column can hold a million of them and a question
// about their text looks at each different move once.
//
// A number says everything the text says: the piece, what distinguishes it from others of its kind, whether it takes, where it goes,
// and check or mate. There are no pawns here; castling, possible from an invented FEN, has numbers of its own.

import { KINDS, LETTERS } from "./material.js";
import type { MoveList, Movement } from "./moves.js";
import { distance, fileOf, parseSquare, rankOf, squareName } from "./squares.js";
import type { Square } from "./units.js";

/** A move's number, from 0 up to and without `SAN_CODES`. */
export type SanCode = number;

const KING = KINDS.length;
/** Nothing, 8 files, 8 ranks, 64 squares. */
const ORIGINS = 81;
const SUFFIXES = ["", "+", "#"] as const;
const CASTLING = (KING + 1) * ORIGINS * 64 * 2 * SUFFIXES.length;
const CASTLES = ["O-O", "O-O-O"] as const;
export const SAN_CODES = CASTLING + CASTLES.length * SUFFIXES.length;

const encode = (kind: number, origin: number, to: Square, takes: boolean, suffix: number): SanCode =>
  (((kind * ORIGINS + origin) * 64 + to) * 2 + (takes ? 1 : 0)) * SUFFIXES.length + suffix;

const FILES = "abcdefgh";

/** The text of a number: "R2a7+". */
export function sanText(code: SanCode): string {
  const suffix = SUFFIXES[code % SUFFIXES.length];
  if (code >= CASTLING) return CASTLES[Math.floor((code - CASTLING) / SUFFIXES.length)] + suffix;
  let rest = Math.floor(code / SUFFIXES.length);
  const takes = rest % 2 === 1 ? "x" : "";
  rest >>= 1;
  const to = rest % 64;
  rest = Math.floor(rest / 64);
  const origin = rest % ORIGINS;
  const from =
    origin === 0
      ? ""
      : origin <= 8
        ? FILES[origin - 1]
        : origin <= 16
          ? String(origin - 8)
          : squareName(origin - 17);
  return `${`${LETTERS}K`[Math.floor(rest / ORIGINS)]}${from}${takes}${squareName(to)}${suffix}`;
}

const SAN = /^(?:([QRBNK])([a-h])?([1-8])?(x)?([a-h][1-8])|(O-O-O|O-O))([+#])?$/;

/** The number of a text; undefined for anything that is not a piece's move in SAN. Inverse of `sanText`. */
export function parseSan(text: string): SanCode | undefined {
  const match = SAN.exec(text);
  if (!match) return undefined;
  const [, letter, file, rank, takes, to, castle, sign = ""] = match;
  const suffix = SUFFIXES.indexOf(sign as (typeof SUFFIXES)[number]);
  if (castle)
    return CASTLING + CASTLES.indexOf(castle as (typeof CASTLES)[number]) * SUFFIXES.length + suffix;
  const origin =
    file && rank
      ? 17 + parseSquare(file + rank)!
      : file
        ? 1 + FILES.indexOf(file)
        : rank
          ? 8 + Number(rank)
          : 0;
  return encode(`${LETTERS}K`.indexOf(letter), origin, parseSquare(to)!, takes !== undefined, suffix);
}

/** What distinguishes a piece from others of its kind that could go to the same square: its file, or its rank, or both. */
function originOf(from: Square, rivals: readonly Square[]): number {
  if (rivals.length === 0) return 0;
  if (rivals.every((square) => fileOf(square) !== fileOf(from))) return 1 + fileOf(from);
  if (rivals.every((square) => rankOf(square) !== rankOf(from))) return 9 + rankOf(from);
  return 17 + from;
}

/**
 * The number of move `n` of `list`, the legal moves of a placement, where it takes nothing. `squares` is changed
 * and put back while working.
 */
export function quietSanCode(
  movement: Movement,
  squares: Square[],
  attackerToMove: boolean,
  list: MoveList,
  n: number,
  replies: MoveList,
): SanCode {
  const piece = list.piece[n];
  const to = list.to[n];
  const kind = movement.kindOf(piece);
  const rivals: Square[] = [];
  for (let m = 0; m < list.count; ++m) {
    const other = list.piece[m];
    if (other !== piece && list.to[m] === to && movement.kindOf(other) === kind) rivals.push(squares[other]);
  }
  const from = squares[piece];
  squares[piece] = to;
  let suffix = 0;
  if (movement.inCheck(squares, attackerToMove ? 1 : 0)) {
    movement.legalMoves(squares, !attackerToMove, replies);
    suffix = replies.count === 0 ? 2 : 1;
  }
  squares[piece] = from;
  return encode(kind === undefined ? KING : kind, originOf(from, rivals), to, false, suffix);
}

/** The least code of a digit, of a letter of a file. */
const [DIGIT_1, FILE_A] = ["1", "a"].map((text) => text.charCodeAt(0));

/** No move that can be read at a glance. */
export const NO_MOVE = -1;

/**
 * The move of a piece or king to an empty square that a text names in SAN: 64 × the piece's index + its new square. NO_MOVE for
 * any other text, and where no such move is legal, or more than one: the rules library is to be asked then. `squares` is
 * changed and put back while working.
 */
export function readQuietSan(
  movement: Movement,
  squares: Square[],
  attackerToMove: boolean,
  text: string,
): number {
  const kind = `${LETTERS}K`.indexOf(text[0]);
  const last = text[text.length - 1];
  const end = last === "+" || last === "#" ? text.length - 1 : text.length;
  if (kind < 0 || end < 3 || end > 5) return NO_MOVE;
  const file = text.charCodeAt(end - 2) - FILE_A;
  const rank = text.charCodeAt(end - 1) - DIGIT_1;
  if (!(file >= 0 && file < 8 && rank >= 0 && rank < 8)) return NO_MOVE;
  const to = rank * 8 + file;
  let [fromFile, fromRank] = [-1, -1];
  for (let n = 1; n < end - 2; ++n) {
    const code = text.charCodeAt(n);
    // a file comes before a rank
    if (code >= FILE_A && code < FILE_A + 8 && fromFile < 0 && fromRank < 0) fromFile = code - FILE_A;
    else if (code >= DIGIT_1 && code < DIGIT_1 + 8 && fromRank < 0) fromRank = code - DIGIT_1;
    else return NO_MOVE;
  }
  if (squares.includes(to)) return NO_MOVE;
  const side = attackerToMove ? 0 : 1;
  let found = NO_MOVE;
  for (let n = 0; n < squares.length; ++n) {
    const from = squares[n];
    if (movement.sideOf(n) !== side || (movement.kindOf(n) ?? KING) !== kind) continue;
    if ((fromFile >= 0 && fileOf(from) !== fromFile) || (fromRank >= 0 && rankOf(from) !== fromRank))
      continue;
    if (kind === KING ? distance(from, to) !== 1 : !movement.attacks(squares, n, to)) continue;
    squares[n] = to;
    const legal = !movement.inCheck(squares, side);
    squares[n] = from;
    if (!legal) continue;
    if (found !== NO_MOVE) return NO_MOVE;
    found = 64 * n + to;
  }
  return found;
}

// The words of a game's main line in raw bytes: where each is and what kind of move it plainly is.
//
// The lean twin of `readMainLine`, which makes no text: comments, side lines, glyphs and numbers are passed over
// by the same rules. What is not plainly a move is called unclear, and the game is then read by `readMainLine`.

import { NEWLINE, SPACE, bytesOf, isDigit, isFile, isRank, isSign } from "./bytes.js";
import { RESULTS } from "../game/movetext.js";

const DOT = 46;
const [OPEN_SIDE, CLOSE_SIDE, OPEN_TAG, CLOSE_TAG, OPEN_COMMENT, CLOSE_COMMENT, REST, GLYPH, PERCENT] = [
  ..."()[]{};$%",
].map((sign) => sign.charCodeAt(0));

/** O, of O-O and O-O-O. */
export const CASTLES = 79;

const endsWord = (byte: number) =>
  byte <= SPACE ||
  byte === OPEN_SIDE ||
  byte === CLOSE_SIDE ||
  byte === OPEN_TAG ||
  byte === CLOSE_TAG ||
  byte === OPEN_COMMENT ||
  byte === CLOSE_COMMENT ||
  byte === REST ||
  byte === GLYPH;

// What a word of the main line is.
/** A move of a piece by its letter, not a capture; or castling. */
export const PIECE = 1;
export const PIECE_TAKES = 2;
export const PAWN = 3;
export const PROMOTES = 4;
export const PAWN_TAKES = 5;
/** Perhaps a move, perhaps a result, perhaps a word: the game is read in full. */
export const UNCLEAR = 6;

/** End of what may follow a move's square: check and mate signs, marks, a promotion. */
const TAIL = new Uint8Array(256);
for (const sign of "+#!?=QRBN") TAIL[sign.charCodeAt(0)] = 1;

const RESULT_BYTES = RESULTS.map(bytesOf);

const isResult = (bytes: Uint8Array, p: number, end: number): boolean =>
  RESULT_BYTES.some(
    (result) => result.length === end - p && result.every((byte, n) => bytes[p + n] === byte),
  );

/** Classifies the word at `p`, which ends before `end` and does not begin with a digit or a dot. */
function kindOf(bytes: Uint8Array, p: number, end: number): number {
  const first = bytes[p];
  let q = p;
  let takes = false;
  let last = false; // it reaches the last rank
  const piece = first === 75 || first === 81 || first === 82 || first === 66 || first === 78; // K Q R B N
  if (piece) {
    // file, rank or square it comes from; sign; square it goes to: the last file and rank are the goal
    ++q;
    let squares = 0;
    for (; q < end && squares < 4; ++q) {
      if (isFile(bytes[q]) || isRank(bytes[q])) ++squares;
      else if (isSign(bytes[q]) && !takes) takes = true;
      else break;
    }
    if (squares < 2 || !isRank(bytes[q - 1]) || !isFile(bytes[q - 2])) return UNCLEAR;
  } else if (isFile(first)) {
    ++q;
    if (isSign(bytes[q]) && isFile(bytes[q + 1])) {
      takes = true;
      q += 2;
    }
    if (q >= end || !isRank(bytes[q])) return UNCLEAR;
    last = bytes[q] === 49 || bytes[q] === 56;
    ++q;
  } else if (first === CASTLES) {
    while (q < end && (bytes[q] === CASTLES || bytes[q] === 45)) ++q;
    if (q - p !== 3 && q - p !== 5) return UNCLEAR;
  } else {
    return UNCLEAR;
  }
  while (q < end && TAIL[bytes[q]] === 1) ++q;
  if (q < end) return UNCLEAR;
  if (takes) return piece ? PIECE_TAKES : PAWN_TAKES;
  return piece || first === CASTLES ? PIECE : last ? PROMOTES : PAWN;
}

/** Where the side line at `p` ends; -1 if it never does. The same as the main line's reader has it. */
function endOfSideLine(bytes: Uint8Array, p: number, end: number, lineComments: boolean): number {
  const open = bytes[p];
  const close = open === OPEN_SIDE ? CLOSE_SIDE : CLOSE_TAG;
  for (let depth = 0; p < end; ++p) {
    const byte = bytes[p];
    if (byte === OPEN_COMMENT) {
      while (p < end && bytes[p] !== CLOSE_COMMENT) ++p;
      if (p >= end) return -1;
    } else if (byte === REST && lineComments) {
      while (p < end && bytes[p] !== NEWLINE) ++p;
    } else if (byte === open) {
      ++depth;
    } else if (byte === close && --depth === 0) {
      return p + 1;
    }
  }
  return -1;
}

/** Goes through the words of a main line. One is made for each thread, and set to one game after another. */
export class Words {
  /** The word at hand: where it begins, where it ends, what it is. */
  word = 0;
  wordEnd = 0;
  kind = UNCLEAR;
  private bytes: Uint8Array = new Uint8Array(0);
  private p = 0;
  private end = 0;
  private lineStart = true;
  /** A move has been seen: the next result ends the main line. */
  private moves = false;

  /** Begins the movetext from `text` to `end`. */
  set(bytes: Uint8Array, text: number, end: number): void {
    this.bytes = bytes;
    this.p = text;
    this.end = end;
    this.lineStart = true;
    this.moves = false;
  }

  /** Goes to the next word; false at the end. Something that never closes is an unclear word. */
  next(): boolean {
    const { bytes, end } = this;
    let p = this.p;
    while (p < end) {
      const byte = bytes[p];
      if (byte <= SPACE) {
        if (byte === NEWLINE) this.lineStart = true;
        ++p;
        continue;
      }
      if ((byte === PERCENT && this.lineStart) || byte === REST) {
        while (p < end && bytes[p] !== NEWLINE) ++p;
        continue;
      }
      this.lineStart = false;
      if (byte === OPEN_COMMENT) {
        const start = p;
        while (p < end && bytes[p] !== CLOSE_COMMENT) ++p;
        if (p >= end) return this.take(start, end, UNCLEAR);
        ++p;
        continue;
      }
      if (byte === OPEN_SIDE || byte === OPEN_TAG) {
        let close = endOfSideLine(bytes, p, end, true);
        if (close < 0) close = endOfSideLine(bytes, p, end, false);
        if (close < 0) return this.take(p, end, UNCLEAR);
        p = close;
        continue;
      }
      if (byte === GLYPH) {
        for (++p; p < end && isDigit(bytes[p]); ++p);
        continue;
      }
      if (endsWord(byte)) {
        ++p;
        continue;
      }
      // numbers and dots first
      const start = p;
      while (p < end && (isDigit(bytes[p]) || bytes[p] === DOT)) ++p;
      if (p < end && p > start && bytes[p - 1] !== DOT && !endsWord(bytes[p])) p = start; // 1-0, 0-0
      const word = p;
      while (p < end && !endsWord(bytes[p])) ++p;
      if (word === p) continue;
      const kind = kindOf(bytes, word, p);
      if (kind !== UNCLEAR) this.moves = true;
      else if (this.moves && isResult(bytes, word, p)) return false;
      return this.take(word, p, kind);
    }
    this.p = p;
    return false;
  }

  private take(word: number, end: number, kind: number): boolean {
    this.word = word;
    this.wordEnd = end;
    this.kind = kind;
    this.p = end;
    return true;
  }

  /** Whether the word at hand has a sign of capture anywhere. */
  hasSign(): boolean {
    for (let q = this.word; q < this.wordEnd; ++q) if (isSign(this.bytes[q])) return true;
    return false;
  }
}

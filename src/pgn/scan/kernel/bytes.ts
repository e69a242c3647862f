// Bytes of PGN by what they are, for the tokenizer and the board (AssemblyScript). Each byte has a set of classes.

export const NEWLINE: u8 = 0x0a;
export const SPACE: u8 = 0x20;
export const QUOTE: u8 = 0x22;
export const GLYPH: u8 = 0x24; // $
export const PERCENT: u8 = 0x25;
export const OPEN_SIDE: u8 = 0x28; // (
export const CLOSE_SIDE: u8 = 0x29;
export const DASH: u8 = 0x2d;
export const DOT: u8 = 0x2e;
export const SLASH: u8 = 0x2f;
export const SEMICOLON: u8 = 0x3b;
export const OPEN_TAG: u8 = 0x5b; // [
export const CLOSE_TAG: u8 = 0x5d;
export const OPEN_COMMENT: u8 = 0x7b; // {
export const CLOSE_COMMENT: u8 = 0x7d;

export const FILE: u8 = 1;
export const RANK: u8 = 2;
/** A sign of capture: x : X */
export const SIGN: u8 = 4;
/** May follow a move's square: check and mate signs, marks, a promotion. */
export const TAIL: u8 = 8;
/** No token goes on over it. */
export const ENDS_TOKEN: u8 = 16;
/** May stand in a word that is certainly no move, see `isWord` in tokens.ts. */
export const WORD: u8 = 32;
/** K Q R B N */
export const PIECE_LETTER: u8 = 64;
export const DIGIT_OR_DOT: u8 = 128;

const CLASSES = memory.data(256);

const NO_WORD = "0123456789.*@½()[]{};$";

function mark(letters: string, classes: u8): void {
  for (let n = 0; n < letters.length; ++n) {
    const at = CLASSES + letters.charCodeAt(n);
    store<u8>(at, load<u8>(at) | classes);
  }
}

for (let byte: i32 = 0; byte < 256; ++byte) store<u8>(CLASSES + byte, byte <= <i32>SPACE ? ENDS_TOKEN : WORD);
for (let n = 0; n < NO_WORD.length; ++n) store<u8>(CLASSES + NO_WORD.charCodeAt(n), 0);
mark("()[]{};$", ENDS_TOKEN);
mark("abcdefgh", FILE);
mark("12345678", RANK);
mark("x:X", SIGN);
mark("+#!?=QRBN", TAIL);
mark("0123456789.", DIGIT_OR_DOT);
mark("KQRBN", PIECE_LETTER);

/** Whether the byte at `p` is of one of these classes. */
@inline export function is(p: i32, classes: u8): bool {
  return (load<u8>(CLASSES + load<u8>(p)) & classes) != 0;
}

/** Whether a byte is one of those that castling is written with: O-O, 0-0, o-o. */
@inline export function isCastling(byte: u8): bool {
  return byte == 0x4f || byte == 0x30 || byte == 0x6f;
}

@inline export function isDigit(byte: u8): bool {
  return byte - 0x30 < 10;
}

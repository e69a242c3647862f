// Where a block can end, so that the blocks of a file hold the same games as the whole.

import { CLOSE_TAG, NEWLINE, QUOTE, isBlank, textOf } from "../scan/bytes.js";
import { TagReader } from "../scan/tag-reader.js";

/** The start of a tag, or of what may be one that is damaged. */
const TAG_START = /\[\s*[A-Za-z]/;

/** Bytes that a game may have; a longer one is told, not read. */
export const LONGEST_GAME = 8 << 20;

/** Where no game begins for so many bytes, a block ends with a line: the longest game, and room to see where it ends. */
export const LONGEST_GAP = LONGEST_GAME + (1 << 20);

/**
 * The last place in `bytes` at which a block can end: before a well-known tag at the start of a line, where the last line
 * before it that is not blank is part of a game but not of its tag section. -1 if there is none, or if what comes before
 * `bytes` would have to be known (`isStart`: nothing comes before).
 */
export const lastBlockEnd = (bytes: Uint8Array, isStart = true): number => lastTag(bytes, isStart, true);

/** Where a block ends, and whether in the middle of a game. */
export interface BlockEnd {
  readonly at: number;
  readonly inGame: boolean;
}

/**
 * Where a block ends in bytes in which there is no such place for as long as a game may be: before any tag that is placed
 * like the first of a game (right unless a comment was never closed before it), else at the end of a line.
 */
export function forcedBlockEnd(bytes: Uint8Array, isStart: boolean): BlockEnd {
  const end = lastTag(bytes, isStart, false);
  return end > 0
    ? { at: end, inGame: false }
    : { at: bytes.lastIndexOf(NEWLINE) + 1 || bytes.length, inGame: true };
}

function lastTag(bytes: Uint8Array, isStart: boolean, wellKnown: boolean): number {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const tags = new TagReader(bytes);
  for (let p = buffer.lastIndexOf("\n["); p > 0; p = buffer.lastIndexOf("\n[", p - 1)) {
    let q = p;
    while (q >= 0 && isBlank(bytes[q])) --q;
    if (q < 0 && !isStart) return -1;
    if (q < 0 || bytes[q] === CLOSE_TAG || bytes[q] === QUOTE) continue;
    if (tags.read(p + 1) < 0 || (wellKnown && !tags.isWellKnown)) continue;
    const lineStart = buffer.lastIndexOf("\n", q) + 1;
    if (lineStart === 0 && !isStart) return -1;
    const line = textOf(bytes, lineStart, q + 1);
    if (!TAG_START.test(line) && line.trimStart()[0] !== "%") return p + 1;
  }
  return -1;
}

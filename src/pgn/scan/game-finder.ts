// Finding games in raw bytes, and the quick reject.
//
// One pass over the bytes, without making text: where each game begins, where its movetext begins, where it
// ends, and how many captures its movetext holds at most. The rules for real files: a tag pair at the start of
// a line begins a new game unless it continues a tag section; one of the well-known tags glued to movetext does
// so too; a comment that never closes ends at the next game's tags; blank lines mean nothing.
//
// The reject: material of n men cannot arise from a start with m men before m − n captures. Everything that could
// make the count too small (captures without a sign, a start that cannot be counted, another variant) is flagged
// and the game is then read in full; counting too many does no harm.

import { NEWLINE, SPACE, bytesOf, isLetter, isSign } from "./bytes.js";
import { CompiledScanKernel, type ScanKernel, PlainScanKernel } from "./scan-kernel.js";
import { variantOf } from "../game/tags.js";

const QUOTE = 34;
const OPEN_TAG = 91;
const CLOSE_TAG = 93;
const OPEN_COMMENT = 123;
const CLOSE_COMMENT = 125;

const COMMENT_LINE = 59;
const PERCENT = 37;

/** Men on the board at the usual start. */
const USUAL_MEN = 32;

const isBlank = (byte: number) => byte <= SPACE;

/** Bytes of a tag's name. */
const NAME_BYTES = new Uint8Array(256);
for (let byte = 0; byte < 128; ++byte) NAME_BYTES[byte] = /\w/.test(String.fromCharCode(byte)) ? 1 : 0;

const [EVENT, FEN, VARIANT] = ["Event", "FEN", "Variant"].map(bytesOf);

/** Tags that begin or continue a tag section even in the middle of a line or an unclosed comment. */
const WELL_KNOWN = new Set([
  "Event",
  "Site",
  "Date",
  "Round",
  "White",
  "Black",
  "Result",
  "WhiteElo",
  "BlackElo",
  "ECO",
  "EventDate",
  "FEN",
  "SetUp",
  "Variant",
]);

/** A game in a part of bytes; offsets count from the start of the part. Reused from game to game. */
export interface GameBounds {
  start: number;
  /**
   * 1 for a game that any reader counts. A game recovered from inside a comment that never closed, its first
   * tag glued to the comment, is part 2 (3 …) of the game before, so that game numbers agree with readers
   * that lose it.
   */
  part: number;
  /** Where the movetext begins. */
  text: number;
  end: number;
  /** Signs of capture in the movetext, side lines included. */
  captures: number;
  /** Where the value of the FEN tag begins, -1 if there is none. */
  fen: number;
  /** Men on the board at the start: 32, or those of the FEN tag. */
  startMen: number;
  /** Another variant is played, or the FEN tag is none. */
  special: boolean;
  /** Captures may be hidden from the count: written without a sign, or inside a comment that never closes. */
  unsigned: boolean;
}

class Finder {
  private readonly span: GameBounds = {
    start: 0,
    part: 1,
    text: 0,
    end: 0,
    captures: 0,
    fen: -1,
    startMen: USUAL_MEN,
    special: false,
    unsigned: false,
  };
  private nameStart = 0;
  private nameEnd = 0;
  /** The tag just noted has its quote and bracket at the end. */
  private closed = false;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly movetext: ScanKernel,
  ) {}

  /** End of the tag pair at `p` (behind its bracket), or -1 if none stands there. Notes the tag's name. */
  private tagEnd(p: number): number {
    const { bytes } = this;
    if (bytes[p] !== OPEN_TAG) return -1;
    let q = p + 1;
    while (bytes[q] === SPACE) ++q;
    this.nameStart = q;
    if (!isLetter(bytes[q])) return -1;
    while (q < bytes.length && NAME_BYTES[bytes[q]] === 1) ++q;
    this.nameEnd = q;
    while (bytes[q] === SPACE || bytes[q] === 9) ++q;
    if (bytes[q] !== QUOTE) return -1;
    this.closed = false;
    // the value ends at a quote before a bracket, so that quotes inside it do no harm; else with the line
    for (++q; q < bytes.length; ++q) {
      const byte = bytes[q];
      if (byte === NEWLINE) return q;
      if (byte !== QUOTE) continue;
      let r = q + 1;
      while (bytes[r] === SPACE) ++r;
      if (bytes[r] === CLOSE_TAG) {
        this.closed = true;
        return r + 1;
      }
    }
    return q;
  }

  /** Whether the tag just noted has this name. */
  private isNamed(name: Uint8Array): boolean {
    const { bytes, nameStart } = this;
    if (this.nameEnd - nameStart !== name.length) return false;
    for (let n = 0; n < name.length; ++n) if (bytes[nameStart + n] !== name[n]) return false;
    return true;
  }

  private name(): string {
    let name = "";
    for (let q = this.nameStart; q < this.nameEnd; ++q) name += String.fromCharCode(this.bytes[q]);
    return name;
  }

  /** The value of the tag just noted, which ends before `end`. */
  private value(end: number): string {
    const start = this.bytes.indexOf(QUOTE, this.nameEnd) + 1;
    return Buffer.from(this.bytes.subarray(start, end))
      .toString("latin1")
      .replace(/"\s*\]$/, "");
  }

  /** Whether a tag stands at `p`. */
  isTag(p: number): boolean {
    return this.tagEnd(p) >= 0;
  }

  /** Whether a well-known tag stands at `p`. */
  isWellKnown(p: number): boolean {
    return this.tagEnd(p) >= 0 && WELL_KNOWN.has(this.name());
  }

  /** Whether a tag section begins at `p`, met inside movetext or a comment. */
  private sectionAt(p: number, atLineStart: boolean, inComment: boolean): boolean {
    if (this.tagEnd(p) < 0) return false;
    if (atLineStart && !inComment) return true;
    const name = this.name();
    return name === "Event" || (atLineStart && WELL_KNOWN.has(name)) || (!inComment && WELL_KNOWN.has(name));
  }

  /** Reads the tag section at `p` into the span and returns where the movetext begins. */
  private readSection(p: number): number {
    const { bytes, span } = this;
    let seenEvent = false;
    let broken = false; // a tag before the Event lacks its end: debris of something else
    span.start = p;
    for (;;) {
      const end = this.tagEnd(p);
      if (end < 0) break;
      if (this.isNamed(EVENT)) {
        if (seenEvent || broken) break;
        seenEvent = true;
      } else if (this.isNamed(VARIANT)) {
        span.special ||= variantOf(this.value(end)) === "other";
      } else if (span.fen < 0 && this.isNamed(FEN)) {
        this.countStart(end);
      }
      broken ||= !this.closed;
      p = end;
      for (;;) {
        while (p < bytes.length && isBlank(bytes[p])) ++p;
        if (bytes[p] !== 37 || bytes[p - 1] !== NEWLINE) break; // a % line
        while (p < bytes.length && bytes[p] !== NEWLINE) ++p;
      }
    }
    span.text = p;
    return p;
  }

  /** Counts the men in the value of the tag just noted, a FEN that ends before `end`. */
  private countStart(end: number): void {
    const { bytes, span } = this;
    let p = bytes.indexOf(QUOTE, this.nameEnd) + 1;
    while (bytes[p] === SPACE) ++p;
    span.fen = p;
    let men = 0;
    let kings = 0;
    for (; p < end && bytes[p] !== SPACE && bytes[p] !== QUOTE; ++p) {
      if (!isLetter(bytes[p])) continue;
      ++men;
      if ((bytes[p] | 32) === 107) kings += bytes[p] === 75 ? 1 : 16; // K, k
    }
    if (kings === 17 && men <= USUAL_MEN) span.startMen = men;
    else span.special = true;
  }

  /** Skips the comment whose brace stands before `p`; returns where it ends or a lost game begins. */
  private skipComment(p: number): number {
    const { bytes } = this;
    for (let lineStart = false; p < bytes.length; ++p) {
      const byte = bytes[p];
      if (byte === CLOSE_COMMENT) return p + 1;
      if (byte === OPEN_TAG && this.sectionAt(p, lineStart, true)) return p;
      lineStart = byte === NEWLINE || (lineStart && isBlank(byte));
    }
    return p;
  }

  /** Passes over a comment that runs to the end of its line, counting as captures what looks like them: a side
   * line's end may stand in it. */
  private passLine(p: number): number {
    const { bytes, span } = this;
    for (; p < bytes.length && bytes[p] !== NEWLINE; ++p) if (isSign(bytes[p])) ++span.captures;
    return p;
  }

  /** Whether nothing but blanks stands between the start of a line and `p`; looks back as far as `from`. */
  private beginsLine(p: number, from: number): boolean {
    const { bytes } = this;
    for (let q = p - 1; q >= from; --q) {
      if (bytes[q] === NEWLINE) return true;
      if (!isBlank(bytes[q])) return false;
    }
    return false;
  }

  private skipLine(p: number): number {
    const end = this.bytes.indexOf(NEWLINE, p);
    return end < 0 ? this.bytes.length : end;
  }

  /** Whether text without tags is a game: it holds a first move. */
  private looksLikeMoves(start: number, end: number): boolean {
    const text = Buffer.from(this.bytes.buffer, this.bytes.byteOffset + start, Math.min(end - start, 2000));
    return /(^|[\s}])1\s*\.\s*([NBRQKP]?[a-h]|O-O|0-0)/.test(text.toString("latin1"));
  }

  run(use: (span: Readonly<GameBounds>) => void): void {
    const { bytes, span } = this;
    const length = bytes.length;
    let p = 0;
    let inTags = false; // the game in hand has tags
    let open = false; // a game is in hand
    let lineStart = true;
    let recovered = false; // the next game was found inside a comment
    let numbered = false; // a game has been handed on
    const finish = (end: number) => {
      if (!open) return;
      open = false;
      span.end = end;
      if (inTags || this.looksLikeMoves(span.start, end)) {
        use(span);
        numbered = true;
      } else {
        recovered = false; // nothing stands before what comes next
      }
    };
    const begin = () => {
      open = true;
      span.part = recovered && numbered ? span.part + 1 : 1;
      recovered = false;
      span.captures = 0;
      span.fen = -1;
      span.startMen = USUAL_MEN;
      span.special = false;
      span.unsigned = false;
    };
    if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) p = 3;
    while (p < length) {
      const byte = bytes[p];
      if (lineStart) {
        if (isBlank(byte)) {
          ++p;
          continue;
        }
        if (byte === PERCENT) {
          p = this.skipLine(p);
          continue;
        }
        lineStart = false;
        if (!open && byte !== OPEN_TAG) {
          begin();
          inTags = false;
          span.start = p;
          span.text = p;
        }
        const plain = byte === OPEN_TAG ? this.movetext.game(p) : -1;
        if (plain >= 0) {
          finish(p);
          begin();
          span.start = p;
          span.text = this.movetext.text;
          span.captures = this.movetext.captures;
          span.unsigned = this.movetext.unsigned;
          inTags = true;
          p = plain;
          lineStart = true;
          continue;
        }
        if (byte === OPEN_TAG && this.sectionAt(p, true, false)) {
          finish(p);
          begin();
          inTags = true;
          p = this.readSection(p);
          lineStart = bytes[p - 1] === NEWLINE;
          continue;
        }
      }
      if (!open) {
        // a bracket that begins no tag, before any game
        do ++p;
        while (
          p < length &&
          bytes[p] !== NEWLINE &&
          !(bytes[p] === OPEN_TAG && this.sectionAt(p, false, false))
        );
        lineStart = true;
        continue;
      }
      // lines are passed over too; a stop at the start of one is looked at again above
      const stop = this.movetext.scan(p);
      span.captures += this.movetext.captures;
      span.unsigned ||= this.movetext.unsigned;
      const atLineStart = stop > p && this.beginsLine(stop, p);
      p = stop;
      switch (bytes[p]) {
        case OPEN_COMMENT: {
          p = this.skipComment(p + 1);
          if (bytes[p - 1] === CLOSE_COMMENT) break;
          span.unsigned = true;
          // a game lost inside the comment begins like one at the start of a line
          if (bytes[p] === OPEN_TAG) {
            lineStart = true;
            recovered = bytes[p - 1] !== NEWLINE;
          }
          break;
        }
        case COMMENT_LINE:
          p = this.passLine(p);
          break;
        case OPEN_TAG:
        case PERCENT:
          if (atLineStart || (bytes[p] === OPEN_TAG && this.sectionAt(p, false, false))) lineStart = true;
          else ++p;
          break;
      }
    }
    finish(length);
  }
}

let kernel: CompiledScanKernel | undefined;
/** This thread's kernel. */
export const theKernel = (): CompiledScanKernel => (kernel ??= new CompiledScanKernel());

/**
 * Finds the games in `bytes` and hands each to `use`, in order. The span is reused: copy what is kept. `movetext` is
 * for tests that compare.
 */
export function findGames(
  bytes: Uint8Array,
  use: (span: Readonly<GameBounds>) => void,
  movetext: ScanKernel = theKernel(),
): void {
  movetext.load(bytes);
  new Finder(bytes, movetext).run(use);
}

/** Movetext of this many bytes holds captures in any real game. */
const LONG_TEXT = 400;

/** Whether the game may reach material of `men` men; false only where it certainly cannot. */
export function mayReach(span: Readonly<GameBounds>, men: number): boolean {
  if (span.special || span.unsigned) return true;
  const needed = span.startMen - men;
  if (needed > 0 && span.captures === 0) return span.end - span.text > LONG_TEXT;
  return needed >= 0 && span.captures >= needed;
}

/** The start of a tag, or of what may be one that is damaged. */
const TAG_START = /\[\s*[A-Za-z]/;

/** Bytes in which no game begins for so long are cut at the end of a line. */
export const LONGEST_GAME = 8 << 20;

/**
 * The last place in `bytes` at which the part can be cut so that the parts hold the same games as the
 * whole: a well-known tag at the start of a line, where the last line before it that is not blank neither
 * belongs to a tag section nor stands outside the game. -1 if there is none, or if what stands before `bytes` would
 * have to be known (`isStart`: nothing does).
 */
export const lastCut = (bytes: Uint8Array, isStart = true): number =>
  lastTag(bytes, isStart, (finder, p) => finder.isWellKnown(p));

/**
 * Where to cut bytes in which there is no such place for as long as a game may be: at any tag at the start of a line that
 * stands like one that begins a game (right unless a comment was never closed before it), else at the end of a line.
 */
export function lastResort(bytes: Uint8Array, isStart: boolean): number {
  const cut = lastTag(bytes, isStart, (finder, p) => finder.isTag(p));
  return cut > 0 ? cut : bytes.lastIndexOf(NEWLINE) + 1 || bytes.length;
}

function lastTag(
  bytes: Uint8Array,
  isStart: boolean,
  begins: (finder: Finder, p: number) => boolean,
): number {
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const finder = new Finder(bytes, new PlainScanKernel());
  for (let p = buffer.lastIndexOf("\n["); p > 0; p = buffer.lastIndexOf("\n[", p - 1)) {
    let q = p;
    while (q >= 0 && isBlank(bytes[q])) --q;
    if (q < 0 && !isStart) return -1;
    if (q < 0 || bytes[q] === CLOSE_TAG || bytes[q] === QUOTE) continue;
    if (!begins(finder, p + 1)) continue;
    const lineStart = buffer.lastIndexOf("\n", q) + 1;
    if (lineStart === 0 && !isStart) return -1;
    const line = buffer.toString("latin1", lineStart, q + 1);
    if (!TAG_START.test(line) && line.trimStart()[0] !== "%") return p + 1;
  }
  return -1;
}

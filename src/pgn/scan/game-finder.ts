// Finding games in raw bytes.
//
// One pass over the bytes, without making text: where each game begins, where its movetext begins, where it ends, and
// how many captures its movetext holds at most. The rules for real files: a tag pair at the start of a line begins a new
// game unless it continues a tag section; one of the well-known tags glued to movetext does so too; a comment that never
// closes ends at the next game's tags; blank lines mean nothing, but that tags behind one belong to another game where they
// say again what a section says once (a game without moves stood before them).

import { variantOf } from "../game/tags.js";
import {
  NEWLINE,
  OPEN_TAG,
  PERCENT,
  QUOTE,
  SPACE,
  endOfLine,
  isBlank,
  isLetter,
  isSign,
  textOf,
} from "./bytes.js";
import type { GameBounds } from "./game-bounds.js";
import { type Scan, theKernel } from "./scan-kernel.js";
import { TagReader } from "./tag-reader.js";

const SEMICOLON = 59;
const OPEN_COMMENT = 123;
const CLOSE_COMMENT = 125;

/**
 * Tags that a section has once (PGN standard, 8.1.1, the seven tag roster; FEN, 9.7.2), as bits of a set. The Event begins
 * a section wherever it stands.
 */
const ONCE = ["Site", "Date", "Round", "White", "Black", "Result", "FEN"] as const;

/** Men on the board at the usual start. */
const USUAL_MEN = 32;

class GameFinder {
  private readonly game: GameBounds = {
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
  private readonly tags: TagReader;
  /** Where the search has come to, and whether there are only blanks before it in its line. */
  private p = 0;
  private lineStart = true;
  /** A game has begun and not ended, and whether it has tags. */
  private open = false;
  private hasTags = false;
  /** The next game was found inside a comment. */
  private recovered = false;
  /** A game has been handed on. */
  private numbered = false;
  /** Where `passBlanks` came to. */
  private behindBlanks = 0;
  /** The text at hand is the end of a game that another block has the beginning of. */
  private continues: boolean;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly kernel: Scan,
    private readonly use: (game: Readonly<GameBounds>) => void,
    continues: boolean,
  ) {
    this.tags = new TagReader(bytes);
    this.continues = continues;
  }

  run(): void {
    const { bytes } = this;
    if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) this.p = 3;
    while (this.p < bytes.length) {
      if (this.lineStart && this.startLine()) continue;
      if (this.open) this.passMovetext();
      else this.passBracket();
    }
    this.finish(bytes.length);
  }

  private begin(hasTags: boolean): void {
    const { game } = this;
    this.open = true;
    this.hasTags = hasTags;
    game.start = this.p;
    game.text = this.p;
    game.part = this.recovered && this.numbered ? game.part + 1 : 1;
    game.captures = 0;
    game.fen = -1;
    game.startMen = USUAL_MEN;
    game.special = false;
    game.unsigned = false;
    this.recovered = false;
  }

  /** Ends the game at hand, if there is one, where the search has come to. */
  private finish(end: number): void {
    if (!this.open) return;
    this.open = false;
    this.game.end = end;
    if (this.hasTags || (!this.continues && this.looksLikeMoves(this.game.start, end))) {
      this.use(this.game);
      this.numbered = true;
    } else {
      this.recovered = false; // there is no game before what comes next
    }
    this.continues = false;
  }

  /** Whether text without tags is a game: it holds a first move. */
  private looksLikeMoves(start: number, end: number): boolean {
    const text = textOf(this.bytes, start, Math.min(end, start + 2000));
    return /(^|[\s}])1\s*\.\s*([NBRQKP]?[a-h]|O-O|0-0)/.test(text);
  }

  /** At the start of a line, passes over a blank, a % line, a tag section, or a whole plain game; false if none is there. */
  private startLine(): boolean {
    const { bytes, kernel, game, p } = this;
    const byte = bytes[p];
    if (isBlank(byte)) {
      ++this.p;
      return true;
    }
    if (byte === PERCENT) {
      this.p = endOfLine(this.bytes, p);
      return true;
    }
    this.lineStart = false;
    if (byte !== OPEN_TAG) {
      if (!this.open) this.begin(false);
      return false;
    }
    const plainEnd = kernel.game(p);
    if (plainEnd < 0 && !this.beginsSection(p, true, false)) return false;
    this.finish(p);
    this.begin(true);
    if (plainEnd < 0) {
      this.readSection();
      this.lineStart = bytes[this.p - 1] === NEWLINE;
    } else {
      game.text = kernel.text;
      game.captures = kernel.captures;
      game.unsigned = kernel.unsigned;
      this.p = plainEnd;
      this.lineStart = true;
    }
    return true;
  }

  /** Whether a tag section begins at `p`, met inside movetext or a comment. */
  private beginsSection(p: number, atLineStart: boolean, inComment: boolean): boolean {
    const { tags } = this;
    if (tags.read(p) < 0) return false;
    if (atLineStart && !inComment) return true;
    return tags.isNamed("Event") || ((atLineStart || !inComment) && tags.isWellKnown);
  }

  /** Passes over the tag section that begins here. */
  private readSection(): void {
    const { bytes, game, tags } = this;
    let seenEvent = false;
    let broken = false; // a tag before the Event lacks its end: debris of something else
    let seen = 0;
    let p = this.p;
    for (let end = tags.read(p); end >= 0; end = tags.read(p)) {
      if (tags.isNamed("Event")) {
        if (seenEvent || broken) break;
        seenEvent = true;
      } else if (tags.isNamed("Variant")) {
        game.special ||= variantOf(tags.value(end)) === "other";
      } else if (game.fen < 0 && tags.isNamed("FEN")) {
        this.readStart(end);
      }
      broken ||= !tags.closed;
      seen |= this.bitOfTag();
      p = end;
      let lines = 0;
      for (;;) {
        lines += this.passBlanks(p);
        p = this.behindBlanks;
        if (bytes[p] !== PERCENT || bytes[p - 1] !== NEWLINE) break;
        p = endOfLine(this.bytes, p);
      }
      if (lines > 1 && bytes[p] === OPEN_TAG && this.repeats(p, seen)) break;
    }
    game.text = p;
    this.p = p;
  }

  /** Passes over blanks from `p` on, to `behindBlanks`; gives the ends of lines among them. */
  private passBlanks(p: number): number {
    const { bytes } = this;
    let lines = 0;
    for (; p < bytes.length && isBlank(bytes[p]); ++p) if (bytes[p] === NEWLINE) ++lines;
    this.behindBlanks = p;
    return lines;
  }

  /** The bit of the tag read last in a set of those that a section has once; 0 if it is none of them. */
  private bitOfTag(): number {
    return ONCE.reduce((bits, name, n) => (this.tags.isNamed(name) ? 1 << n : bits), 0);
  }

  /** Whether the tags from `p` to the next blank line, or up to movetext, say what has been said. */
  private repeats(p: number, said: number): boolean {
    const { tags } = this;
    for (let end = tags.read(p); end >= 0; end = tags.read(p)) {
      if ((this.bitOfTag() & said) !== 0) return true;
      if (this.passBlanks(end) > 1) return false;
      p = this.behindBlanks;
    }
    return false;
  }

  /** Counts the men in the value of the tag read last, a FEN that ends before `end`. */
  private readStart(end: number): void {
    const { bytes, game } = this;
    let p = this.tags.valueStart;
    while (bytes[p] === SPACE) ++p;
    game.fen = p;
    let men = 0;
    let kings = 0;
    for (; p < end && bytes[p] !== SPACE && bytes[p] !== QUOTE; ++p) {
      if (!isLetter(bytes[p])) continue;
      ++men;
      if ((bytes[p] | 32) === 107) kings += bytes[p] === 75 ? 1 : 16; // K, k
    }
    if (kings === 17 && men <= USUAL_MEN) game.startMen = men;
    else game.special = true;
  }

  /** Passes over a bracket that begins no tag, before any game. */
  private passBracket(): void {
    const { bytes } = this;
    do ++this.p;
    while (
      this.p < bytes.length &&
      bytes[this.p] !== NEWLINE &&
      !(bytes[this.p] === OPEN_TAG && this.beginsSection(this.p, false, false))
    );
    this.lineStart = true;
  }

  /** Passes over movetext up to the next byte that may be the end of it, or over a comment. */
  private passMovetext(): void {
    const { bytes, kernel, game, p: from } = this;
    // lines are passed over too; a stop at the start of one is looked at again there
    const p = kernel.scan(from);
    this.p = p;
    game.captures += kernel.captures;
    game.unsigned ||= kernel.unsigned;
    switch (bytes[p]) {
      case OPEN_COMMENT:
        this.passComment();
        break;
      case SEMICOLON:
        this.passLineComment();
        break;
      case OPEN_TAG:
      case PERCENT:
        if (this.beginsLine(p, from) || (bytes[p] === OPEN_TAG && this.beginsSection(p, false, false)))
          this.lineStart = true;
        else ++this.p;
        break;
    }
  }

  /** Passes over the comment that begins here. One that never closes ends where a lost game begins. */
  private passComment(): void {
    const { bytes, kernel } = this;
    const from = this.p + 1;
    let p = kernel.commentStop(from);
    while (bytes[p] === OPEN_TAG && !this.beginsSection(p, this.beginsLine(p, from), true))
      p = kernel.commentStop(p + 1);
    this.p = p;
    if (bytes[p] === CLOSE_COMMENT) {
      ++this.p;
      return;
    }
    this.game.unsigned = true;
    if (p === bytes.length) return;
    // a game lost inside the comment begins like one at the start of a line
    this.lineStart = true;
    this.recovered = bytes[p - 1] !== NEWLINE;
  }

  /** Passes over a comment that runs to the end of its line, counting as captures what looks like them: it may hold the
   * end of a side line. */
  private passLineComment(): void {
    const end = endOfLine(this.bytes, this.p);
    for (; this.p < end; ++this.p) if (isSign(this.bytes[this.p])) ++this.game.captures;
  }

  /** Whether there are only blanks between the start of a line and `p`; looks back as far as `from`. */
  private beginsLine(p: number, from: number): boolean {
    const { bytes } = this;
    for (let q = p - 1; q >= from; --q) {
      if (bytes[q] === NEWLINE) return true;
      if (!isBlank(bytes[q])) return false;
    }
    return false;
  }
}

export interface FindOptions {
  /** The bytes begin with the end of a game, which is passed over. */
  readonly continues?: boolean;
  /** For tests that compare. */
  readonly kernel?: Scan;
}

/** Finds the games in `bytes` and hands each to `use`, in order. The object is reused: copy what is kept. */
export function findGames(
  bytes: Uint8Array,
  use: (game: Readonly<GameBounds>) => void,
  { continues = false, kernel = theKernel() }: FindOptions = {},
): void {
  kernel.load(bytes);
  new GameFinder(bytes, kernel, use, continues).run();
}

// A plain file range by range, in any order and by any thread: each range gives the block of games that begin in it.
//
// Where a block ends must not depend on who reads it: at the last place where one can end at or before the end of its
// range, which only the bytes before that place decide. So the blocks of neighbouring ranges meet.

import { closeSync, openSync, readSync } from "node:fs";

import type { ByteOffset } from "../../chess/units.js";
import { notReadable } from "../../errors.js";
import { bytesDigest } from "./digest.js";
import { type BlockEnd, LONGEST_GAP, forcedBlockEnd, lastBlockEnd } from "./block-end.js";

/** Bytes of a range. */
export const RANGE_BYTES = 1 << 21;
/** Bytes before a range that are looked at first for where its games begin. */
const LOOK_BACK = 1 << 14;

/** The block of games that begin in a range. */
export interface RangeBlock {
  /** Whole games, in the room given. */
  readonly bytes: Uint8Array;
  /** Of the first of them in the file. */
  readonly offset: ByteOffset;
  /** Whether they begin, and end, in the middle of a game that is too long. */
  readonly continues: boolean;
  readonly breaksOff: boolean;
  /** Of the range's own bytes. */
  readonly digest: Uint8Array;
}

/** How many ranges a file of so many bytes has. */
export const rangesOf = (size: number, range = RANGE_BYTES): number => Math.ceil(size / range);

/** Reads ranges of one file after another. */
export class BlockReader {
  private path: string | undefined;
  private file = -1;

  /**
   * `room` gives a place for so many bytes, which may be the same each time. The other sizes, in bytes, are for tests.
   */
  constructor(
    private readonly room: (length: number) => Uint8Array,
    private readonly range = RANGE_BYTES,
    private readonly longest = LONGEST_GAP,
  ) {}

  /** The block of range `n` of the file at `path`, which has `size` bytes. Throws `not-readable`. */
  read(path: string, size: number, n: number): RangeBlock {
    const from = n * this.range;
    const to = Math.min(from + this.range, size);
    for (let back = Math.min(LOOK_BACK, this.longest); ; back = Math.min(8 * back, this.longest)) {
      const start = Math.max(0, from - back);
      const bytes = this.room(to - start);
      this.fill(path, bytes, start);
      const begin = this.blockEnd(bytes, start, from);
      const end = to === size ? { at: size, inGame: false } : this.blockEnd(bytes, start, to);
      if (!begin || !end) continue;
      return {
        bytes: bytes.subarray(begin.at - start, end.at - start),
        offset: begin.at,
        continues: begin.inGame,
        breaksOff: end.inGame,
        digest: bytesDigest(bytes.subarray(from - start)),
      };
    }
  }

  /**
   * Where a block ends at or before place `at` of the file, of which `bytes` from `start` on are known; undefined if
   * more must be known. Never more than the longest game's bytes decide.
   */
  private blockEnd(bytes: Uint8Array, start: ByteOffset, at: ByteOffset): BlockEnd | undefined {
    const low = Math.max(start, at - this.longest);
    const before = bytes.subarray(low - start, at - start);
    const end = lastBlockEnd(before, low === 0);
    if (end >= 0) return { at: low + end, inGame: false };
    if (low === 0) return { at: 0, inGame: false };
    if (at - low < this.longest) return undefined;
    const forced = forcedBlockEnd(before, false);
    return { ...forced, at: low + forced.at };
  }

  private fill(path: string, bytes: Uint8Array, start: number): void {
    let done = 0;
    try {
      if (path !== this.path) {
        this.close();
        this.file = openSync(path, "r");
        this.path = path;
      }
      while (done < bytes.length) {
        const got = readSync(this.file, bytes, done, bytes.length - done, start + done);
        if (got === 0) throw new Error("it has become shorter while it was read");
        done += got;
      }
    } catch (thrown) {
      throw notReadable(path, thrown, start + done);
    }
  }

  close(): void {
    if (this.path !== undefined) closeSync(this.file);
    this.path = undefined;
  }
}

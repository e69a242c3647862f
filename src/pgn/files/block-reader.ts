// A plain file range by range, in any order and by any thread: each range gives the block of games that begin in it.
//
// Where a block ends must not depend on who reads it: at the last place where one can end at or before the end of its
// range, which only the bytes before that place decide. So the blocks of neighbouring ranges meet.

import { closeSync, openSync, readSync } from "node:fs";

import type { ByteOffset } from "../../chess/units.js";
import { notReadable } from "../../errors.js";
import { bytesDigest } from "./digest.js";
import { LONGEST_GAME, forcedBlockEnd, lastBlockEnd } from "./block-end.js";

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
    private readonly longest = LONGEST_GAME,
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
      const end = to === size ? size : this.blockEnd(bytes, start, to);
      if (begin < 0 || end < 0) continue;
      const digest = bytesDigest(bytes.subarray(from - start));
      return { bytes: bytes.subarray(begin - start, end - start), offset: begin, digest };
    }
  }

  /**
   * Where a block ends at or before place `at` of the file, of which `bytes` from `start` on are known; -1 if more must
   * be known. Never more than the longest game's bytes decide.
   */
  private blockEnd(bytes: Uint8Array, start: ByteOffset, at: ByteOffset): ByteOffset {
    const low = Math.max(start, at - this.longest);
    const before = bytes.subarray(low - start, at - start);
    const end = lastBlockEnd(before, low === 0);
    if (end >= 0) return low + end;
    if (low === 0) return 0;
    return at - low < this.longest ? -1 : low + forcedBlockEnd(before, false);
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

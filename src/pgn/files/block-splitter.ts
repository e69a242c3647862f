// Bytes in, blocks out: never a whole file in memory, and every block ends between two games.

import type { ByteOffset } from "../../chess/units.js";
import { LONGEST_GAP, forcedBlockEnd, lastBlockEnd } from "./block-end.js";

/** Bytes of whole games. */
export interface GameBlock {
  /** In a buffer of their own. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** From the start of the (unpacked) file. */
  readonly offset: ByteOffset;
  /** Whether it begins, and ends, in the middle of a game that is too long. */
  readonly continues: boolean;
  readonly breaksOff: boolean;
}

/** Bytes of a block; one game that is longer makes a longer block. */
const BLOCK_BYTES = 1 << 20;

/** Splits what is written to it into blocks. Write to `room()`, then tell how much to `filled()`. */
export class BlockSplitter {
  private buffer = new Uint8Array(BLOCK_BYTES);
  private used = 0;
  private offset = 0;
  private continues = false;

  /** Where the next bytes go; never empty. */
  room(): Uint8Array<ArrayBuffer> {
    return this.buffer.subarray(this.used);
  }

  /** Takes `length` bytes that were written there. Gives a block when the buffer is full. */
  filled(length: number): GameBlock | undefined {
    this.used += length;
    const { buffer, offset, continues } = this;
    if (this.used < buffer.length) return undefined;
    let end = lastBlockEnd(buffer);
    let breaksOff = false;
    if (end <= 0 && buffer.length >= LONGEST_GAP)
      ({ at: end, inGame: breaksOff } = forcedBlockEnd(buffer, true));
    const rest = end <= 0 ? buffer : buffer.subarray(end);
    this.buffer = new Uint8Array(Math.min(Math.max(BLOCK_BYTES, 2 * rest.length), LONGEST_GAP));
    this.buffer.set(rest);
    this.used = rest.length;
    if (end <= 0) return undefined;
    this.offset += end;
    this.continues = breaksOff;
    return { bytes: buffer.subarray(0, end), offset, continues, breaksOff };
  }

  /** The last block; undefined if there is none. */
  end(): GameBlock | undefined {
    const { used, offset, buffer, continues } = this;
    if (used === 0) return undefined;
    this.used = 0;
    this.offset += used;
    const own = used < buffer.length >> 1 ? buffer.slice(0, used) : buffer.subarray(0, used);
    return { bytes: own, offset, continues, breaksOff: false };
  }
}

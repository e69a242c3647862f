// Bytes in, blocks out: never a whole file in memory, and every cut between two games.

import type { ByteOffset } from "../../chess/units.js";
import { LONGEST_GAME, forcedBlockEnd, lastBlockEnd } from "./block-end.js";

/** Bytes of whole games. */
export interface GameBlock {
  /** In a buffer of their own. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** From the start of the (unpacked) file. */
  readonly offset: ByteOffset;
}

/** Bytes of a block; one game that is longer makes a longer block. */
const STRETCH = 1 << 20;
/** Cuts what is written to it into blocks. Write to `room()`, then tell how much to `filled()`. */
export class BlockSplitter {
  private buffer = new Uint8Array(STRETCH);
  private used = 0;
  private offset = 0;

  /** Where the next bytes go; never empty. */
  room(): Uint8Array<ArrayBuffer> {
    return this.buffer.subarray(this.used);
  }

  /** Takes `length` bytes that were written there. Gives a block when the buffer is full. */
  filled(length: number): GameBlock | undefined {
    this.used += length;
    const { buffer, offset } = this;
    if (this.used < buffer.length) return undefined;
    let cut = lastBlockEnd(buffer);
    if (cut <= 0 && buffer.length >= LONGEST_GAME) cut = forcedBlockEnd(buffer, true);
    const rest = cut <= 0 ? buffer : buffer.subarray(cut);
    this.buffer = new Uint8Array(cut <= 0 ? 2 * buffer.length : Math.max(STRETCH, 2 * rest.length));
    this.buffer.set(rest);
    this.used = rest.length;
    if (cut <= 0) return undefined;
    this.offset += cut;
    return { bytes: buffer.subarray(0, cut), offset };
  }

  /** What is left at the end; undefined if nothing is. */
  end(): GameBlock | undefined {
    const { used, offset, buffer } = this;
    if (used === 0) return undefined;
    this.used = 0;
    this.offset += used;
    const own = used < buffer.length >> 1 ? buffer.slice(0, used) : buffer.subarray(0, used);
    return { bytes: own, offset };
  }
}

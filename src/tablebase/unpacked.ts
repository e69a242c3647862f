// What has been unpacked of the file of one half, in the memory in which the kernel looks (probe-kernel.ts).
//
// Each block has a flag: absent, busy, ready. The thread that takes it from absent to busy (one atomic exchange) unpacks the
// block and sets the flag to ready; others that want the block meanwhile wait, so that none is read before its bytes are
// there. If a thread stalls, another does its work again after a second: both then write the same bytes in the same
// places, and no byte of a ready block ever changes.
//
// What is lost, and what is won, a bit a placement tells. Distances are kept of what is lost only, both metrics of a
// placement side by side and without gaps: how many bits stand before a placement's own tells where they are. That is a
// fifth of the memory that a byte for every placement and metric takes, and one place to look at instead of two.

import { ones } from "./bits.js";
import { BLOCK } from "./codec.js";
import { ABSENT, ALL_ZERO, BUSY, type HalfPlace, LOST, READY, WINS } from "./probe-kernel.js";
import { METRICS } from "./solve.js";
import type { TableFile } from "./table-file.js";

/** Unpacks blocks of a file, each when it is first wanted. */
export class Unpacked {
  private readonly blocks: number;
  private readonly flags: Int32Array;
  private readonly lost: Uint8Array;
  private readonly lostWords: Uint32Array;
  private readonly wins: Uint8Array;
  private readonly pairs: Uint16Array;
  private readonly ranks: Uint32Array;
  private readonly places: Int32Array;
  private readonly scratch = METRICS.map(() => new Uint8Array(BLOCK));

  constructor(
    private readonly file: TableFile,
    buffer: ArrayBuffer,
    place: HalfPlace,
  ) {
    const { blocks } = place;
    const size = blocks * BLOCK;
    this.blocks = blocks;
    this.flags = new Int32Array(buffer, place.flags, (place.places - place.flags) / 4);
    this.places = new Int32Array(buffer, place.places, blocks + 1);
    this.lost = new Uint8Array(buffer, place.lost, size / 8);
    this.lostWords = new Uint32Array(buffer, place.lost, size / 32);
    this.wins = new Uint8Array(buffer, place.wins, size / 8);
    this.ranks = new Uint32Array(buffer, place.ranks, size / 32);
    this.pairs = new Uint16Array(buffer, place.pairs, size);
  }

  /**
   * Sees to it that a part of a block is there, and gives its state. The thread that takes the flag from absent to busy
   * unpacks; the others wait for it. Throws `table-damaged`.
   */
  unpack(part: number, block: number): number {
    const { flags } = this;
    const flag = part * this.blocks + block;
    for (;;) {
      const before = Atomics.compareExchange(flags, flag, ABSENT, BUSY);
      if (before >= READY) return before;
      if (before === ABSENT) break;
      // the other thread needs some microseconds; should it have died, its work is done again after a while
      if (Atomics.wait(flags, flag, BUSY, 1000) === "timed-out") break;
    }
    let state = ABSENT;
    try {
      state = this.readPart(part, block) ? READY : ALL_ZERO;
      return state;
    } finally {
      Atomics.store(flags, flag, state);
      Atomics.notify(flags, flag);
    }
  }

  /** Whether the block holds anything but zero. */
  private readPart(part: number, block: number): boolean {
    const at = (block * BLOCK) / 8;
    if (part === LOST) return this.file.readLosses(block, this.lost, at);
    if (part === WINS) return this.file.readWins(block, this.wins, at);
    return this.readDistances(block);
  }

  /** Puts the distances of a block side by side; the block is one of which a placement is known to be lost. */
  private readDistances(block: number): boolean {
    const { scratch, places, lostWords, ranks, pairs } = this;
    for (let n = 0; n < METRICS.length; ++n) this.file.readBlock(METRICS[n], block, scratch[n], 0);
    const [mate, conversion] = scratch;
    const first = (block * BLOCK) >> 5;
    const words = BLOCK >> 5;
    let count = 0;
    for (let word = first; word < first + words; ++word) count += ones(lostWords[word]);
    // whoever comes first finds the place for both
    if (Atomics.load(places, block + 1) === 0)
      Atomics.compareExchange(places, block + 1, 0, Atomics.add(places, 0, count) + 1);
    let place = Atomics.load(places, block + 1) - 1;
    for (let word = 0; word < words; ++word) {
      ranks[first + word] = place;
      for (let rest = lostWords[first + word]; rest !== 0; rest &= rest - 1) {
        const index = 32 * word + 31 - Math.clz32(rest & -rest);
        pairs[place++] = ((mate[index] - 1) << 8) | (conversion[index] - 1);
      }
    }
    return true;
  }
}

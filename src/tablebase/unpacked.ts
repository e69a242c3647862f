// What has been unpacked of the file of one half: in shared memory, so that every thread sees what another has unpacked.
//
// The memory is handed out by the system page by page, so that a large table costs only what has been looked at. Each block
// has a flag: absent, busy, ready. The thread that takes it from absent to busy (one atomic exchange) unpacks the block and
// sets the flag to ready; others that want the block meanwhile wait, so that none is read before its bytes are there. If a
// thread stalls, another does its work again after a second: both then write the same bytes in the same places, and no byte
// of a ready block ever changes.
//
// What is lost, and what is won, a bit a placement tells. Distances are kept of what is lost only, both metrics of a
// placement side by side and without gaps: how many bits stand before a placement's own tells where they are. That is a
// fifth of the memory that a byte for every placement and metric takes, and one place to look at instead of two.

import { ones } from "./bits.js";
import { BLOCK, BLOCK_BITS } from "./codec.js";
import { METRICS } from "./solve.js";
import type { TableFile } from "./table-file.js";

/** The shared memory, for a worker that reads the same file. */
export interface SharedUnpacked {
  readonly lost: SharedArrayBuffer;
  readonly wins: SharedArrayBuffer;
  readonly distances: SharedArrayBuffer;
  readonly ranks: SharedArrayBuffer;
  readonly places: SharedArrayBuffer;
  readonly flags: SharedArrayBuffer;
}

/** What can be unpacked of a block, as its flags are numbered. */
const LOST = 0;
const WINS = 1;
const DISTANCES = 2;
const PARTS = 3;
/** States of a block. One that is all zero needs no look at its bytes, and most are. */
const ABSENT = 0;
const BUSY = 1;
const READY = 2;
const ALL_ZERO = 3;

/** A bit for each placement, in blocks that are unpacked when they are first looked at. */
export class Bits {
  readonly bytes: Uint8Array;
  /** The block looked at last, and its state. */
  private lastBlock = -1;
  private lastState = ABSENT;

  /** `flag` is the first of the blocks' flags; `unpack` unpacks a block and gives its state. */
  constructor(
    buffer: SharedArrayBuffer,
    private readonly flags: Int32Array,
    private readonly flag: number,
    private readonly unpack: (block: number) => number,
  ) {
    this.bytes = new Uint8Array(buffer);
  }

  /** The bit at an index, 0 or more. */
  has(index: number): boolean {
    const block = index >> BLOCK_BITS;
    if (block !== this.lastBlock) {
      let state = Atomics.load(this.flags, this.flag + block);
      if (state < READY) state = this.unpack(block);
      this.lastBlock = block;
      this.lastState = state;
    }
    return this.lastState === READY && ((this.bytes[index >> 3] >> (index & 7)) & 1) === 1;
  }
}

/** What has been unpacked of a file; blocks are unpacked when they are first looked at. */
export class Unpacked {
  /** What is lost with the loser to move, and won with the winner to move. */
  readonly lost: Bits;
  readonly wins: Bits;
  private readonly blocks: number;
  private readonly flags: Int32Array;
  private readonly lostWords: Uint32Array;
  /** 256 × moves to mate + moves to conversion of what is lost, block by block in the order in which blocks were wanted. */
  private readonly pairs: Uint16Array;
  /** For each word of 32 bits: where the distances of its first placement are. */
  private readonly ranks: Uint32Array;
  /** How many distances have been given a place; then for each block where its own begin, plus 1. */
  private readonly places: Int32Array;
  private readonly scratch = METRICS.map(() => new Uint8Array(BLOCK));

  /** `shared` is what `share` gave in another thread. */
  constructor(
    private readonly file: TableFile,
    shared?: SharedUnpacked,
  ) {
    const { blocks } = file;
    const size = blocks * BLOCK;
    this.blocks = blocks;
    this.flags = new Int32Array(shared?.flags ?? new SharedArrayBuffer(blocks * PARTS * 4));
    const bits = (buffer: SharedArrayBuffer | undefined, part: number) =>
      new Bits(buffer ?? new SharedArrayBuffer(size / 8), this.flags, part * blocks, (block) =>
        this.unpack(part, block),
      );
    this.lost = bits(shared?.lost, LOST);
    this.wins = bits(shared?.wins, WINS);
    this.lostWords = new Uint32Array(this.lost.bytes.buffer);
    this.pairs = new Uint16Array(shared?.distances ?? new SharedArrayBuffer(size * 2));
    this.ranks = new Uint32Array(shared?.ranks ?? new SharedArrayBuffer(size / 8));
    this.places = new Int32Array(shared?.places ?? new SharedArrayBuffer((blocks + 1) * 4));
  }

  share(): SharedUnpacked {
    const of = ({ buffer }: { readonly buffer: ArrayBufferLike }) => buffer as SharedArrayBuffer;
    return {
      lost: of(this.lost.bytes),
      wins: of(this.wins.bytes),
      distances: of(this.pairs),
      ranks: of(this.ranks),
      places: of(this.places),
      flags: of(this.flags),
    };
  }

  /** 256 × moves to mate + moves to conversion of a placement that is lost. */
  distances(index: number): number {
    const block = index >> BLOCK_BITS;
    if (Atomics.load(this.flags, DISTANCES * this.blocks + block) < READY) this.unpack(DISTANCES, block);
    const word = index >> 5;
    return this.pairs[this.ranks[word] + ones(this.lostWords[word] & ((1 << (index & 31)) - 1))];
  }

  /** The thread that takes the flag from absent to busy unpacks; the others wait for it. Returns the state. */
  private unpack(part: number, block: number): number {
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
    if (part === LOST) return this.file.readLosses(block, this.lost.bytes, at);
    if (part === WINS) return this.file.readWins(block, this.wins.bytes, at);
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

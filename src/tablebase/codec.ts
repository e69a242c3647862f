// Undoing the compression of a block, by the compiled decoder (src/tablebase/kernel/decode.ts), and its checksum. The
// format is described in src/tablebase/kernel/codec.ts.

import { decoderFile } from "../places.js";
import { instantiate } from "../wasm.js";

/** Placements (bytes) in a block. */
export const BLOCK_BITS = 12;
export const BLOCK = 1 << BLOCK_BITS;

interface Decoder {
  readonly memory: WebAssembly.Memory;
  sourceAddress(): number;
  targetAddress(): number;
  bitsAddress(): number;
  decodeBlock(): number;
  nonzeroBits(): void;
  decodeBits(): void;
}

/** A decoder with its memory; each thread has one. */
class BlockDecoder {
  private readonly decoder: Decoder;
  private readonly source: Uint8Array;
  private readonly target: Uint8Array;
  private readonly bits: Uint8Array;

  constructor() {
    this.decoder = instantiate<Decoder>(decoderFile());
    const { buffer } = this.decoder.memory;
    this.source = new Uint8Array(buffer, this.decoder.sourceAddress(), 2 * BLOCK);
    this.target = new Uint8Array(buffer, this.decoder.targetAddress(), BLOCK);
    this.bits = new Uint8Array(buffer, this.decoder.bitsAddress(), BLOCK / 8);
  }

  decode(packed: Uint8Array, target: Uint8Array, at: number): number {
    this.source.set(packed);
    const taken = this.decoder.decodeBlock();
    target.set(this.target, at);
    return taken;
  }

  decodeNonzero(packed: Uint8Array, target: Uint8Array, at: number): void {
    this.source.set(packed);
    this.decoder.decodeBlock();
    this.decoder.nonzeroBits();
    target.set(this.bits, at);
  }

  decodeBits(packed: Uint8Array, target: Uint8Array, at: number): void {
    this.source.set(packed);
    this.decoder.decodeBits();
    target.set(this.bits, at);
  }
}

let decoder: BlockDecoder | undefined;
const theDecoder = () => (decoder ??= new BlockDecoder());

/**
 * Unpacks a block, which `packed` begins with (at most two blocks' bytes), to `at` in `target`. Returns how many bytes
 * it took.
 */
export const decodeBlock = (packed: Uint8Array, target: Uint8Array, at: number): number =>
  theDecoder().decode(packed, target, at);

/** The same, but only a bit for each placement, the lowest first: whether its byte is anything but 0. */
export const decodeNonzero = (packed: Uint8Array, target: Uint8Array, at: number): void =>
  theDecoder().decodeNonzero(packed, target, at);

/** Unpacks a block of bits. */
export const decodeBits = (packed: Uint8Array, target: Uint8Array, at: number): void =>
  theDecoder().decodeBits(packed, target, at);

/** FNV-1a, 32 bits (Fowler, Noll, Vo; draft-eastlake-fnv), of a part of `bytes`. */
export function checksum(bytes: Uint8Array, from: number, to: number): number {
  let hash = 0x811c9dc5;
  for (let p = from; p < to; ++p) hash = Math.imul(hash ^ bytes[p], 0x01000193);
  return hash >>> 0;
}

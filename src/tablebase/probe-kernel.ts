// The compiled kernel that probes, as TypeScript sees it, and the memory in which it looks: shared, so that every thread
// sees what another has unpacked. The system hands it out page by page, so that a large table costs only what has been
// looked at.

import { IMAGES } from "../chess/squares.js";
import { KING_STEPS, KNIGHT_LEAPS, NEXT } from "../chess/moves.js";
import { probeKernelFile } from "../places.js";
import { instantiate } from "../wasm.js";
import { BLOCK } from "./codec.js";
import { kingNumbering } from "./solver-kernel.js";

/** What can be unpacked of a block, as its flags are numbered: a bit for what is lost, for what is won, the distances. */
export const LOST = 0;
export const WINS = 1;
const PARTS = 3;
/** States of a block. One that is all zero needs no look at its bytes, and most are. */
export const ABSENT = 0;
export const BUSY = 1;
export const READY = 2;
export const ALL_ZERO = 3;

/** Where what is unpacked of a half is, in bytes. */
export interface HalfPlace {
  readonly blocks: number;
  /** A flag of 32 bits for each block of each part. */
  readonly flags: number;
  /** A bit for each placement. */
  readonly lost: number;
  readonly wins: number;
  /** 256 × moves to mate + moves to conversion of what is lost, 16 bits, in the order in which blocks were wanted. */
  readonly pairs: number;
  /** For each word of 32 bits: where the distances of its first placement are. */
  readonly ranks: number;
  /** How many distances have been given a place; then for each block where its own begin, plus 1. */
  readonly places: number;
}

const PAGE = 65536;
/** Pages for threads, one for each that looks at the tables. */
const THREADS = 4096;

/** Lays halves out in a memory, by their numbers of blocks. */
export function layOut(blocks: readonly number[]): {
  readonly halves: readonly HalfPlace[];
  readonly pages: number;
} {
  // the first page is the kernel's
  let end = PAGE;
  const take = (bytes: number) => {
    const start = end;
    end += Math.ceil(bytes / 64) * 64;
    return start;
  };
  const halves = blocks.map((count): HalfPlace => ({
    blocks: count,
    flags: take(count * PARTS * 4),
    places: take((count + 1) * 4),
    lost: take((count * BLOCK) / 8),
    wins: take((count * BLOCK) / 8),
    ranks: take((count * BLOCK) / 8),
    pairs: take(count * BLOCK * 2),
  }));
  return { halves, pages: Math.ceil(end / PAGE) };
}

export const newMemory = (pages: number): WebAssembly.Memory =>
  new WebAssembly.Memory({ initial: pages, maximum: pages + THREADS, shared: true });

interface Exports {
  kingPairsAddress(): number;
  pairSymsAddress(): number;
  imagesAddress(): number;
  nextAddress(): number;
  kingStepsAddress(square: number): number;
  leapsAddress(square: number): number;
  declareHalf(
    half: number,
    pieces: number,
    winners: number,
    equal: number,
    blocks: number,
    lost: number,
    wins: number,
    flags: number,
    pairs: number,
    ranks: number,
  ): void;
  declareSlot(half: number, slot: number, kind: number, smaller: number): void;
  declareNode(
    node: number,
    attackerWins: number,
    defenderWins: number,
    attackers: number,
    defenders: number,
  ): void;
  attach(page: number): void;
  squaresAddress(): number;
  movesAddress(list: number): number;
  verdictsAddress(): number;
  conversionsAddress(): number;
  probe(attackerToMove: number, wanted: number): number;
  probeAfter(piece: number, to: number, attackerToMove: number, wanted: number): number;
  probeMoves(attackerToMove: number, count: number): number;
}

export interface ProbeKernel extends Pick<
  Exports,
  "declareHalf" | "declareSlot" | "declareNode" | "probe" | "probeAfter" | "probeMoves"
> {
  /** The placement to be looked at: kings, attacker's pieces, defender's pieces. */
  readonly squares: Uint8Array;
  /** Its moves, for `probeMoves`: pieces, new squares, pieces taken or -1. */
  readonly movePiece: Int8Array;
  readonly moveTo: Int8Array;
  readonly moveTaken: Int8Array;
  /** What `probeMoves` finds. */
  readonly verdicts: Int8Array;
  readonly conversions: Int16Array;
  /** Writes what is the same for all tables; once for a memory. */
  fill(): void;
}

/** A kernel for one thread. `unpack` unpacks a block of a part of a half and gives its state. */
export function probeKernel(
  memory: WebAssembly.Memory,
  unpack: (half: number, part: number, block: number) => number,
): ProbeKernel {
  const kernel = instantiate<Exports>(probeKernelFile(), { env: { memory, unpack } });
  kernel.attach(memory.grow(1));
  // a shared memory that grows leaves those who look at it what they have
  const { buffer } = memory;
  const bytes = (address: number, length: number) => new Uint8Array(buffer, address, length);
  const list = (n: number) => new Int8Array(buffer, kernel.movesAddress(n), 128);
  return {
    ...kernel,
    squares: bytes(kernel.squaresAddress(), 8),
    movePiece: list(0),
    moveTo: list(1),
    moveTaken: list(2),
    verdicts: new Int8Array(buffer, kernel.verdictsAddress(), 128),
    conversions: new Int16Array(buffer, kernel.conversionsAddress(), 128),
    fill() {
      const { pairs, symmetries } = kingNumbering();
      new Int16Array(buffer, kernel.kingPairsAddress(), pairs.length).set(pairs);
      bytes(kernel.pairSymsAddress(), symmetries.length).set(symmetries);
      bytes(kernel.imagesAddress(), IMAGES.length).set(IMAGES);
      new Int8Array(buffer, kernel.nextAddress(), NEXT.length).set(NEXT);
      for (let square = 0; square < 64; ++square) {
        for (const [squares, address] of [
          [KING_STEPS[square], kernel.kingStepsAddress(square)],
          [KNIGHT_LEAPS[square], kernel.leapsAddress(square)],
        ] as const)
          bytes(address, squares.length + 1).set([squares.length, ...squares]);
      }
    },
  };
}

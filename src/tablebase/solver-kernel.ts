// The compiled kernel, as TypeScript sees it, and the numbering of placements that it shares with the reader.

import { kernelFile } from "../places.js";
import { instantiate } from "../wasm.js";
import type { Square } from "../chess/units.js";
import type { Half } from "./half.js";

export interface Kernel {
  readonly memory: WebAssembly.Memory;
  start(): void;
  setPiece(slot: number, kind: number, side: number): void;
  layout(count: number): number;
  addSub(side: number, slot: number): number;
  addSet(): number;
  settle(): void;
  keepInside(set: number, wins: number, losses: number, checks: boolean): void;
  dropSegment(from: number, to: number): void;
  keepOpen(wins: number, losses: number): void;
  reachLosses(set: number): void;
  reachWins(set: number): void;
  leadInto(into: number, out: number): void;
  saveByCapture(out: number): void;
  beginCount(captures: number): void;
  countInto(set: number): void;
  countsAddress(): number;
  countMoves(from: number): void;
  legal(): void;
  resetLog(): void;
  logTop(): number;
  winsAddress(): number;
  pairsAddress(): number;
  pairSymsAddress(): number;
  keepWins(): void;
  conversionStart(): void;
  conversionWins(distance: number, from: number, to: number): number;
  conversionLosses(from: number): number;
  countLegal(side: number): number;
  countWon(): number;
  closeLosses(): void;
  openAgain(from: number, to: number): void;
  mateStart(from: number, to: number): void;
  boundsAddress(): number;
  mateWins(distance: number, from: number, to: number): number;
  mateLosses(from: number, releaseFrom: number, releaseTo: number): number;
  sliceRoom(pairs: number): number;
  slicePaint(out: number, first: number, pairs: number, entry: number, end: number, value: number): number;
  sliceWins(out: number, first: number, pairs: number): void;
  encodeBlocks(
    block: number,
    first: number,
    count: number,
    out: number,
    lengths: number,
    bits: number,
  ): number;
}

/** Placements of two kings up to symmetry. */
export const KING_PAIRS = 462;

/** A fresh instance with its own memory. */
export function newKernel(): Kernel {
  const imports = {
    env: {
      abort() {
        throw new Error("the solver's kernel stopped");
      },
    },
  };
  const kernel = instantiate<Kernel>(kernelFile(), imports);
  kernel.start();
  return kernel;
}

/** Tells the kernel which pieces the half has, and lays out its memory. Returns the number of words. */
export function declare(kernel: Kernel, half: Half): number {
  half.winner.forEach((kind, n) => kernel.setPiece(n, kind, 0));
  half.loser.forEach((kind, n) => kernel.setPiece(half.winner.length + n, kind, 1));
  return kernel.layout(half.pieces);
}

/** Placements of a half for each side to move: king pairs times 64 for each other piece. */
export const placementsOf = (half: Half): number => KING_PAIRS * 64 ** half.pieces;

/** The kings of each pair: the loser's in the triangle a1–d1–d4, the winner's anywhere it may stand. */
export function kingsOfPairs(): (readonly [winner: Square, loser: Square])[] {
  const { pairs, symmetries } = kingNumbering();
  const kings = new Array<readonly [Square, Square]>(KING_PAIRS);
  for (let n = 4095; n >= 0; --n)
    if (pairs[n] >= 0 && symmetries[n] === 0) kings[pairs[n]] = [n >> 6, n & 63];
  return kings;
}

let numbering: { pairs: Int16Array; symmetries: Uint8Array } | undefined;

/** King pairs and the symmetry that brings two kings into theirs, by winner's king × 64 + loser's king. */
export function kingNumbering(): { readonly pairs: Int16Array; readonly symmetries: Uint8Array } {
  if (!numbering) {
    const kernel = newKernel();
    const buffer = kernel.memory.buffer;
    numbering = {
      pairs: new Int16Array(buffer, kernel.pairsAddress(), 64 * 64).slice(),
      symmetries: new Uint8Array(buffer, kernel.pairSymsAddress(), 64 * 64).slice(),
    };
  }
  return numbering;
}

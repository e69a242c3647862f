// The compiled kernel of the scan (src/pgn/scan/kernel/) as TypeScript sees it. It looks at sixteen bytes at a time: it
// passes over whole games that are plain, and over movetext up to the next byte at which the finder of games has to
// think, with what may be captures counted; and it does the material filter.

import { type Material, lettersOf } from "../../chess/material.js";
import { gamesKernelFile } from "../../places.js";
import { instantiate } from "../../wasm.js";
import type { GameBounds } from "./game-bounds.js";

/** Passes over one part of bytes; places count from its start. */
export interface Scan {
  /** Signs that may be captures, counted by the last `scan` or `game`. */
  readonly captures: number;
  /** Whether the last of these met what may be a pawn capture without a sign: a file's letter before another. */
  readonly unsigned: boolean;
  /** Where the movetext of the last `game` begins. */
  readonly text: number;
  /** Sets the bytes. */
  load(bytes: Uint8Array): void;
  /** Place of the first of [ { ; % from `from` on, or the end. */
  scan(from: number): number;
  /** Place of the first of [ } from `from` on, inside a comment, or the end. */
  commentStop(from: number): number;
  /** Where the game that begins with the tag at `from` ends; -1 if the finder has to look at it. */
  game(from: number): number;
}

/** What the kernel exports; places are addresses in its memory. */
export interface KernelExports {
  readonly memory: WebAssembly.Memory;
  room(length: number): number;
  setText(start: number, end: number): void;
  scan(from: number, end: number): number;
  commentStop(from: number, end: number): number;
  plainGame(from: number, end: number): number;
  clearTarget(): void;
  addPiece(letter: number, isAttacker: boolean): void;
  mayReach(from: number, end: number, fen: number): number;
  /** For tests: plays the same moves as `mayReach`, one at a time. */
  begin(from: number, end: number, fen: number): number;
  playNext(): number;
  boardAddress(): number;
}

/** The kernel with its memory. */
export class ScanKernel implements Scan {
  captures = 0;
  unsigned = false;
  text = 0;
  readonly exports = instantiate<KernelExports>(gamesKernelFile());
  private start = 0;
  private end = 0;
  private loaded: Uint8Array | undefined;
  private target: Material | undefined;
  /** What the kernel notes: where movetext begins, captures, whether some may have no sign. */
  private noted = new Int32Array(this.exports.memory.buffer, 0, 3);

  /** Room for so many bytes in the kernel's memory, which `load` then need not copy. What was there before is lost. */
  room(length: number): Uint8Array {
    this.loaded = undefined;
    const address = this.exports.room(length);
    const { buffer } = this.exports.memory;
    if (this.noted.buffer !== buffer) this.noted = new Int32Array(buffer, 0, 3);
    return new Uint8Array(buffer, address, length);
  }

  load(bytes: Uint8Array): void {
    let text = bytes;
    if (bytes.buffer !== this.exports.memory.buffer) {
      text = this.room(bytes.length);
      text.set(bytes);
    }
    this.start = text.byteOffset;
    this.end = this.start + text.length;
    this.exports.setText(this.start, this.end);
    this.loaded = bytes;
  }

  /** Address of a place in the bytes loaded last. */
  address(place: number): number {
    return this.start + place;
  }

  /** Whether a game found in `bytes` may reach the target, by its moves; false only where it certainly does not. */
  mayReach(bytes: Uint8Array, { text, end, fen }: Readonly<GameBounds>, target: Material): boolean {
    if (this.loaded !== bytes) this.load(bytes);
    if (this.target !== target) this.setTarget(target);
    const start = fen < 0 ? 0 : this.address(fen);
    return this.exports.mayReach(this.address(text), this.address(end), start) !== 0;
  }

  private setTarget(target: Material): void {
    this.target = target;
    this.exports.clearTarget();
    for (const [pieces, isAttacker] of [
      [target.attacker, true],
      [target.defender, false],
    ] as const)
      for (const letter of `K${lettersOf(pieces)}`) this.exports.addPiece(letter.charCodeAt(0), isAttacker);
  }

  scan(from: number): number {
    const p = this.exports.scan(this.address(from), this.end);
    this.takeNoted();
    return p - this.start;
  }

  commentStop(from: number): number {
    return this.exports.commentStop(this.address(from), this.end) - this.start;
  }

  game(from: number): number {
    const p = this.exports.plainGame(this.address(from), this.end);
    if (p < 0) return -1;
    this.takeNoted();
    return p - this.start;
  }

  private takeNoted(): void {
    const { noted } = this;
    this.text = noted[0] - this.start;
    this.captures = noted[1];
    this.unsigned = noted[2] !== 0;
  }
}

let kernel: ScanKernel | undefined;
/** This thread's kernel. */
export const theKernel = (): ScanKernel => (kernel ??= new ScanKernel());

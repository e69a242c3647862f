// Passing over bytes of PGN quickly: whole games that are plain, and movetext up to the next byte at which the finder of
// games has to think, with what may be captures counted.
//
// There are two that say the same: a plain one, which is the definition (it leaves whole games to the finder), and one
// that asks the compiled kernel (src/pgn/scan/kernel/games.ts), which looks at sixteen bytes at a time. The kernel does the
// cut, too (see src/pgn/scan/material-filter.ts).

import { readFileSync } from "node:fs";

import { gamesKernelFile } from "../../places.js";
import { isFile, isLetter, isSign } from "./bytes.js";

/** Passes over one part of bytes; offsets count from its start. */
export interface ScanKernel {
  /** Signs that may be captures, counted by the last `scan` or `game`. */
  captures: number;
  /** Whether the last of these met what may be a pawn capture without a sign: a file's letter before another. */
  unsigned: boolean;
  /** Where the movetext of the last `game` begins. */
  text: number;
  /** Sets the part. */
  load(bytes: Uint8Array): void;
  /** Where from `from` on the first of [ { ; % stands, or the end of the part. */
  scan(from: number): number;
  /** Where the game that begins with the tag at `from` ends; -1 if the finder has to look at it. */
  game(from: number): number;
}

const STOPS = new Uint8Array(256);
for (const sign of "[{;%") STOPS[sign.charCodeAt(0)] = 1;

/** A byte at a time. */
export class PlainScanKernel implements ScanKernel {
  captures = 0;
  unsigned = false;
  text = 0;
  private bytes: Uint8Array = new Uint8Array(0);

  load(bytes: Uint8Array): void {
    this.bytes = bytes;
  }

  scan(from: number): number {
    const { bytes } = this;
    let p = from;
    this.captures = 0;
    this.unsigned = false;
    for (; p < bytes.length && STOPS[bytes[p]] === 0; ++p) {
      if (isSign(bytes[p])) ++this.captures;
      if (isFile(bytes[p]) && isFile(bytes[p + 1]) && !isLetter(bytes[p - 1])) this.unsigned = true;
    }
    return p;
  }

  game(): number {
    return -1;
  }
}

interface Kernel {
  readonly memory: WebAssembly.Memory;
  room(length: number): number;
  take(start: number, end: number): void;
  scan(from: number, end: number): number;
  plainGame(from: number, end: number): number;
  setTarget(men: number, side: bigint, other: bigint): void;
  addLetter(letter: number): void;
  mayHold(from: number, end: number): number;
}

/** What the cut has to know of the material. */
export interface FilterTarget {
  /** Men on the board, kings included. */
  readonly men: number;
  /** Letters of the pieces that the two sides have, as SAN writes them: "KRB". */
  readonly letters: string;
  /** Its men as `LeanBoard.men` counts them, with White and with Black as the attacker. */
  readonly sides: readonly [number, number];
}

/** Sixteen bytes at a time, in the kernel's own memory. */
export class CompiledScanKernel implements ScanKernel {
  captures = 0;
  unsigned = false;
  text = 0;
  private start = 0;
  private end = 0;
  private loaded: Uint8Array | undefined;
  private target: FilterTarget | undefined;
  /** What the kernel notes: where movetext begins, captures, whether some may have no sign. */
  private noted: Int32Array;
  private readonly kernel: Kernel;

  constructor() {
    const module = new WebAssembly.Module(readFileSync(gamesKernelFile()));
    this.kernel = new WebAssembly.Instance(module, {}).exports as unknown as Kernel;
    this.noted = new Int32Array(this.kernel.memory.buffer, 0, 3);
  }

  /** Room for so many bytes in the kernel's memory, which `load` then need not copy. What lay there before is lost. */
  room(length: number): Uint8Array {
    this.loaded = undefined;
    const at = this.kernel.room(length);
    const { buffer } = this.kernel.memory;
    if (this.noted.buffer !== buffer) this.noted = new Int32Array(buffer, 0, 3);
    return new Uint8Array(buffer, at, length);
  }

  load(bytes: Uint8Array): void {
    let text = bytes;
    if (bytes.buffer !== this.kernel.memory.buffer) {
      text = this.room(bytes.length);
      text.set(bytes);
    }
    this.start = text.byteOffset;
    this.end = this.start + text.length;
    this.kernel.take(this.start, this.end);
    this.loaded = bytes;
  }

  /** Whether these bytes are what was loaded last. */
  has(bytes: Uint8Array): boolean {
    return this.loaded === bytes;
  }

  /** Whether the game from the usual start whose movetext lies between may hold the target. */
  mayHold(text: number, end: number, target: FilterTarget): boolean {
    const { kernel } = this;
    if (this.target !== target) {
      this.target = target;
      kernel.setTarget(target.men, BigInt(target.sides[0]), BigInt(target.sides[1]));
      for (const letter of target.letters) kernel.addLetter(letter.charCodeAt(0));
    }
    return kernel.mayHold(this.start + text, this.start + end) !== 0;
  }

  scan(from: number): number {
    const p = this.kernel.scan(this.start + from, this.end);
    this.take();
    return p - this.start;
  }

  game(from: number): number {
    const p = this.kernel.plainGame(this.start + from, this.end);
    if (p < 0) return -1;
    this.take();
    return p - this.start;
  }

  private take(): void {
    const { noted } = this;
    this.text = noted[0] - this.start;
    this.captures = noted[1];
    this.unsigned = noted[2] !== 0;
  }
}

// Passing over movetext: what may be captures is counted up to the next byte at which the finder of games has to think.
//
// There are two that say the same: a plain one, which is the definition, and one that asks the compiled kernel
// (src/pgn/kernel/movetext.ts), which looks at sixteen bytes at a time.

import { readFileSync } from "node:fs";

import { movetextKernelFile } from "../places.js";
import { isFile, isLetter, isSign } from "./bytes.js";

/** Passes over the movetext of one stretch of bytes. */
export interface MoveScan {
  /** Signs that may be captures, counted by the last `scan`. */
  readonly captures: number;
  /** Whether the last `scan` met what may be a pawn capture without a sign: a file's letter before another. */
  readonly unsigned: boolean;
  /** Sets the stretch. */
  load(bytes: Uint8Array): void;
  /** Where from `from` on the first of [ { ; % stands, or the end of the stretch. */
  scan(from: number): number;
}

const STOPS = new Uint8Array(256);
for (const sign of "[{;%") STOPS[sign.charCodeAt(0)] = 1;

/** A byte at a time. */
export class PlainMoveScan implements MoveScan {
  captures = 0;
  unsigned = false;
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
}

interface Kernel {
  readonly memory: WebAssembly.Memory;
  room(length: number): number;
  takeCaptures(): number;
  takeUnsigned(): number;
  scan(from: number, end: number): number;
}

/** Sixteen bytes at a time. */
export class KernelMoveScan implements MoveScan {
  captures = 0;
  unsigned = false;
  private length = 0;
  private readonly kernel: Kernel;

  constructor() {
    const module = new WebAssembly.Module(readFileSync(movetextKernelFile()));
    this.kernel = new WebAssembly.Instance(module, {}).exports as unknown as Kernel;
  }

  load(bytes: Uint8Array): void {
    const at = this.kernel.room(bytes.length);
    new Uint8Array(this.kernel.memory.buffer).set(bytes, at);
    this.length = bytes.length;
  }

  scan(from: number): number {
    const p = this.kernel.scan(from, this.length);
    this.captures = this.kernel.takeCaptures();
    this.unsigned = this.kernel.takeUnsigned() !== 0;
    return p;
  }
}

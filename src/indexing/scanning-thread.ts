// What a scanning thread does: it gets stretches, or pieces of files that it reads itself, and gives the games that may
// hold the target.

import { parseMaterial } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { Sieve, type Sifted } from "../endings/candidates.js";
import { type Crossing, crossing } from "../errors.js";
import { theKernel } from "../pgn/scan/game-finder.js";
import { partDigest } from "../pgn/files/digest.js";
import { PieceReader } from "../pgn/files/block-reader.js";

/** How to scan. */
export interface ScanWay {
  /** Games that end here or before have been scanned already. */
  readonly done: ByteOffset;
  readonly noReject: boolean;
}

/** Bytes to be scanned. */
export interface StretchTask extends ScanWay {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
}

/** A piece of a plain file (see `PieceReader`) to be read and scanned. */
export interface PieceTask extends ScanWay {
  readonly path: string;
  readonly size: number;
  readonly piece: number;
}

export type ScanTask = StretchTask | PieceTask;

export interface Scanned {
  /** Undefined where all had been scanned already. */
  readonly sifted: Sifted | undefined;
  /** Where the stretch ends in its file. */
  readonly end: ByteOffset;
  /** Bytes of the stretch. */
  readonly length: number;
  /** Of the part of the file that it stands for (see pgn/digest.ts). */
  readonly digest: Uint8Array;
}

/** What a scanning worker does with its tasks; the name of the target comes once, when the thread starts. */
export function scanner(target: string): (task: ScanTask) => Crossing<Scanned> {
  const sieve = new Sieve(parseMaterial(target));
  const reader = new PieceReader((length) => theKernel().room(length));
  return (task) =>
    crossing(() => {
      const { bytes, offset, digest } =
        "bytes" in task
          ? { ...task, digest: partDigest(task.bytes) }
          : reader.read(task.path, task.size, task.piece);
      const { length } = bytes;
      const end = offset + length;
      const { done, noReject } = task;
      return {
        sifted: end > done ? sieve.sift(bytes, { offset, noReject }) : undefined,
        end,
        length,
        digest,
      };
    });
}

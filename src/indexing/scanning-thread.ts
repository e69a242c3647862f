// What a scanning thread does: it gets blocks, or ranges of files that it reads itself, and gives the games that may
// hold the target.

import { parseMaterial } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { CandidateFinder, type FoundCandidates } from "../endings/candidates.js";
import { type Crossing, crossing } from "../errors.js";
import { theKernel } from "../pgn/scan/scan-kernel.js";
import { bytesDigest } from "../pgn/files/digest.js";
import { BlockReader } from "../pgn/files/block-reader.js";

/** How to scan. */
export interface ScanWay {
  /** Games that end here or before have been scanned already. */
  readonly done: ByteOffset;
  readonly noReject: boolean;
}

/** Bytes to be scanned. */
export interface BlockTask extends ScanWay {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
  /** Whether the block begins, and ends, in the middle of a game that is too long. */
  readonly continues: boolean;
  readonly breaksOff: boolean;
}

/** A range of a plain file (see `BlockReader`) to be read and scanned. */
export interface RangeTask extends ScanWay {
  readonly path: string;
  readonly size: number;
  readonly range: number;
}

export type ScanTask = BlockTask | RangeTask;

export interface Scanned {
  /** Undefined where all had been scanned already. */
  readonly found: FoundCandidates | undefined;
  /** Where the block ends in its file. */
  readonly end: ByteOffset;
  /** Bytes of the block. */
  readonly length: number;
  /** Of the block, or of the range in which its games begin (see pgn/files/digest.ts). */
  readonly digest: Uint8Array;
}

/** What a scanning worker does with its tasks; the name of the target comes once, when the thread starts. */
export function scanner(target: string): (task: ScanTask) => Crossing<Scanned> {
  const finder = new CandidateFinder(parseMaterial(target));
  const reader = new BlockReader((length) => theKernel().room(length));
  return (task) =>
    crossing(() => {
      const { bytes, offset, continues, breaksOff, digest } =
        "bytes" in task
          ? { ...task, digest: bytesDigest(task.bytes) }
          : reader.read(task.path, task.size, task.range);
      const { length } = bytes;
      const end = offset + length;
      const { done, noReject } = task;
      return {
        found: end > done ? finder.find(bytes, { offset, noReject, continues, breaksOff }) : undefined,
        end,
        length,
        digest,
      };
    });
}

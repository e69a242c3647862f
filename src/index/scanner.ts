// What a scanning thread does: it gets stretches, or pieces of files that it reads itself, and gives the games that may
// hold the target.

import { parseMaterial } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { Sieve, type Sifted } from "../endings/sift.js";
import { type Crossing, crossing } from "../errors.js";
import { theKernel } from "../pgn/games.js";
import { PieceReader } from "../pgn/pieces.js";

/** Bytes to be scanned. */
export interface StretchTask {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
  readonly noReject: boolean;
}

/** A piece of a plain file (see `PieceReader`) to be read and scanned. */
export interface PieceTask {
  readonly path: string;
  readonly size: number;
  readonly piece: number;
  /** Games that end here or before have been scanned already. */
  readonly done: ByteOffset;
  readonly noReject: boolean;
}

export type ScanTask = StretchTask | PieceTask;

export interface Scanned {
  /** Undefined where all had been scanned already. */
  readonly sifted: Sifted | undefined;
  /** Where the stretch ends in its file. */
  readonly end: ByteOffset;
  /** Bytes of the stretch. */
  readonly length: number;
  /** Of the piece, if it was one. */
  readonly digest: Uint8Array | undefined;
}

/** What a scanning worker does with its tasks; the name of the target comes once, when the thread starts. */
export function scanner(target: string): (task: ScanTask) => Crossing<Scanned> {
  const sieve = new Sieve(parseMaterial(target));
  const reader = new PieceReader((length) => theKernel().room(length));
  const scan = (bytes: Uint8Array, offset: ByteOffset, noReject: boolean, digest?: Uint8Array): Scanned => ({
    sifted: sieve.sift(bytes, { offset, noReject }),
    end: offset + bytes.length,
    length: bytes.length,
    digest,
  });
  return (task) =>
    crossing(() => {
      if ("bytes" in task) return scan(task.bytes, task.offset, task.noReject);
      const { bytes, offset, end, digest } = reader.read(task.path, task.size, task.piece);
      if (end <= task.done) return { sifted: undefined, end, length: bytes.length, digest };
      return scan(bytes, offset, task.noReject, digest);
    });
}

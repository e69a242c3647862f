// A plain file piece by piece, in any order and by any thread: each gives the games that begin in it.
//
// Where a stretch of games ends must not depend on who reads it: the last cut at or before the end of a piece, which
// only the bytes before it decide. So the stretches of neighbouring pieces meet.

import { closeSync, openSync, readSync } from "node:fs";

import type { ByteOffset } from "../chess/units.js";
import { LongsideError, causeOf } from "../errors.js";
import { partDigest } from "./digest.js";
import { LONGEST_GAME, lastCut } from "./games.js";

/** Bytes of a piece. */
export const PIECE = 1 << 21;
/** Bytes before a piece that are looked at first for where its games begin. */
const LOOK_BACK = 1 << 14;

export interface Piece {
  /** Whole games, in the room given. */
  readonly bytes: Uint8Array;
  /** Of the first of them in the file. */
  readonly offset: ByteOffset;
  readonly digest: Uint8Array;
}

/** How many pieces a file of so many bytes has. */
export const piecesOf = (size: number, piece = PIECE): number => Math.ceil(size / piece);

const notReadable = (path: string, thrown: unknown, byte?: number) =>
  new LongsideError("not-readable", { path, cause: causeOf(thrown) }, { file: path, byte });

/** The cut of a file at or before the end of some bytes of it; -1 if it stands before them. */
function cutOf(bytes: Uint8Array, isStart: boolean, isAll: boolean): number {
  const cut = lastCut(bytes, isStart);
  if (cut >= 0 || !isAll) return cut;
  return isStart ? 0 : bytes.lastIndexOf(10) + 1 || bytes.length;
}

/** Reads pieces of one file after another. */
export class PieceReader {
  private path: string | undefined;
  private file = -1;

  /** `room` gives a place for so many bytes, which may be the same each time. */
  constructor(
    private readonly room: (length: number) => Uint8Array,
    private readonly piece = PIECE,
  ) {}

  /** Piece `n` of the file at `path`, which has `size` bytes. Throws `not-readable`. */
  read(path: string, size: number, n: number): Piece {
    const from = n * this.piece;
    const to = Math.min(from + this.piece, size);
    for (let back = LOOK_BACK; ; back = Math.min(8 * back, LONGEST_GAME)) {
      const start = Math.max(0, from - back);
      const bytes = this.room(to - start);
      this.fill(path, bytes, start);
      const isAll = start === 0 || back === LONGEST_GAME;
      const begin = n === 0 ? 0 : cutOf(bytes.subarray(0, from - start), start === 0, isAll);
      const end = to === size ? to - start : cutOf(bytes, start === 0, isAll);
      if (begin < 0 || end < 0) continue;
      const digest = partDigest(bytes.subarray(from - start));
      return { bytes: bytes.subarray(begin, end), offset: start + begin, digest };
    }
  }

  private fill(path: string, bytes: Uint8Array, start: number): void {
    let done = 0;
    try {
      if (path !== this.path) {
        this.close();
        this.file = openSync(path, "r");
        this.path = path;
      }
      while (done < bytes.length) {
        const got = readSync(this.file, bytes, done, bytes.length - done, start + done);
        if (got === 0) throw new Error("it has become shorter while it was read");
        done += got;
      }
    } catch (thrown) {
      throw notReadable(path, thrown, start + done);
    }
  }

  close(): void {
    if (this.path !== undefined) closeSync(this.file);
    this.path = undefined;
  }
}

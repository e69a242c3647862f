// The bytes of one input, ready for the scan: what kind of file it is, told by its content, and its text as bytes
// that hold ASCII as ASCII.

import { type FileHandle, open } from "node:fs/promises";

import { LongsideError, causeOf } from "../errors.js";

/** Bytes read from the disk at a time where they have to be converted. */
const PIECE = 1 << 18;

/** First bytes of compressed files, so that they are told by content. */
const COMPRESSED: readonly (readonly [string, readonly number[]])[] = [
  ["gzip", [0x1f, 0x8b]],
  ["zstd", [0x28, 0xb5, 0x2f, 0xfd]],
  ["bzip2", [0x42, 0x5a, 0x68]],
  ["zip", [0x50, 0x4b, 0x03, 0x04]],
];

/** The kind of compression the bytes begin with, if any. */
export const compressionOf = (bytes: Uint8Array): string | undefined =>
  COMPRESSED.find(([, magic]) => magic.every((byte, n) => bytes[n] === byte))?.[0];

/** UTF-16 told by its byte order mark. */
const wideEncoding = (bytes: Uint8Array): "utf-16le" | "utf-16be" | undefined =>
  bytes[0] === 0xff && bytes[1] === 0xfe
    ? "utf-16le"
    : bytes[0] === 0xfe && bytes[1] === 0xff
      ? "utf-16be"
      : undefined;

/** An open input. */
export interface Input {
  /** Reads into `target` from `at` on; gives the number of bytes, 0 at the end. Throws `not-readable`. */
  read(target: Uint8Array, at: number): Promise<number>;
  close(): Promise<void>;
}

const notReadable = (path: string, thrown: unknown, byte?: number) =>
  new LongsideError("not-readable", { path, cause: causeOf(thrown) }, { file: path, byte });

/** The bytes as they are on the disk, straight into the reader's buffer. */
class PlainInput implements Input {
  private done = 0;

  constructor(
    private readonly file: FileHandle,
    private readonly path: string,
    private readonly onBytes: (piece: Uint8Array) => void,
  ) {}

  async read(target: Uint8Array, at: number): Promise<number> {
    const { bytesRead } = await this.file
      .read(target, at, target.length - at, this.done)
      .catch((thrown: unknown) => {
        throw notReadable(this.path, thrown, this.done);
      });
    this.done += bytesRead;
    this.onBytes(target.subarray(at, at + bytesRead));
    return bytesRead;
  }

  close(): Promise<void> {
    return this.file.close();
  }
}

/** Bytes that come in pieces of their own, copied into the reader's buffer. */
class PiecesInput implements Input {
  private piece: Uint8Array = new Uint8Array(0);

  constructor(
    private readonly pieces: AsyncIterator<Uint8Array, void>,
    private readonly file: Input,
  ) {}

  async read(target: Uint8Array, at: number): Promise<number> {
    while (this.piece.length === 0) {
      const { value, done } = await this.pieces.next();
      if (done) return 0;
      this.piece = value as Uint8Array;
    }
    const taken = Math.min(this.piece.length, target.length - at);
    target.set(this.piece.subarray(0, taken), at);
    this.piece = this.piece.subarray(taken);
    return taken;
  }

  async close(): Promise<void> {
    await this.pieces.return?.();
    await this.file.close();
  }
}

async function* piecesOf(input: Input): AsyncGenerator<Uint8Array, void> {
  for (;;) {
    const piece = new Uint8Array(PIECE);
    const length = await input.read(piece, 0);
    if (length === 0) return;
    yield piece.subarray(0, length);
  }
}

/** UTF-16 as UTF-8. */
async function* narrowed(
  pieces: AsyncIterable<Uint8Array>,
  encoding: string,
): AsyncGenerator<Uint8Array, void> {
  const decoder = new TextDecoder(encoding);
  for await (const piece of pieces) yield Buffer.from(decoder.decode(piece, { stream: true }), "utf8");
  yield Buffer.from(decoder.decode(), "utf8");
}

/**
 * Opens the file at `path`. `onBytes` sees every piece as it stands on the disk (for a digest and a progress
 * bar). Throws `not-readable` or `compressed-input`.
 */
export async function openInput(path: string, onBytes: (piece: Uint8Array) => void): Promise<Input> {
  const file = await open(path).catch((thrown: unknown) => {
    throw notReadable(path, thrown);
  });
  try {
    const head = new Uint8Array(4);
    await file.read(head, 0, head.length, 0).catch((thrown: unknown) => {
      throw notReadable(path, thrown, 0);
    });
    const kind = compressionOf(head);
    if (kind) throw new LongsideError("compressed-input", { path, kind }, { file: path, byte: 0 });
    const plain = new PlainInput(file, path, onBytes);
    const wide = wideEncoding(head);
    return wide ? new PiecesInput(narrowed(piecesOf(plain), wide), plain) : plain;
  } catch (thrown) {
    await file.close();
    throw thrown;
  }
}

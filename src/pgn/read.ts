// Reading PGN files in stretches: never a whole file in memory, and every cut between two games.

import { open, readdir, stat } from "node:fs/promises";
import { join, resolve } from "node:path";

import type { ByteOffset } from "../chess/units.js";
import { LongsideError, causeOf } from "../errors.js";
import { lastCut } from "./games.js";

export interface Stretch {
  /** Bytes of whole games, in a buffer of their own. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
}

/** Bytes of a stretch; one game that is longer makes a longer stretch. */
const STRETCH = 4 << 20;
/** No game is longer: bytes in which no game begins for so long are cut at the end of a line. */
const LONGEST_GAME = 32 << 20;

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

/**
 * Yields the stretches of a file. Throws `not-readable` or `compressed-input`.
 * `onBytes` sees every piece as it is read (for a digest and a progress bar).
 */
export async function* readStretches(
  path: string,
  onBytes: (piece: Uint8Array) => void,
): AsyncGenerator<Stretch> {
  const file = await open(path).catch((thrown: unknown) => {
    throw new LongsideError("not-readable", { path, cause: causeOf(thrown) }, { file: path });
  });
  try {
    let buffer = new Uint8Array(STRETCH);
    let used = 0;
    let offset = 0;
    for (;;) {
      if (used === buffer.length) {
        const larger = new Uint8Array(buffer.length * 2);
        larger.set(buffer);
        buffer = larger;
      }
      const { bytesRead } = await file.read(buffer, used, buffer.length - used);
      if (offset === 0 && used === 0) {
        const kind = compressionOf(buffer);
        if (kind) throw new LongsideError("compressed-input", { path, kind }, { file: path, byte: 0 });
      }
      onBytes(buffer.subarray(used, used + bytesRead));
      used += bytesRead;
      if (bytesRead === 0) {
        if (used > 0) yield { bytes: buffer.slice(0, used), offset };
        return;
      }
      if (used < buffer.length) continue;
      let cut = lastCut(buffer);
      if (cut <= 0 && buffer.length >= LONGEST_GAME) cut = buffer.lastIndexOf(10) + 1 || buffer.length;
      if (cut <= 0) continue;
      const rest = buffer.slice(cut);
      const next = new Uint8Array(Math.max(STRETCH, rest.length));
      next.set(rest);
      yield { bytes: buffer.subarray(0, cut), offset };
      buffer = next;
      used = rest.length;
      offset += cut;
    }
  } finally {
    await file.close();
  }
}

export interface FoundFile {
  /** Absolute. */
  readonly path: string;
  /** Relative to the folder it was found in; as given for a file named outright. */
  readonly name: string;
  readonly size: number;
  readonly modified: number;
}

/**
 * The PGN files among `paths`: files as named, folders searched through (names ending in .pgn, in any case),
 * in a fixed order. Throws `no-such-path` or `no-games-found`.
 */
export async function findFiles(paths: readonly string[]): Promise<FoundFile[]> {
  const found = new Map<string, FoundFile>();
  for (const path of paths) {
    const info = await stat(path).catch(() => {
      throw new LongsideError("no-such-path", { path });
    });
    const names = info.isDirectory()
      ? (await readdir(path, { recursive: true })).filter((name) => /\.pgn$/i.test(name)).sort()
      : [undefined];
    for (const name of names) {
      const file = name === undefined ? path : join(path, name);
      const entry = await stat(file);
      if (name !== undefined && !entry.isFile()) continue;
      const known = { path: resolve(file), name: name ?? path, size: entry.size };
      found.set(known.path, { ...known, modified: Math.floor(entry.mtimeMs) });
    }
    if (info.isDirectory() && names.length === 0) throw new LongsideError("no-games-found", { path });
  }
  return [...found.values()];
}

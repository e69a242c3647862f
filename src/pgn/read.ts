// Reading PGN files in stretches: never a whole file in memory, and every cut between two games.

import { readdir, stat } from "node:fs/promises";
import { join, resolve } from "node:path";

import type { ByteOffset } from "../chess/units.js";
import { LongsideError, causeOf } from "../errors.js";
import { lastCut } from "./games.js";
import { openInput } from "./input.js";

export interface Stretch {
  /** Bytes of whole games, in a buffer of their own. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
}

/** Bytes of a stretch; one game that is longer makes a longer stretch. */
const STRETCH = 4 << 20;
/** No game is longer: bytes in which no game begins for so long are cut at the end of a line. */
const LONGEST_GAME = 32 << 20;

/**
 * Yields the stretches of a file. Throws `not-readable` or `compressed-input`.
 * `onBytes` sees every piece as it is read (for a digest and a progress bar).
 */
export async function* readStretches(
  path: string,
  onBytes: (piece: Uint8Array) => void,
): AsyncGenerator<Stretch> {
  const input = await openInput(path, onBytes);
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
      const bytesRead = await input.read(buffer, used);
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
    await input.close();
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

export interface FoundFiles {
  readonly files: readonly FoundFile[];
  /** Folders and files below the paths given that could not be looked at. */
  readonly unreadable: readonly LongsideError[];
}

const isPgn = (name: string) => /\.pgn$/i.test(name);

/** Names below a folder that end in .pgn, in a fixed order; what cannot be looked at goes to `unreadable`. */
async function namesBelow(folder: string, below: string, unreadable: LongsideError[]): Promise<string[]> {
  const entries = await readdir(join(folder, below), { withFileTypes: true }).catch((thrown: unknown) => {
    const path = join(folder, below);
    unreadable.push(new LongsideError("not-readable", { path, cause: causeOf(thrown) }, { file: path }));
    return [];
  });
  const names: string[] = [];
  for (const entry of entries) {
    const name = join(below, entry.name);
    if (entry.isDirectory()) names.push(...(await namesBelow(folder, name, unreadable)));
    else if (isPgn(name)) names.push(name);
  }
  return names.sort();
}

/**
 * The PGN files among `paths`: files as named, folders searched through (names ending in .pgn, in any case),
 * in a fixed order. Throws `no-such-path` or `no-games-found`.
 */
export async function findFiles(paths: readonly string[]): Promise<FoundFiles> {
  const files = new Map<string, FoundFile>();
  const unreadable: LongsideError[] = [];
  for (const path of paths) {
    const info = await stat(path).catch(() => {
      throw new LongsideError("no-such-path", { path });
    });
    const names = info.isDirectory() ? await namesBelow(path, "", unreadable) : [undefined];
    for (const name of names) {
      const file = name === undefined ? path : join(path, name);
      const entry = await stat(file).catch((thrown: unknown) => {
        unreadable.push(new LongsideError("not-readable", { path: file, cause: causeOf(thrown) }, { file }));
      });
      if (!entry || (name !== undefined && !entry.isFile())) continue;
      const known = { path: resolve(file), name: name ?? path, size: entry.size };
      files.set(known.path, { ...known, modified: Math.floor(entry.mtimeMs) });
    }
    if (info.isDirectory() && names.length === 0 && unreadable.length === 0)
      throw new LongsideError("no-games-found", { path });
  }
  return { files: [...files.values()], unreadable };
}

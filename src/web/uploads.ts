// Files that were handed over by way of the page: kept beside the database, since it remembers where games came from.

import { createHash, randomUUID } from "node:crypto";
import {
  createReadStream,
  createWriteStream,
  existsSync,
  mkdirSync,
  renameSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, join } from "node:path";
import { type Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";

import { LongsideError, causeOf } from "../errors.js";
import { isGames } from "../pgn/read.js";

/** Bytes of one file at most. */
export const UPLOAD = 8 * 2 ** 30;

/** A name for a file that was handed over: no path, nothing a system might stumble over. */
export function uploadName(text: string): string {
  const name = basename(text.replaceAll("\\", "/"))
    .normalize("NFC")
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*]/g, "_")
    .replace(/^\.+/, "")
    .slice(-120);
  if (!isGames(name))
    throw new LongsideError("bad-input", {
      cause: `${JSON.stringify(text.slice(0, 100))} is no name of a file of games`,
    });
  return name;
}

/** The digest of a file's bytes. */
async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  await pipeline(createReadStream(path), hash);
  return hash.digest("hex");
}

export class Uploads {
  constructor(private readonly folder: string) {}

  /** Whether a path is one of a file that was handed over. */
  holds(path: string): boolean {
    return path === join(this.folder, basename(path)) && existsSync(path);
  }

  /**
   * Takes a file; the same bytes under the same name are one file. Gives its path and its bytes. Throws `bad-input` for a name
   * that says no games and for too many bytes, `cannot-write`.
   */
  async take(given: string, bytes: Readable): Promise<{ readonly path: string; readonly size: number }> {
    const name = uploadName(given);
    const coming = join(this.folder, `.${randomUUID()}`);
    const hash = createHash("sha256");
    let size = 0;
    const counted = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        hash.update(chunk);
        size += chunk.length;
        if (size > UPLOAD)
          done(new LongsideError("bad-input", { cause: `the file has more than ${UPLOAD} bytes` }));
        else done(null, chunk);
      },
    });
    try {
      mkdirSync(this.folder, { recursive: true });
      await pipeline(bytes, counted, createWriteStream(coming));
      const path = await this.placeFor(name, size, hash.digest("hex"));
      renameSync(coming, path);
      return { path, size };
    } catch (thrown) {
      rmSync(coming, { force: true });
      throw thrown instanceof LongsideError
        ? thrown
        : new LongsideError("cannot-write", { path: this.folder, cause: causeOf(thrown) });
    }
  }

  /** Where a file goes: another one of the same name is kept beside it. */
  private async placeFor(name: string, size: number, digest: string): Promise<string> {
    const end = /(?:\.pgn)?\.[^.]+$/i.exec(name)?.[0] ?? "";
    const stem = name.slice(0, name.length - end.length);
    for (let n = 1; ; ++n) {
      const path = join(this.folder, n === 1 ? name : `${stem} ${n}${end}`);
      const there = statSync(path, { throwIfNoEntry: false });
      if (!there || (there.size === size && (await digestOf(path)) === digest)) return path;
    }
  }
}

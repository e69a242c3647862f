// Files that were uploaded by the page: stored beside the database, which remembers where games came from.

import { createHash, randomUUID } from "node:crypto";
import {
  createReadStream,
  createWriteStream,
  existsSync,
  linkSync,
  mkdirSync,
  readdirSync,
  rmSync,
  statSync,
} from "node:fs";
import { basename, join } from "node:path";
import { type Readable, Transform } from "node:stream";
import { pipeline } from "node:stream/promises";

import { LongsideError, causeOf } from "../errors.js";
import { isGames } from "../pgn/files/find.js";

/** Bytes of one file at most. */
const MOST_BYTES = 8 * 2 ** 30;

/** Names that some system takes for a device. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;
/** Bytes of a name that every system takes, with room for a number. */
const NAME_BYTES = 200;

/** A name for an uploaded file: no path, nothing that a system treats in its own way. Throws `bad-input`. */
export function uploadName(text: string): string {
  let name = basename(text.replaceAll("\\", "/"))
    .normalize("NFC")
    .replace(/[\u0000-\u001f\u007f<>:"/\\|?*]/g, "_");
  while (Buffer.byteLength(name) > NAME_BYTES) name = [...name].slice(1).join("");
  name = name.replace(/^\.+/, "");
  if (!isGames(name))
    throw new LongsideError("bad-input", {
      cause: `${JSON.stringify(text.slice(0, 100))} is no name of a file of games (.pgn, .pgn.gz, .pgn.zst, .pgn.bz2, .zip)`,
    });
  return DEVICE.test(name) ? `_${name}` : name;
}

/** The digest of a file's bytes. */
async function digestOf(path: string): Promise<string> {
  const hash = createHash("sha256");
  await pipeline(createReadStream(path), hash);
  return hash.digest("hex");
}

/** Removes a file if that can be done. */
function remove(path: string): void {
  try {
    rmSync(path, { force: true });
  } catch {
    // it stays
  }
}

export class Uploads {
  /** Removes files that a killed server received only in part. */
  constructor(readonly folder: string) {
    if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return;
    for (const name of readdirSync(folder)) if (name.startsWith(".")) remove(join(folder, name));
  }

  /** Whether a path is that of an uploaded file. */
  holds(path: string): boolean {
    return path === join(this.folder, basename(path)) && existsSync(path);
  }

  /**
   * Stores a file; the same bytes under the same name are one file. Returns its path and its size in bytes. Throws `bad-input`
   * for a name that is not one of games and for too many bytes, `cannot-write`.
   */
  async take(given: string, bytes: Readable): Promise<{ readonly path: string; readonly size: number }> {
    const name = uploadName(given);
    const unfinished = join(this.folder, `.${randomUUID()}`);
    const hash = createHash("sha256");
    let size = 0;
    const counted = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        hash.update(chunk);
        size += chunk.length;
        if (size > MOST_BYTES)
          done(new LongsideError("bad-input", { cause: `the file has more than ${MOST_BYTES} bytes` }));
        else done(null, chunk);
      },
    });
    try {
      mkdirSync(this.folder, { recursive: true });
      await pipeline(bytes, counted, createWriteStream(unfinished));
      return { path: await this.put(unfinished, name, size, hash.digest("hex")), size };
    } catch (thrown) {
      remove(unfinished);
      throw thrown instanceof LongsideError
        ? thrown
        : new LongsideError("cannot-write", { path: this.folder, cause: causeOf(thrown) });
    }
  }

  /** Gives a file its name; another one of the same name stays beside it. */
  private async put(unfinished: string, name: string, size: number, digest: string): Promise<string> {
    const end = /(?:\.pgn)?\.[^.]+$/i.exec(name)?.[0] ?? "";
    const stem = name.slice(0, name.length - end.length);
    for (let n = 1; ; ++n) {
      const path = join(this.folder, n === 1 ? name : `${stem} ${n}${end}`);
      try {
        // unlike renaming this never overwrites another file
        linkSync(unfinished, path);
      } catch (thrown) {
        if ((thrown as { code?: string }).code !== "EEXIST") throw thrown;
        if (statSync(path).size !== size || (await digestOf(path)) !== digest) continue;
      }
      remove(unfinished);
      return path;
    }
  }
}

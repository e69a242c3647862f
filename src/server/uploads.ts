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
import { isAlive } from "../processes.js";
import { isGames } from "../pgn/files/find.js";

/** Bytes of one file at most. */
const MOST_BYTES = 8 * 2 ** 30;

/** Milliseconds in which some bytes of an upload must arrive. */
const SILENCE = 30_000;

/** A file that is being received: the number of its server's process comes first. */
const UNFINISHED = /^\.(\d+)-/;

/** Names that some system takes for a device. */
const DEVICE = /^(?:con|prn|aux|nul|com\d|lpt\d)(?:\.|$)/i;
/** Bytes of a name that every system takes, with room for a number. */
const NAME_BYTES = 200;

/** What the name of the folder of uploads ends with, beside its database. */
const FOLDER_END = ".uploads";
export const uploadsFolder = (db: string): string => `${db}${FOLDER_END}`;

/** The name of a file for people: of an uploaded one as it was given, without the folder that it lies in. */
export function withoutUploadsFolder(name: string): string {
  const parts = name.split(/[\\/]/);
  const at = parts.findLastIndex((part) => part.endsWith(FOLDER_END));
  return at < 0 ? name : parts.slice(at + 1).join("/");
}

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
  /** Removes files that a killed server received only in part; those of another that runs on this database are left. */
  constructor(
    readonly folder: string,
    private readonly silence = SILENCE,
  ) {
    if (!statSync(folder, { throwIfNoEntry: false })?.isDirectory()) return;
    for (const name of readdirSync(folder)) {
      const server = UNFINISHED.exec(name)?.[1];
      if (server !== undefined && !isAlive(Number(server))) remove(join(folder, name));
    }
  }

  /** Whether a path is that of an uploaded file. */
  holds(path: string): boolean {
    return path === join(this.folder, basename(path)) && existsSync(path);
  }

  /**
   * Stores a file; the same bytes under the same name are one file. Returns its path and its size in bytes. Throws `bad-input`
   * for a name that is not one of games, for too many bytes and for
   * none in a long time, `cannot-write`.
   */
  async take(given: string, bytes: Readable): Promise<{ readonly path: string; readonly size: number }> {
    const name = uploadName(given);
    const unfinished = join(this.folder, `.${process.pid}-${randomUUID()}`);
    const hash = createHash("sha256");
    let size = 0;
    const silent = () =>
      bytes.destroy(
        new LongsideError("bad-input", { cause: "the file has stopped arriving", hint: "send it again" }),
      );
    let timer = setTimeout(silent, this.silence);
    const { silence } = this;
    const counted = new Transform({
      transform(chunk: Buffer, _encoding, done) {
        clearTimeout(timer);
        timer = setTimeout(silent, silence);
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
    } finally {
      clearTimeout(timer);
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

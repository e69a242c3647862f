// Results that are written part by part, since a table of ten million positions does not fit into memory: a file, or a folder
// of files. They lie beside their place until they are whole; Ctrl-C leaves nothing of them.

import {
  appendFileSync,
  closeSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { setImmediate } from "node:timers/promises";

import { LongsideError, causeOf } from "../errors.js";
import { placesFor } from "../write-whole.js";
import { INTERRUPTED } from "./progress.js";

/** Some more bytes of a file. */
export interface FilePart {
  /** Its name below the folder that is written; empty where one file is. */
  readonly file: string;
  readonly bytes: Uint8Array;
  /** Rows in them. */
  readonly rows: number;
}

/** Whether a folder can be made at a place without taking that of something else. */
export const isFree = (path: string): boolean => {
  const there = statSync(path, { throwIfNoEntry: false });
  return there === undefined || (there.isDirectory() && readdirSync(path).length === 0);
};

/** Waits until what was written is on the disk. */
function settle(path: string): void {
  const file = openSync(path, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/**
 * Writes a file, or a folder that is not there or empty; makes the folders above. Gives how many rows it has. Throws
 * `cannot-write`, and what making the parts throws; what was there is unchanged then.
 */
export async function writeInParts(
  path: string,
  parts: Iterable<FilePart>,
  asFolder: boolean,
): Promise<number> {
  const disk = <T>(work: () => T): T => {
    try {
      return work();
    } catch (thrown) {
      throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
    }
  };
  const { there, place, unfinished: beside } = disk(() => placesFor(path));
  // a pipe or a terminal has no place beside it
  const direct = there !== undefined && !asFolder && !there.isFile();
  const unfinished = direct ? path : beside;
  const drop = () => {
    if (!direct) rmSync(unfinished, { recursive: true, force: true });
  };
  const stop = () => {
    drop();
    process.exit(INTERRUPTED);
  };
  process.once("SIGINT", stop);
  try {
    disk(() => {
      mkdirSync(asFolder ? unfinished : dirname(path), { recursive: true });
      if (!asFolder && !direct) writeFileSync(unfinished, "", { mode: there?.mode });
    });
    const files = new Set<string>();
    let rows = 0;
    for (const part of parts) {
      const file = asFolder ? join(unfinished, part.file) : unfinished;
      disk(() => {
        if (asFolder && !files.has(file)) mkdirSync(dirname(file), { recursive: true });
        // not kept open: there may be more years than files that can be
        appendFileSync(file, part.bytes);
      });
      files.add(file);
      rows += part.rows;
      // so that Ctrl-C is heard
      await setImmediate();
    }
    if (!direct)
      disk(() => {
        for (const file of files) settle(file);
        renameSync(unfinished, place);
      });
    return rows;
  } catch (thrown) {
    drop();
    throw thrown;
  } finally {
    process.removeListener("SIGINT", stop);
  }
}

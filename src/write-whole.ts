// Writing a file so that its place holds the old content or the whole new one, whatever happens meanwhile. The library for
// this (write-file-atomic) takes a short write, which a disk gives as it becomes full, for a whole one.

import {
  type Stats,
  closeSync,
  fsyncSync,
  openSync,
  realpathSync,
  renameSync,
  rmSync,
  statSync,
  writeFileSync,
  writeSync,
} from "node:fs";

/** What is at a path now; its place, which a link leads to; and what is written beside it is called until it is whole. */
export function placesFor(path: string): { there: Stats | undefined; place: string; unfinished: string } {
  const there = statSync(path, { throwIfNoEntry: false });
  const place = there ? realpathSync(path) : path;
  return { there, place, unfinished: `${place}.${process.pid}.unfinished` };
}

/**
 * Writes a file beside its place and renames it when it is on the disk. A link is followed, and the mode of a file that is
 * there stays. Throws what the file system throws; what was there is unchanged then.
 */
export function writeWhole(path: string, content: string | Uint8Array): void {
  const { there, place, unfinished } = placesFor(path);
  try {
    const file = openSync(unfinished, "w", there?.mode);
    try {
      writeFileSync(file, content);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    renameSync(unfinished, place);
  } catch (thrown) {
    rmSync(unfinished, { force: true });
    throw thrown;
  }
}

/** Writes bytes at a place of an open file, all of them. Throws what the file system throws. */
export function writeAllAt(file: number, bytes: Uint8Array, position: number): void {
  for (let done = 0; done < bytes.length;)
    done += writeSync(file, bytes, done, bytes.length - done, position + done);
}

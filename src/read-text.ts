// Reading a text that a user wrote, of which there may be no more than is reasonable: a device such as /dev/zero never ends.

import { closeSync, openSync, readSync } from "node:fs";

import { LongsideError, causeOf } from "./errors.js";

/** Bytes of an outline, or of a file of set-ups. */
const MOST = 4 << 20;

/** A text file, UTF-8; also a pipe. Throws `no-such-path`, `not-readable`. */
export function readText(path: string): string {
  try {
    const file = openSync(path, "r");
    try {
      const bytes = Buffer.alloc(MOST + 1);
      let length = 0;
      for (let got = -1; got !== 0 && length < bytes.length; length += got)
        got = readSync(file, bytes, length, bytes.length - length, null);
      if (length > MOST) throw new Error(`it has more than ${MOST >> 20} MB, too much for such a text`);
      return bytes.toString("utf8", 0, length);
    } finally {
      closeSync(file);
    }
  } catch (thrown) {
    throw (thrown as NodeJS.ErrnoException).code === "ENOENT"
      ? new LongsideError("no-such-path", { path })
      : new LongsideError("not-readable", { path, cause: causeOf(thrown) });
  }
}

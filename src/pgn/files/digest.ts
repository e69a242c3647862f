// The digest of a file's (unpacked) bytes, by which it is known again: SHA-256 of the SHA-256s of its parts, so that
// several threads can work it out of one file. Which parts these are follows from how the file is read: ranges of a plain
// one, blocks of one that is unpacked (cut otherwise, it would have another digest, and be read again once).

import { createHash } from "node:crypto";

/** The digest of one part. */
export const partDigest = (part: Uint8Array): Uint8Array => createHash("sha256").update(part).digest();

/** The digest of a whole out of those of its parts, in hexadecimal digits. */
export function wholeDigest(parts: Iterable<Uint8Array>): string {
  const whole = createHash("sha256");
  for (const part of parts) whole.update(part);
  return whole.digest("hex");
}

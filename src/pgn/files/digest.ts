// The digest of a file's (unpacked) bytes, by which it is known again: SHA-256 of the SHA-256s of its parts, so that
// several threads can work it out of one file. Which parts these are follows from how the file is read: ranges of a plain
// one, blocks of one that is unpacked (split otherwise, it would have another digest, and be read again once).

import { createHash } from "node:crypto";

/** The digest of one part. */
export const bytesDigest = (bytes: Uint8Array): Uint8Array => createHash("sha256").update(bytes).digest();

/** The digest of a whole out of those of its parts, in hexadecimal digits. */
export function combinedDigest(digests: Iterable<Uint8Array>): string {
  const whole = createHash("sha256");
  for (const digest of digests) whole.update(digest);
  return whole.digest("hex");
}

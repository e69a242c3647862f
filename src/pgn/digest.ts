// The digest of a file's (unpacked) bytes, by which it is known again: SHA-256 of the SHA-256s of its pieces, so that
// several threads can work it out of one file.

import { createHash } from "node:crypto";

/** Bytes of a piece: plain files are read, hashed and shared out by these. */
export const PIECE = 1 << 21;

/** The digest of one piece. */
export const pieceDigest = (piece: Uint8Array): Uint8Array => createHash("sha256").update(piece).digest();

/** The digest of a whole out of those of its pieces, in hexadecimal digits. */
export function wholeDigest(pieces: Iterable<Uint8Array>): string {
  const whole = createHash("sha256");
  for (const piece of pieces) whole.update(piece);
  return whole.digest("hex");
}

/** The digest of bytes that come in parts of any size. */
export class Digest {
  private readonly pieces: Uint8Array[] = [];
  private piece = createHash("sha256");
  private used = 0;

  update(bytes: Uint8Array): void {
    for (let from = 0; from < bytes.length;) {
      const part = bytes.subarray(from, from + PIECE - this.used);
      this.piece.update(part);
      this.used += part.length;
      from += part.length;
      if (this.used === PIECE) this.closePiece();
    }
  }

  private closePiece(): void {
    this.pieces.push(this.piece.digest());
    this.piece = createHash("sha256");
    this.used = 0;
  }

  end(): string {
    if (this.used > 0) this.closePiece();
    return wholeDigest(this.pieces);
  }
}

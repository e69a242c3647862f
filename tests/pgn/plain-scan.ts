// What the compiled kernel of the scan says, a byte at a time: the definition that it is tested against. Whole games it
// leaves to the finder of games.

import { isLetter, isSign } from "../../src/pgn/scan/bytes.js";
import type { Scan } from "../../src/pgn/scan/scan-kernel.js";

const isFile = (byte: number): boolean => byte >= 97 && byte <= 104;

/** Where from `from` on the first of these signs stands, or the end. */
function find(bytes: Uint8Array, signs: string, from: number): number {
  let p = from;
  while (p < bytes.length && !signs.includes(String.fromCharCode(bytes[p]))) ++p;
  return p;
}

export class PlainScan implements Scan {
  captures = 0;
  unsigned = false;
  text = 0;
  private bytes: Uint8Array = new Uint8Array(0);

  load(bytes: Uint8Array): void {
    this.bytes = bytes;
  }

  scan(from: number): number {
    const { bytes } = this;
    const end = find(bytes, "[{;%", from);
    this.captures = 0;
    this.unsigned = false;
    for (let p = from; p < end; ++p) {
      if (isSign(bytes[p])) ++this.captures;
      if (isFile(bytes[p]) && isFile(bytes[p + 1]) && !isLetter(bytes[p - 1])) this.unsigned = true;
    }
    return end;
  }

  commentStop(from: number): number {
    return find(this.bytes, "[}", from);
  }

  game(): number {
    return -1;
  }
}

// Tag pairs in raw bytes, however they are damaged: where one ends, what it is called, what it says.

import { CLOSE_TAG, NEWLINE, OPEN_TAG, QUOTE, SPACE, isLetter, textOf } from "./bytes.js";

/** Bytes of a tag's name. */
const NAME_BYTES = new Uint8Array(256);
for (let byte = 0; byte < 128; ++byte) NAME_BYTES[byte] = /\w/.test(String.fromCharCode(byte)) ? 1 : 0;

/** Tags that begin or continue a tag section even in the middle of a line or in a comment that never closes. */
const WELL_KNOWN = new Set([
  "Event",
  "Site",
  "Date",
  "Round",
  "White",
  "Black",
  "Result",
  "WhiteElo",
  "BlackElo",
  "ECO",
  "EventDate",
  "FEN",
  "SetUp",
  "Variant",
]);

/** Reads tag pairs one at a time. Places count from the start of the bytes. */
export class TagReader {
  /** The tag read last has its quote and bracket at the end. */
  closed = false;
  private nameStart = 0;
  private nameEnd = 0;

  constructor(private readonly bytes: Uint8Array) {}

  /** Reads the tag pair at `p`: where it ends (behind its bracket, or with its line), or -1 if there is none. */
  read(p: number): number {
    const { bytes } = this;
    if (bytes[p] !== OPEN_TAG) return -1;
    let q = p + 1;
    while (bytes[q] === SPACE) ++q;
    this.nameStart = q;
    if (!isLetter(bytes[q])) return -1;
    while (q < bytes.length && NAME_BYTES[bytes[q]] === 1) ++q;
    this.nameEnd = q;
    while (bytes[q] === SPACE || bytes[q] === 9) ++q;
    if (bytes[q] !== QUOTE) return -1;
    this.closed = false;
    // the value ends at a quote before a bracket, so that quotes inside it do no harm; else with the line
    for (++q; q < bytes.length; ++q) {
      const byte = bytes[q];
      if (byte === NEWLINE) return q;
      if (byte !== QUOTE) continue;
      let r = q + 1;
      while (bytes[r] === SPACE) ++r;
      if (bytes[r] === CLOSE_TAG) {
        this.closed = true;
        return r + 1;
      }
    }
    return q;
  }

  /** Whether the tag read last has this name. */
  isNamed(name: string): boolean {
    const { bytes, nameStart } = this;
    if (this.nameEnd - nameStart !== name.length) return false;
    for (let n = 0; n < name.length; ++n) if (bytes[nameStart + n] !== name.charCodeAt(n)) return false;
    return true;
  }

  get isWellKnown(): boolean {
    return WELL_KNOWN.has(textOf(this.bytes, this.nameStart, this.nameEnd));
  }

  /** Where the value of the tag read last begins. */
  get valueStart(): number {
    return this.bytes.indexOf(QUOTE, this.nameEnd) + 1;
  }

  /** The value of the tag read last, which ends before `end`. */
  value(end: number): string {
    return textOf(this.bytes, this.valueStart, end).replace(/"\s*\]$/, "");
  }
}

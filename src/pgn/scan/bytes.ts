// Bytes of PGN by what they are, for all that reads raw bytes.

export const NEWLINE = 10;
export const SPACE = 32;
export const QUOTE = 34;
export const PERCENT = 37;
export const OPEN_TAG = 91;
export const CLOSE_TAG = 93;

export const isBlank = (byte: number): boolean => byte <= SPACE;
export const isLetter = (byte: number): boolean => (byte >= 65 && byte <= 90) || (byte >= 97 && byte <= 122);
/** A sign of capture: x : X */
export const isSign = (byte: number): boolean => byte === 120 || byte === 58 || byte === 88;

/** Where the line that holds a place ends. */
export function endOfLine(bytes: Uint8Array, p: number): number {
  const end = bytes.indexOf(NEWLINE, p);
  return end < 0 ? bytes.length : end;
}

/** Latin-1 text of some bytes. */
export const textOf = (bytes: Uint8Array, start: number, end: number): string =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).toString("latin1", start, end);

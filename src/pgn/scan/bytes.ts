// Bytes of PGN by what they are, for all that reads raw bytes.

export const NEWLINE = 10;
export const SPACE = 32;

export const isDigit = (byte: number): boolean => byte >= 48 && byte <= 57;
export const isLetter = (byte: number): boolean => (byte >= 65 && byte <= 90) || (byte >= 97 && byte <= 122);
export const isFile = (byte: number): boolean => byte >= 97 && byte <= 104;
export const isRank = (byte: number): boolean => byte >= 49 && byte <= 56;
/** A sign of capture: x : X */
export const isSign = (byte: number): boolean => byte === 120 || byte === 58 || byte === 88;

/** ASCII as bytes. */
export const bytesOf = (text: string): Uint8Array => Uint8Array.from(text, (letter) => letter.charCodeAt(0));

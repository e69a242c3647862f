// The encoding of a file's names: UTF-8 where the bytes are UTF-8, else what they look like.
//
// PGN files do not say. A guess is made from all names of a block that are not UTF-8 together; where it is not clear,
// Windows-1252 is taken, which gives every byte a character so that nothing is lost, and the guess is marked.

import { analyse } from "chardet";

export interface Encoding {
  /** "utf-8", "windows-1251", or "windows-1252 (unsure)". */
  readonly name: string;
  readonly decode: (bytes: Uint8Array) => string;
}

const strict = new TextDecoder("utf-8", { fatal: true });

/** Whether bytes are valid UTF-8 (ASCII is). */
export function isUtf8(bytes: Uint8Array): boolean {
  try {
    strict.decode(bytes);
    return true;
  } catch {
    return false;
  }
}

const encodingOf = (label: string, name = label): Encoding => {
  const decoder = new TextDecoder(label);
  return { name, decode: (bytes) => decoder.decode(bytes) };
};

export const UTF8: Encoding = encodingOf("utf-8");
const UNSURE = encodingOf("windows-1252", "windows-1252 (unsure)");

/** Encodings of one byte a letter, by the names that the guess gives; supersets where files mostly have those. */
const LABELS: Readonly<Record<string, string>> = {
  "ISO-8859-1": "windows-1252",
  "ISO-8859-2": "iso-8859-2",
  "ISO-8859-5": "iso-8859-5",
  "ISO-8859-7": "windows-1253",
  "ISO-8859-8": "windows-1255",
  "ISO-8859-9": "windows-1254",
  "windows-1250": "windows-1250",
  "windows-1251": "windows-1251",
  "windows-1252": "windows-1252",
  "windows-1253": "windows-1253",
  "windows-1254": "windows-1254",
  "windows-1255": "windows-1255",
  "windows-1256": "windows-1256",
  "KOI8-R": "koi8-r",
};
/** Below this the guess says nothing (of 100). */
const SOME_CONFIDENCE = 15;
/** The best guess must be so much better than the next one that reads the names otherwise. */
const CLEARLY = 1.4;

/** The most likely encoding of names none of which is UTF-8. `names` holds one a line. */
export function guessEncoding(names: Uint8Array): Encoding {
  const guesses = analyse(names)
    .filter(({ name, confidence }) => LABELS[name] !== undefined && confidence >= SOME_CONFIDENCE)
    .map(({ name, confidence }) => {
      // Windows-1250 and ISO 8859-2 are told apart by the letters that the former has where the latter has none
      const windows = name === "ISO-8859-2" && names.some((byte) => byte >= 0x80 && byte < 0xa0);
      return { confidence, encoding: encodingOf(windows ? "windows-1250" : LABELS[name]) };
    });
  if (guesses.length === 0) return UNSURE;
  const [best, ...others] = guesses;
  const read = best.encoding.decode(names);
  const rival = others.find(({ encoding }) => encoding.decode(names) !== read);
  return rival && best.confidence < CLEARLY * rival.confidence ? UNSURE : best.encoding;
}

/** The beginning of a game, "[Event", in text of one byte a letter, and of two, the lower or the higher first. */
const EVENT = Buffer.from('[Event "', "latin1");
const WIDE_EVENTS = ["utf16le", "utf16be"].map((order) => {
  const bytes = Buffer.from("[Event", "utf16le");
  return order === "utf16le" ? bytes : bytes.swap16();
});

/** Bytes by which games in one byte a letter are known, but for one. */
export const NARROW_LOOKAHEAD = EVENT.length - 1;

/** Where games in one byte a letter begin behind others in two; -1 if none do. */
export const narrowTextIn = (bytes: Uint8Array): number =>
  Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length).indexOf(EVENT);

/** Where games in UTF-16 begin in text of one byte a letter, and end. These bytes are made blanks. Undefined if there are none. */
export function blankWideText(bytes: Uint8Array): { start: number; end: number } | undefined {
  // a byte of zero is in no text of one byte a letter
  if (!bytes.includes(0)) return undefined;
  const buffer = Buffer.from(bytes.buffer, bytes.byteOffset, bytes.length);
  const starts = WIDE_EVENTS.map((event) => buffer.indexOf(event)).filter((at) => at >= 0);
  if (starts.length === 0) return undefined;
  let start = Math.min(...starts);
  // its byte order mark
  if (start >= 2 && buffer[start - 2] + buffer[start - 1] === 0xff + 0xfe) start -= 2;
  const narrow = buffer.indexOf(EVENT, start);
  const end = narrow < 0 ? buffer.length : narrow;
  buffer.fill(" ", start, end);
  return { start, end };
}

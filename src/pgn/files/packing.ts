// What kind of file some bytes begin: told by content, never by name.

/** How a file is packed, where it can be read as it is. */
export type Packing = "plain" | "utf-16" | "gzip" | "zstd" | "bzip2" | "zip";

/** Bytes of a file that tell what it is. */
export const HEAD_BYTES = 512;

interface Magic {
  readonly at: number;
  readonly bytes: readonly number[];
}
const magic = (...bytes: number[]): Magic => ({ at: 0, bytes });

const READABLE: readonly (readonly [Packing, Magic])[] = [
  ["gzip", magic(0x1f, 0x8b)],
  ["zstd", magic(0x28, 0xb5, 0x2f, 0xfd)],
  ["bzip2", magic(0x42, 0x5a, 0x68)],
  ["zip", magic(0x50, 0x4b, 0x03, 0x04)],
  ["zip", magic(0x50, 0x4b, 0x05, 0x06)], // an empty one
  ["utf-16", magic(0xff, 0xfe)],
  ["utf-16", magic(0xfe, 0xff)],
];
/** Zstandard's frames to be skipped (RFC 8878, 3.1.2) may stand first: 184D2A5? hexadecimal, little-endian. */
const isSkippable = (head: Uint8Array) =>
  head[0] >> 4 === 5 && head[1] === 0x2a && head[2] === 0x4d && head[3] === 0x18;

const UNREADABLE: readonly (readonly [string, Magic])[] = [
  ["xz", magic(0xfd, 0x37, 0x7a, 0x58, 0x5a)],
  ["7z", magic(0x37, 0x7a, 0xbc, 0xaf)],
  ["rar", magic(0x52, 0x61, 0x72, 0x21, 0x1a)],
  ["tar", { at: 257, bytes: [0x75, 0x73, 0x74, 0x61, 0x72] }],
  ["an SQLite database", magic(...Buffer.from("SQLite format 3\0"))],
];

const has = (head: Uint8Array, { at, bytes }: Magic) => bytes.every((byte, n) => head[at + n] === byte);

/** How a file that begins with these bytes is packed. */
export function packingOf(head: Uint8Array): Packing {
  if (isSkippable(head)) return "zstd";
  return READABLE.find(([, one]) => has(head, one))?.[0] ?? "plain";
}

/** What the file is, if it is of a kind that cannot be read as it is. */
export const foreignKind = (head: Uint8Array): string | undefined =>
  UNREADABLE.find(([, one]) => has(head, one))?.[0];

/** The encoding that a byte order mark tells, if it is one of two bytes a unit. */
export const wideEncoding = (head: Uint8Array): "utf-16le" | "utf-16be" | undefined =>
  head[0] === 0xff && head[1] === 0xfe
    ? "utf-16le"
    : head[0] === 0xfe && head[1] === 0xff
      ? "utf-16be"
      : undefined;

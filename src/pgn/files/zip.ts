// The members of a zip: which there are, and their bytes.

import { closeSync, openSync, readSync } from "node:fs";
import type { Readable } from "node:stream";
import { crc32, inflateRawSync } from "node:zlib";

import type { Entry, ZipFile } from "yauzl";

/** The members of a zip by what they are told by (see `ZipMember`), each with its own name. */
type Members = Map<string, { readonly name: string; readonly entry: Entry }>;

/** A member's name; a second member of one name gets a number behind it, so that each can be told. */
function uniqueName(name: string, taken: ReadonlyMap<string, unknown>): string {
  if (!taken.has(name)) return name;
  let n = 2;
  while (taken.has(`${name} (${n})`)) ++n;
  return `${name} (${n})`;
}

/**
 * Opens a zip and reads its list of members, by name. The library is loaded when the first zip is met. It is told not to
 * look at names and sizes: one that is wrong would end the list.
 */
async function openZip(path: string): Promise<{ zip: ZipFile; members: Members }> {
  const { default: yauzl } = await import("yauzl");
  const options = { lazyEntries: false, autoClose: false, decodeStrings: false, validateEntrySizes: false };
  const zip = await new Promise<ZipFile>((resolve, reject) => {
    yauzl.open(path, options, (fault, opened) => (fault ? reject(fault) : resolve(opened)));
  });
  const members: Members = new Map();
  await new Promise<void>((resolve, reject) => {
    zip.on("entry", (entry: Entry) => {
      const { generalPurposeBitFlag: flags, fileNameRaw, extraFields } = entry;
      const name = yauzl.getFileNameLowLevel(flags, fileNameRaw, extraFields, false);
      members.set(uniqueName(name, members), { name, entry });
    });
    zip.on("end", () => resolve());
    zip.on("error", reject);
  });
  return { zip, members };
}

/** A member of a zip. */
export interface ZipMember {
  /** Its own in the zip; of members of one name, the second and later ones have a number behind it. */
  readonly key: string;
  readonly name: string;
  readonly packedSize: number;
  /** Why its name cannot stand for a file in the zip; null where it can. */
  readonly fault: string | null;
}

/** The members of a zip, in its order. Throws where its list is damaged. */
export async function zipMembers(path: string): Promise<ZipMember[]> {
  const { default: yauzl } = await import("yauzl");
  const { zip, members } = await openZip(path);
  zip.close();
  return [...members].map(([key, { name, entry }]) => ({
    key,
    name,
    packedSize: entry.compressedSize,
    fault: yauzl.validateFileName(name),
  }));
}

export interface Member {
  /** Its unpacked bytes. */
  readonly stream: Readable;
  /** CRC-32 of them, which the library does not check. */
  readonly checksum: number;
}

/** Bytes of a member, packed and unpacked, that is read at once. */
const SMALL = 1 << 16;
const SMALL_UNPACKED = 1 << 20;
/** How a member may be packed (PKWARE's APPNOTE 6.3.10, 4.4.5), and the flag of encryption (4.4.4). */
const STORED = 0;
const DEFLATED = 8;
const ENCRYPTED = 1;
/** Length of a local header, and where the lengths of the name and of the extra field stand in it (4.3.7). */
const LOCAL_HEADER = 30;
const NAME_LENGTH = 26;
const EXTRA_LENGTH = 28;

interface OpenZip {
  readonly path: string;
  readonly zip: ZipFile;
  readonly members: Members;
  /** For members that are read at once. */
  readonly file: number;
}

/** An open zip, for its members one after another. */
export class ZipReader {
  private open: OpenZip | undefined;

  private async opened(path: string): Promise<OpenZip> {
    if (this.open?.path === path) return this.open;
    this.close();
    const { zip, members } = await openZip(path);
    return (this.open = { path, zip, members, file: openSync(path, "r") });
  }

  /** A small member's bytes; undefined where it must be streamed, also because something is wrong with it. */
  async small(path: string, name: string): Promise<Uint8Array<ArrayBuffer> | undefined> {
    const { members, file } = await this.opened(path);
    const entry = members.get(name)?.entry;
    if (!entry || entry.compressedSize > SMALL || (entry.generalPurposeBitFlag & ENCRYPTED) !== 0)
      return undefined;
    const header = new Uint8Array(LOCAL_HEADER);
    readSync(file, header, 0, LOCAL_HEADER, entry.relativeOffsetOfLocalHeader);
    const fields = new DataView(header.buffer);
    const start =
      entry.relativeOffsetOfLocalHeader +
      LOCAL_HEADER +
      fields.getUint16(NAME_LENGTH, true) +
      fields.getUint16(EXTRA_LENGTH, true);
    const packed = new Uint8Array(entry.compressedSize);
    if (readSync(file, packed, 0, packed.length, start) < packed.length) return undefined;
    const bytes = unpacked(packed, entry.compressionMethod);
    return bytes && crc32(bytes) === entry.crc32 ? bytes : undefined;
  }

  close(): void {
    if (!this.open) return;
    this.open.zip.close();
    closeSync(this.open.file);
    this.open = undefined;
  }

  /** Opens a member; the zip stays open for the next one. Throws where there is none of that name. */
  async member(path: string, name: string): Promise<Member> {
    const { zip, members } = await this.opened(path);
    const entry = members.get(name)?.entry;
    if (!entry) throw new Error(`it has no ${name}`);
    return new Promise((resolve, reject) => {
      zip.openReadStream(entry, (wrong, stream) =>
        wrong ? reject(wrong) : resolve({ stream, checksum: entry.crc32 }),
      );
    });
  }
}

/** Bytes as they were before they were packed, in a buffer of their own; undefined where that cannot be done at once. */
function unpacked(packed: Uint8Array<ArrayBuffer>, method: number): Uint8Array<ArrayBuffer> | undefined {
  if (method === STORED) return packed;
  if (method !== DEFLATED) return undefined;
  try {
    return new Uint8Array(inflateRawSync(packed, { maxOutputLength: SMALL_UNPACKED }));
  } catch {
    return undefined;
  }
}

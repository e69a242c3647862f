// The members of a zip: which there are, and their bytes.

import type { Readable } from "node:stream";

import type { Entry, ZipFile } from "yauzl";

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
async function openZip(path: string): Promise<{ zip: ZipFile; members: Map<string, Entry> }> {
  const { default: yauzl } = await import("yauzl");
  const options = { lazyEntries: false, autoClose: false, decodeStrings: false, validateEntrySizes: false };
  const zip = await new Promise<ZipFile>((resolve, reject) => {
    yauzl.open(path, options, (fault, opened) => (fault ? reject(fault) : resolve(opened)));
  });
  const members = new Map<string, Entry>();
  await new Promise<void>((resolve, reject) => {
    zip.on("entry", (entry: Entry) => {
      const { generalPurposeBitFlag: flags, fileNameRaw, extraFields } = entry;
      const name = yauzl.getFileNameLowLevel(flags, fileNameRaw, extraFields, false);
      members.set(uniqueName(name, members), entry);
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
  return [...members].map(([key, entry]) => {
    const { generalPurposeBitFlag: flags, fileNameRaw, extraFields } = entry;
    const name = yauzl.getFileNameLowLevel(flags, fileNameRaw, extraFields, false);
    return { key, name, packedSize: entry.compressedSize, fault: yauzl.validateFileName(name) };
  });
}

export interface Member {
  /** Its unpacked bytes. */
  readonly stream: Readable;
  /** CRC-32 of them, which the library does not check. */
  readonly checksum: number;
}

/** An open zip, for its members one after another. */
export class ZipReader {
  private open:
    { readonly path: string; readonly zip: ZipFile; readonly members: Map<string, Entry> } | undefined;

  /** Opens a member; the zip stays open for the next one. Throws where there is none of that name. */
  async member(path: string, name: string): Promise<Member> {
    if (this.open?.path !== path) {
      this.open?.zip.close();
      this.open = undefined;
      this.open = { path, ...(await openZip(path)) };
    }
    const { zip, members } = this.open;
    const entry = members.get(name);
    if (!entry) throw new Error(`it has no ${name}`);
    return new Promise((resolve, reject) => {
      zip.openReadStream(entry, (wrong, stream) =>
        wrong ? reject(wrong) : resolve({ stream, checksum: entry.crc32 }),
      );
    });
  }
}

// The members of a zip: which there are, and their bytes.

import type { Readable } from "node:stream";

import type { Entry, ZipFile } from "yauzl";

/** Opens a zip; its members come as "entry" events. The library is loaded when the first one is met. */
async function openZip(path: string, lazyEntries: boolean): Promise<ZipFile> {
  const { default: yauzl } = await import("yauzl");
  return new Promise((resolve, reject) => {
    yauzl.open(path, { lazyEntries }, (fault, zip) => (fault ? reject(fault) : resolve(zip)));
  });
}

/** The members of a zip, in its order: names and packed sizes. Throws where it is damaged. */
export async function zipMembers(path: string): Promise<Entry[]> {
  const zip = await openZip(path, false);
  return new Promise((resolve, reject) => {
    const members: Entry[] = [];
    zip.on("entry", (entry: Entry) => members.push(entry));
    zip.on("end", () => resolve(members));
    zip.on("error", reject);
  });
}

export interface Member {
  /** Its unpacked bytes. */
  readonly stream: Readable;
  /** CRC-32 of them, which the library does not check. */
  readonly checksum: number;
}

/** Opens a member. Throws where there is none of that name. */
export async function openMember(path: string, name: string): Promise<Member> {
  const zip = await openZip(path, true);
  return new Promise((resolve, reject) => {
    zip.on("error", reject);
    zip.on("end", () => reject(new Error(`it has no ${name}`)));
    zip.on("entry", (entry: Entry) => {
      if (entry.fileName !== name) return zip.readEntry();
      zip.openReadStream(entry, (wrong, stream) =>
        wrong ? reject(wrong) : resolve({ stream, checksum: entry.crc32 }),
      );
    });
    zip.readEntry();
  });
}

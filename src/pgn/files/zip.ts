// The members of a zip: which there are, and their bytes.

import type { Readable } from "node:stream";

import type { Entry, ZipFile } from "yauzl";

/** Opens a zip and reads its list of members. The library is loaded when the first zip is met. */
async function openZip(path: string): Promise<{ zip: ZipFile; members: Map<string, Entry> }> {
  const { default: yauzl } = await import("yauzl");
  const zip = await new Promise<ZipFile>((resolve, reject) => {
    yauzl.open(path, { lazyEntries: false, autoClose: false }, (fault, opened) =>
      fault ? reject(fault) : resolve(opened),
    );
  });
  const members = new Map<string, Entry>();
  await new Promise<void>((resolve, reject) => {
    zip.on("entry", (entry: Entry) => members.set(entry.fileName, entry));
    zip.on("end", () => resolve());
    zip.on("error", reject);
  });
  return { zip, members };
}

/** The members of a zip, in its order: names and packed sizes. Throws where it is damaged. */
export async function zipMembers(path: string): Promise<Entry[]> {
  const { zip, members } = await openZip(path);
  zip.close();
  return [...members.values()];
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

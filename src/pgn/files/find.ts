// Reading the files of PGN that a user names: which there are, and their bytes in blocks.

import { closeSync, openSync, readSync, realpathSync, statSync } from "node:fs";
import { readdir, stat } from "node:fs/promises";
import { join, resolve, sep } from "node:path";
import { MessageChannel } from "node:worker_threads";

import { type Crossing, LongsideError, causeOf, landed, notReadable } from "../../errors.js";
import { type Threads, startThreads } from "../../threads.js";
import { HEAD_BYTES, type Packing, foreignKind, packingOf, wideEncoding } from "./packing.js";
import { STANDARD_INPUT, type UnpackTask, type UnpackedBlock } from "./unpack.js";
import { ZipReader, zipMembers } from "./zip.js";

export interface FoundFile {
  /** Absolute; of a member of a zip, with its name behind that of the zip. */
  readonly path: string;
  /** Relative to the folder it was found in; as given for a file named outright. */
  readonly name: string;
  /** Bytes on the disk; 0 where that cannot be known. */
  readonly size: number;
  readonly modified: number;
  readonly packing: Packing;
  /** Name in the zip at `container`. */
  readonly member?: string;
  readonly container?: string;
}

/** Whether a file can be read range by range (see `BlockReader`), by several threads at once. */
export const isPlain = ({ packing, path }: FoundFile): boolean =>
  packing === "plain" && path !== STANDARD_INPUT;

/** Reads files that are packed, or cannot be read range by range, one after another, by a thread that unpacks them. */
export class FileReader {
  private pool: Threads<UnpackTask, Crossing<void>> | undefined;
  private readonly zips = new ZipReader();

  /** `largeWindows`: takes files whose unpacking needs up to 2 GB. */
  constructor(private readonly largeWindows = false) {}

  /**
   * The blocks of a file in order. Throws `not-readable`,
   * `packed-input`, `large-window` or `damaged-input`, the last two after all that could be read before the damage.
   */
  async *blocks(file: FoundFile): AsyncGenerator<UnpackedBlock, void> {
    const { path, container, member, size } = file;
    // a thread for each of thousands of small members would be waited for most of the time
    const small =
      container !== undefined && (await this.zips.small(container, member!).catch(() => undefined));
    if (small && !wideEncoding(small)) {
      yield { bytes: small, offset: 0, continues: false, breaksOff: false, consumed: size };
      return;
    }
    this.pool ??= startThreads("unpack");
    const { port1, port2 } = new MessageChannel();
    const waiting = new Int32Array(new SharedArrayBuffer(4));
    const sent: (UnpackedBlock | null)[] = [];
    let wake = () => {};
    port1.on("message", (block: UnpackedBlock | null) => {
      sent.push(block);
      wake();
    });
    const { largeWindows } = this;
    const task = { path: container ?? path, member, largeWindows, port: port2, waiting: waiting.buffer };
    const finished = this.pool.run(task, { transferList: [port2] });
    // a thread that dies says no more
    finished.catch(() => {
      sent.push(null);
      wake();
    });
    try {
      for (;;) {
        if (sent.length === 0) await new Promise<void>((resolve) => (wake = resolve));
        const block = sent.shift();
        if (block === null) return landed(await finished);
        if (!block) continue;
        Atomics.sub(waiting, 0, 1);
        Atomics.notify(waiting, 0);
        yield block;
      }
    } finally {
      port1.close();
    }
  }

  async close(): Promise<void> {
    this.zips.close();
    await this.pool?.destroy();
  }
}

export interface FoundFiles {
  readonly files: readonly FoundFile[];
  /** Folders and files below the paths given that could not be looked at. */
  readonly unreadable: readonly LongsideError[];
  /** The paths given, absolute. */
  readonly paths: readonly string[];
}

/** Whether a name says PGN, or a zip that may hold some. */
export const isGames = (name: string) => /\.pgn(?:\.(?:gz|zst|bz2))?$|\.zip$/i.test(name);
const isPgn = (name: string) => /\.pgn$/i.test(name);

/** The first bytes of a file. (A quick look at each of many files is quicker without promises.) */
function headOf(path: string): Uint8Array {
  const head = new Uint8Array(HEAD_BYTES);
  const file = openSync(path, "r");
  try {
    return head.subarray(0, readSync(file, head, 0, HEAD_BYTES, 0));
  } finally {
    closeSync(file);
  }
}

/** Whether a path is a folder or below it. */
export const isBelow = (path: string, folder: string): boolean =>
  path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);

class FileFinder {
  readonly files = new Map<string, FoundFile>();
  readonly unreadable: LongsideError[] = [];

  constructor(private readonly within: readonly string[] | undefined) {}

  /** Names below a folder that say PGN, in a fixed order. */
  private async namesBelow(folder: string, below: string): Promise<string[]> {
    const path = join(folder, below);
    const entries = await readdir(path, { withFileTypes: true }).catch((thrown: unknown) => {
      this.unreadable.push(notReadable(path, thrown));
      return [];
    });
    const names: string[] = [];
    for (const entry of entries) {
      const name = join(below, entry.name);
      if (entry.isDirectory()) names.push(...(await this.namesBelow(folder, name)));
      else if (isGames(name)) names.push(name);
    }
    return names.sort();
  }

  /** All games of a folder; false if there are none. */
  async folder(folder: string): Promise<boolean> {
    const names = await this.namesBelow(folder, "");
    for (const name of names) await this.file(join(folder, name), name);
    return names.length > 0;
  }

  async file(path: string, name: string): Promise<void> {
    try {
      const info = statSync(path);
      // a pipe would keep one waiting for ever
      if (!info.isFile()) throw notReadable(path, "it is no file");
      const { size, mtimeMs } = info;
      const { within } = this;
      if (within) {
        const real = realpathSync(path);
        if (!within.some((folder) => isBelow(real, folder)))
          throw notReadable(path, "it is a link to outside the folders that may be read");
      }
      const head = headOf(path);
      const kind = foreignKind(head);
      if (kind) throw new LongsideError("packed-input", { path, kind }, { file: path, byte: 0 });
      const modified = Math.floor(mtimeMs);
      const packing = packingOf(head);
      if (packing === "zip") await this.zip(resolve(path), name, modified);
      else this.add({ path: resolve(path), name, size, modified, packing });
    } catch (thrown) {
      this.unreadable.push(thrown instanceof LongsideError ? thrown : notReadable(path, thrown));
    }
  }

  private add(file: FoundFile): void {
    this.files.set(file.path, file);
  }

  private async zip(container: string, name: string, modified: number): Promise<void> {
    const members = await zipMembers(container).catch((thrown: unknown) => {
      throw new LongsideError(
        "damaged-input",
        { path: container, cause: causeOf(thrown) },
        { file: container },
      );
    });
    const games = members.filter(({ name: one }) => isPgn(one));
    if (games.length === 0)
      throw new LongsideError("no-games-found", { path: container }, { file: container });
    for (const { key, packedSize, fault } of games.sort((a, b) => (a.key < b.key ? -1 : 1))) {
      if (fault !== null) {
        this.unreadable.push(notReadable(`${container}${sep}${key}`, fault));
        continue;
      }
      this.add({
        path: join(container, key),
        name: join(name, key),
        size: packedSize,
        modified,
        packing: "zip",
        container,
        member: key,
      });
    }
  }
}

/**
 * The files of games among `paths`, in a fixed order: files as named, folders searched through (names ending in
 * .pgn, packed or not, and zips with such names inside), `-` for standard input. Links to outside the folders `within`
 * (real paths) are not followed, where these are given. Throws `no-such-path` or `no-games-found`.
 */
export async function findFiles(paths: readonly string[], within?: readonly string[]): Promise<FoundFiles> {
  const finder = new FileFinder(within);
  for (const path of paths) {
    if (path === STANDARD_INPUT) {
      const name = "standard input";
      finder.files.set(path, { path, name, size: 0, modified: Date.now(), packing: "plain" });
      continue;
    }
    const info = await stat(path).catch(() => {
      throw new LongsideError("no-such-path", { path });
    });
    if (!info.isDirectory()) await finder.file(path, path);
    else if (!(await finder.folder(path)) && finder.unreadable.length === 0)
      throw new LongsideError("no-games-found", { path });
  }
  const { files, unreadable } = finder;
  return { files: [...files.values()], unreadable, paths: paths.map((path) => resolve(path)) };
}

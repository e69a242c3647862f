// An index run: files in, rows out. Blocks of the files go through the pool of workers; what comes back is
// stored in file order whatever the timing, so that a run always writes the same database.

import { type Stats, statSync } from "node:fs";
import { dirname, sep } from "node:path";

import type { Material } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import type { ReadGames } from "../endings/game-reader.js";
import { type Crossing, LongsideError, landed, notReadable } from "../errors.js";
import { wholeDigest } from "../pgn/files/digest.js";
import { RANGE_BYTES, rangesOf } from "../pgn/files/block-reader.js";
import { FileReader, type FoundFile, type FoundFiles, isPlain } from "../pgn/files/find.js";
import { STANDARD_INPUT } from "../pgn/files/unpack.js";
import { type Threads, startThreads } from "../threads.js";
import type { Connection } from "../store/connection.js";
import { OrderedQueue } from "./ordered-queue.js";
import { Readers } from "./reading-threads.js";
import type { ScanTask, ScanWay, Scanned } from "./scanning-thread.js";
import { IndexWriter, type SourceRow, type BlockRecord } from "../store/writer.js";

export interface IndexOptions {
  readonly target: Material;
  /** Folder of the tables, which must have been built. */
  readonly folder: string;
  readonly threads: number;
  readonly noReject?: boolean;
  /** Bytes read so far, and of how many. */
  readonly onProgress?: (done: number, total: number, file: string) => void;
  /** Take out the games of files that are no longer there. */
  readonly dropMissing?: boolean;
  /** Stops the run; what has not been stored is read again by the next one. */
  readonly signal?: AbortSignal;
}

export interface IndexSummary {
  readonly files: number;
  /** Files read to their end in this run. */
  readonly read: number;
  /** Files that had been indexed before and were left alone. */
  readonly unchanged: number;
  readonly bytes: number;
  readonly games: number;
  readonly replayed: number;
  /** Files and folders that could not be read. */
  readonly unreadable: readonly LongsideError[];
  /** Names of files that were read and hold no game. */
  readonly empty: readonly string[];
  /** Names of files indexed before that are no longer below the paths given. */
  readonly vanished: readonly string[];
  readonly stopped: boolean;
}

/**
 * Blocks to be scanned in hand for each thread, and bytes that they, or what is left of them, may have: enough to
 * keep everybody busy, few enough to keep memory flat.
 */
const AHEAD = 8;
const BYTES_AHEAD = 8 << 20;
/** Bytes of input that are sure to hold games to be read. */
const LARGE = 16 << 20;
/** Room for short-lived objects in a scanning thread: what it makes is sent away at once. */
const YOUNG_MB = 6;

/** What was found in a block. */
interface Found extends Scanned {
  /** Undefined where all had been found before. */
  readonly record: BlockRecord | undefined;
  /** Bytes kept for it in the flow. */
  readonly kept: number;
}

/** A part of a file to be scanned, and how many bytes of a packed one have been read for it. */
interface Part {
  readonly task: ScanTask;
  readonly passed?: number;
}

/** A file while it is read. */
interface Reading {
  readonly file: FoundFile;
  readonly source: SourceRow;
  /** Where the blocks stored so far end. */
  reached: ByteOffset;
  /** Of its parts, as far as these have been stored. */
  readonly digests: Uint8Array[];
  /** It could not be read on; what is still in hand of it is left aside. */
  failed: boolean;
}

/** Whether a file, or the zip that a member stands in, is still in its place. */
function isThere(path: string): boolean {
  for (let place = path; ; place = dirname(place)) {
    let info: Stats | undefined;
    try {
      info = statSync(place);
    } catch {
      // not there, or below a file: look at what it would stand in
    }
    if (info) return place === path || info.isFile();
    if (dirname(place) === place) return false;
  }
}

/** Whether something is wrong with a file, and with nothing else. */
const isOfFile = (thrown: unknown): thrown is LongsideError =>
  thrown instanceof LongsideError && thrown.where.file !== undefined;

const NOTHING_READ: ReadGames = { replayed: 0, found: [], skipped: [] };

class Run {
  private readonly writer: IndexWriter;
  private pool: Threads<ScanTask, Crossing<Scanned>> | undefined;
  private readonly readers: Readers;
  private readonly reader = new FileReader();
  private total = 0;
  private done = 0;
  private readonly summary = { files: 0, read: 0, unchanged: 0, bytes: 0, games: 0, replayed: 0 };
  private readonly unreadable: LongsideError[] = [];
  private readonly empty: string[] = [];
  private readonly vanished: string[] = [];
  /** Blocks of several files may be in hand at once. */
  private readonly flow: OrderedQueue;
  /** Bytes of the files read so far, and of the one at hand. */
  private given = 0;
  /** Every block of every file has been given to a thread to be scanned. */
  private allGiven = false;

  constructor(
    db: Connection,
    path: string,
    private readonly options: IndexOptions,
  ) {
    const { threads, folder, signal } = options;
    // while games wait to be read, one thread fewer scans
    const tasks = () => (this.readers.areBehind ? Math.max(1, threads - 1) : AHEAD * threads);
    this.flow = new OrderedQueue(tasks, BYTES_AHEAD * threads, signal);
    this.readers = new Readers(options.target, folder, threads, this.fail);
    this.writer = new IndexWriter(db, path);
  }

  /** What goes wrong in a thread, whether or not it has been given something. */
  private readonly fail = (thrown: unknown): void => this.flow.fail(thrown);

  /** The scanning threads, begun when there is something to scan. */
  private scanners(): Threads<ScanTask, Crossing<Scanned>> {
    if (!this.pool) {
      const { threads, target } = this.options;
      this.pool = startThreads("scan", { most: threads, data: target.name, youngMB: YOUNG_MB });
      this.pool.on("error", this.fail);
    }
    return this.pool;
  }

  async run({ files, unreadable, paths }: FoundFiles): Promise<IndexSummary> {
    this.unreadable.push(...unreadable);
    this.total = files.reduce((sum, file) => sum + file.size, 0);
    try {
      for (const file of files) {
        if (this.flow.isOver) break;
        ++this.summary.files;
        try {
          await this.file(file);
        } catch (thrown) {
          this.leaveOut(thrown);
        }
      }
      this.allGiven = true;
      this.readers.help();
      await this.flow.finished();
      if (!this.flow.isOver) this.lookForVanished(files, paths);
    } catch (thrown) {
      // nothing of what is in hand is stored any more
      this.flow.fail(thrown);
      throw thrown;
    } finally {
      await this.reader.close();
      await this.pool?.destroy();
      await this.readers.close();
      this.writer.release();
    }
    const { unreadable: failed, empty, vanished, summary } = this;
    return {
      ...summary,
      unreadable: failed,
      empty,
      vanished,
      stopped: this.options.signal?.aborted ?? false,
    };
  }

  /**
   * Standard input has no place at which it could be known again, so that it is a file of its own each time; what had
   * been read before under that name is found to be the same at the end, by its bytes.
   */
  private async standardInput(file: FoundFile): Promise<void> {
    const before = this.writer.sources().filter((source) => source.path.startsWith(STANDARD_INPUT));
    for (const source of before) if (!source.complete) this.writer.drop(source);
    const taken = new Set(before.filter((source) => source.complete).map((source) => source.path));
    const place = (n: number) => ({
      path: n === 1 ? file.path : `${file.path} ${n}`,
      name: n === 1 ? file.name : `${file.name} ${n}`,
    });
    let n = 1;
    while (taken.has(place(n).path)) ++n;
    await this.read(file, this.writer.begin({ ...file, ...place(n) }, false));
  }

  private async file(file: FoundFile): Promise<void> {
    if (file.path === STANDARD_INPUT) return this.standardInput(file);
    const before = this.writer.source(file.path);
    const sameSize = before !== undefined && before.size === file.size;
    if (sameSize && before.complete && before.modified === file.modified) return this.leave(file);
    const isSame = sameSize && before.complete && (await this.digestOf(file)) === before.hash;
    if (this.flow.isOver) return;
    if (isSame) {
      this.writer.touch(before, file);
      return this.leave(file);
    }
    const moved = before === undefined && (await this.movedFrom(file));
    if (this.flow.isOver) return;
    if (moved) {
      this.writer.rename(moved, file);
      return this.leave(file);
    }
    const resume = sameSize && !before.complete && before.modified === file.modified;
    await this.read(file, this.writer.begin(file, resume));
  }

  /** The file indexed before, now gone from its place, whose bytes these are. */
  private async movedFrom(file: FoundFile): Promise<SourceRow | undefined> {
    if (file.size === 0) return undefined;
    const gone = this.writer.sourcesOfSize(file.size).filter((source) => !isThere(source.path));
    if (gone.length === 0) return undefined;
    const digest = await this.digestOf(file);
    return gone.find((source) => source.hash === digest);
  }

  private lookForVanished(files: readonly FoundFile[], paths: readonly string[]): void {
    const found = new Set(files.map((file) => file.path));
    for (const source of this.writer.sources()) {
      const below = paths.some((path) => source.path === path || source.path.startsWith(`${path}${sep}`));
      if (!below || found.has(source.path) || isThere(source.path)) continue;
      this.vanished.push(source.name);
      if (this.options.dropMissing) this.writer.drop(source);
    }
  }

  private leave(file: FoundFile): void {
    ++this.summary.unchanged;
    this.progress(file.size, file);
  }

  private progress(bytes: number, file: FoundFile): void {
    this.done += bytes;
    this.options.onProgress?.(this.done, this.total, file.name);
  }

  /** Notes that a file cannot be read; throws what is no fault of a file. */
  private leaveOut(thrown: unknown): void {
    if (!isOfFile(thrown)) throw thrown;
    this.unreadable.push(thrown);
  }

  /** Stores what was found, when all before it has been stored. */
  private storeLater(reading: Reading, { task, passed }: Part): void {
    const { file, source } = reading;
    const result = this.find(task);
    this.flow.inOrder(async () => {
      try {
        const found = await result;
        this.flow.giveBack(0, found.kept);
        if (reading.failed || this.flow.isOver) return;
        if (found.end - found.length !== reading.reached)
          throw notReadable(file.path, "it has changed while it was read", reading.reached);
        reading.reached = found.end;
        this.store(source, found);
        reading.digests.push(found.digest);
        this.progress(passed ?? found.length, file);
      } catch (thrown) {
        if (!reading.failed || !isOfFile(thrown)) this.leaveOut(thrown);
        reading.failed = true;
      }
    });
  }

  private finishLater(reading: Reading): void {
    const { file, source, digests } = reading;
    this.flow.inOrder(() => {
      if (!reading.failed) this.finish(file, source, wholeDigest(digests));
    });
  }

  private store(source: SourceRow, { record, end, length }: Found): void {
    if (!record) return;
    this.writer.add(source, record, end);
    this.summary.games += record.games;
    this.summary.replayed += record.replayed;
    this.summary.bytes += length;
  }

  /** What a block holds. There should be room for it in the flow. */
  private find(task: ScanTask): Promise<Found> {
    const result = this.scanAndRead(task);
    result.catch(() => {}); // reported when its turn comes
    return result;
  }

  private async scanAndRead(task: ScanTask): Promise<Found> {
    const [bytes, given] =
      "bytes" in task ? [task.bytes.length, { transferList: [task.bytes.buffer] }] : [RANGE_BYTES, {}];
    this.flow.take(1, bytes);
    let scanned: Scanned;
    try {
      scanned = landed(await this.scanners().run(task, given));
    } finally {
      this.flow.giveBack(1, bytes);
    }
    if (!scanned.found) return { ...scanned, record: undefined, kept: 0 };
    const { games, numbers, candidates } = scanned.found;
    const kept = candidates.bytes.length;
    if (kept === 0) return { ...scanned, record: { games, numbers, ...NOTHING_READ }, kept };
    this.flow.take(0, kept);
    try {
      const read = await this.readers.read(candidates);
      // who scans has nothing to do then
      if (this.allGiven || this.flow.isFull) this.readers.help();
      return { ...scanned, record: { games, numbers, ...read }, kept };
    } catch (thrown) {
      this.flow.giveBack(0, kept);
      throw thrown;
    }
  }

  private async read(file: FoundFile, source: SourceRow): Promise<void> {
    this.given += file.size;
    if (this.given > LARGE) this.readers.prepare();
    const reading: Reading = { file, source, reached: 0, digests: [], failed: false };
    for await (const part of this.parts(file, source.done)) {
      if (reading.failed) break;
      this.storeLater(reading, part);
    }
    this.finishLater(reading);
  }

  /**
   * The parts of a file in order, each when there is room for it; none any more when the run is over. Games that end at
   * `done` or before are not scanned again.
   */
  private async *parts(file: FoundFile, done: ByteOffset): AsyncGenerator<Part> {
    const way: ScanWay = { done, noReject: this.options.noReject ?? false };
    if (isPlain(file)) {
      const { path, size } = file;
      for (let range = 0; range < rangesOf(size); ++range) {
        await this.flow.room();
        if (this.flow.isOver) return;
        yield { task: { path, size, range, ...way } };
      }
      return;
    }
    let shown = 0;
    for await (const { bytes, offset, consumed } of this.reader.blocks(file)) {
      await this.flow.room();
      if (this.flow.isOver) return;
      yield { task: { bytes, offset, ...way }, passed: consumed - shown };
      shown = consumed;
    }
  }

  private finish(file: FoundFile, source: SourceRow, digest: string): void {
    ++this.summary.read;
    if (file.path === STANDARD_INPUT) {
      const same = this.writer
        .sources()
        .some(({ id, path, hash }) => id !== source.id && path.startsWith(STANDARD_INPUT) && hash === digest);
      if (same) return this.writer.drop(source);
    }
    if (this.writer.finish(source, digest).games === 0) this.empty.push(file.name);
  }

  /** The digest of a file, its parts worked out by the scanning threads; of no use if the run is over before. */
  private async digestOf(file: FoundFile): Promise<string> {
    const found: Promise<Found>[] = [];
    for await (const { task } of this.parts(file, Infinity)) found.push(this.find(task));
    return wholeDigest((await Promise.all(found)).map(({ digest }) => digest));
  }
}

/**
 * Indexes PGN files (see `findFiles`) into the database at `path`, open for writing. A file that was indexed
 * before is left alone if it has not changed, read on from where a killed run stopped, or read anew if it has.
 */
export const indexGames = (
  db: Connection,
  path: string,
  found: FoundFiles,
  options: IndexOptions,
): Promise<IndexSummary> => new Run(db, path, options).run(found);

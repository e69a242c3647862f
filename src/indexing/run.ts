// An index run: files in, rows out. What the blocks of the files hold is stored in file order whatever the timing, so
// that a run always writes the same database.

import type { ByteOffset } from "../chess/units.js";
import { LongsideError, notReadable } from "../errors.js";
import { rangesOf } from "../pgn/files/block-reader.js";
import { combinedDigest } from "../pgn/files/digest.js";
import { type FoundFile, type FoundFiles, isPlain } from "../pgn/files/find.js";
import { STANDARD_INPUT } from "../pgn/files/unpack.js";
import type { Connection } from "../store/connection.js";
import { IndexWriter } from "../store/writer.js";
import { type FilePart, type SourceRow, WHOLE } from "../store/sources.js";
import { BlockPipeline, type FoundBlock, type PendingScan, type PipelineOptions } from "./block-pipeline.js";
import { GoneFiles, vanishedFrom } from "./known-files.js";

export interface IndexOptions extends PipelineOptions {
  /** Bytes read so far, and of how many. */
  readonly onProgress?: (done: number, total: number, file: string) => void;
  /** Take out the games of files that are no longer there. */
  readonly dropMissing?: boolean;
  /** Look at the contents of files that have the size and time they had. */
  readonly recheck?: boolean;
  /** Read one part of all that was found: of large plain files some ranges, of the others every so manieth. */
  readonly part?: FilePart;
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

/** A file while it is read. */
interface OpenFile {
  readonly file: FoundFile;
  readonly source: SourceRow;
  readonly part: FilePart;
  /** Where the blocks stored so far end; undefined before the first of a part. */
  reached: ByteOffset | undefined;
  /** Of its blocks or ranges, as far as these have been stored. */
  readonly digests: Uint8Array[];
  /** It could not be read on; what is still in hand of it is left aside. */
  failed: boolean;
}

/** What a run reads when it reads one part of all: parts of those plain files that have a range for each, else whole files. */
function partsToRead(files: readonly FoundFile[], part: FilePart): { file: FoundFile; part: FilePart }[] {
  return files.flatMap((file, n) => {
    if (isPlain(file) && rangesOf(file.size) >= part.of) return [{ file, part }];
    return n % part.of === part.part - 1 ? [{ file, part: WHOLE }] : [];
  });
}

/** Whether something is wrong with a file, and with nothing else. */
const isOfFile = (thrown: unknown): thrown is LongsideError =>
  thrown instanceof LongsideError && thrown.where.file !== undefined;

class Run {
  private readonly writer: IndexWriter;
  private readonly pipeline: BlockPipeline;
  private readonly gone: GoneFiles;
  private total = 0;
  private done = 0;
  private readonly counts = { files: 0, read: 0, unchanged: 0, bytes: 0, games: 0, replayed: 0 };
  private readonly unreadable: LongsideError[] = [];
  private readonly empty: string[] = [];
  private readonly vanished: string[] = [];

  constructor(
    db: Connection,
    path: string,
    private readonly options: IndexOptions,
  ) {
    this.pipeline = new BlockPipeline(options);
    this.writer = new IndexWriter(db, path);
    this.gone = new GoneFiles(this.writer.sources());
  }

  private get isOver(): boolean {
    return this.pipeline.queue.isOver;
  }

  async run({ files, unreadable, paths }: FoundFiles): Promise<IndexSummary> {
    this.unreadable.push(...unreadable);
    const wanted = partsToRead(files, this.options.part ?? WHOLE);
    this.total = wanted.reduce((sum, { file, part }) => sum + file.size / part.of, 0);
    this.writer.expect(wanted.map(({ file }) => file.path));
    try {
      for (const { file, part } of wanted) {
        if (this.isOver) break;
        ++this.counts.files;
        try {
          await this.file(file, part);
        } catch (thrown) {
          this.leaveOut(thrown);
        }
      }
      await this.pipeline.finished();
      if (!this.isOver) {
        if (this.options.part === undefined) this.lookForVanished(files, paths);
        this.writer.allSeen(this.unreadable.length);
      }
    } catch (thrown) {
      // nothing of what is in hand is stored any more
      this.pipeline.queue.fail(thrown);
      throw thrown;
    } finally {
      await this.pipeline.close();
      this.writer.release();
    }
    const { unreadable: failed, empty, vanished, counts } = this;
    return {
      ...counts,
      unreadable: failed,
      empty,
      vanished,
      stopped: this.options.signal?.aborted ?? false,
    };
  }

  private async file(file: FoundFile, part: FilePart): Promise<void> {
    if (file.path === STANDARD_INPUT) return this.standardInput(file);
    const { writer, pipeline } = this;
    const before = writer.source(file.path, part);
    const sameSize = before !== undefined && before.size === file.size;
    const untouched = before?.modified === file.modified && !this.options.recheck;
    if (sameSize && before.complete && untouched) return this.leave(file);
    const isSame =
      sameSize && before.complete && part.of === 1 && (await pipeline.digestOf(file)) === before.hash;
    if (this.isOver) return;
    if (isSame) {
      writer.touch(before, file);
      return this.leave(file);
    }
    const moved =
      before === undefined && part.of === 1 && (await this.gone.take(file, (one) => pipeline.digestOf(one)));
    if (this.isOver) return;
    if (moved) {
      writer.rename(moved, file);
      return this.leave(file);
    }
    const resume =
      sameSize && !before.complete && before.modified === file.modified && before.file_parts === part.of;
    await this.read(file, writer.begin(file, resume, part), part);
  }

  /**
   * Standard input has no place at which it could be known again, so that it is a file of its own each time; what had
   * been read before under that name is found to be the same at the end, by its bytes.
   */
  private async standardInput(file: FoundFile): Promise<void> {
    const before = this.writer.sources().filter((source) => source.path.startsWith(STANDARD_INPUT));
    for (const source of before) if (!source.complete) this.writer.drop(source);
    const taken = new Set(before.filter((source) => source.complete).map((source) => source.path));
    const numbered = (n: number) => ({
      path: n === 1 ? file.path : `${file.path} ${n}`,
      name: n === 1 ? file.name : `${file.name} ${n}`,
    });
    let n = 1;
    while (taken.has(numbered(n).path)) ++n;
    await this.read(file, this.writer.begin({ ...file, ...numbered(n) }, false));
  }

  private async read(file: FoundFile, source: SourceRow, part = WHOLE): Promise<void> {
    this.pipeline.prepare(file);
    const reached = part.part === 1 ? 0 : undefined;
    const open: OpenFile = { file, source, part, reached, digests: [], failed: false };
    for await (const pending of this.pipeline.scansOf(file, source.done, part)) {
      if (open.failed) break;
      this.storeLater(open, pending);
    }
    this.pipeline.queue.inOrder(() => {
      if (open.failed) return;
      // every byte of a plain file is in one of its blocks
      const isLast = part.part === part.of;
      if (isPlain(file) && isLast && !this.isOver && open.reached !== file.size)
        return this.leaveOut(notReadable(file.path, "its blocks do not add up to it", open.reached));
      const digest =
        part.of === 1
          ? combinedDigest(open.digests)
          : open.digests.map((one) => Buffer.from(one).toString("hex")).join("");
      this.finish(file, source, digest);
    });
  }

  /** Stores what a block holds, when all before it has been stored. */
  private storeLater(open: OpenFile, { task, consumed }: PendingScan): void {
    const { file, source } = open;
    const { queue } = this.pipeline;
    const result = this.pipeline.find(task);
    queue.inOrder(async () => {
      try {
        const found = await result;
        queue.giveBack(0, found.held);
        if (open.failed || this.isOver) return;
        if (found.end - found.length !== (open.reached ?? found.end - found.length))
          throw notReadable(file.path, "it has changed while it was read", open.reached);
        open.reached = found.end;
        this.store(source, found);
        open.digests.push(found.digest);
        this.progress(consumed ?? found.length, file);
      } catch (thrown) {
        if (!open.failed || !isOfFile(thrown)) this.leaveOut(thrown);
        open.failed = true;
      }
    });
  }

  private store(source: SourceRow, { record, end, length }: FoundBlock): void {
    if (!record) return;
    this.writer.add(source, record, end);
    this.counts.games += record.games;
    this.counts.replayed += record.replayed;
    this.counts.bytes += length;
  }

  private finish(file: FoundFile, source: SourceRow, digest: string): void {
    ++this.counts.read;
    if (file.path === STANDARD_INPUT) {
      const same = this.writer
        .sources()
        .some(({ id, path, hash }) => id !== source.id && path.startsWith(STANDARD_INPUT) && hash === digest);
      if (same) return this.writer.drop(source);
    }
    const { games, file_parts } = this.writer.finish(source, digest);
    if (games === 0 && file_parts === 1) this.empty.push(file.name);
  }

  private lookForVanished(files: readonly FoundFile[], paths: readonly string[]): void {
    for (const source of vanishedFrom(this.writer, files, paths)) {
      this.vanished.push(source.name);
      if (this.options.dropMissing) this.writer.drop(source);
    }
  }

  private leave(file: FoundFile): void {
    ++this.counts.unchanged;
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

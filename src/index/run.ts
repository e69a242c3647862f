// An index run: files in, rows out. Stretches of the files go through the pool of workers; what comes back is
// stored in file order whatever the timing, so that a run always writes the same database.

import { type Stats, statSync } from "node:fs";
import { dirname, sep } from "node:path";

import { Piscina } from "piscina";

import type { Material } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { ScoreMemory } from "../endings/scores.js";
import { type Crossing, LongsideError, landed } from "../errors.js";
import { wholeDigest } from "../pgn/digest.js";
import { piecesOf } from "../pgn/pieces.js";
import { FileReader, type FoundFile, type FoundFiles, isPlain } from "../pgn/read.js";
import { STANDARD_INPUT } from "../pgn/unpack.js";
import { workerFile } from "../places.js";
import { Tables } from "../solver/tables.js";
import type { Connection } from "./connection.js";
import type { PieceTask, ScanTask, ScanWorkerData, Scanned } from "./scanner.js";
import { IndexWriter, type SourceRow } from "./write.js";

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
  /** Stops the run after what is in hand has been stored. */
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

/** Tasks in hand for each thread, and bytes of all: enough to keep it busy, few enough to keep memory flat. */
const AHEAD = 8;
/** Room for short-lived objects in a scanning thread: what it makes is sent away at once. */
const YOUNG_MB = 6;
const BYTES_AHEAD = 10 << 20;

/** A file while it is read. */
interface Reading {
  readonly file: FoundFile;
  readonly source: SourceRow;
  /** It could not be read on; what is still in hand of it is left aside. */
  failed: boolean;
}

/** Something to be done when all before it has been: store a stretch, or close a file. */
interface Step {
  readonly of: Reading;
  readonly bytes?: number;
  readonly result?: Promise<Crossing<Scanned>>;
  readonly then: (result: Scanned | undefined) => void;
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

class Run {
  private readonly writer: IndexWriter;
  private readonly pool: Piscina<ScanTask, Crossing<Scanned>>;
  private readonly reader = new FileReader();
  private total = 0;
  private done = 0;
  private readonly summary = { files: 0, read: 0, unchanged: 0, bytes: 0, games: 0, replayed: 0 };
  private readonly unreadable: LongsideError[] = [];
  private readonly empty: string[] = [];
  private readonly vanished: string[] = [];
  /** Steps in file order; stretches of several files may be in hand at once. */
  private readonly queue: Step[] = [];
  private queued = 0;

  constructor(
    db: Connection,
    path: string,
    private readonly options: IndexOptions,
  ) {
    const tables = new Tables(options.target, options.folder);
    const workerData: ScanWorkerData = {
      target: options.target.name,
      folder: options.folder,
      shared: tables.share(),
      memory: new ScoreMemory().shared,
    };
    tables.close();
    this.writer = new IndexWriter(db, path);
    this.pool = new Piscina({
      filename: workerFile("scan"),
      maxThreads: options.threads,
      minThreads: options.threads,
      resourceLimits: { maxYoungGenerationSizeMb: YOUNG_MB },
      workerData,
    });
  }

  async run({ files, unreadable, paths }: FoundFiles): Promise<IndexSummary> {
    this.unreadable.push(...unreadable);
    this.total = files.reduce((sum, file) => sum + file.size, 0);
    try {
      for (const file of files) {
        if (this.options.signal?.aborted) break;
        ++this.summary.files;
        try {
          await this.file(file);
        } catch (thrown) {
          this.leaveOut(thrown);
        }
      }
      while (this.queue.length > 0) await this.takeStep();
      if (!this.options.signal?.aborted) this.lookForVanished(files, paths);
    } finally {
      await this.reader.close();
      await this.pool.destroy();
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
    if (sameSize && before.complete && (await this.digestOf(file)) === before.hash) {
      this.writer.touch(before, file);
      return this.leave(file);
    }
    const moved = before === undefined && (await this.movedFrom(file));
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
    if (!(thrown instanceof LongsideError) || thrown.where.file === undefined) throw thrown;
    this.unreadable.push(thrown);
  }

  private async takeStep(): Promise<void> {
    const { of, result, then, bytes = 0 } = this.queue.shift()!;
    this.queued -= bytes;
    if (of.failed) return;
    try {
      then(result && landed(await result));
    } catch (thrown) {
      of.failed = true;
      this.leaveOut(thrown);
    }
  }

  private async addStep(step: Step): Promise<void> {
    this.queue.push(step);
    this.queued += step.bytes ?? 0;
    while (this.queue.length > AHEAD * this.options.threads || this.queued > BYTES_AHEAD)
      await this.takeStep();
  }

  private store(source: SourceRow, { found, end, length }: Scanned): void {
    if (!found) return;
    this.writer.add(source, found, end);
    this.summary.games += found.games;
    this.summary.replayed += found.replayed;
    this.summary.bytes += length;
  }

  private scan(task: ScanTask): Promise<Crossing<Scanned>> {
    const result = this.pool.run(task, "bytes" in task ? { transferList: [task.bytes.buffer] } : {});
    result.catch(() => {}); // reported when its turn comes
    return result;
  }

  private read(file: FoundFile, source: SourceRow): Promise<void> {
    const reading = { file, source, failed: false };
    return isPlain(file) ? this.readPieces(reading) : this.readStretches(reading);
  }

  private pieceTask({ path, size }: FoundFile, piece: number, done: ByteOffset): PieceTask {
    return { path, size, piece, done, noReject: this.options.noReject ?? false };
  }

  private async readPieces(reading: Reading): Promise<void> {
    const { file, source } = reading;
    const digests: Uint8Array[] = [];
    let end = 0;
    for (let piece = 0; piece < piecesOf(file.size) && !reading.failed; ++piece) {
      if (this.options.signal?.aborted) return;
      const result = this.scan(this.pieceTask(file, piece, source.done));
      const then = (scanned: Scanned | undefined) => {
        this.store(source, scanned!);
        digests.push(scanned!.digest!);
        this.progress(scanned!.end - end, file);
        end = scanned!.end;
      };
      await this.addStep({ of: reading, result, then });
    }
    await this.addStep({ of: reading, then: () => this.finish(file, source, wholeDigest(digests)) });
  }

  private async readStretches(reading: Reading): Promise<void> {
    const { file, source } = reading;
    const { signal, noReject = false } = this.options;
    const stretches = this.reader.stretches(file);
    let shown = 0;
    for (;;) {
      const next = await stretches.next();
      if (signal?.aborted) {
        await stretches.return("");
        return;
      }
      if (next.done) return this.addStep({ of: reading, then: () => this.finish(file, source, next.value) });
      const { bytes, offset, consumed } = next.value;
      const length = bytes.length;
      const end = offset + length;
      const progress = consumed - shown;
      shown = consumed;
      if (end <= source.done) {
        this.progress(progress, file);
        continue;
      }
      const result = this.scan({ bytes, offset, noReject });
      const then = (scanned: Scanned | undefined) => {
        this.store(source, scanned!);
        this.progress(progress, file);
      };
      await this.addStep({ of: reading, bytes: length, result, then });
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

  private async digestOf(file: FoundFile): Promise<string> {
    if (isPlain(file)) {
      const pieces = Array.from({ length: piecesOf(file.size) }, (_, n) =>
        this.scan(this.pieceTask(file, n, file.size)),
      );
      return wholeDigest((await Promise.all(pieces)).map((piece) => landed(piece).digest!));
    }
    const stretches = this.reader.stretches(file);
    for (;;) {
      const next = await stretches.next();
      if (next.done) return next.value;
    }
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

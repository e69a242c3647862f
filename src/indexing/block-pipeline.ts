// From the bytes of files to what their blocks hold: the scanning threads find the candidates of a block, the reading
// threads read them. Much is in hand at once, within limits; the queue gives what comes of it in order.

import type { Material } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import type { FoundCandidates } from "../endings/candidates.js";
import type { ReadGames } from "../endings/game-reader.js";
import { type Crossing, landed } from "../errors.js";
import { RANGE_BYTES, rangesOf } from "../pgn/files/block-reader.js";
import { combinedDigest } from "../pgn/files/digest.js";
import { FileReader, type FoundFile, isPlain } from "../pgn/files/find.js";
import { type BlockRecord } from "../store/writer.js";
import { type FilePart, WHOLE } from "../store/sources.js";
import { type Threads, startThreads } from "../threads.js";
import { OrderedQueue } from "./ordered-queue.js";
import { Readers } from "./reading-threads.js";
import type { ScanTask, ScanWay, Scanned } from "./scanning-thread.js";

/**
 * Blocks to be scanned in hand for each thread, and bytes that they, or their candidates, may have: enough to keep
 * everybody busy, few enough to keep memory flat.
 */
const AHEAD = 8;
const BYTES_AHEAD = 8 << 20;
/** Bytes of input that are sure to hold games to be read. */
const LARGE = 16 << 20;
/** Room for short-lived objects in a scanning thread: what it makes is sent away at once. */
const YOUNG_MB = 6;

const NOTHING_READ: ReadGames = { replayed: 0, found: [], skipped: [] };

export interface PipelineOptions {
  readonly target: Material;
  /** Folder of the tables, which must have been built. */
  readonly folder: string;
  readonly threads: number;
  /** Reads every game, for checking the quick reject. */
  readonly noReject?: boolean;
  /** Takes packed files whose unpacking needs up to 2 GB. */
  readonly largeWindows?: boolean;
  /** Stops the run; what has not been stored is read again by the next one. */
  readonly signal?: AbortSignal;
}

/** A block or range to be scanned, and for a packed file how many of its bytes have been read for it. */
export interface PendingScan {
  readonly task: ScanTask;
  readonly consumed?: number;
}

/** What was found in a block. */
export interface FoundBlock extends Scanned {
  /** Undefined where all had been found before. */
  readonly record: BlockRecord | undefined;
  /** Bytes held for it in the queue, to be given back when it has been taken. */
  readonly held: number;
}

/** What a block holds; what could not be read stands as in the file. */
const recordOf = ({ games, numbers, skipped }: FoundCandidates, read: ReadGames): BlockRecord => ({
  games,
  numbers,
  ...read,
  skipped: [...skipped, ...read.skipped].sort((a, b) => a.byte - b.byte),
});

/** The ranges of a plain file that are a part of it, from the first up to and without the last. */
export const rangesOfPart = ({ size }: FoundFile, { part, of }: FilePart): { from: number; to: number } => {
  const limit = (n: number) => Math.floor((rangesOf(size) * n) / of);
  return { from: limit(part - 1), to: limit(part) };
};

export class BlockPipeline {
  /** Blocks of several files may be in hand at once. */
  readonly queue: OrderedQueue;
  private scanners: Threads<ScanTask, Crossing<Scanned>> | undefined;
  private readonly readers: Readers;
  private readonly files: FileReader;
  /** Bytes of the files read so far, and of the one at hand. */
  private given = 0;
  /** Blocks that have been given to a thread to be scanned. */
  private blocks = 0;
  /** Every block of every file has been given to a thread to be scanned. */
  private allGiven = false;

  constructor(private readonly options: PipelineOptions) {
    const { threads, folder, target, signal } = options;
    // while games wait to be read, one thread fewer scans
    const tasks = () => (this.readers.areBehind ? Math.max(1, threads - 1) : AHEAD * threads);
    this.queue = new OrderedQueue(tasks, BYTES_AHEAD * threads, signal);
    this.files = new FileReader(options.largeWindows);
    this.readers = new Readers(target, folder, threads, this.fail, () => this.allGiven || this.queue.isFull);
  }

  /** What goes wrong in a thread, whether or not it has been given something. */
  private readonly fail = (thrown: unknown): void => this.queue.fail(thrown);

  /** Prepares for another file to be read. */
  prepare({ size }: FoundFile): void {
    this.given += size;
    if (this.given > LARGE) this.readers.prepare();
  }

  /**
   * The blocks or ranges of a file in order, each when there is room for it; none any more when the queue is over. Games
   * that end at `done` or before are not scanned again. Of a plain file only the ranges of one part are read.
   */
  async *scansOf(file: FoundFile, done: ByteOffset, part: FilePart = WHOLE): AsyncGenerator<PendingScan> {
    const way: ScanWay = { done, noReject: this.options.noReject ?? false };
    if (isPlain(file)) {
      const { path, size } = file;
      const { from, to } = rangesOfPart(file, part);
      for (let range = from; range < to; ++range) {
        await this.queue.room();
        if (this.queue.isOver) return;
        yield { task: { path, size, range, ...way } };
      }
      return;
    }
    let before = 0;
    for await (const { consumed, ...block } of this.files.blocks(file)) {
      await this.queue.room();
      if (this.queue.isOver) return;
      yield { task: { ...block, ...way }, consumed: consumed - before };
      before = consumed;
    }
  }

  /** What a block holds. There should be room for it in the queue. */
  find(task: ScanTask): Promise<FoundBlock> {
    const found = this.scanAndRead(task, this.blocks++);
    found.catch(() => {}); // reported when its turn comes
    return found;
  }

  private async scanAndRead(task: ScanTask, turn: number): Promise<FoundBlock> {
    const scanned = await this.scan(task);
    if (!scanned.found) return { ...scanned, record: undefined, held: 0 };
    const { candidates } = scanned.found;
    const held = candidates.bytes.length;
    if (held === 0) return { ...scanned, record: recordOf(scanned.found, NOTHING_READ), held };
    this.queue.take(0, held);
    try {
      const read = await this.readers.read(candidates, turn);
      return { ...scanned, record: recordOf(scanned.found, read), held };
    } catch (thrown) {
      this.queue.giveBack(0, held);
      throw thrown;
    }
  }

  private async scan(task: ScanTask): Promise<Scanned> {
    const { threads, target } = this.options;
    if (!this.scanners) {
      this.scanners = startThreads("scan", { most: threads, data: target.name, youngMB: YOUNG_MB });
      this.scanners.on("error", this.fail);
    }
    const [bytes, transfer] =
      "bytes" in task ? [task.bytes.length, { transferList: [task.bytes.buffer] }] : [RANGE_BYTES, {}];
    this.queue.take(1, bytes);
    try {
      return landed(await this.scanners.run(task, transfer));
    } finally {
      this.queue.giveBack(1, bytes);
    }
  }

  /** The digest of a file, of its parts by the scanning threads; of no use if the queue is over before. */
  async digestOf(file: FoundFile): Promise<string> {
    const found: Promise<FoundBlock>[] = [];
    for await (const { task } of this.scansOf(file, Infinity)) found.push(this.find(task));
    return combinedDigest((await Promise.all(found)).map(({ digest }) => digest));
  }

  /** Waits until everything has been taken, when all files have been given. Throws what has gone wrong. */
  async finished(): Promise<void> {
    this.allGiven = true;
    this.readers.help();
    await this.queue.finished();
  }

  async close(): Promise<void> {
    await this.files.close();
    await this.scanners?.destroy();
    await this.readers.close();
  }
}

// The threads that read candidates. One is enough for most collections, where few games hold the target, and compiling its
// code a second time would cost more than it gives; when it falls behind, others help.

import { type Material, parseMaterial } from "../chess/material.js";
import { GameReader, type ReadGames } from "../endings/game-reader.js";
import type { Candidates } from "../endings/candidates.js";
import { type Crossing, crossing, landed } from "../errors.js";
import { type SharedTables, Tables, shareTables } from "../tablebase/tables.js";
import { type Threads, startThreads } from "../threads.js";

export interface ReaderData {
  readonly target: string;
  readonly folder: string;
  readonly shared: SharedTables;
}

/** What a reading worker does with its tasks; `data` comes once, when the thread starts. */
export function reader(data: ReaderData): (task: Candidates) => Crossing<ReadGames> {
  const material = parseMaterial(data.target);
  const games = new GameReader(material, new Tables(material, data.folder, data.shared));
  return (task) => crossing(() => games.read(task));
}

/** Milliseconds of waiting work for which another thread is worth its start. */
const WORTH_A_START = 1500;
/** Games that may wait before reading counts as behind. */
const BEHIND = 16;
/** Games that a thread reads in one task, and checksums that are remembered. */
const GAMES = 64;
const REMEMBERED = 1 << 16;
/** Weight of the last task in the pace, as against those before. */
const LAST_WEIGHT = 0.3;
/** Room for short-lived objects: what a thread makes is sent away at once. */
const YOUNG_MB = 12;
/** Tasks that a thread is given ahead: enough for as long as the main thread takes to write what a block held. */
const IN_HAND = 8;

interface Waiting {
  readonly candidates: Candidates;
  /** Of its block among all: results are taken in the order of the blocks, and held until then. */
  readonly turn: number;
  /** How many of its games are not copies of games given before. */
  readonly games: number;
  readonly resolve: (read: Promise<ReadGames>) => void;
}

interface Reader {
  readonly pool: Threads<Candidates, Crossing<ReadGames>>;
  inHand: number;
}

/** Candidates in tasks that are neither too large for one thread nor too small to be sent. */
function tasksOf({ games, bytes, names }: Candidates): Candidates[] {
  if (games.length <= GAMES) return [{ games, bytes, names }];
  const tasks: Candidates[] = [];
  for (let from = 0; from < games.length; from += GAMES) {
    const some = games.slice(from, from + GAMES);
    const { start } = some[0];
    tasks.push({
      games: some.map((one) => ({
        ...one,
        start: one.start - start,
        text: one.text - start,
        end: one.end - start,
      })),
      bytes: bytes.slice(start, some[some.length - 1].end),
      names,
    });
  }
  return tasks;
}

/** The reading threads: one, started when it is needed, or more, at most `threads`. */
export class Readers {
  private readonly readers: Reader[] = [];
  private readonly waiting: Waiting[] = [];
  /** Games that have been given, by the checksums of their movetext. */
  private readonly known = new Set<number>();
  /** Games that wait; copies of others, which take next to no time, are not counted. */
  private games = 0;
  /** Milliseconds that a game takes, by the last tasks. */
  private pace = 0;
  private data: ReaderData | undefined;

  constructor(
    private readonly target: Material,
    private readonly folder: string,
    private readonly threads: number,
    private readonly onError: (thrown: unknown) => void,
    /** Whether the scanning threads have nothing to do, so that another reading thread takes nothing from them. */
    private readonly isQuiet: () => boolean,
  ) {}

  /** What the threads share: one reads the tables' files for all. */
  private shared(): ReaderData {
    const { target, folder } = this;
    return { target: target.name, folder, shared: shareTables(target, folder) };
  }

  /** Starts the first thread, for when it will be needed. */
  prepare(): void {
    if (this.readers.length === 0) this.start();
  }

  private start(): void {
    const pool = startThreads<Candidates, Crossing<ReadGames>>("read", {
      data: (this.data ??= this.shared()),
      youngMB: YOUNG_MB,
      ahead: IN_HAND,
    });
    pool.on("error", this.onError);
    this.readers.push({ pool, inHand: 0 });
  }

  /** Gives waiting tasks to threads that have time. */
  private share(): void {
    for (const reader of this.readers) {
      while (reader.inHand < IN_HAND && this.waiting.length > 0) {
        const task = this.waiting.shift()!;
        this.games -= task.games;
        task.resolve(this.give(reader, task));
      }
    }
  }

  private async give(reader: Reader, { candidates, games }: Waiting): Promise<ReadGames> {
    ++reader.inHand;
    const start = performance.now();
    try {
      return landed(await reader.pool.run(candidates, { transferList: [candidates.bytes.buffer] }));
    } finally {
      const pace = (performance.now() - start) / reader.inHand / games;
      if (games > 0) this.pace += LAST_WEIGHT * (pace - this.pace);
      --reader.inHand;
      this.share();
      if (this.isQuiet()) this.help();
    }
  }

  /** Reads the candidates of a block; those of the block with the least turn, of all that wait, come first. */
  async read(candidates: Candidates, turn: number): Promise<ReadGames> {
    this.prepare();
    const read = await Promise.all(tasksOf(candidates).map((task) => this.readTask(task, turn)));
    return {
      replayed: read.reduce((sum, { replayed }) => sum + replayed, 0),
      found: read.flatMap(({ found }) => found),
      skipped: read.flatMap(({ skipped }) => skipped),
    };
  }

  private readTask(candidates: Candidates, turn: number): Promise<ReadGames> {
    return new Promise((resolve) => {
      if (this.known.size > REMEMBERED) this.known.clear();
      const before = this.known.size;
      for (const { checksum } of candidates.games) this.known.add(checksum);
      const games = this.known.size - before;
      const last = this.waiting.findLastIndex((one) => one.turn <= turn);
      this.waiting.splice(last + 1, 0, { candidates, turn, games, resolve });
      this.games += games;
      this.share();
    });
  }

  /** Whether games wait. */
  get areBehind(): boolean {
    return this.games > BEHIND;
  }

  /** Starts another thread if there is much to do: for when nothing else is being done. */
  help(): void {
    if (this.games * this.pace < WORTH_A_START || this.readers.length >= this.threads) return;
    this.start();
    this.share();
  }

  async close(): Promise<void> {
    await Promise.all(this.readers.map(({ pool }) => pool.destroy()));
  }
}

// Work on every slice of a database, on this thread and on others that help it.
//
// Whoever asks waits for the answer, so nothing here is asynchronous. Threads take slices from shared counters: each from its own
// part first, so that a thread finds the columns it has read for the question before, then what is left of the others' parts.
// A helper that has not begun when the slices have run out is not waited for, and what it does not deliver is done here.

import { type MessagePort, receiveMessageOnPort } from "node:worker_threads";

import type { ColumnStore } from "../../store/column-store.js";
import { columnStoreOf } from "../../store/column-store.js";
import type { Connection } from "../../store/connection.js";
import { type LoneThread, startThread } from "../../threads.js";
import { Evaluation } from "./evaluate.js";
import { namedFacts } from "./named-facts.js";

/** What is done with one slice: a function that a module of `dist/src` exports, so that other threads find it too. */
export interface SliceWork<Asked, Found> {
  /** The module's path below `dist/src`, without its ending, and the function's name in it. */
  readonly module: string;
  readonly name: string;
  /** `asked` and what is found must be values that can be sent to other threads. */
  readonly run: (evaluation: Evaluation, asked: Asked) => Found;
}

/** What a helper is given when it starts. */
export interface HelperData {
  readonly path: string;
  /** How many threads share the room for columns. */
  readonly threads: number;
}

/** What a helper is asked. */
export interface SliceTask {
  readonly call: number;
  readonly module: string;
  readonly name: string;
  readonly asked: unknown;
  /** See `ColumnStore.state`: a helper that sees the database in another state does nothing. */
  readonly state: string;
  /** The counters, see `Shared`, and which thread the helper is. */
  readonly counters: Int32Array;
  readonly threads: number;
  readonly thread: number;
}

/** What a helper has found in some slices. */
export interface SlicesFound {
  readonly call: number;
  readonly slices: readonly (readonly [slice: number, found: unknown])[];
}

/** How far a helper is. */
const WAITING = 0;
const WORKING = 1;
const DONE = 2;
const TOO_LATE = 3;

/** The counters that threads share: how many slices of each thread's part are taken, and how far each thread is. */
export class Shared {
  constructor(
    readonly counters: Int32Array,
    readonly threads: number,
    private readonly slices: number,
  ) {}

  static of(threads: number, slices: number): Shared {
    // for each thread: slices taken of its part, how far it is, slices done
    return new Shared(new Int32Array(new SharedArrayBuffer(4 * 3 * threads)), threads, slices);
  }

  private partOf(thread: number): number {
    return Math.floor((thread * this.slices) / this.threads);
  }

  /** A slice that nobody has taken yet, for a thread; undefined where there is none. */
  take(thread: number): number | undefined {
    for (let n = 0; n < this.threads; ++n) {
      const part = (thread + n) % this.threads;
      const slice = this.partOf(part) + Atomics.add(this.counters, part, 1);
      if (slice < this.partOf(part + 1)) return slice;
    }
    return undefined;
  }

  /** Leaves nothing to take. */
  stop(): void {
    for (let part = 0; part < this.threads; ++part) Atomics.store(this.counters, part, this.slices);
  }

  /** Whether a helper may begin: it may not where nobody waits for it any more. */
  begin(thread: number): boolean {
    return Atomics.compareExchange(this.counters, this.threads + thread, WAITING, WORKING) === WAITING;
  }
  /** Tells that a helper has done one more slice. */
  progress(thread: number): void {
    Atomics.add(this.counters, 2 * this.threads + thread, 1);
  }
  /** Tells that what a helper has found has been sent. */
  done(thread: number): void {
    Atomics.store(this.counters, this.threads + thread, DONE);
    Atomics.notify(this.counters, this.threads + thread);
  }

  /** Waits until a helper has sent what it found; false where it has not begun, or has got stuck. */
  wait(thread: number): boolean {
    const { counters, threads } = this;
    const at = threads + thread;
    if (Atomics.compareExchange(counters, at, WAITING, TOO_LATE) === WAITING) return false;
    for (let before = -1; Atomics.load(counters, at) === WORKING;) {
      if (Atomics.wait(counters, at, WORKING, PATIENCE) !== "timed-out") continue;
      const now = Atomics.load(counters, 2 * threads + thread);
      if (now === before) return false;
      before = now;
    }
    return true;
  }
}

/** Milliseconds that a slice may take at most: a helper that needs longer twice over is taken to have died. */
const PATIENCE = 10_000;
/** From so many slices on, some 2.6 million positions, others help; fewer are looked through as fast by one thread. */
const WORTH = 40;
/** More threads for one question would each keep memory of their own. */
const MOST = 4;
/** Room for a helper's short-lived objects, in megabytes: more makes it no faster. */
const YOUNG_MB = 2;

/** The threads that help with a connection's questions. */
class Helpers {
  private running: LoneThread[] = [];
  /** Slices that they have delivered so far. */
  delivered = 0;

  constructor(
    private readonly db: Connection,
    readonly most: number,
  ) {}

  /** Those that can be asked to work on so many slices. */
  forSlices(slices: number): readonly LoneThread[] {
    if (slices < WORTH) return [];
    this.start();
    return this.running;
  }

  start(): void {
    if (this.running.length > 0 || this.most < 1) return;
    const threads = this.most + 1;
    this.db.sharedBy = threads;
    const data: HelperData = { path: this.db.name, threads };
    this.running = Array.from({ length: this.most }, () => startThread("slice", data, YOUNG_MB));
  }

  end(): void {
    for (const one of this.running) one.end();
    this.running = [];
  }
}

const helpers = new WeakMap<Connection, Helpers>();

/** Lets questions of a connection be answered on so many threads, this one among them; others start where they are worth it. */
export function answerOnThreads(db: Connection, threads: number): void {
  helpers.set(db, new Helpers(db, Math.min(threads, MOST) - 1));
}
/** Starts the threads that help with a connection's questions before the first of these, where they are worth it. */
export function startHelpers(db: Connection): void {
  helpers.get(db)?.forSlices(columnStoreOf(db).sliceCount);
}
/** Slices of a connection's questions that others have worked on so far. */
export const deliveredBy = (db: Connection): number => helpers.get(db)?.delivered ?? 0;
/** Ends them; call before the connection is closed. */
export const endHelpers = (db: Connection): void => helpers.get(db)?.end();

let calls = 0;

/** What is found in each slice of a database, in their order. Throws what the work throws. */
export function eachSlice<Asked, Found>(
  db: Connection,
  work: SliceWork<Asked, Found>,
  asked: Asked,
  store: ColumnStore = columnStoreOf(db),
): Found[] {
  const count = store.sliceCount;
  const own = helpers.get(db);
  const helping = own?.forSlices(count) ?? [];
  const found = new Map<number, Found>();
  const here = (slice: number) => found.set(slice, work.run(new Evaluation(db, store.slice(slice)), asked));
  if (helping.length > 0) {
    const threads = helping.length + 1;
    const shared = Shared.of(threads, count);
    const call = ++calls;
    const { module, name } = work;
    const task = { call, module, name, asked: namedFacts(asked), state: store.state, threads };
    helping.forEach(({ port }, n) =>
      port.postMessage({ ...task, counters: shared.counters, thread: n + 1 } satisfies SliceTask),
    );
    try {
      for (let slice = shared.take(0); slice !== undefined; slice = shared.take(0)) here(slice);
    } finally {
      shared.stop();
    }
    helping.forEach(({ port }, n) => {
      if (!shared.wait(n + 1)) return;
      for (const [slice, one] of received(port, call)) {
        found.set(slice, one as Found);
        ++own!.delivered;
      }
    });
  }
  return Array.from({ length: count }, (_, slice) => {
    if (!found.has(slice)) here(slice);
    return found.get(slice)!;
  });
}

/** What a helper has sent for a call; what it has sent too late for another is dropped. */
function received(port: MessagePort, call: number): SlicesFound["slices"] {
  for (let next = receiveMessageOnPort(port); next; next = receiveMessageOnPort(port)) {
    const found = next.message as SlicesFound;
    if (found.call === call) return found.slices;
  }
  return [];
}

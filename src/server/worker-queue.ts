// The threads that answer calls, one for each queue, so that a slow one holds up only its like. Each takes one call after
// another; a call that takes too long costs its thread, and another begins in its place.

import { MessageChannel } from "node:worker_threads";

import { LongsideError } from "../errors.js";
import { type Threads, startThreads } from "../threads.js";
import { CALLS, type QueueName, SECONDS, type ThreadCall } from "./api.js";
import type { AnswerTask, Answered } from "./answering-thread.js";
import type { Means } from "../app/workspace.js";
import { withTimeout } from "./timeout.js";

type ThreadLane = Exclude<QueueName, "here">;

/** How long the end waits for threads, in milliseconds. */
const PATIENCE = 500;
/** Calls that may wait for one thread. */
const WAITING = 200;

class Lane {
  private readonly pool: Threads<AnswerTask, Answered>;
  private last: Promise<void> = Promise.resolve();
  private waiting = 0;
  private closed = false;

  /** `stops` says whether a call that nobody waits for any more is worth a thread to be rid of. */
  constructor(
    means: Means,
    private readonly seconds: number,
    private readonly stops: boolean,
  ) {
    this.pool = startThreads("answer", { data: means });
    // a thread that dies between two calls is followed by another
    this.pool.on("error", () => {});
  }

  /** Answers when its turn has come. Throws `time-limit`, `too-busy`, `nobody-waits` for a call that was left, and `server-ends`. */
  async answer(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    report: (said: string) => void,
    seconds: number = this.seconds,
  ): Promise<Answered> {
    if (this.waiting >= WAITING) throw new LongsideError("too-busy", { waiting: this.waiting });
    const before = this.last;
    let done = () => {};
    this.last = new Promise((resolve) => (done = resolve));
    ++this.waiting;
    try {
      await before;
      if (left.aborted) throw new LongsideError("nobody-waits", {});
      return await this.run(call, input, left, report, seconds);
    } finally {
      --this.waiting;
      done();
    }
  }

  private async run(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    report: (said: string) => void,
    seconds: number,
  ): Promise<Answered> {
    const { port1, port2 } = new MessageChannel();
    port1.on("message", report);
    const stopping = new AbortController();
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      stopping.abort();
    }, 1000 * seconds);
    const leave = () => this.stops && stopping.abort();
    left.addEventListener("abort", leave);
    try {
      const task = { call, input, port: port2 };
      return await this.pool.run(task, { transferList: [port2], signal: stopping.signal });
    } catch (thrown) {
      if (late) throw new LongsideError("time-limit", { seconds, more: Math.ceil(4 * seconds) });
      if (this.closed) throw new LongsideError("server-ends", {});
      if (left.aborted) throw new LongsideError("nobody-waits", {});
      throw thrown;
    } finally {
      clearTimeout(timer);
      left.removeEventListener("abort", leave);
      port1.close();
    }
  }

  close(): Promise<void> {
    this.closed = true;
    return this.pool.destroy();
  }
}

export class WorkerQueues {
  private readonly queues: Readonly<Record<ThreadLane, Lane>>;

  /** `seconds` is the limit of a question; positions have at least their own, and what takes its time has its own. */
  constructor(means: Means, seconds: number = SECONDS.ask) {
    this.queues = {
      ask: new Lane(means, seconds, false),
      look: new Lane(means, Math.max(seconds, SECONDS.look), false),
      make: new Lane(means, Math.max(seconds, SECONDS.make), true),
    };
    // the first question need not wait for the database to be read in; whoever asks is told what is wrong with it
    this.queues.ask.answer("ready", {}, new AbortController().signal, () => {}, SECONDS.make).catch(() => {});
  }

  /**
   * Answers a call. `report` is told how far it has come; `left` says that nobody waits any more. Throws as `Lane` does.
   */
  answer(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    report: (said: string) => void,
  ): Promise<Answered> {
    return this.queues[CALLS[call].queue].answer(call, input, left, report);
  }

  /** Ends the threads; one that is deep in work is not waited for. */
  async close(): Promise<void> {
    await withTimeout(PATIENCE, Promise.all(Object.values(this.queues).map((queue) => queue.close())));
  }
}

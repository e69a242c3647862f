// The queues of calls, each with a thread that answers one after another, so that a slow call holds up only its own queue;
// in a queue askers take turns.
// A call that takes too long costs the queue its thread, and another begins in its place.

import { MessageChannel } from "node:worker_threads";

import { LongsideError } from "../errors.js";
import { type Threads, startThreads } from "../threads.js";
import { CALLS, type QueueName, SECONDS, type ThreadCall } from "./api.js";
import type { AnswerTask, Answered } from "./answering-thread.js";
import type { OnProgress, Settings } from "../app/workspace.js";
import { withTimeout } from "./timeout.js";
import { Turns } from "./turns.js";

/** Milliseconds that closing waits for the threads. */
const CLOSE_TIMEOUT = 500;
/** Calls that may wait in one queue, and of one asker. */
const MOST_WAITING = 200;
const MOST_OF_ONE = 100;

/** Threads that make: two, so that what takes a minute holds up only the one who asked for it. */
const MAKING = 2;

class Queue {
  private readonly pool: Threads<AnswerTask, Answered>;
  private readonly turns: Turns;
  private closed = false;

  /** With `stops`, a call that nobody waits for any more is stopped at the price of its thread. */
  constructor(
    settings: Settings,
    private readonly seconds: number,
    private readonly stops: boolean,
    threads = 1,
  ) {
    this.turns = new Turns(threads, MOST_WAITING, MOST_OF_ONE);
    this.pool = startThreads("answer", { most: threads, data: settings });
    // a thread that dies between two calls is followed by another
    this.pool.on("error", () => {});
  }

  /** Answers when its turn has come. Throws `time-limit`, `too-busy`, `nobody-waits` for a call that was left, and `server-ends`. */
  async answer(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    onProgress: OnProgress,
    asker = "",
    seconds: number = this.seconds,
  ): Promise<Answered> {
    return this.turns.take(asker, async () => {
      if (left.aborted) throw new LongsideError("nobody-waits", {});
      return this.run(call, input, left, onProgress, seconds);
    });
  }

  private async run(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    onProgress: OnProgress,
    seconds: number,
  ): Promise<Answered> {
    const { port1, port2 } = new MessageChannel();
    port1.on("message", onProgress);
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
  private readonly queues: Readonly<Record<Exclude<QueueName, "here">, Queue>>;

  /** `seconds` is the timeout of a question, and of the other queues where it is longer than their own. */
  constructor(settings: Settings, seconds: number = SECONDS.ask) {
    this.queues = {
      ask: new Queue(settings, seconds, false),
      look: new Queue(settings, Math.max(seconds, SECONDS.look), false),
      make: new Queue(settings, Math.max(seconds, SECONDS.make), true, MAKING),
    };
    // read the database in before the first question; what is wrong with it is told in answer to that
    this.queues.ask
      .answer("ready", {}, new AbortController().signal, () => {}, "", SECONDS.make)
      .catch(() => {});
  }

  /**
   * Answers a call. `onProgress` is told how far it has come; `left` says that nobody waits any more; `asker`
   * is whose turn it takes. Throws as `Queue` does.
   */
  answer(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    onProgress: OnProgress,
    asker?: string,
  ): Promise<Answered> {
    return this.queues[CALLS[call].queue].answer(call, input, left, onProgress, asker);
  }

  /** Ends the threads; one that is working is not waited for. */
  async close(): Promise<void> {
    await withTimeout(CLOSE_TIMEOUT, Promise.all(Object.values(this.queues).map((queue) => queue.close())));
  }
}

// The threads that answer calls, one for each lane, so that a slow one holds up only its like. A call that takes too
// long, or that nobody waits for any more, costs its thread: another begins in its place.

import { MessageChannel } from "node:worker_threads";

import { Piscina } from "piscina";

import { LongsideError } from "../errors.js";
import { workerFile } from "../places.js";
import { CALLS, type Lane, SECONDS, type ThreadCall } from "./api.js";
import type { AnswerTask, Answered } from "./answer.js";
import type { Means } from "./bench.js";

const THREAD_LANES = ["ask", "look", "make"] as const satisfies readonly Lane[];
type ThreadLane = (typeof THREAD_LANES)[number];

export class Lanes {
  private readonly pools: Readonly<Record<ThreadLane, Piscina<AnswerTask, Answered>>>;

  /** `seconds` is the limit of questions and positions; what takes its time has its own. */
  constructor(
    means: Means,
    private readonly seconds: number = SECONDS.ask,
  ) {
    const pool = () =>
      new Piscina<AnswerTask, Answered>({
        filename: workerFile("answer"),
        minThreads: 1,
        maxThreads: 1,
        workerData: means,
      });
    this.pools = { ask: pool(), look: pool(), make: pool() };
    // the first question need not wait for the database to be read in; whoever asks is told what is wrong with it
    const port = new MessageChannel().port2;
    this.pools.ask.run({ call: "ready", input: {}, port }, { transferList: [port] }).catch(() => {});
  }

  private limitOf(lane: ThreadLane): number {
    return lane === "make"
      ? SECONDS.make
      : lane === "ask"
        ? this.seconds
        : Math.max(this.seconds, SECONDS.look);
  }

  /**
   * Answers a call. `report` is told how far it has come; `left` says that nobody waits any more. Throws `time-limit`.
   */
  async answer(
    call: ThreadCall,
    input: unknown,
    left: AbortSignal,
    report: (said: string) => void,
  ): Promise<Answered> {
    const lane = CALLS[call].lane;
    const seconds = this.limitOf(lane);
    const { port1, port2 } = new MessageChannel();
    port1.on("message", report);
    const stopping = new AbortController();
    let late = false;
    const timer = setTimeout(() => {
      late = true;
      stopping.abort();
    }, 1000 * seconds);
    const leave = () => stopping.abort();
    left.addEventListener("abort", leave);
    try {
      return await this.pools[lane].run(
        { call, input, port: port2 },
        { transferList: [port2], signal: stopping.signal },
      );
    } catch (thrown) {
      if (late) throw new LongsideError("time-limit", { seconds, more: 4 * seconds });
      throw thrown;
    } finally {
      clearTimeout(timer);
      left.removeEventListener("abort", leave);
      port1.close();
    }
  }

  async close(): Promise<void> {
    await Promise.all(THREAD_LANES.map((lane) => this.pools[lane].destroy()));
  }
}

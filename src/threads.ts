// Worker threads: each of them begins here, in pools or alone.

import { join } from "node:path";
import { MessageChannel, type MessagePort, Worker } from "node:worker_threads";

import { Piscina } from "piscina";

import { PACKAGE } from "./places.js";

/** The entry points in workers/. */
export type WorkerName = "answer" | "index" | "read" | "scan" | "slice" | "solve" | "sweep" | "unpack";

/** Threads of one kind that share their tasks. */
export type Threads<Task, Result> = Piscina<Task, Result>;

export interface ThreadOptions {
  /** At most so many threads, one if not said, and at least `least`. */
  readonly most?: number;
  readonly least?: number;
  /** Given to each thread once, when it starts. */
  readonly data?: unknown;
  /** Room for short-lived objects, in megabytes. */
  readonly youngMB?: number;
  /** Tasks that a thread is sent before it has done those it has, one if not said. */
  readonly ahead?: number;
}

/**
 * Node's ability to `require` ES modules, which the pool's library would use. A thread that is ended while it does so ends
 * the whole process (Node 20.20: "v8::Module::IsGraphAsync must be used on an instantiated module"); a thread that loads
 * its module by `import` can be ended at any time.
 */
const REQUIRES_MODULES = process.allowedNodeEnvironmentFlags.has("--experimental-require-module");

const EXEC_ARGV = REQUIRES_MODULES ? ["--no-experimental-require-module"] : [];
const fileOf = (name: WorkerName): string => join(PACKAGE, "dist", "workers", `${name}.js`);

const limitsOf = (youngMB: number | undefined) =>
  youngMB === undefined ? {} : { maxYoungGenerationSizeMb: youngMB };

/** Starts a pool of threads, which the caller must destroy. */
export function startThreads<Task, Result>(
  name: WorkerName,
  { most = 1, least = 1, data, youngMB, ahead = 1 }: ThreadOptions = {},
): Threads<Task, Result> {
  return new Piscina<Task, Result>({
    filename: fileOf(name),
    minThreads: Math.min(least, most),
    maxThreads: most,
    workerData: data,
    execArgv: EXEC_ARGV,
    resourceLimits: limitsOf(youngMB),
    concurrentTasksPerWorker: ahead,
    // else tasks that wait change places
    stricterFIFO: true,
  });
}

/** A thread that is spoken to through a port; it does not keep the process alive. */
export interface LoneThread {
  readonly port: MessagePort;
  end(): void;
}

/** What a lone thread is started with. */
export interface ThreadData<Data> {
  readonly port: MessagePort;
  readonly data: Data;
}

/** Starts one thread, with some room for short-lived objects, in megabytes. What is wrong with it is not told: nothing may depend on its answer. */
export function startThread<Data>(name: WorkerName, data: Data, youngMB?: number): LoneThread {
  const { port1, port2 } = new MessageChannel();
  const workerData: ThreadData<Data> = { port: port2, data };
  const worker = new Worker(fileOf(name), {
    workerData,
    transferList: [port2],
    execArgv: EXEC_ARGV,
    resourceLimits: limitsOf(youngMB),
  });
  worker.on("error", () => {});
  worker.unref();
  port1.unref();
  return {
    port: port1,
    end: () => {
      port1.close();
      void worker.terminate();
    },
  };
}

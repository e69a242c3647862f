// Worker threads: every pool of them begins here.

import { join } from "node:path";

import { Piscina } from "piscina";

import { PACKAGE } from "./places.js";

/** The entry points in workers/. */
export type WorkerName = "answer" | "index" | "read" | "scan" | "solve" | "sweep" | "unpack";

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
}

/**
 * Node's ability to `require` ES modules, which the pool's library would use. A thread that is ended while it does so ends
 * the whole process (Node 20.20: "v8::Module::IsGraphAsync must be used on an instantiated module"); a thread that loads
 * its module by `import` can be ended at any time.
 */
const REQUIRES_MODULES = process.allowedNodeEnvironmentFlags.has("--experimental-require-module");

/** Starts a pool of threads, which the caller must destroy. */
export function startThreads<Task, Result>(
  name: WorkerName,
  { most = 1, least = 1, data, youngMB }: ThreadOptions = {},
): Threads<Task, Result> {
  return new Piscina<Task, Result>({
    filename: join(PACKAGE, "dist", "workers", `${name}.js`),
    minThreads: Math.min(least, most),
    maxThreads: most,
    workerData: data,
    execArgv: REQUIRES_MODULES ? ["--no-experimental-require-module"] : [],
    resourceLimits: youngMB === undefined ? {} : { maxYoungGenerationSizeMb: youngMB },
  });
}

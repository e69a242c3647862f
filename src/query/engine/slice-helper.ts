// A thread that helps with questions: it takes slices as long as there are any, on a connection of its own.

import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { MessagePort } from "node:worker_threads";

import { PACKAGE } from "../../places.js";
import { columnStoreOf } from "../../store/column-store.js";
import type { Connection } from "../../store/connection.js";
import { openForReading } from "../../store/database.js";
import { Evaluation } from "./evaluate.js";
import { factsByName } from "./named-facts.js";
import {
  type HelperData,
  Shared,
  type SliceTask,
  type SliceWork,
  type SlicesFound,
} from "./slice-threads.js";

/** Works on what is asked through a port. What goes wrong is not told: whoever asks does what is not delivered. */
export function helpThrough(port: MessagePort, { path, threads }: HelperData): void {
  let db: Connection | undefined;
  const work = async (task: SliceTask): Promise<void> => {
    const module = pathToFileURL(join(PACKAGE, "dist", "src", `${task.module}.js`)).href;
    const run = ((await import(module)) as Record<string, SliceWork<unknown, unknown>["run"]>)[task.name];
    const asked = factsByName(task.asked);
    if (!db) {
      db = openForReading(path);
      db.sharedBy = threads;
    }
    const store = columnStoreOf(db);
    if (store.state !== task.state) return;
    const shared = new Shared(task.counters, task.threads, store.sliceCount);
    if (!shared.begin(task.thread)) return;
    const slices: [number, unknown][] = [];
    try {
      for (let n = shared.take(task.thread); n !== undefined; n = shared.take(task.thread)) {
        slices.push([n, run(new Evaluation(db, store.slice(n)), asked)]);
        shared.progress(task.thread);
      }
    } finally {
      port.postMessage({ call: task.call, slices } satisfies SlicesFound);
      shared.done(task.thread);
    }
  };
  port.on("message", (task: SliceTask) => {
    work(task).catch(() => {
      db?.close();
      db = undefined;
    });
  });
}

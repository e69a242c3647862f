// An index run in a thread of its own, so that the page goes on answering: it posts progress, and any message stops it.

import type { MessagePort } from "node:worker_threads";

import { type IndexOutcome, dropFile, indexInto } from "../app/index-games.js";
import type { Settings } from "../app/workspace.js";
import { type Crossing, crossingLater, errorOf } from "../errors.js";

export interface IndexTask {
  readonly kind: "index";
  readonly settings: Settings;
  readonly paths: readonly string[];
  /** Folders outside of which nothing is read, wherever links lead. */
  readonly within: readonly string[];
  /** Sends `Progress`; any message that it receives stops the run. */
  readonly port: MessagePort;
}

/** To take a file's games out of the database. */
export interface DropTask {
  readonly kind: "drop";
  readonly settings: Settings;
  readonly name: string;
}

/** How far it has come: bytes of so many, and the file in hand. */
export interface Progress {
  readonly done: number;
  readonly total: number;
  readonly file: string;
}

/** What came of a run; errors as they are told. */
export type RunOutcome = Omit<IndexOutcome, "unreadable"> & {
  readonly unreadable: readonly { readonly message: string; readonly hint: string }[];
};

/** Least time between two messages of progress, in milliseconds. */
const INTERVAL = 100;

/** What the thread does: indexes games into the database of the page, or takes some out. */
export const workOnGames = (task: IndexTask | DropTask): Promise<Crossing<RunOutcome | undefined>> =>
  task.kind === "index" ? indexTask(task) : dropTask(task);

function dropTask({ settings, name }: DropTask): Promise<Crossing<undefined>> {
  return crossingLater(async () => {
    try {
      dropFile(settings, name);
    } catch (thrown) {
      throw errorOf(thrown, settings.db);
    }
    return undefined;
  });
}

function indexTask({ settings, paths, within, port }: IndexTask): Promise<Crossing<RunOutcome>> {
  return crossingLater(async () => {
    const stopping = new AbortController();
    port.on("message", () => stopping.abort());
    let last = 0;
    const progress = (done: number, total: number, file: string) => {
      const now = performance.now();
      if (now - last < INTERVAL && done < total) return;
      last = now;
      port.postMessage({ done, total, file } satisfies Progress);
    };
    try {
      const outcome = await indexInto(settings, { paths, within }, { stopping, progress });
      const unreadable = outcome.unreadable.map(({ message, hint }) => ({ message, hint }));
      return { ...outcome, unreadable };
    } catch (thrown) {
      throw errorOf(thrown, settings.db);
    } finally {
      port.close();
    }
  });
}

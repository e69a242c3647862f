// An index run in a thread of its own, so that the page goes on answering: progress out, a word to stop in.

import type { MessagePort } from "node:worker_threads";

import { parseMaterial } from "../chess/material.js";
import { type Crossing, crossingLater, errorOf } from "../errors.js";
import { openForWriting } from "../store/database.js";
import { type IndexSummary, indexGames } from "../indexing/run.js";
import { findFiles } from "../pgn/files/find.js";
import { buildTables } from "../tablebase/build.js";
import type { Means } from "../app/workspace.js";

export interface IndexTask {
  readonly means: Means;
  readonly paths: readonly string[];
  /** Folders outside of which nothing is read, wherever links lead. */
  readonly within: readonly string[];
  /** Sends `Progress`, receives anything as the word to stop. */
  readonly port: MessagePort;
}

/** How far it has come: bytes of so many, and the file in hand. */
export interface Progress {
  readonly done: number;
  readonly total: number;
  readonly file: string;
}

/** What came of a run; errors as they are told. */
export type RunOutcome = Omit<IndexSummary, "unreadable"> & {
  readonly unreadable: readonly { readonly message: string; readonly hint: string }[];
};

/** Least time between two words of progress, in milliseconds. */
const PACE = 100;

/** Indexes games into the database of the page. */
export function indexTask({ means, paths, within, port }: IndexTask): Promise<Crossing<RunOutcome>> {
  return crossingLater(async () => {
    const target = parseMaterial(means.target);
    const stopping = new AbortController();
    port.on("message", () => stopping.abort());
    let told = 0;
    try {
      const found = await findFiles(paths, within);
      await buildTables([target], { folder: means.folder, threads: means.threads });
      const db = openForWriting(means.db, target);
      try {
        const summary = await indexGames(db, means.db, found, {
          target,
          folder: means.folder,
          threads: means.threads,
          signal: stopping.signal,
          onProgress: (done, total, file) => {
            const now = performance.now();
            if (now - told < PACE && done < total) return;
            told = now;
            port.postMessage({ done, total, file } satisfies Progress);
          },
        });
        return {
          ...summary,
          unreadable: summary.unreadable.map(({ message, hint }) => ({ message, hint })),
        };
      } finally {
        db.close();
      }
    } catch (thrown) {
      throw errorOf(thrown, means.db);
    } finally {
      port.close();
    }
  });
}

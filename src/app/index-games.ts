// An index run from the paths that were named to the rows of the database, in this process or in a thread.

import { parseMaterial } from "../chess/material.js";
import { type IndexSummary, indexGames } from "../indexing/run.js";
import { findFiles } from "../pgn/files/find.js";
import { LongsideError } from "../errors.js";
import { openForWriting } from "../store/database.js";
import { IndexWriter } from "../store/writer.js";
import type { FilePart } from "../store/sources.js";
import { type BuildObserver, buildMissing } from "./tables.js";
import type { Settings } from "./workspace.js";

/** What is to be indexed, and how. */
export interface IndexAsked {
  readonly paths: readonly string[];
  /** Folders outside of which nothing is read, wherever links lead; anything may be read where they are left out. */
  readonly within?: readonly string[];
  /** Replays every game, for checking the quick reject. */
  readonly noReject?: boolean;
  /** Takes out the games of files that are no longer there. */
  readonly dropMissing?: boolean;
  /** Looks at the contents of files that have the size and time they had. */
  readonly recheck?: boolean;
  /** Takes packed files whose unpacking needs up to 2 GB. */
  readonly largeWindows?: boolean;
  /** Reads one part of all, so that several machines can share the work. */
  readonly part?: FilePart;
}

/** Who follows a run, and may stop it. */
export interface IndexObserver {
  /** Stops the run when asked to; what has not been stored is read again by the next one. */
  readonly stopping: AbortController;
  /** Bytes read so far, of how many, and the file in hand. */
  readonly progress: (done: number, total: number, file: string) => void;
  /** Called when the games are to be read, before the first of them. */
  readonly begin?: () => void;
  readonly tables?: BuildObserver;
}

/** A run's summary, and the seconds it took to read the games. */
export type IndexOutcome = IndexSummary & { readonly seconds: number };

/**
 * Indexes games into the database of the settings, building the tables first. Throws `no-such-path`, `no-games-found`,
 * `other-target`, `database-busy`, `cannot-write`.
 */
export async function indexInto(
  settings: Settings,
  { paths, within, ...options }: IndexAsked,
  { stopping, progress, begin, tables = {} }: IndexObserver,
): Promise<IndexOutcome> {
  const { db: path, folder, threads } = settings;
  const target = parseMaterial(settings.target);
  const found = await findFiles(paths, within); // before anything is built: a path may be wrong
  await buildMissing([target], "blocks", settings, tables);
  const db = openForWriting(path, target);
  try {
    begin?.();
    const start = performance.now();
    const summary = await indexGames(db, path, found, {
      ...options,
      target,
      folder,
      threads,
      signal: stopping.signal,
      onProgress: progress,
    });
    return { ...summary, seconds: (performance.now() - start) / 1000 };
  } finally {
    db.close();
  }
}

/** Takes a file's games out of the database of the settings, by the file's name there. Throws `database-busy`, `not-held`. */
export function dropFile(settings: Settings, name: string): void {
  const db = openForWriting(settings.db, parseMaterial(settings.target));
  try {
    const writer = new IndexWriter(db, settings.db);
    try {
      const source = writer.sources().find((one) => one.name === name);
      if (!source) throw new LongsideError("not-held", { name, path: settings.db });
      writer.drop(source);
    } finally {
      writer.release();
    }
  } finally {
    db.close();
  }
}

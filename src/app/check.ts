// Looking at a database, and mending it: what is derived is made again, and games that are hurt are read again where their
// files still are.

import { statSync } from "node:fs";
import { dirname } from "node:path";

import { type Checked, checkDatabase } from "../store/check.js";
import { dropDamaged } from "../store/chunks.js";
import { openForReading, openForWriting, targetOf } from "../store/database.js";
import { IndexWriter } from "../store/writer.js";
import { type IndexObserver, indexInto } from "./index-games.js";
import type { Settings } from "./workspace.js";

/** What mending did. */
export interface Mended {
  /** Files that were read again. */
  readonly again: readonly string[];
  /** What was taken out, since its file is no longer there. */
  readonly gone: readonly string[];
}

/** Looks at the database of the settings. Throws what opening throws. */
export function checkAsked({ db: path }: Settings): Checked {
  const db = openForReading(path);
  try {
    return checkDatabase(db);
  } finally {
    db.close();
  }
}

/** The file that is there at a path, or the packed one that it is in. */
function fileAt(path: string): string | undefined {
  for (let at = path; dirname(at) !== at; at = dirname(at)) {
    const info = statSync(at, { throwIfNoEntry: false });
    if (info) return info.isFile() ? at : undefined;
  }
  return undefined;
}

/** Mends what a check has found. Throws `database-busy`, `cannot-write`. */
export async function mend(settings: Settings, { hurt }: Checked, observer: IndexObserver): Promise<Mended> {
  const reading = openForReading(settings.db);
  const target = targetOf(reading);
  reading.close();
  const again = new Map<string, { readonly name: string; readonly file: string }>();
  const gone: string[] = [];
  const db = openForWriting(settings.db, target);
  try {
    const writer = new IndexWriter(db, settings.db);
    try {
      for (const { chunk } of hurt) if (chunk !== null) dropDamaged(db, chunk);
      const lost = new Set<number>();
      for (const { what, games } of hurt) {
        for (const { game, source } of games) {
          const file = source && fileAt(source.path);
          if (source && file) again.set(source.path, { name: source.name, file });
          else lost.add(game);
        }
        if (games.some(({ game }) => lost.has(game))) gone.push(what);
      }
      for (const game of lost) writer.takeOut(game);
      for (const path of again.keys()) writer.drop(writer.sources().find((one) => one.path === path)!);
    } finally {
      writer.release();
    }
  } finally {
    db.close();
  }
  const found = [...again.values()];
  if (again.size > 0)
    await indexInto(
      { ...settings, target: target.name },
      { paths: [...new Set(found.map(({ file }) => file))] },
      observer,
    );
  return { again: found.map(({ name }) => name), gone };
}

// Looking at a database, and mending it: what is derived is made again, and games that are hurt are read again where their
// files still are.

import { statSync } from "node:fs";
import { dirname } from "node:path";

import { type Checked, type HurtSource, checkDatabase } from "../store/check.js";
import { openForReading, openForWriting, targetOf } from "../store/database.js";
import { IndexWriter } from "../store/writer.js";
import { type IndexObserver, indexInto } from "./index-games.js";
import { buildMissing } from "./tables.js";
import { workOutAgain } from "./work-out-again.js";
import type { Settings } from "./workspace.js";

/** What mending did. */
export interface Mended {
  /** Files that were read again. */
  readonly again: readonly string[];
  /** What was worked out again from the stored moves, since its file is no longer there. */
  readonly workedOut: readonly string[];
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
  if (hurt.some(({ chunk }) => chunk !== null))
    await buildMissing([target], "blocks", settings, observer.tables ?? {});
  const again = new Map<string, { readonly name: string; readonly file: string }>();
  const gone: string[] = [];
  const workedOut: string[] = [];
  const db = openForWriting(settings.db, target);
  try {
    const writer = new IndexWriter(db, settings.db);
    try {
      const fileOf = (source: HurtSource | null) => (source ? fileAt(source.path) : undefined);
      const sources = new Map(hurt.flatMap(({ games }) => games.map(({ game, source }) => [game, source])));
      const rescued = new Map<number, Set<number>>();
      // games whose own rows are hurt cannot be trusted
      const untrue = new Set(
        hurt.flatMap(({ chunk, games }) => (chunk === null ? games.map(({ game }) => game) : [])),
      );
      for (const { chunk } of hurt) {
        if (chunk === null) continue;
        const wanted = (game: number) => !untrue.has(game) && !fileOf(sources.get(game) ?? null);
        rescued.set(chunk, workOutAgain(db, target, settings.folder, chunk, wanted));
      }
      const lost = new Set<number>();
      for (const { what, games, chunk } of hurt) {
        const before = lost.size;
        for (const { game, source } of games) {
          const file = fileOf(source);
          if (source && file) again.set(source.path, { name: source.name, file });
          else if (chunk === null || !rescued.get(chunk)!.has(game)) lost.add(game);
        }
        if (lost.size > before) gone.push(what);
        else if (chunk !== null && rescued.get(chunk)!.size > 0) workedOut.push(what);
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
  return { again: found.map(({ name }) => name), gone, workedOut };
}

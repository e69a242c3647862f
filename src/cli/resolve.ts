// What commands share: resolving options before any work starts, opening the database, building tables with a
// progress bar.

import { existsSync } from "node:fs";
import { availableParallelism } from "node:os";

import { Presets, SingleBar } from "cli-progress";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../chess/material.js";
import type { Connection } from "../store/connection.js";
import { openForReading } from "../store/database.js";
import { cacheFolder } from "../places.js";
import { type Question, formatQuestion } from "../query/language/ast.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { parseQuestion } from "../query/language/parse.js";
import { idleConditions } from "../statistics/count.js";
import { type Care, buildHalves, missingHalves } from "../tablebase/build.js";
import { removeUnfinished } from "../tablebase/table-file.js";
import type { Half } from "../tablebase/half.js";
import { DEFAULT_DB, type Options } from "./options.js";
import { counted, note, plain } from "./terminal.js";

/** Exit status of a run that Ctrl-C has stopped. */
export const INTERRUPTED = 130;

export const dbPath = (options: Options): string => options.db ?? DEFAULT_DB;
export const openDb = (options: Options): Connection => openForReading(dbPath(options));
/** The database that is named, or the usual one if it is there: for what can do without games. */
export const openDbIfAny = (options: Options): Connection | undefined =>
  options.db !== undefined || existsSync(dbPath(options)) ? openDb(options) : undefined;
export const threadsOf = (options: Options): number => options.threads ?? availableParallelism();
export const targetOption = (options: Options): Material => parseMaterial(options.target ?? DEFAULT_TARGET);

/** The words of a question on the command line, parsed. Throws `QueryError`. */
export const readQuestion = (words: readonly string[], options: Options): Question =>
  parseQuestion(words.join(" "), catalogueWith(options.setUps).known);

/** Says so where a condition leaves no ending out, since that is seldom what was meant. */
export function noteIdle(db: Connection, question: Question): void {
  for (const { part } of idleConditions(db, question)) {
    const said = formatQuestion(part);
    note(
      `Every ending that answers the rest has a position with ${said} at some time, so that condition leaves none out; ` +
        `ask for more with mostly (${said}), throughout (${said}), entry (…) or end (…).`,
    );
  }
}

/** A progress bar on standard error; silent where that is no terminal. */
export class Progress {
  private bar: SingleBar | undefined;

  constructor(private readonly title: string) {}

  /** `done` of `total`, in any unit. */
  show(done: number, total: number, what: string): void {
    if (!process.stderr.isTTY) return;
    if (!this.bar) {
      this.bar = new SingleBar(
        {
          format: `${this.title} {bar} {percentage} % {what}`,
          stream: process.stderr,
          hideCursor: true,
          clearOnComplete: true,
          barsize: 24,
          linewrap: false,
          gracefulExit: false,
        },
        Presets.shades_classic,
      );
      this.bar.start(total, 0, { what });
    }
    // what comes through a pipe has no size
    this.bar.setTotal(Math.max(total, done, 1));
    this.bar.update(done, { what: plain(what) });
  }

  end(): void {
    this.bar?.stop();
  }
}

/**
 * Builds what is missing of the tables, telling so; what is damaged counts as missing, if `care` is enough to
 * see it. Returns the folder, and what was built.
 */
export async function ensureTables(
  materials: readonly Material[],
  options: Options,
  care: Care = "blocks",
): Promise<{ readonly folder: string; readonly built: readonly Half[] }> {
  const folder = cacheFolder();
  const missing = missingHalves(folder, materials, care);
  if (missing.length === 0) return { folder, built: missing };
  const names = materials.map((material) => material.name).join(", ");
  note(`Building the exact tables of ${names} in ${folder} (once; this takes some seconds) …`);
  const progress = new Progress("tables");
  const start = performance.now();
  const stop = () => {
    progress.end();
    removeUnfinished(folder);
    note("Stopped; tables that were complete are kept. Run the same command again to go on.");
    process.exit(INTERRUPTED);
  };
  process.once("SIGINT", stop);
  try {
    await buildHalves(missing, {
      folder,
      threads: threadsOf(options),
      onProgress: (done, half) => progress.show(Math.round(done * 1000), 1000, half),
    });
  } finally {
    process.removeListener("SIGINT", stop);
    progress.end();
  }
  note(`Built ${counted(missing.length, "table")} in ${((performance.now() - start) / 1000).toFixed(1)} s.`);
  return { folder, built: missing };
}

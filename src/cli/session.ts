// What commands share: resolving options before any work starts, opening the database, building tables with a
// progress bar.

import { availableParallelism } from "node:os";

import { Presets, SingleBar } from "cli-progress";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../chess/material.js";
import { type Connection, openForReading } from "../index/database.js";
import { cacheFolder } from "../places.js";
import { type Question, aboutEndings, formatQuestion } from "../questions/ast.js";
import { standardCatalogue } from "../questions/catalogue.js";
import { parseQuestion } from "../questions/parse.js";
import type { Unit } from "../questions/sql.js";
import { buildTables, missingHalves } from "../solver/build.js";
import type { Options } from "./options.js";
import { note } from "./terminal.js";

export const DEFAULT_DB = "longside.db";

export const dbPath = (options: Options): string => options.db ?? DEFAULT_DB;
export const openDb = (options: Options): Connection => openForReading(dbPath(options));
export const threadsOf = (options: Options): number => options.threads ?? availableParallelism();
export const targetOption = (options: Options): Material => parseMaterial(options.target ?? DEFAULT_TARGET);

/** The words of a question on the command line, parsed. Throws `QuestionFault`. */
export const readQuestion = (words: readonly string[]): Question =>
  parseQuestion(words.join(" "), standardCatalogue().known);

/** The question as it was understood, scopes made plain. */
export const understood = (question: Question, unit: Unit): string =>
  formatQuestion(unit === "ending" ? aboutEndings(question) : question);

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
    this.bar.setTotal(total);
    this.bar.update(done, { what });
  }

  end(): void {
    this.bar?.stop();
  }
}

/** Builds what is missing of the tables, telling so. Returns the folder. */
export async function ensureTables(materials: readonly Material[], options: Options): Promise<string> {
  const folder = cacheFolder();
  const missing = missingHalves(folder, materials);
  if (missing.length === 0) return folder;
  const names = materials.map((material) => material.name).join(", ");
  note(`Building the exact tables of ${names} in ${folder} (once; this takes some seconds) …`);
  const progress = new Progress("tables");
  const start = performance.now();
  await buildTables(materials, {
    folder,
    threads: threadsOf(options),
    onProgress: (done, half) => progress.show(Math.round(done * 1000), 1000, half),
  });
  progress.end();
  note(`Built ${missing.length} tables in ${((performance.now() - start) / 1000).toFixed(1)} s.`);
  return folder;
}

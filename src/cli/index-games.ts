// `index`: PGN in, database out, with everything accounted for.

import { writeFileSync } from "node:fs";

import { LongsideError, causeOf } from "../errors.js";
import { openForWriting } from "../index/database.js";
import { type SkippedRow, type Totals, skippedOf, totalsOf } from "../index/report.js";
import { type IndexSummary, indexGames } from "../index/run.js";
import { FAULTS, type Fault } from "../pgn/replay.js";
import { findFiles } from "../pgn/read.js";
import type { Command, Options } from "./options.js";
import { Progress, dbPath, ensureTables, targetOption, threadsOf } from "./session.js";
import { note, print, printJson, programName, tableText } from "./terminal.js";

const counted = (number: number) => number.toLocaleString("en");

/** Skipped games by reason; and the first of each, so that one can look. */
function skippedText(skipped: readonly SkippedRow[]): string {
  const groups = new Map<Fault, SkippedRow[]>();
  for (const row of skipped) {
    const rows = groups.get(row.reason);
    if (rows) rows.push(row);
    else groups.set(row.reason, [row]);
  }
  const entries = [...groups.entries()].sort((a, b) => b[1].length - a[1].length);
  return tableText([
    { head: "not read", cells: entries.map(([, rows]) => counted(rows.length)), right: true },
    { head: "because of", cells: entries.map(([reason]) => FAULTS[reason]) },
    {
      head: "first",
      cells: entries.map(
        ([, [row]]) =>
          `${row.file}, game ${row.game}, byte ${row.byte}${row.ply === null ? "" : `, ply ${row.ply}`}: ${row.detail}`,
      ),
      shrinksTo: 20,
    },
  ]);
}

function printSummary(
  summary: IndexSummary,
  totals: Totals,
  skipped: readonly SkippedRow[],
  seconds: number,
  db: string,
) {
  const read = summary.files - summary.unchanged - summary.unreadable.length;
  const speed = summary.bytes / 1e6 / seconds;
  print(
    `Read ${counted(read)} files, ${counted(summary.games)} games, ${(summary.bytes / 1e6).toFixed(1)} MB in ${seconds.toFixed(1)} s (${speed.toFixed(0)} MB/s); ` +
      `${counted(summary.replayed)} games were played through, the others cannot reach the target.`,
  );
  if (summary.unchanged > 0)
    print(`${counted(summary.unchanged)} files had been indexed before and have not changed.`);
  print(
    `${db} now holds ${counted(totals.endings)} endings with ${counted(totals.positions)} positions from ${counted(totals.gamesWithEndings)} games; ` +
      `${counted(totals.duplicates)} endings are duplicates (kept, counted once), ${counted(totals.passing)} are shorter than two half-moves (kept, not counted).`,
  );
  if (skipped.length > 0) print(skippedText(skipped));
  for (const error of summary.unreadable) note(`longside: ${error.message}\n  ${error.hint}`);
}

function writeSkipped(path: string, skipped: readonly SkippedRow[]): void {
  try {
    writeFileSync(path, skipped.map((row) => `${JSON.stringify(row)}\n`).join(""));
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** Runs the index with a progress bar; Ctrl-C stops it after what is in hand has been stored. */
export async function runIndex(paths: readonly string[], options: Options): Promise<IndexSummary> {
  const target = targetOption(options);
  const files = await findFiles(paths); // before anything is built: a path may be wrong
  const folder = await ensureTables([target], options);
  const path = dbPath(options);
  const db = openForWriting(path, target);
  const stopping = new AbortController();
  const stop = () => stopping.abort();
  process.once("SIGINT", stop);
  const progress = new Progress("games ");
  const start = performance.now();
  try {
    const summary = await indexGames(db, path, files, {
      target,
      folder,
      threads: threadsOf(options),
      noReject: options.reject === false,
      signal: stopping.signal,
      onProgress: (done, total, file) => progress.show(done, total, file),
    });
    progress.end();
    const seconds = (performance.now() - start) / 1000;
    const totals = totalsOf(db);
    const skipped = skippedOf(db);
    if (options.skipped !== undefined) writeSkipped(options.skipped, skipped);
    if (options.json) {
      const { unreadable, ...counts } = summary;
      printJson({
        ...counts,
        seconds,
        ...totals,
        skipped: skipped.length,
        unreadable: unreadable.map((e) => e.toJSON().error),
      });
    } else {
      printSummary(summary, totals, skipped, seconds, path);
    }
    if (summary.stopped) note(`Stopped; nothing is lost. Run the same command again to go on.`);
    if (options.strict && skipped.length + summary.unreadable.length > 0) {
      throw new LongsideError("skipped-games", { count: skipped.length + summary.unreadable.length });
    }
    return summary;
  } finally {
    progress.end();
    process.removeListener("SIGINT", stop);
    db.close();
  }
}

export const run: Command = async (paths, options) => {
  const summary = await runIndex(paths, options);
  if (!options.json && !summary.stopped) {
    note(
      `Now ask: ${programName()} find "defender drew with the rook on the long side" --db ${dbPath(options)}`,
    );
  }
  if (summary.stopped) return 130;
  return summary.unreadable.length > 0 ? 2 : 0;
};

// `index`: PGN in, database out, with everything accounted for.

import { writeFileSync } from "node:fs";

import { LongsideError, causeOf } from "../errors.js";
import { openForWriting } from "../store/database.js";
import { type SkippedRow, type Totals, skippedOf, totalsOf } from "../store/totals.js";
import { type IndexSummary, indexGames } from "../indexing/run.js";
import { FAULTS, type Fault } from "../pgn/game/replay.js";
import { findFiles } from "../pgn/files/find.js";
import type { Command, Options } from "./options.js";
import { INTERRUPTED, Progress, dbPath, ensureTables, targetOption, threadsOf } from "./resolve.js";
import { counted, note, print, printJson, programName, tableText } from "./terminal.js";

/** Files without games that are named. */
const SHOWN = 5;

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
    { head: "not read", cells: entries.map(([, rows]) => rows.length.toLocaleString("en")), right: true },
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
  dropped: boolean,
) {
  const read = summary.read;
  const speed = summary.bytes / 1e6 / seconds;
  print(
    `Read ${counted(read, "file")}, ${counted(summary.games, "game")}, ${(summary.bytes / 1e6).toFixed(1)} MB in ${seconds.toFixed(1)} s (${speed.toFixed(0)} MB/s); ` +
      `${counted(summary.replayed, "game")} played through, the others cannot reach the target.`,
  );
  if (summary.unchanged > 0) print(`${counted(summary.unchanged, "file")} indexed before and not changed.`);
  print(
    `${db} now holds ${counted(totals.endings, "ending")} with ${counted(totals.positions, "position")} from ${counted(totals.gamesWithEndings, "game")}; ` +
      `duplicates (kept, counted once): ${totals.duplicates.toLocaleString("en")}; shorter than two half-moves (kept, not counted): ${totals.passing.toLocaleString("en")}.`,
  );
  if (skipped.length > 0) print(skippedText(skipped));
  if (summary.empty.length > 0) {
    const more = summary.empty.length > SHOWN ? ` and ${counted(summary.empty.length - SHOWN, "other")}` : "";
    note(`No games in ${summary.empty.slice(0, SHOWN).join(", ")}${more}: PGN begins with tags in brackets.`);
  }
  if (summary.vanished.length > 0) {
    const names = summary.vanished.slice(0, SHOWN).join(", ");
    const more = summary.vanished.length > SHOWN ? ", …" : "";
    note(
      dropped
        ? `${counted(summary.vanished.length, "file")} no longer there, games taken out: ${names}${more}.`
        : `${counted(summary.vanished.length, "file")} no longer there, games kept: ${names}${more}. Take them out with --drop-missing.`,
    );
  }
  for (const error of summary.unreadable) note(`longside: ${error.message}\n  ${error.hint}`);
}

function writeSkipped(path: string, skipped: readonly SkippedRow[]): void {
  try {
    writeFileSync(path, skipped.map((row) => `${JSON.stringify(row)}\n`).join(""));
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** Runs the index with a progress bar; Ctrl-C stops it: what has been stored stays, the rest is read by the next run. */
export async function runIndex(
  paths: readonly string[],
  options: Options,
): Promise<IndexSummary & { readonly endings: number }> {
  const target = targetOption(options);
  const found = await findFiles(paths); // before anything is built: a path may be wrong
  const { folder } = await ensureTables([target], options);
  const path = dbPath(options);
  const db = openForWriting(path, target);
  const stopping = new AbortController();
  const stop = () => stopping.abort();
  process.once("SIGINT", stop);
  const progress = new Progress("games ");
  const start = performance.now();
  try {
    const summary = await indexGames(db, path, found, {
      target,
      folder,
      threads: threadsOf(options),
      noReject: options.reject === false,
      dropMissing: options.dropMissing ?? false,
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
      printSummary(summary, totals, skipped, seconds, path, options.dropMissing ?? false);
    }
    if (summary.stopped) note(`Stopped; nothing is lost. Run the same command again to go on.`);
    if (options.strict && skipped.length + summary.unreadable.length > 0) {
      throw new LongsideError("skipped-games", { count: skipped.length + summary.unreadable.length });
    }
    return { ...summary, endings: totals.endings };
  } finally {
    progress.end();
    process.removeListener("SIGINT", stop);
    db.close();
  }
}

export const run: Command = async (paths, options) => {
  const summary = await runIndex(paths, options);
  if (summary.stopped) return INTERRUPTED;
  if (!options.json && summary.endings > 0) {
    note(
      `Now ask: ${programName()} find "defender drew with the rook on the long side" --db ${dbPath(options)}`,
    );
  }
  if (summary.unreadable.length > 0) return 2;
  return summary.endings > 0 ? 0 : 1;
};

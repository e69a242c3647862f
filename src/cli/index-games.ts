// `index`: PGN in, database out, with everything accounted for.

import { type IndexOutcome, indexInto } from "../app/index-games.js";
import type { Workspace } from "../app/workspace.js";
import { LongsideError } from "../errors.js";
import { safeJson } from "../plain-text.js";
import { FAULTS, type Fault } from "../pgn/faults.js";
import { type SkippedRow, type Totals, skippedOf, totalsOf } from "../store/totals.js";
import type { Command } from "./command.js";
import type { Options } from "./options.js";
import { writeResult } from "./output.js";
import { INTERRUPTED, Progress, TableBuild } from "./progress.js";
import { counted } from "../position/wording.js";
import { note, print, printJson, programName } from "./messages.js";
import { tableText } from "./terminal.js";

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
  summary: IndexOutcome,
  totals: Totals,
  skipped: readonly SkippedRow[],
  db: string,
  dropped: boolean,
) {
  const { read, seconds } = summary;
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

/** Runs the index with a progress bar; Ctrl-C stops it: what has been stored stays, the rest is read by the next run. */
async function indexWithProgress(
  paths: readonly string[],
  options: Options,
  { settings }: Workspace,
): Promise<IndexOutcome> {
  const stopping = new AbortController();
  const stop = () => stopping.abort();
  const progress = new Progress("games ");
  try {
    return await indexInto(
      settings,
      {
        paths,
        noReject: options.reject === false,
        dropMissing: options.dropMissing,
        recheck: options.recheck,
        largeWindows: options.largeWindows,
        part: options.part,
      },
      {
        stopping,
        progress: (done, total, file) => progress.show(done, total, file),
        // until then Ctrl-C stops the build of tables
        begin: () => process.once("SIGINT", stop),
        tables: new TableBuild(settings.folder),
      },
    );
  } finally {
    progress.end();
    process.removeListener("SIGINT", stop);
  }
}

/** Runs the index and tells what came of it. Throws what a run throws, and `skipped-games` where that is asked for. */
export async function runIndex(
  paths: readonly string[],
  options: Options,
  workspace: Workspace,
): Promise<IndexOutcome & { readonly endings: number }> {
  const summary = await indexWithProgress(paths, options, workspace);
  const db = workspace.db();
  const totals = totalsOf(db);
  const skipped = skippedOf(db);
  if (options.skipped !== undefined)
    writeResult(options.skipped, skipped.map((row) => `${safeJson(row)}\n`).join(""));
  if (options.json) {
    const { unreadable, ...counts } = summary;
    printJson({
      ...counts,
      ...totals,
      skipped: skipped.length,
      unreadable: unreadable.map((e) => e.toJSON().error),
    });
  } else {
    printSummary(summary, totals, skipped, workspace.settings.db, options.dropMissing ?? false);
  }
  if (summary.stopped) note(`Stopped; nothing is lost. Run the same command again to go on.`);
  const count = skipped.length + summary.unreadable.length;
  if (options.strict && count > 0) throw new LongsideError("skipped-games", { count });
  return { ...summary, endings: totals.endings };
}

export const run: Command = async (paths, options, workspace) => {
  const summary = await runIndex(paths, options, workspace);
  if (summary.stopped) return INTERRUPTED;
  if (!options.json && summary.endings > 0) {
    note(
      `Now ask: ${programName()} find "defender drew with the rook on the long side" --db ${workspace.settings.db}`,
    );
  }
  if (summary.unreadable.length > 0) return 2;
  return summary.endings > 0 ? 0 : 1;
};

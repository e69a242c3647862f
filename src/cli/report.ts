// `report`: practice in numbers, as one page, and its tables and charts as files.

import { createHash } from "node:crypto";
import { existsSync, readFileSync, readdirSync, rmSync } from "node:fs";
import { basename, join } from "node:path";

import type { Manifest } from "../statistics/manifest.js";
import { reportAsPage, reportManifest, reportOn } from "../app/report.js";
import { LongsideError } from "../errors.js";
import { escapeXml } from "../documents/diagram.js";
import { type Report, chartsOf, tablesOf } from "../documents/report/report.js";
import { safeJson } from "../plain-text.js";
import { tableCsv, tableJsonLines } from "../documents/tables.js";
import type { Command } from "./command.js";
import { typedCommand, writePage, writeResult } from "./output.js";
import { note, noteProgress, printFile, print } from "./messages.js";
import { dim, paragraph } from "./terminal.js";

/** The list of a folder's files, by which a report knows its own again. */
const MANIFEST = "manifest.json";

/**
 * Every table as CSV and JSON Lines, and every chart as SVG, each with the question, the database and what was left out; the
 * manifest lists them. What an earlier report has left in the folder is replaced; a folder of other files is refused.
 */
function writeTables(report: Report, folder: string, manifest: Manifest, raw?: boolean): void {
  clearOwn(folder);
  const tables = tablesOf(report);
  const charts = chartsOf(report);
  const about = {
    question: manifest.question,
    database: manifest.database.file,
    "left-out": report.leftOut,
  };
  const files: Record<string, string> = {};
  const write = (name: string, text: string) => {
    writeResult(join(folder, name), text);
    files[name] = createHash("sha256").update(text).digest("hex");
  };
  for (const table of tables) {
    const told = {
      ...table,
      columns: [
        ...table.columns,
        ...Object.keys(about).map((name) => ({ name, head: name, kind: "text" as const })),
      ],
      rows: table.rows.map((row) => ({ ...row, ...about })),
    };
    write(`${table.id}.csv`, tableCsv(told, raw));
    write(`${table.id}.jsonl`, tableJsonLines(told));
  }
  const description = `<desc>${escapeXml(Object.values(about).join("; "))}</desc>`;
  for (const { id, svg } of charts) write(`${id}.svg`, svg.replace(/(<svg[^>]*>)/, `$1${description}`));
  writeResult(join(folder, MANIFEST), `${safeJson({ ...manifest, files }, 1)}\n`);
  note(`Written: ${tables.length} tables and ${charts.length} charts in ${folder}, with ${MANIFEST}`);
}

/** Takes the files of an earlier report out of a folder. Throws `bad-option` where it holds others. */
function clearOwn(folder: string): void {
  const there = existsSync(folder) ? readdirSync(folder) : [];
  if (there.length === 0) return;
  let own: string[] = [];
  try {
    const read = JSON.parse(readFileSync(join(folder, MANIFEST), "utf8")) as { files?: object };
    own = [MANIFEST, ...Object.keys(read.files ?? {})];
  } catch {
    // no manifest of ours: every file is another's
  }
  const other = there.find((name) => !own.includes(name));
  if (other !== undefined)
    throw new LongsideError("bad-option", {
      option: "--tables",
      cause: `the folder holds other files, such as ${other}; name a fresh one`,
      command: "report",
    });
  for (const name of own) rmSync(join(folder, basename(name)), { force: true });
}

export const run: Command = async (words, options, workspace) => {
  const { db } = workspace.settings;
  const made = await reportOn(
    workspace,
    {
      question: workspace.question(words.join(" ")),
      by: options.by?.split(","),
      from: options.from,
      leaveOut: options.leaveOut,
      rule: options.onPaper ? "paper" : "fifty",
    },
    noteProgress,
    note,
  );
  const { report } = made;
  if (!report) {
    note(`No ending in ${db} answers that; ${made.leftOut}.`);
    return 1;
  }
  if (options.json) {
    for (const table of tablesOf(report)) printFile(tableJsonLines(table));
  } else {
    print(dim(report.asked));
    for (const line of report.summary) print(paragraph(line));
  }
  // its signature looks at the whole database
  let madeFrom: Manifest | undefined;
  const manifest = () => (madeFrom ??= reportManifest(workspace, made, report, typedCommand()));
  if (options.tables !== undefined) writeTables(report, options.tables, manifest(), options.rawCsv);
  await writePage(options.json ? options : { html: "report.html", ...options }, () =>
    reportAsPage(workspace, made, report, manifest()),
  );
  return 0;
};

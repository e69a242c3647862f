// `report`: practice in numbers, as one page, and its tables and charts as files.

import { join } from "node:path";

import { reportOn } from "../app/report.js";
import { type Report, chartsOf, tablesOf } from "../documents/report/report.js";
import { reportPage } from "../documents/report/page.js";
import { tableCsv, tableJsonLines } from "../documents/tables.js";
import { today } from "../documents/printed-page.js";
import type { Command } from "./command.js";
import { typedCommand, writePage, writeResult } from "./output.js";
import { note, noteProgress, printFile, print } from "./messages.js";
import { dim, paragraph } from "./terminal.js";

/** Every table as CSV and JSON Lines, and every chart as SVG. */
function writeTables(report: Report, folder: string, raw?: boolean): void {
  const tables = tablesOf(report);
  const charts = chartsOf(report);
  for (const table of tables) {
    writeResult(join(folder, `${table.id}.csv`), tableCsv(table, raw));
    writeResult(join(folder, `${table.id}.jsonl`), tableJsonLines(table));
  }
  for (const { id, svg } of charts) writeResult(join(folder, `${id}.svg`), svg);
  note(`Written: ${tables.length} tables and ${charts.length} charts in ${folder}`);
}

export const run: Command = async (words, options, workspace) => {
  const { db } = workspace.settings;
  const { report, leftOut, setUps } = await reportOn(
    workspace,
    {
      question: workspace.question(words.join(" ")),
      by: options.by?.split(","),
      from: options.from,
      leaveOut: options.leaveOut,
    },
    noteProgress,
    note,
  );
  if (!report) {
    note(`No ending in ${db} answers that; ${leftOut}.`);
    return 1;
  }
  if (options.json) {
    for (const table of tablesOf(report)) printFile(tableJsonLines(table));
  } else {
    print(dim(report.asked));
    for (const line of report.summary) print(paragraph(line));
  }
  if (options.tables !== undefined) writeTables(report, options.tables, options.rawCsv);
  await writePage(options.json ? options : { html: "report.html", ...options }, () =>
    reportPage(report, {
      command: typedCommand(),
      date: today(),
      database: db,
      setUps: workspace.catalogue.setUps.filter(({ name }) => setUps.some((one) => one.name === name)),
    }),
  );
  return 0;
};

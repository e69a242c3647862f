// `report`: practice in numbers, as one page, and its tables and charts as files.

import { join } from "node:path";

import { LongsideError } from "../errors.js";
import { targetOf } from "../store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../store/exclusions.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { isOfPositions, readSplit } from "../query/engine/splits.js";
import { leftOutInWords } from "../statistics/exclusions.js";
import { count } from "../statistics/count.js";
import { theoryOfSetUps } from "../survey/theory.js";
import { USUAL_SPLITS } from "../documents/report/outcomes.js";
import { reportPage } from "../documents/report/page.js";
import { chartsOf, makeReport, tablesOf } from "../documents/report/report.js";
import { tableCsv, tableJsonLines } from "../documents/tables.js";
import { today } from "../documents/printed-page.js";
import { typedCommand, writePage, writeResult } from "./output.js";
import type { Command } from "./options.js";
import { dbPath, ensureTables, openDb, readQuestion, threadsOf } from "./resolve.js";
import { dim, note, paragraph, print } from "./terminal.js";

export const run: Command = async (words, options) => {
  const question = readQuestion(words, options);
  const catalogue = catalogueWith(options.setUps);
  const db = openDb(options);
  try {
    const target = targetOf(db);
    const setUps = catalogue.tests(target);
    const by = (options.by?.split(",") ?? USUAL_SPLITS).map((text) => readSplit(text, setUps, "report"));
    const fail = (option: string, cause: string) =>
      new LongsideError("bad-option", { option, cause, command: "report" });
    const stray = by.find(isOfPositions);
    if (stray) throw fail("--by", `outcomes are of endings, and ${stray.name} is a fact of positions`);
    const twice = by.find(({ name }, n) => by.findIndex((other) => other.name === name) !== n);
    if (twice) throw fail("--by", `${twice.name} is named twice`);
    const found = count(db, question, {
      by: [],
      unit: "ending",
      leaveOut: options.leaveOut ?? EXCLUDED_BY_DEFAULT,
    });
    if (found.matching === 0) {
      note(`No ending in ${dbPath(options)} answers that; ${leftOutInWords(found.leftOut)}.`);
      return 1;
    }
    const named =
      options.from === undefined ? undefined : catalogue.named(readQuestion([options.from], options));
    const from = setUps.find(({ name }) => name === named?.name);
    if (options.from !== undefined && !from)
      throw fail("--from", `"${options.from}" is no set-up of ${target.name}; see: longside words`);
    await ensureTables([target], options);
    const theory = await theoryOfSetUps(
      target,
      setUps,
      threadsOf(options),
      (missing) => note(`Counting ${missing} set-ups over the whole table (once; about half a minute) …`),
      (cause) => note(`They could not be kept for the next time: ${cause}`),
    );
    const report = makeReport(db, {
      question,
      leaveOut: options.leaveOut ?? EXCLUDED_BY_DEFAULT,
      by,
      setUps,
      from,
      theory,
    });
    if (options.json) {
      for (const table of tablesOf(report)) process.stdout.write(tableJsonLines(table));
    } else {
      print(dim(report.asked));
      for (const line of report.summary) print(paragraph(line));
    }
    if (options.tables !== undefined) {
      for (const table of tablesOf(report)) {
        writeResult(join(options.tables, `${table.id}.csv`), tableCsv(table));
        writeResult(join(options.tables, `${table.id}.jsonl`), tableJsonLines(table));
      }
      for (const { id, svg } of chartsOf(report)) writeResult(join(options.tables, `${id}.svg`), svg);
      note(
        `Written: ${tablesOf(report).length} tables and ${chartsOf(report).length} charts in ${options.tables}`,
      );
    }
    await writePage(options.json ? options : { html: "report.html", ...options }, () =>
      reportPage(report, {
        command: typedCommand(),
        date: today(),
        database: dbPath(options),
        setUps: catalogue.setUps.filter(({ name }) => setUps.some((one) => one.name === name)),
      }),
    );
    return 0;
  } finally {
    db.close();
  }
};

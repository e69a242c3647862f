// `count`: how often, out of how many.

import { stringify } from "csv-stringify/sync";

import { LongsideError } from "../errors.js";
import { count, readSplit, unitFor } from "../study/count.js";
import type { Command } from "./options.js";
import { understood } from "../questions/evaluate.js";
import { dbPath, noteIdle, openDb, readQuestion } from "./session.js";
import { counted, dim, print, printJson, tableText } from "./terminal.js";

const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

export const run: Command = async (words, options) => {
  const question = readQuestion(words, options);
  const by = options.by === undefined ? [] : options.by.split(",").map(readSplit);
  if (by.length > 2) {
    throw new LongsideError("bad-option", { option: "--by", cause: "two facts at most", command: "count" });
  }
  if (by.length === 2 && by[0].fact === by[1].fact) {
    const cause = `${by[0].fact.name} is named twice`;
    throw new LongsideError("bad-option", { option: "--by", cause, command: "count" });
  }
  const unit = options.each ?? unitFor(by);
  if (unit === "ending" && unitFor(by) === "position") {
    throw new LongsideError("bad-option", {
      option: "--each ending",
      cause: "it is split by a fact of positions",
      command: "count",
    });
  }
  const db = openDb(options);
  try {
    const found = count(db, question, {
      by,
      unit,
      duplicates: options.duplicates ?? false,
      passing: options.passing ?? false,
    });
    const names = by.map(({ fact }) => fact.name);
    const rows = found.groups.map((group) => ({
      ...Object.fromEntries(names.map((name, n) => [name, group.values[n]])),
      count: group.count,
      of: found.matching,
      share: group.share,
      unit,
    }));
    const all = {
      count: found.matching,
      of: found.of,
      share: found.of === 0 ? 0 : found.matching / found.of,
    };
    if (options.json || options.csv) {
      const lines = by.length === 0 ? [{ ...all, unit, leftOut: found.leftOut }] : rows;
      if (options.json) lines.forEach(printJson);
      else process.stdout.write(stringify(by.length === 0 ? [all] : rows, { header: true }));
      return found.matching > 0 ? 0 : 1;
    }
    print(dim(understood(question, unit)));
    print(
      `${found.matching.toLocaleString("en")} of ${counted(found.of, unit)} in ${dbPath(options)} (${percent(all.share)})`,
    );
    const { duplicates, passing } = found.leftOut;
    print(
      dim(`left out: ${duplicates} in duplicate games, ${passing} in endings shorter than two half-moves`),
    );
    if (unit === "ending") noteIdle(db, question);
    if (by.length > 0) {
      print("");
      print(
        tableText([
          ...by.map(({ fact }, n) => ({
            head: fact.name,
            cells: found.groups.map((group) => String(group.values[n] ?? fact.none ?? "unknown")),
            shrinksTo: 12,
          })),
          { head: "count", cells: found.groups.map((group) => String(group.count)), right: true },
          {
            head: `of ${found.matching}`,
            cells: found.groups.map((group) => percent(group.share)),
            right: true,
          },
        ]),
      );
    }
    return found.matching > 0 ? 0 : 1;
  } finally {
    db.close();
  }
};

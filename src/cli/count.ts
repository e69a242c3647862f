// `count`: how often, out of how many.

import { LongsideError } from "../errors.js";
import { targetOf } from "../store/database.js";
import { EXCLUDED_BY_DEFAULT } from "../store/exclusions.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { understood } from "../query/engine/evaluate.js";
import { leftOutInWords } from "../statistics/exclusions.js";
import { count, unitFor } from "../statistics/count.js";
import { type Proportion, SMALL, plainProportion } from "../statistics/estimators.js";
import { keyOfNone, readSplits } from "../query/engine/splits.js";
import { rowsCsv } from "../documents/tables.js";
import type { Command } from "./options.js";
import { dbPath, noteIdle, openDb, readQuestion } from "./resolve.js";
import { counted, dim, paragraph, print, printJson, tableText } from "./terminal.js";

const percent = (share: number) => (Number.isNaN(share) ? "" : `${(100 * share).toFixed(1)} %`);
const intervalText = ({ low, high }: Proportion) =>
  Number.isNaN(low) ? "" : `${(100 * low).toFixed(1)}–${(100 * high).toFixed(1)} %`;

export const run: Command = async (words, options) => {
  const question = readQuestion(words, options);
  const share = options.share === undefined ? undefined : readQuestion([options.share], options);
  const db = openDb(options);
  try {
    const setUps = catalogueWith(options.setUps).tests(targetOf(db));
    const by = readSplits(options.by?.split(",") ?? [], setUps);
    const unit = options.each ?? unitFor(by);
    if (unit === "ending" && unitFor(by) === "position")
      throw new LongsideError("bad-option", {
        option: "--each ending",
        cause: "it is split by a fact of positions",
        command: "count",
      });
    const found = count(db, question, { by, unit, leaveOut: options.leaveOut ?? EXCLUDED_BY_DEFAULT, share });
    const names = by.map(({ name }) => name);
    const rows = found.groups.map((group) => ({
      ...Object.fromEntries(names.map((name, n) => [name, group.values[n]])),
      ...plainProportion(group),
      unit,
    }));
    const all = { count: found.matching, of: found.of };
    if (options.json || options.csv) {
      const whole = found.share
        ? plainProportion(found.share)
        : { ...all, share: found.of === 0 ? null : found.matching / found.of };
      const lines = by.length === 0 ? [{ ...whole, unit, leftOut: found.leftOut }] : rows;
      if (options.json) lines.forEach(printJson);
      else process.stdout.write(rowsCsv(by.length === 0 ? [whole] : rows));
      return found.matching > 0 ? 0 : 1;
    }
    print(dim(paragraph(understood(question, unit))));
    print(
      paragraph(
        `${found.matching.toLocaleString("en")} of ${counted(found.of, unit)} in ${dbPath(options)} (${percent(found.of === 0 ? 0 : found.matching / found.of)})`,
      ),
    );
    print(dim(paragraph(leftOutInWords(found.leftOut))));
    if (share && found.share && found.matching > 0) {
      print(
        paragraph(
          `${understood(share, unit)}: ${found.share.count.toLocaleString("en")} of ${found.share.of.toLocaleString("en")}, ${percent(found.share.share)} (95 % interval ${intervalText(found.share)})`,
        ),
      );
    }
    if (unit === "ending") noteIdle(db, question);
    if (by.length > 0 && found.matching > 0) {
      const { groups } = found;
      const few = share !== undefined && groups.some(({ of }) => of < SMALL);
      print("");
      print(
        tableText([
          ...by.map((split, n) => ({
            head: split.name,
            cells: groups.map((group) => String(group.values[n] ?? keyOfNone(split))),
            shrinksTo: 12,
          })),
          {
            head: "count",
            cells: groups.map((group) => String(group.count)),
            right: true,
            optional: share ? 1 : undefined,
          },
          ...(share
            ? [
                {
                  head: "of",
                  cells: groups.map(({ of }) => `${of < SMALL ? "* " : ""}${of}`),
                  right: true,
                },
              ]
            : []),
          {
            head: share ? "share" : `of ${found.matching}`,
            cells: groups.map((group) => percent(group.share)),
            right: true,
          },
          ...(share ? [{ head: "95 % interval", cells: groups.map(intervalText), right: true }] : []),
        ]),
      );
      if (share && unit === "position")
        print(
          dim(
            paragraph(
              "positions of one game are not independent: intervals are narrower than they should be",
            ),
          ),
        );
      if (few) print(dim(`* fewer than ${SMALL}: trust the interval, not the share`));
    }
    return found.matching > 0 ? 0 : 1;
  } finally {
    db.close();
  }
};

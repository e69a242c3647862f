// `count`: how often, out of how many.

import { type Counted, countAsked } from "../app/count.js";
import { csvText } from "../documents/csv.js";
import { keyOfNone } from "../query/engine/splits.js";
import { leftOutInWords } from "../statistics/exclusions.js";
import { SMALL, plainProportion } from "../statistics/proportion.js";
import { limitsText, percentText } from "../statistics/percent.js";
import type { Command } from "./command.js";
import type { Options } from "./options.js";
import { counted } from "../position/wording.js";
import { printFile, print, printJson } from "./messages.js";
import { dim, paragraph, tableText } from "./terminal.js";
import { noteIdle, noteMissing, printUnderstanding } from "./understanding.js";

/** The count for a program: a row for each group, or one for all. */
function printRows(counted: Counted, { csv, rawCsv }: Options): void {
  const { matching, of, share, by, groups, unit, leftOut, canonical, sharing } = counted;
  const whole = share
    ? plainProportion(share)
    : { count: matching, of, share: of === 0 ? null : matching / of };
  const rows = groups.map((group) => ({
    ...Object.fromEntries(by.map(({ name }, n) => [name, group.values[n]])),
    ...plainProportion(group),
    unit,
  }));
  if (csv) printFile(csvText(by.length === 0 ? [whole] : rows, { raw: rawCsv }));
  else if (by.length === 0) printJson({ ...whole, unit, leftOut });
  else {
    // each row says what all of them are of, so that it can stand alone
    const all = { matching, of, leftOut, question: canonical, share: sharing?.canonical ?? null };
    for (const row of rows) printJson({ ...row, all });
  }
}

function groupsTable({ by, groups, matching, sharing }: Counted): string {
  return tableText([
    ...by.map((split, n) => ({
      head: split.name,
      cells: groups.map((group) => String(group.values[n] ?? keyOfNone(split))),
      shrinksTo: 12,
    })),
    {
      head: "count",
      cells: groups.map((group) => String(group.count)),
      right: true,
      optional: sharing ? 1 : undefined,
    },
    ...(sharing
      ? [{ head: "of", cells: groups.map(({ of }) => `${of < SMALL ? "* " : ""}${of}`), right: true }]
      : []),
    {
      head: sharing ? "share" : `of ${matching}`,
      cells: groups.map((group) => percentText(group.share)),
      right: true,
    },
    ...(sharing
      ? [{ head: "95 % interval", cells: groups.map((group) => `${limitsText(group)} %`), right: true }]
      : []),
  ]);
}

/** The groups, and what has to be known to read them. */
function printGroups(found: Counted): void {
  print("");
  print(groupsTable(found));
  if (!found.sharing) return;
  print(dim(paragraph("intervals take the games of one player together")));
  if (found.groups.some(({ of }) => of < SMALL))
    print(dim(`* fewer than ${SMALL}: trust the interval, not the share`));
}

export const run: Command = (words, options, workspace) => {
  noteMissing(workspace);
  const found = countAsked(workspace, {
    ...options,
    question: words.join(" "),
    by: options.by?.split(",") ?? [],
  });
  const { sharing, unit, matching, of, share } = found;
  const status = matching > 0 ? 0 : 1;
  if (options.json || options.csv) {
    printRows(found, options);
    return status;
  }
  printUnderstanding(found);
  print(
    paragraph(
      `${matching.toLocaleString("en")} of ${counted(of, unit)} in ${workspace.settings.db} (${percentText(of === 0 ? 0 : matching / of)})`,
    ),
  );
  print(dim(paragraph(leftOutInWords(found.leftOut))));
  if (sharing && share && matching > 0) {
    print(
      paragraph(
        `${sharing.sentence}: ${share.count.toLocaleString("en")} of these ${counted(share.of, unit)}, ${percentText(share.share)} (95 % interval ${limitsText(share)} %)`,
      ),
    );
  }
  noteIdle(found.idle());
  if (found.by.length > 0 && matching > 0) printGroups(found);
  return status;
};

// `survey`: how every placement of a table that fits a question comes out.

import { surveyOf } from "../app/theory.js";
import { parseMaterial } from "../chess/material.js";
import { VERDICTS, totalOf } from "../chess/verdict.js";
import { understood } from "../query/engine/evaluate.js";
import type { Outcomes, Survey } from "../survey/survey.js";
import { TURNS } from "../documents/drawings.js";
import { csvText } from "../documents/csv.js";
import type { Command } from "./command.js";
import type { Options } from "./options.js";
import { counted } from "../position/wording.js";
import { note, printFile, print, printJson } from "./messages.js";
import { bold, dim, factValueText, paragraph, tableText, verdictText } from "./terminal.js";

/** Examples, exceptions and zugzwangs that are shown, unless told otherwise. */
const SHOWN = 4;

const percent = (part: number, whole: number) =>
  whole === 0 ? "" : `${((100 * part) / whole).toFixed(1)} %`;
const mean = (moves: number, count: number) => (count === 0 ? null : moves / count);

/** A row for each group and side to move. */
const rowsOf = (found: Survey) =>
  (found.groups.length > 0 ? found.groups : [found.all]).flatMap((group) =>
    TURNS.map(({ turn, side }) => ({ group, side, outcomes: group[turn] })).filter(
      ({ outcomes }) => totalOf(outcomes.counts) > 0,
    ),
  );

function table(found: Survey, by: string | undefined): string {
  const rows = rowsOf(found);
  const lost = rows.some(({ outcomes }) => outcomes.counts.lost > 0);
  const distance = ({ outcomes: { moves, counts } }: (typeof rows)[number]) =>
    mean(moves.won, counts.won)?.toFixed(1) ?? "";
  return tableText([
    ...(by === undefined
      ? []
      : [{ head: by, cells: rows.map(({ group }) => factValueText(group.value)), shrinksTo: 6 }]),
    { head: "to move", cells: rows.map(({ side }) => side) },
    {
      head: "placements",
      cells: rows.map(({ outcomes }) => totalOf(outcomes.counts).toLocaleString("en")),
      right: true,
    },
    ...VERDICTS.filter((verdict) => verdict !== "lost" || lost).map((verdict) => ({
      head: verdict,
      cells: rows.map(({ outcomes }) => percent(outcomes.counts[verdict], totalOf(outcomes.counts))),
      right: true,
    })),
    { head: "mean win", cells: rows.map(distance), right: true, optional: 2 },
    {
      head: "longest",
      cells: rows.map(({ outcomes }) => (outcomes.counts.won > 0 ? String(outcomes.longest.won) : "")),
      right: true,
      optional: 1,
    },
  ]);
}

/** Some of many, spread evenly over them. */
const spread = <T>(all: readonly T[], count: number): readonly T[] =>
  all.length <= count
    ? all
    : Array.from({ length: count }, (_, n) => all[Math.floor((n * all.length) / count)]);

/** The verdict that most placements have, and the others that some have, for one side to move. */
function exceptions({ counts }: Outcomes) {
  const [rule, ...others] = [...VERDICTS].sort((a, b) => counts[b] - counts[a]);
  return { rule, others: others.filter((verdict) => counts[verdict] > 0) };
}

function printExamples(found: Survey, limit: number): void {
  for (const { turn, side } of TURNS) {
    const outcomes = found.all[turn];
    const { rule, others } = exceptions(outcomes);
    const all = totalOf(outcomes.counts);
    if (all === 0) continue;
    for (const verdict of others) {
      const { fens } = found.examples.find(
        (one) => one.verdict === verdict && one.attackerToMove === (side === "attacker"),
      )!;
      const count = outcomes.counts[verdict];
      const exception = count * 5 < all ? `the exceptions, where most are ${rule}` : "examples";
      print(
        `\n${paragraph(`${bold(verdictText(verdict))}, ${side} to move: ${counted(count, "placement")}; ${exception}:`)}`,
      );
      for (const fen of spread(fens, limit)) print(`  ${fen}`);
    }
  }
}

/** Examples to show. */
const limitOf = ({ limit = SHOWN }: Options): number => (limit === 0 ? Infinity : limit);

/** The survey for a program: one object a group, then one of the whole. */
function printRows(found: Survey, options: Options): void {
  const { by, csv, rawCsv } = options;
  const rows = rowsOf(found).map(({ group, side, outcomes }) => ({
    ...(by === undefined ? {} : { [by]: group.value }),
    toMove: side,
    placements: totalOf(outcomes.counts),
    ...outcomes.counts,
    meanWin: mean(outcomes.moves.won, outcomes.counts.won),
    longestWin: outcomes.counts.won > 0 ? outcomes.longest.won : null,
    meanLoss: mean(outcomes.moves.lost, outcomes.counts.lost),
    longestLoss: outcomes.counts.lost > 0 ? outcomes.longest.lost : null,
  }));
  if (csv) printFile(csvText(rows, { raw: rawCsv }));
  else {
    rows.forEach(printJson);
    printJson({
      zugzwangs: found.zugzwangs,
      examples: found.examples.map(({ verdict, attackerToMove, fens }) => ({
        verdict,
        toMove: attackerToMove ? "attacker" : "defender",
        fens: spread(fens, limitOf(options)),
      })),
    });
  }
}

export const run: Command = async (words, options, workspace) => {
  const { settings } = workspace;
  const text = words.join(" ");
  const target = options.target === undefined ? undefined : parseMaterial(settings.target);
  const { question, setUp, found } = await surveyOf(workspace, text, options.by ?? null, target);
  const fitting = totalOf(found.all.attackerToMove.counts) + totalOf(found.all.defenderToMove.counts);
  const limit = limitOf(options);
  if (options.json || options.csv) {
    printRows(found, options);
    return fitting > 0 ? 0 : 1;
  }
  print(dim(paragraph(`${found.material}: ${understood(question, "position")}`)));
  if (fitting === 0) {
    note("No placement fits that.");
    return 1;
  }
  if (setUp?.known) {
    const known = `What is known: ${setUp.known} (${setUp.source})`;
    print(paragraph(known));
  }
  print(`\n${table(found, options.by)}`);
  print(dim("moves to mate; each placement counts with all its twins"));
  printExamples(found, limit);
  if (found.zugzwangs.length > 0) {
    print(
      `\n${paragraph(`${bold("Reciprocal zugzwangs")} (attacker to move does not win, defender to move loses): ${found.zugzwangs.length}`)}`,
    );
    for (const fen of spread(found.zugzwangs, limit)) print(`  ${fen}`);
  }
  return 0;
};

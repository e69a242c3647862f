// `plan`: how a position is won, in stages that can be forced one after another; without a position, the stations of a win.

import { planFound, stationsFound, type StationsFound } from "../app/theory.js";
import { typedFen } from "../chess/fen-text.js";
import { type Plan, stageInWords, stageLine } from "../survey/plan.js";
import type { Command } from "./command.js";
import { noteProgress, print, printJson } from "./messages.js";
import { boardText, bold, dim, paragraph, tableText } from "./terminal.js";

const RULE =
  "Each stage can be forced in so many moves at most, whatever the defender does, or he loses sooner. Of all ways over the stations this one has the least sum of the squares of its stages: few stages, none of them long. A move marked □ is the only one that wins. Under the fifty-move rule a win may come too late; the arbiter decides (FIDE Laws 9.3).";

function printPlan(plan: Plan): void {
  print(boardText(plan.fen));
  print("");
  print(
    paragraph(
      `Won: mate in ${plan.dtm}, mate or the first gain in ${plan.dtc}. ${plan.stages.length === 1 ? "One stage:" : `In ${plan.stages.length} stages:`}`,
    ),
  );
  let from = plan.fen;
  plan.stages.forEach((stage, n) => {
    const only = stage.line.filter((move) => move.only).length;
    print("");
    print(bold(paragraph(`${n + 1}. ${stageInWords(stage)}`)));
    print(paragraph(stageLine(from, stage.line)));
    if (only > 0)
      print(
        dim(
          only === 1
            ? "One of the attacker's moves is the only one that wins"
            : `${only} of the attacker's moves are the only ones that win`,
        ),
      );
    if (n + 1 < plan.stages.length) print(boardText(stage.fen));
    from = stage.fen;
  });
  print(`\n${dim(paragraph(RULE))}`);
}

const percent = (part: number, whole: number) => `${((100 * part) / whole).toFixed(1)} %`;

function printStations({ material, won, stations, goals, forced }: StationsFound): void {
  print(
    `${material}: ${won.toLocaleString("en")} placements are won, each with all its twins and both turns.\n`,
  );
  print(
    tableText([
      { head: "station", cells: stations.map(({ name }) => name), shrinksTo: 14 },
      { head: "won", cells: stations.map((one) => one.won.toLocaleString("en")), right: true },
      { head: "longest win", cells: stations.map((one) => String(one.longestWin)), right: true, optional: 2 },
      {
        head: "forced from",
        cells: forced.map((one) => percent(one, won)),
        right: true,
        optional: 1,
      },
    ]),
  );
  const limits = [...new Set(goals.map(({ within }) => within))].sort((a, b) => a - b);
  const [least, most] = [limits[0], limits.at(-1)!];
  const of = (station: number, within: number) =>
    goals.findIndex((goal) => goal.station === station && goal.within === within);
  print(`\n${bold("How far one is from another")}`);
  print(
    paragraph(
      `Moves at most from a station with a win within ${most} moves (rows) to one with a win within ${least} (columns, numbered as the rows)`,
    ),
  );
  print(
    tableText([
      { head: "from", cells: stations.map(({ name }, n) => `${n + 1} ${name}`), shrinksTo: 14 },
      ...stations.map((_, to) => ({
        head: String(to + 1),
        cells: stations.map((_, from) => String(goals[of(to, least)]?.from[of(from, most)] ?? "")),
        right: true,
      })),
    ]),
  );
  print(
    `\n${dim(paragraph("Forced from: the share of all won placements from which the attacker can bring it about on a defender who does not step into mate or give a piece away at once. Longest win and moves at most: to mate or the first gain; where a win before the station counts as well, from every won placement it is reached or passed by."))}`,
  );
}

export const run: Command = async (words, options, workspace) => {
  const fen = typedFen(words);
  if (fen === "") {
    const found = await stationsFound(workspace, noteProgress);
    if (options.json) printJson(found);
    else printStations(found);
    return 0;
  }
  const plan = await planFound(workspace, fen, noteProgress);
  if (options.json) printJson(plan);
  else printPlan(plan);
  return 0;
};

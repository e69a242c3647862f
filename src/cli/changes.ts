// `changes`: what set-ups turn into when the attacker tests them, over the whole table and in games.

import { type ChangesFound, changesFound } from "../app/theory.js";
import { changeMapSvg } from "../documents/change-map.js";
import type { Changes } from "../survey/changes.js";
import type { Command } from "./command.js";
import { writeDrawing } from "./output.js";
import { noteProgress, print, printJson } from "./messages.js";
import { setUpNames } from "./set-up-names.js";
import { bold, dim, paragraph, tableText } from "./terminal.js";

/** Shares below this are left out of the table. */
const LEAST = 0.001;
const percent = (share: number) => `${(100 * share).toFixed(1)} %`;

function printChanges(
  { setUp, held, moves, stay, captures, into, nameless }: Changes,
  found: ChangesFound,
): void {
  print(`\n${bold(setUp)}: ${held.toLocaleString("en")} placements not won, attacker to move`);
  const rows = [
    { says: "a reply keeps it", moves: stay, to: "" },
    { says: "only a capture saves, and ends it", moves: captures, to: "" },
    ...into.map((one) => ({ says: `into ${one.setUp}`, moves: one.moves, to: one.setUp })),
    { says: "into nothing named", moves: nameless, to: "" },
  ].filter((row) => row.moves >= LEAST * moves);
  const inGames = (to: string) => found.games?.find((one) => one.from === setUp && one.to === to);
  print(
    tableText([
      { head: "a quiet move is answered", cells: rows.map(({ says }) => says), shrinksTo: 32 },
      { head: "of its moves", cells: rows.map((row) => percent(row.moves / moves)), right: true },
      ...(found.games
        ? [
            {
              head: "in games",
              cells: rows.map(({ to }) => (to === "" ? "" : String(inGames(to)?.changes ?? 0))),
              right: true,
            },
            {
              head: "draw kept",
              cells: rows.map(({ to }) => {
                const change = to === "" ? undefined : inGames(to);
                return change && change.of > 0 ? `${change.count} of ${change.of}` : "";
              }),
              right: true,
              optional: 1,
            },
          ]
        : []),
    ]),
  );
}

export const run: Command = async (words, options, workspace) => {
  const names = setUpNames(words, (name) => workspace.catalogue.known.has(name));
  // a database that is named must be there
  if (options.db !== undefined) workspace.db();
  const found = await changesFound(workspace, names, noteProgress);
  writeDrawing(options, () => changeMapSvg(found));
  if (options.json) {
    for (const row of found.table)
      printJson({
        ...row,
        games: found.games?.filter(({ from }) => from === row.setUp) ?? null,
        shown: found.shown?.filter(({ from }) => from === row.setUp) ?? null,
      });
    return 0;
  }
  for (const changes of found.table) printChanges(changes, found);
  const note =
    "Each placement counts with all its twins. One move can be answered so as to reach several set-ups, so that shares of “into” may add up to more than what is left.";
  print(`\n${dim(paragraph(note))}`);
  // how the games of a change are asked for, by the example that has most
  const [example] = [...(found.shown ?? [])].sort((a, b) => b.endings - a.endings);
  if (example && example.endings > 0) {
    const many = `${example.endings} ${example.endings === 1 ? "ending" : "endings"}`;
    print(
      `\n${paragraph(`The games of a change are a question too; ${example.from} into ${example.to}, ${many}:`)}`,
    );
    print(`  longside find "${example.question}"`);
  }
  return 0;
};

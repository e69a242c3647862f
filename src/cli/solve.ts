// `solve`: builds exact tables.

import { parseMaterial } from "../chess/material.js";
import { TableFile, tableFile } from "../tablebase/table-file.js";
import { halvesOf, isEmpty } from "../tablebase/half.js";
import type { Command } from "./command.js";
import { counted } from "../position/wording.js";
import { print, printJson } from "./messages.js";
import { tableText } from "./terminal.js";

/** What a built table says of one side's wins. */
function describe(folder: string, half: ReturnType<typeof halvesOf>[number]) {
  if (isEmpty(half)) return { longestMate: null, longestConversion: null };
  const file = new TableFile(tableFile(folder, half), half);
  file.close();
  const { longestMate, longestConversion } = file.manifest.counts;
  return longestMate === 0
    ? { longestMate: null, longestConversion: null }
    : { longestMate, longestConversion };
}

export const run: Command = async (args, options, workspace) => {
  const materials = args.map(parseMaterial);
  const { folder } = workspace.settings;
  const built = await workspace.prepare(materials);
  const rows = materials.map((material) => {
    const [attacker, defender] = halvesOf(material).map((half) => describe(folder, half));
    return { material: material.name, attacker, defender };
  });
  if (options.json) {
    rows.forEach((row) => printJson({ ...row, folder, built: built.length > 0 }));
    return 0;
  }
  const shown = (value: number | null) => (value === null ? "no win" : String(value));
  print(
    tableText([
      { head: "material", cells: rows.map((row) => row.material) },
      {
        head: "attacker's longest win, moves to mate",
        cells: rows.map((row) => shown(row.attacker.longestMate)),
        right: true,
      },
      { head: "to conversion", cells: rows.map((row) => shown(row.attacker.longestConversion)), right: true },
      {
        head: "defender's, to mate",
        cells: rows.map((row) => shown(row.defender.longestMate)),
        right: true,
        optional: 1,
      },
    ]),
  );
  print(
    built.length === 0
      ? `Nothing to build: all tables are in ${folder}.`
      : `${counted(built.length, "table")} built in ${folder}.`,
  );
  return 0;
};

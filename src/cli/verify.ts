// `verify`: holds a material's tables against what is known from elsewhere.

import { type Material, parseMaterial } from "../chess/material.js";
import { LongsideError } from "../errors.js";
import { verifyTables } from "../survey/verify.js";
import { type Sample } from "../tablebase/checks.js";
import type { Command } from "./command.js";
import type { Options } from "./options.js";
import { print, printJson } from "./messages.js";
import { bold, tableText } from "./terminal.js";

const SAMPLE = 20_000;
/** More pieces make a table of which every placement cannot be tried by hand. */
const EVERY_PIECES = 4;

function sampleFor(material: Material, options: Options): Sample {
  if (!options.every) return options.sample ?? SAMPLE;
  if (material.men <= EVERY_PIECES) return "every";
  const cause = `${material.name} has too many placements; every one is tried for up to ${EVERY_PIECES} pieces`;
  throw new LongsideError("bad-option", { option: "--every", cause, command: "verify" });
}

export const run: Command = async (args, options, workspace) => {
  const { folder, threads } = workspace.settings;
  const checked = args
    .map(parseMaterial)
    .map((material) => ({ material, sample: sampleFor(material, options) }));
  await workspace.prepare(checked.map(({ material }) => material));
  let failed = false;
  for (const { material, sample } of checked) {
    const checks = await verifyTables(material, folder, sample, threads);
    failed ||= checks.some((check) => !check.passed);
    if (options.json) {
      checks.forEach((check) => printJson({ material: material.name, ...check }));
      continue;
    }
    print(bold(material.name));
    print(
      tableText(
        [
          { head: "", cells: checks.map((check) => (check.passed ? "ok" : "FAILED")) },
          { head: "check", cells: checks.map((check) => check.name), shrinksTo: 24 },
          { head: "found", cells: checks.map((check) => check.detail), shrinksTo: 20 },
        ],
        { wrap: true },
      ),
    );
  }
  return failed ? 2 : 0;
};

// `verify`: holds a material's tables against what is known from elsewhere.

import { parseMaterial } from "../chess/material.js";
import { verifyTables } from "../study/verify.js";
import type { Command } from "./options.js";
import { ensureTables } from "./session.js";
import { bold, print, printJson, tableText } from "./terminal.js";

const SAMPLE = 20_000;

export const run: Command = async (args, options) => {
  const materials = args.map(parseMaterial);
  const folder = await ensureTables(materials, options);
  let failed = false;
  for (const material of materials) {
    const checks = verifyTables(material, folder, options.sample ?? SAMPLE);
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

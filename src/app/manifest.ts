// What a result was made from, so that it can be made again and cited: program, command, database, sources, tables, and what
// was left out. The same command on the same database gives the same text.

import { basename } from "node:path";

import type { Manifest } from "../statistics/manifest.js";
import { SCHEMA_VERSION } from "../store/schema.js";
import { contentSignature } from "../store/signature.js";
import { sourcesHeld } from "../store/totals.js";
import { halvesOf, neededHalves } from "../tablebase/half.js";
import { tableDigest, tableFile } from "../tablebase/table-file.js";
import { version } from "../places.js";
import type { Workspace } from "./workspace.js";

/** The manifest of a result. Throws `no-database`. */
export function manifestOf(
  workspace: Workspace,
  made: Pick<Manifest, "command" | "question" | "counted" | "unit" | "leftOut">,
): Manifest {
  const db = workspace.db();
  const signature = contentSignature(db);
  const tables: Record<string, string> = {};
  for (const half of neededHalves(halvesOf(workspace.target()))) {
    try {
      tables[half.name] = tableDigest(tableFile(workspace.settings.folder, half));
    } catch {
      tables[half.name] = "not there";
    }
  }
  return {
    program: "longside",
    version: version(),
    command: made.command,
    question: made.question,
    database: { file: basename(workspace.settings.db), schema: SCHEMA_VERSION, signature },
    sources: sourcesHeld(db),
    tables,
    counted: made.counted,
    unit: made.unit,
    leftOut: made.leftOut,
    cite: `longside ${version()} (computer program, GPL-3.0-or-later): ${made.command}; database of signature ${signature.slice(0, 16)}.`,
  };
}

// What a result was made from, so that it can be made again and cited: program, command, database, sources, tables, and what
// was left out. The same command on the same database gives the same text.

import { basename } from "node:path";

import type { Manifest } from "../statistics/manifest.js";
import { columnStoreOf } from "../store/column-store.js";
import { SCHEMA_VERSION } from "../store/schema.js";
import { contentSignature } from "../store/signature.js";
import { sourcesHeld } from "../store/totals.js";
import { halvesOf, neededHalves } from "../tablebase/half.js";
import { tableDigest, tableFile } from "../tablebase/table-file.js";
import { version } from "../places.js";
import { startThread } from "../threads.js";
import type { Workspace } from "./workspace.js";

/** Slices of a database from which on its signature is worth a thread of its own. */
const LARGE = 8;

/**
 * Begins to work out the signature of the database, which looks at all of it: in a large one on a thread, while this one goes
 * on. Gives a function that waits for it.
 */
export function beginSignature(workspace: Workspace): () => Promise<string> {
  const db = workspace.db();
  if (workspace.settings.threads < 2 || columnStoreOf(db).sliceCount < LARGE)
    return () => Promise.resolve(contentSignature(db));
  const thread = startThread("signature", db.name);
  const sent = new Promise<string>((resolve) => thread.port.once("message", resolve));
  // a listener keeps the process alive; only who waits should
  thread.port.unref();
  return async () => {
    thread.port.ref();
    const signature = await Promise.race([sent, thread.ended]);
    thread.end();
    // what is wrong with the database is told here
    return signature ?? contentSignature(db);
  };
}

/** The manifest of a result; `signature` is the database's, where it is known. Throws `no-database`. */
export function manifestOf(
  workspace: Workspace,
  made: Pick<Manifest, "command" | "question" | "counted" | "unit" | "leftOut">,
  signature: string = contentSignature(workspace.db()),
): Manifest {
  const db = workspace.db();
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

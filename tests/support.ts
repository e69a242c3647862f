// What several tests need: the default target and its tables, random placements, running the command line.

import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll } from "vitest";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../src/chess/material.js";
import { PACKAGE, cacheFolder } from "../src/places.js";
import { Tables } from "../src/tablebase/tables.js";

export { indexBundled } from "./bundled.js";

export const TARGET = parseMaterial(DEFAULT_TARGET);

/** The default target's tables, closed after the file's tests. */
export function openTables(material: Material = TARGET): Tables {
  const tables = new Tables(material, cacheFolder());
  afterAll(() => tables.close());
  return tables;
}

/** Folders of src in the order in which data goes through them; a folder imports from those before it. */
export const FOLDERS = [
  "chess",
  "pgn",
  "tablebase",
  "geometry",
  "endings",
  "store",
  "indexing",
  "query",
  "position",
  "survey",
  "statistics",
  "exercises",
  "documents",
  "app",
  "server",
  "page",
  "cli",
];

/** A folder that is deleted after the file's tests. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "longside-test-"));
  // a thread that was not waited for may still open the database in it, and so make a file
  afterAll(() => rmSync(folder, { recursive: true, force: true, maxRetries: 10 }));
  return folder;
}

export interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the compiled command line. */
export function longside(
  args: readonly string[],
  options: { cwd?: string; input?: string | Buffer; env?: NodeJS.ProcessEnv } = {},
): Outcome {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(PACKAGE, "dist", "src", "cli", "main.js"), ...args],
    {
      encoding: "utf8",
      cwd: options.cwd,
      input: options.input ?? "",
      env: {
        ...process.env,
        npm_lifecycle_event: undefined,
        NO_COLOR: "1",
        LONGSIDE_CACHE: cacheFolder(),
        ...options.env,
      },
      maxBuffer: 1 << 28,
    },
  );
  return { status, stdout, stderr };
}

export const jsonLines = <T>(text: string): T[] =>
  text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as T);

/** Real games with independently computed truth; absent on most machines, and tests that need it then skip. */
export const SHARED = join(PACKAGE, "..", "shared", "data");
export const hasShared = existsSync(join(SHARED, "endings.expected.tsv"));

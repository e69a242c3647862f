// Running one command: its options become settings before any work begins, and what it opens is closed behind it.

import { type Stats, statSync } from "node:fs";
import { availableParallelism } from "node:os";

import { type Settings, Workspace } from "../app/workspace.js";
import { DEFAULT_TARGET, parseMaterial } from "../chess/material.js";
import { LongsideError, notReadable } from "../errors.js";
import { cacheFolder } from "../places.js";
import { findBrowser } from "./browser.js";
import { guardFiles } from "./guard-files.js";
import { type CommandSpec, DEFAULT_DB, type Options } from "./options.js";
import { TableBuild } from "./progress.js";

/** Runs a command and gives its exit status: 0 found, 1 nothing found; errors are thrown. */
export type Command = (
  args: readonly string[],
  options: Options,
  workspace: Workspace,
) => number | Promise<number>;

/** What the options say, with what is usual where they say nothing. Throws `bad-material`. */
export const settingsOf = (options: Options): Settings => ({
  db: options.db ?? DEFAULT_DB,
  target: parseMaterial(options.target ?? DEFAULT_TARGET).name,
  setUps: options.setUps ?? null,
  folder: cacheFolder(),
  threads: Math.min(options.threads ?? Infinity, availableParallelism()),
});

/** Throws `not-a-database` for a pipe or a device, on which SQLite would wait or fail without a clear word; `not-readable`. */
function mustBeFile(path: string): void {
  let there: Stats | undefined;
  try {
    there = statSync(path, { throwIfNoEntry: false });
  } catch (thrown) {
    throw notReadable(path, thrown);
  }
  if (there && !there.isFile() && !there.isDirectory())
    throw new LongsideError("not-a-database", { path, cause: "it is no file" });
}

/** A workspace that builds missing tables with a progress bar. Throws `bad-material`, `bad-set-up`. */
export const workspaceFor = (options: Options): Workspace => {
  const settings = settingsOf(options);
  if (!settings.db.includes("\0")) mustBeFile(settings.db);
  return new Workspace(settings, new TableBuild(settings.folder));
};

/** Finds a command's module by its name and runs it. Throws `bad-material`, `bad-set-up`, `no-browser` and what it throws. */
export async function runCommand(
  spec: CommandSpec,
  args: readonly string[],
  options: Options,
): Promise<number> {
  const { name, module = name } = spec;
  const workspace = workspaceFor(options);
  guardFiles(spec, args, options, workspace.settings.db);
  if (options.pdf !== undefined) findBrowser();
  try {
    const { run } = (await import(`./${module}.js`)) as { run: Command };
    return await run(args, options, workspace);
  } finally {
    workspace.close();
  }
}

// Running one command: its options become settings before any work begins, and what it opens is closed behind it.

import { availableParallelism } from "node:os";

import { type Settings, Workspace } from "../app/workspace.js";
import { DEFAULT_TARGET, parseMaterial } from "../chess/material.js";
import { cacheFolder } from "../places.js";
import { refuseNoFile } from "../store/database.js";
import { findBrowser } from "../documents/browser.js";
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

/** A workspace that builds missing tables with a progress bar. Throws `bad-material`, `bad-set-up`, `not-a-database`. */
export const workspaceFor = (options: Options): Workspace => {
  const settings = settingsOf(options);
  // a pipe or a folder is refused before any work, also where a command can do without a database
  if (options.db !== undefined) refuseNoFile(options.db);
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

// No output takes the place of an input: before any work begins, every file that a command is to write is compared with the
// database and its side files, with the games, the outline and the set-ups that it is to read, and with the other outputs,
// through links too.

import { type Stats, realpathSync, statSync } from "node:fs";
import { basename, dirname, join, resolve } from "node:path";

import { LongsideError } from "../errors.js";
import { isBelow } from "../pgn/files/find.js";
import { SIDE_FILES } from "../store/database.js";
import { codebookPath } from "./output.js";
import { type CommandSpec, OPTIONS, type OptionName, type Options } from "./options.js";

interface Named {
  readonly what: string;
  readonly path: string;
}

/** A path as the system would open it: links followed, as far as it is there. */
function placeOf(path: string): string {
  const whole = resolve(path);
  try {
    return realpathSync(whole);
  } catch {
    const folder = dirname(whole);
    return folder === whole ? whole : join(placeOf(folder), basename(whole));
  }
}

const infoOf = (path: string): Stats | undefined => {
  try {
    return statSync(path);
  } catch {
    return undefined;
  }
};

/** Whether two paths lead to one file. */
function isSame(one: string, other: string): boolean {
  const [first, second] = [infoOf(one), infoOf(other)];
  if (first && second && first.isFile() && second.isFile())
    return first.dev === second.dev && first.ino === second.ino;
  return placeOf(one) === placeOf(other);
}

/** Whether a file is there and lies below a folder. */
function isFileBelow(path: string, folder: string): boolean {
  if (!infoOf(path)?.isFile() || !infoOf(folder)?.isDirectory()) return false;
  return isBelow(placeOf(path), placeOf(folder));
}

const filesOf = (options: Options, role: "input" | "output"): Named[] =>
  (Object.keys(OPTIONS) as OptionName[]).flatMap((name) => {
    const { flags, file } = OPTIONS[name] as { flags: string; file?: string };
    const path = (options as Partial<Record<OptionName, unknown>>)[name];
    return file === role && typeof path === "string" ? [{ what: flags.split(" ")[0], path }] : [];
  });

/** Throws `bad-option` where a command would write over something that it is to read, or write two things to one place. */
export function guardFiles(
  { name, argumentsAre }: CommandSpec,
  args: readonly string[],
  options: Options,
  db: string,
): void {
  const outputs = filesOf(options, "output");
  if (options.data !== undefined)
    outputs.push({ what: "the codebook of --data", path: codebookPath(options.data) });
  if (outputs.length === 0 && argumentsAre !== "databases") return;
  const inputs: Named[] = [
    { what: "the database", path: db },
    ...SIDE_FILES.map((suffix) => ({ what: "a file of the database", path: `${db}${suffix}` })),
    ...filesOf(options, "input").map(({ what, path }) => ({ what: `the file of ${what}`, path })),
  ];
  const read = argumentsAre === undefined ? [] : args.map((path) => ({ what: path, path }));
  const fail = (option: string, cause: string) =>
    new LongsideError("bad-option", { option, cause, command: name });
  outputs.forEach((output, n) => {
    const input = [...inputs, ...read].find(({ path }) => isSame(path, output.path));
    if (input)
      throw fail(
        output.what,
        `${output.path} is ${input.what === output.path ? "what is to be read" : input.what}`,
      );
    const folder = read.find(({ path }) => isFileBelow(output.path, path));
    if (folder)
      throw fail(
        output.what,
        `${output.path} is there already, in the folder ${folder.path} that is to be read`,
      );
    const twin = outputs.slice(0, n).find(({ path }) => isSame(path, output.path));
    if (twin) throw fail(output.what, `${output.path} is what ${twin.what} writes`);
  });
  if (argumentsAre === "databases")
    for (const { path } of read)
      if (isSame(path, db)) throw fail("--db", `${db} is one of the databases that are to be merged`);
}

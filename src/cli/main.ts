#!/usr/bin/env node
// The command line: one parser made from the table of commands and options. Data goes to standard output,
// messages to standard error; exit status 0 found, 1 nothing found, 2 error.

import { Command as Parser, CommanderError, InvalidArgumentError, Option } from "commander";

import { LongsideError } from "../errors.js";
import { QuestionFault } from "../questions/fault.js";
import { nearest } from "../questions/words.js";
import { COMMANDS, OPTIONS, type OptionSpec, type Options } from "./options.js";
import { note, printJson, programName, terminalWidth } from "./terminal.js";

const FAILED = 2;

const PURPOSE = "Find, count and study one technical chess ending in your games, with exact verdicts.";

const INTRODUCTION = () => {
  const me = programName();
  return `${PURPOSE}

  ${me} index games/ --db games.db
  ${me} find "defender drew with the rook on the long side" --db games.db
  ${me} probe "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"

All commands: ${me} --help`;
};

function makeOption({ flags, help, read }: OptionSpec): Option {
  const option = new Option(flags, help);
  if (read) {
    option.argParser((text: string) => {
      try {
        return read(text);
      } catch (thrown) {
        throw new InvalidArgumentError((thrown as Error).message);
      }
    });
  }
  return option;
}

function makeParser(finish: (status: number) => void): Parser {
  const parser = new Parser("longside").description(PURPOSE).helpCommand(false).exitOverride();
  parser.configureOutput({ outputError: () => {} });
  parser.configureHelp({ helpWidth: Math.min(terminalWidth(), 110) });
  for (const spec of COMMANDS) {
    const command = parser.command(spec.name).summary(spec.summary).description(`${spec.summary}.`);
    if (spec.arguments) command.arguments(spec.arguments);
    for (const name of spec.options) command.addOption(makeOption(OPTIONS[name]));
    command.addHelpText(
      "after",
      `\nFor example:\n${spec.examples.map((text) => `  ${programName()} ${text}`).join("\n")}`,
    );
    command.action(async (...given: unknown[]) => {
      const args = spec.arguments ? [given[0]].flat().filter((arg) => arg !== undefined) : [];
      const options = command.opts<Options>();
      const { run } = await spec.load();
      finish(await run(args as string[], options));
    });
  }
  return parser;
}

/** Tells what went wrong, on standard error; as one JSON object where the user asked for JSON. */
function report(thrown: unknown, json: boolean): void {
  if (thrown instanceof LongsideError) {
    if (json) return printJson(thrown);
    if (thrown instanceof QuestionFault) note(thrown.pointer(terminalWidth()));
    const { file, game, byte, ply } = thrown.where;
    const places = [
      file === undefined ? [] : `file ${file}`,
      game === undefined ? [] : `game ${game}`,
      byte === undefined ? [] : `byte ${byte}`,
      ply === undefined ? [] : `ply ${ply}`,
    ].flat();
    note(`longside: ${thrown.message}${places.length > 0 ? ` (${places.join(", ")})` : ""}`);
    note(`  ${thrown.hint}`);
    return;
  }
  if (thrown instanceof CommanderError) {
    note(`longside: ${thrown.message.replace(/^error: /, "")}`);
    const unknown = /unknown command '(.+)'/.exec(thrown.message)?.[1];
    const near =
      unknown &&
      nearest(
        unknown,
        COMMANDS.map((command) => command.name),
      );
    note(near ? `  did you mean ${near}?` : `  see: ${programName()} --help`);
    return;
  }
  const code = (thrown as { code?: unknown }).code;
  note(`longside: ${thrown instanceof Error ? thrown.message : String(thrown)}`);
  if (typeof code === "string" && code.startsWith("SQLITE")) {
    note("  the database could not be used; check the space on the disk and the file's permissions");
  } else if (thrown instanceof Error && process.env.LONGSIDE_DEBUG) {
    note(thrown.stack ?? "");
  }
}

async function main(argv: readonly string[]): Promise<number> {
  if (argv.length === 0) {
    process.stdout.write(`${INTRODUCTION()}\n`);
    return 0;
  }
  let status = 0;
  const parser = makeParser((code) => (status = code));
  try {
    await parser.parseAsync(argv, { from: "user" });
    return status;
  } catch (thrown) {
    if (thrown instanceof CommanderError && thrown.exitCode === 0) return 0;
    report(thrown, argv.includes("--json"));
    return FAILED;
  }
}

// a reader that has seen enough (head) closes the pipe: that is no error
process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  if (error.code === "EPIPE") process.exit(0);
  throw error;
});

// npm runs scripts from the package's folder; paths are meant from where the user stands
if (process.env.npm_lifecycle_event === "longside" && process.env.INIT_CWD)
  process.chdir(process.env.INIT_CWD);

process.exitCode = await main(process.argv.slice(2));

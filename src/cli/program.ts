// The command line: one parser made from the table of commands and options. Data goes to standard output,
// messages to standard error; exit status 0 found, 1 nothing found, 2 error.

import { Command as Parser, CommanderError, InvalidArgumentError, Option } from "commander";

import { LongsideError, errorOf } from "../errors.js";
import { version } from "../places.js";
import { QueryError } from "../query/language/query-error.js";
import { SetUpError } from "../query/language/set-up-error.js";
import { nearest } from "../query/language/tokens.js";
import { COMMANDS, DEFAULT_DB, OPTIONS, type OptionSpec, type Options } from "./options.js";
import { note, placeText, printFile, printJson, programName, terminalWidth } from "./messages.js";

const FAILED = 2;

const PURPOSE = "Find, count and study one technical chess ending in your games, with exact verdicts.";

const INTRODUCTION = () => {
  const me = programName();
  return `${PURPOSE}

  ${me} index games/ --db games.db
  ${me} find "defender drew with the rook on the long side" --db games.db
  ${me} probe "3k4/5R2/3K4/3B4/8/8/4r3/8 w - - 0 1"

All commands: ${me} --help. More on a topic: ${me} help`;
};

function makeOption({ flags, help, read, conflicts = [] }: OptionSpec): Option {
  const option = new Option(flags, help).conflicts([...conflicts]);
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
  parser.version(version(), "--version", "say which version this is");
  parser.configureOutput({ outputError: () => {} });
  const narrow = { helpWidth: Math.min(terminalWidth(), 110), minWidthToWrap: 20 };
  parser.configureHelp(narrow);
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
      // loaded only now, so that help is quick
      const { runCommand } = await import("./command.js");
      finish(await runCommand(spec, args as string[], command.opts<Options>()));
    });
  }
  return parser;
}

/** What was thrown, as an error of ours: with a code, a place and a hint. */
function explained(thrown: unknown, argv: readonly string[]): LongsideError {
  if (thrown instanceof LongsideError) return thrown;
  if (thrown instanceof CommanderError) {
    const message = thrown.message.replace(/^error: /, "").replace(/\n[^]*$/, "");
    const unknown = /unknown command '(.+)'/.exec(message)?.[1];
    const names = COMMANDS.map((command) => command.name);
    const near = unknown && nearest(unknown, names);
    const command = names.find((name) => name === argv[0]);
    const suggested = /Did you mean (.+)\?/.exec(thrown.message)?.[1] ?? near;
    const hint = suggested
      ? `did you mean ${suggested}?`
      : `see: longside ${command ? `${command} ` : ""}--help`;
    return new LongsideError("bad-usage", { message, hint });
  }
  const given = argv.indexOf("--db");
  return errorOf(thrown, given >= 0 ? argv[given + 1] : DEFAULT_DB);
}

/** A hint with the commands in it as they have to be typed here. */
const typed = (hint: string): string => hint.replace(/\blongside (?=[a-z-])/g, `${programName()} `);

/** Tells what went wrong, on standard error; as one JSON object where the user asked for JSON. */
export function report(thrown: unknown, argv: readonly string[]): void {
  const error = explained(thrown, argv);
  if (argv.includes("--json")) {
    const told = error.toJSON();
    printJson({ error: { ...told.error, hint: typed(told.error.hint) } });
    return;
  }
  if (error instanceof QueryError || error instanceof SetUpError) note(error.pointer(terminalWidth()));
  note(`longside: ${error.message}${placeText(error.where)}`);
  note(`  ${typed(error.hint)}`);
  if (process.env.LONGSIDE_DEBUG && thrown instanceof Error) note(thrown.stack ?? "");
}

/** Runs the program with its arguments and gives the exit status; whatever goes wrong has been told then. */
export async function runProgram(argv: readonly string[]): Promise<number> {
  if (argv.length === 0) {
    printFile(`${INTRODUCTION()}\n`);
    return 0;
  }
  let status = 0;
  const parser = makeParser((code) => (status = code));
  try {
    await parser.parseAsync(argv, { from: "user" });
    return status;
  } catch (thrown) {
    if (thrown instanceof CommanderError && thrown.exitCode === 0) return 0;
    report(thrown, argv);
    return FAILED;
  }
}

// Running the command line within this process, with what it says caught.

import { runProgram } from "../../src/cli/program.js";
import { faultIn, isErrorCode } from "./campaign.js";

export interface Said {
  readonly status: number;
  readonly stdout: string;
  readonly stderr: string;
}

/** Seconds after which a command is taken to hang. */
const HANGS = 120;

/** Runs a command; throws what it throws. */
export async function run(argv: readonly string[]): Promise<Said> {
  const said = { stdout: "", stderr: "" };
  const own = { stdout: process.stdout.write, stderr: process.stderr.write };
  const catching = (name: "stdout" | "stderr") => (text: string | Uint8Array) => {
    said[name] += String(text);
    return true;
  };
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<never>((_, failed) => {
    timer = setTimeout(() => failed(new Error(`no end after ${HANGS} s`)), 1000 * HANGS);
  });
  process.stdout.write = catching("stdout");
  process.stderr.write = catching("stderr");
  try {
    const status = await Promise.race([runProgram(argv), late]);
    return { status, ...said };
  } finally {
    clearTimeout(timer);
    process.stdout.write = own.stdout;
    process.stderr.write = own.stderr;
  }
}

/** What is wrong with how a command went; `read` is what it was given to read. */
export async function faultOf(argv: readonly string[], read = ""): Promise<string | undefined> {
  let said: Said;
  try {
    said = await run(argv);
  } catch (thrown) {
    return `it throws ${String((thrown as Error).stack ?? thrown).slice(0, 400)}`;
  }
  if (![0, 1, 2].includes(said.status)) return `its status is ${said.status}`;
  const fault = faultIn(said.stderr) ?? faultIn(said.stdout);
  // a word of the user's that is quoted is no fault of the program
  if (fault && ![...argv, read].some((word) => /undefined|NaN|\[object/.test(word))) return fault;
  if (said.status === 2 && argv.includes("--json") && said.stdout !== "") {
    const last = said.stdout.trimEnd().split("\n").at(-1)!;
    const { error } = JSON.parse(last) as { error?: { code?: unknown } };
    if (error !== undefined && !isErrorCode(error.code)) return `its error is ${JSON.stringify(error)}`;
  }
  return said.status === 2 && said.stderr === "" && said.stdout === ""
    ? "it fails without a word"
    : undefined;
}

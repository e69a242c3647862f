// What a command says: data to standard output, messages to standard error. It needs no library but the small one that
// knows when colour is wanted, so that help is quick; tables and boards are made in terminal.ts.

import pc from "picocolors";

import type { Where } from "../errors.js";
import { safeJson, terminalText } from "../plain-text.js";
import { capital } from "../position/wording.js";

/** Columns of the terminal; of a file or a pipe, which has none, what COLUMNS says, or 100. */
export const terminalWidth = (): number => process.stdout.columns || Number(process.env.COLUMNS) || 100;

/** Prints data. */
export const print = (text: string): void => {
  process.stdout.write(`${terminalText(text, pc.isColorSupported)}\n`);
};
/** Prints data in a format of its own, whose writer has seen to it that it is plain. */
export const printFile = (text: string): void => {
  process.stdout.write(text);
};
/** A message, as opposed to data: goes to standard error. */
export const note = (text: string): void => {
  process.stderr.write(`${terminalText(text, pc.isColorSupported)}\n`);
};
/** Says on standard error how far some work has come: "choosing" as "Choosing …". */
export const noteProgress = (said: string): void => note(`${capital(said)} …`);
export const printJson = (value: unknown): void => {
  process.stdout.write(`${safeJson(value)}\n`);
};

/** Where in the input something is: " (file games.pgn, game 7, byte 5210)". */
export function placeText(where: Where): string {
  const names = ["file", "line", "game", "byte", "ply"] as const;
  const places = names.filter((name) => where[name] !== undefined).map((name) => `${name} ${where[name]}`);
  return places.length > 0 ? ` (${places.join(", ")})` : "";
}

/** How this program is called, so that what to type next can be pasted. */
export const programName = (): string =>
  process.env.npm_lifecycle_event === undefined ? "longside" : "npm run -s longside --";

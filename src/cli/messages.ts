// What a command says: data to standard output, messages to standard error. It needs no library, so that help is quick;
// tables and boards are made in terminal.ts.

import type { Where } from "../errors.js";
import { capital } from "../position/wording.js";

/** Columns of the terminal; of a file or a pipe, which has none, what COLUMNS says, or 100. */
export const terminalWidth = (): number => process.stdout.columns || Number(process.env.COLUMNS) || 100;

/** Text without the control characters that names and file names from anywhere may hold; our colours stay. */
export const plain = (text: string): string =>
  text.replace(/\u001b\[\d+m|[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g, (said) =>
    said.length > 1 ? said : "",
  );

/** Prints data. */
export const print = (text: string): void => {
  process.stdout.write(`${plain(text)}\n`);
};
/** A message, as opposed to data: goes to standard error. */
export const note = (text: string): void => {
  process.stderr.write(`${plain(text)}\n`);
};
/** Says on standard error how far some work has come: "choosing" as "Choosing …". */
export const noteProgress = (said: string): void => note(`${capital(said)} …`);
export const printJson = (value: unknown): void => {
  process.stdout.write(`${JSON.stringify(value)}\n`);
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

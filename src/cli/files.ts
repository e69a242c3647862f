// Writing results to files.

import { mkdirSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

import { LongsideError, causeOf } from "../errors.js";
import { note } from "./terminal.js";

/** Writes a file, making its folder. Throws `cannot-write`. */
export function writeResult(path: string, content: string | Uint8Array): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** The same, and says so. */
export function writeAndSay(path: string, content: string | Uint8Array): void {
  writeResult(path, content);
  note(`Written: ${path}`);
}

/** The command that was typed, as a page quotes it: words with blanks or signs in quotes. */
export const typedCommand = (): string =>
  ["longside", ...process.argv.slice(2)]
    .map((word) => (/^[\w./:=,+-]+$/.test(word) ? word : `"${word.replaceAll('"', '\\"')}"`))
    .join(" ");

/** Today as 2026-01-31. */
export const today = (): string => new Date().toISOString().slice(0, 10);

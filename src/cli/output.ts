// Writing results to files: each is whole or not there.

import { mkdirSync, statSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";

import { writeWhole } from "../write-whole.js";

import { LongsideError, causeOf } from "../errors.js";
import { pngOf } from "../documents/png.js";
import { pdfOf } from "../documents/browser.js";
import type { Options } from "./options.js";
import { note } from "./messages.js";

/**
 * Writes a file beside its place and renames it, so that a run that is stopped leaves the old one; makes its folder. Throws
 * `cannot-write`.
 */
export function writeResult(path: string, content: string | Uint8Array): void {
  try {
    mkdirSync(dirname(path), { recursive: true });
    const there = statSync(path, { throwIfNoEntry: false });
    // a pipe or a terminal has no place beside it
    if (there && !there.isFile()) writeFileSync(path, content);
    else writeWhole(path, content);
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** The same, and says so. */
export function writeAndSay(path: string, content: string | Uint8Array): void {
  writeResult(path, content);
  note(`Written: ${path}`);
}

/** A path without the slash that may stand behind the name of a folder. */
export const withoutSlash = (path: string): string => path.replace(/(?<=.)[/\\]+$/, "");

/** Where the codebook of a data file, or of a folder of them, is written. */
export const codebookPath = (data: string): string => `${withoutSlash(data)}.codebook.csv`;

/** Writes a drawing as SVG and as PNG, where the user asked for either. */
export function writeDrawing(options: Options, draw: () => string): void {
  if (options.svg === undefined && options.png === undefined) return;
  const svg = draw();
  if (options.svg !== undefined) writeAndSay(options.svg, svg);
  if (options.png === undefined) return;
  // a pixel for each of its units: a board is some nine hundred wide
  const units = Number(/viewBox="0 0 (\d+)/.exec(svg)![1]);
  writeAndSay(options.png, pngOf(svg, units));
}

/** Writes a page as HTML and as PDF, where either is asked for. Throws `cannot-write`, `no-browser`. */
export async function writePage({ html, pdf }: Options, make: () => string): Promise<void> {
  if (html === undefined && pdf === undefined) return;
  const page = make();
  if (html !== undefined) writeAndSay(html, page);
  if (pdf !== undefined) writeAndSay(pdf, await pdfOf(page, pdf));
}

/** The command that was typed, as a page quotes it: words with blanks or signs in quotes. */
export const typedCommand = (): string =>
  ["longside", ...process.argv.slice(2)]
    .map((word) => (/^[\w./:=,+-]+$/.test(word) ? word : `"${word.replaceAll('"', '\\"')}"`))
    .join(" ");

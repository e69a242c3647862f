// Printing a page to PDF with a browser, where one is installed.

import { spawn } from "node:child_process";
import { accessSync, constants, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";

import { LongsideError } from "../errors.js";
import { tightened } from "./printed-page.js";

const NAMES = [
  "chromium",
  "chromium-browser",
  "google-chrome",
  "google-chrome-stable",
  "chrome",
  "microsoft-edge",
];

/** The browser to use: LONGSIDE_BROWSER, or the first of the known ones on the path. Throws `no-browser`. */
export function findBrowser(): string {
  const own = process.env.LONGSIDE_BROWSER;
  const folders = (process.env.PATH ?? "").split(delimiter);
  const places = own
    ? [own]
    : NAMES.flatMap((name) => folders.filter((folder) => folder !== "").map((folder) => join(folder, name)));
  for (const place of places) {
    try {
      accessSync(place, constants.X_OK);
      return place;
    } catch {
      // the next one may be there
    }
  }
  throw new LongsideError("no-browser", {
    cause: own ? `${own} cannot be run` : `none of ${NAMES.join(", ")}`,
  });
}

/** Longest that printing may take, in milliseconds. */
const TIMEOUT = 120_000;

/** Pages of a PDF that a browser has written: each is an object of its own. */
const pagesOf = (pdf: Uint8Array): number =>
  Buffer.from(pdf.buffer, pdf.byteOffset, pdf.length)
    .toString("latin1")
    .match(/\/Type \/Page\b/g)?.length ?? 0;

/**
 * A page as PDF, which is meant for `path`; set closer where that saves a sheet of paper: only the browser knows how many
 * sheets a page takes either way, so that one of several is printed twice. Throws `no-browser`, and
 * `cannot-write` if the browser fails.
 */
export async function pdfOf(html: string, path: string): Promise<Uint8Array> {
  const usual = await printed(html, path);
  if (pagesOf(usual) <= 1) return usual;
  const closer = await printed(tightened(html), path);
  return pagesOf(closer) < pagesOf(usual) ? closer : usual;
}

/** A page as the browser prints it. */
async function printed(html: string, path: string): Promise<Uint8Array> {
  const browser = findBrowser();
  const folder = mkdtempSync(join(tmpdir(), "longside-print-"));
  try {
    const page = join(folder, "page.html");
    const pdf = join(folder, "page.pdf");
    writeFileSync(page, html);
    const args = [
      "--headless",
      "--disable-gpu",
      "--no-first-run",
      `--user-data-dir=${join(folder, "profile")}`,
      "--no-pdf-header-footer",
      `--print-to-pdf=${pdf}`,
      // browsers refuse to run their sandbox for the administrator; the page is our own and runs no script
      ...(process.getuid?.() === 0 ? ["--no-sandbox"] : []),
      pathToFileURL(page).href,
    ];
    const cause = await new Promise<string | undefined>((done) => {
      const child = spawn(browser, args, { stdio: ["ignore", "ignore", "pipe"] });
      let said = "";
      const timer = setTimeout(() => child.kill(), TIMEOUT);
      child.stderr.on("data", (data: Buffer) => (said += data.toString()));
      child.on("error", (error) => done(error.message));
      child.on("close", (status) => {
        clearTimeout(timer);
        done(status === 0 && existsSync(pdf) ? undefined : `${browser}: ${said.trim().split("\n").at(-1)}`);
      });
    });
    if (cause !== undefined) throw new LongsideError("cannot-write", { path, cause });
    return readFileSync(pdf);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

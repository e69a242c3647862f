// Where files are on disk: the package's own files, and the user's cache folder of tables.
//
// Compiled code runs from dist/, tests run the sources; both find the package by walking up to package.json,
// so that worker files and the kernels have one address for both.

import { existsSync, readFileSync } from "node:fs";
import { homedir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

function packageRoot(): string {
  let folder = dirname(fileURLToPath(import.meta.url));
  while (!existsSync(join(folder, "package.json"))) folder = dirname(folder);
  return folder;
}

/** The folder that holds package.json. */
export const PACKAGE = packageRoot();

/** This program's version. */
export const version = (): string =>
  (JSON.parse(readFileSync(join(PACKAGE, "package.json"), "utf8")) as { version: string }).version;

/** The built page of the local server. */
export const pageFolder = (): string => join(PACKAGE, "dist", "page");

/** The games that come with the program. */
export const gamesFolder = (): string => join(PACKAGE, "fixtures", "games");

/** The compiled kernel that solves tables. */
export const kernelFile = (): string => join(PACKAGE, "dist", "kernel.wasm");

/** The compiled kernel of the geometry. */
export const geometryKernelFile = (): string => join(PACKAGE, "dist", "geometry.wasm");

/** The compiled kernel that probes tables. */
export const probeKernelFile = (): string => join(PACKAGE, "dist", "probe.wasm");

/** The compiled kernel that works out the values of a sweep. */
export const valuesKernelFile = (): string => join(PACKAGE, "dist", "values.wasm");

/** The compiled decoder of table files. */
export const decoderFile = (): string => join(PACKAGE, "dist", "decode.wasm");

/** The compiled kernel that scans PGN for games. */
export const gamesKernelFile = (): string => join(PACKAGE, "dist", "games.wasm");

/** The compiled passes over columns. */
export const masksKernelFile = (): string => join(PACKAGE, "dist", "masks.wasm");

/** The catalogue of set-ups that comes with the program. */
export const catalogueFile = (): string => join(PACKAGE, "src", "query", "language", "set-ups.yaml");

/**
 * Folder of the tables: LONGSIDE_CACHE where it is set, else `longside` in XDG_CACHE_HOME, else in ~/.cache
 * (XDG Base Directory Specification 0.8).
 */
export function cacheFolder(): string {
  const own = process.env.LONGSIDE_CACHE;
  if (own) return own;
  return join(process.env.XDG_CACHE_HOME || join(homedir(), ".cache"), "longside");
}

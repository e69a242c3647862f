// What several tests need: the default target and its tables, random placements, running the command line.

import { spawnSync } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

import { afterAll } from "vitest";

import { DEFAULT_TARGET, type Material, parseMaterial } from "../src/chess/material.js";
import { Movement } from "../src/chess/moves.js";
import type { Placement } from "../src/chess/placement.js";
import { PACKAGE, cacheFolder } from "../src/places.js";
import { Tables } from "../src/solver/tables.js";

export const TARGET = parseMaterial(DEFAULT_TARGET);

/** The default target's tables, closed after the file's tests. */
export function openTables(material: Material = TARGET): Tables {
  const tables = new Tables(material, cacheFolder());
  afterAll(() => tables.close());
  return tables;
}

/** Repeatable random numbers, 0 ≤ x < 1 (xorshift, Marsaglia 2003). */
export function randomNumbers(seed: number): () => number {
  let state = seed | 1;
  return () => {
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    return (state >>> 0) / 4294967296;
  };
}

/** A random legal placement: no two men on a square, the side not to move not in check. */
export function randomPlacement(material: Material, random: () => number): Placement {
  const movement = new Movement(material);
  for (;;) {
    const squares = Array.from({ length: material.men }, () => Math.floor(random() * 64));
    const attackerToMove = random() < 0.5;
    if (new Set(squares).size < squares.length) continue;
    if (!movement.inCheck(squares, attackerToMove ? 1 : 0)) return { squares, attackerToMove };
  }
}

/** A folder that is deleted after the file's tests. */
export function temporaryFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), "longside-test-"));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}

export interface Outcome {
  readonly status: number | null;
  readonly stdout: string;
  readonly stderr: string;
}

/** Runs the compiled command line. */
export function longside(
  args: readonly string[],
  options: { cwd?: string; input?: string; env?: NodeJS.ProcessEnv } = {},
): Outcome {
  const { status, stdout, stderr } = spawnSync(
    process.execPath,
    [join(PACKAGE, "dist", "src", "cli", "main.js"), ...args],
    {
      encoding: "utf8",
      cwd: options.cwd,
      input: options.input ?? "",
      env: {
        ...process.env,
        npm_lifecycle_event: undefined,
        NO_COLOR: "1",
        LONGSIDE_CACHE: cacheFolder(),
        ...options.env,
      },
      maxBuffer: 1 << 28,
    },
  );
  return { status, stdout, stderr };
}

export const jsonLines = <T>(text: string): T[] =>
  text
    .split("\n")
    .filter((line) => line !== "")
    .map((line) => JSON.parse(line) as T);

/** Real games with independently computed truth; absent on most machines, and tests that need it then skip. */
export const SHARED = join(PACKAGE, "..", "shared", "data");
export const hasShared = existsSync(join(SHARED, "endings.expected.tsv"));

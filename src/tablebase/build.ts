// Building tables: which halves are missing, and solving them on worker threads, each from nothing.

import { MessageChannel, type MessagePort } from "node:worker_threads";

import type { Material } from "../chess/material.js";
import { type Crossing, LongsideError, crossing, landed } from "../errors.js";
import { startThreads } from "../threads.js";
import { TableFile, removeUnfinished, tableFile, writeTable } from "./table-file.js";
import { type Half, halfNamed, halvesOf, neededHalves } from "./half.js";
import { solveHalf } from "./solve.js";

export interface SolveTask {
  readonly half: string;
  readonly folder: string;
  /** Receives the distance reached, for a progress bar. */
  readonly port?: MessagePort;
}

/** Solves one half and writes its file: what a worker thread of `buildTables` does. */
export function solveTask({ half: name, folder, port }: SolveTask): Crossing<void> {
  return crossing(() => {
    const half = halfNamed(name);
    writeTable(folder, half, solveHalf(half, { report: (distance) => port?.postMessage(distance) }));
    port?.close();
  });
}

/** How closely a file is looked at: its head alone, or every block against its checksum (12 MB in 50 ms). */
export type Care = "head" | "blocks";

/** Whether the file of a half is there and sound. */
function isBuilt(folder: string, half: Half, care: Care): boolean {
  try {
    const file = new TableFile(tableFile(folder, half), half);
    try {
      if (care === "blocks") file.checkBlocks();
    } finally {
      file.close();
    }
    return true;
  } catch (thrown) {
    if (thrown instanceof LongsideError) return false;
    throw thrown;
  }
}

/** The halves of a material, and of all it leads to, that have no sound file in `folder`. */
export const missingHalves = (folder: string, materials: readonly Material[], care: Care = "head"): Half[] =>
  neededHalves(materials.flatMap(halvesOf)).filter((half) => !isBuilt(folder, half, care));

export interface BuildOptions {
  readonly folder: string;
  readonly threads: number;
  /** Called with the share of the work done, 0 to 1, and the half in hand. */
  readonly onProgress?: (done: number, half: string) => void;
}

/** Steps a half of five men reports, near enough for a progress bar. */
const STEPS = 125;

/** Builds what is missing or damaged for some materials. Returns the names of the halves that were built. */
export async function buildTables(materials: readonly Material[], options: BuildOptions): Promise<string[]> {
  const missing = missingHalves(options.folder, materials, "blocks");
  await buildHalves(missing, options);
  return missing.map((half) => half.name);
}

/** Builds the files of the halves given, each anew. */
export async function buildHalves(missing: readonly Half[], options: BuildOptions): Promise<void> {
  if (missing.length === 0) return;
  removeUnfinished(options.folder);
  const weights = new Map(missing.map((half) => [half, half.winner.length * 64 ** half.pieces]));
  const total = [...weights.values()].reduce((a, b) => a + b);
  const shares = new Map<Half, number>();
  const report = (half: Half, share: number) => {
    shares.set(half, share);
    let done = 0;
    for (const [one, part] of shares) done += part * weights.get(one)!;
    options.onProgress?.(done / total, half.name);
  };

  const most = Math.max(1, Math.min(options.threads, missing.length));
  const pool = startThreads<SolveTask, Crossing<void>>("solve", { most, least: most });
  try {
    // the largest first, so that no thread is left with one at the end
    const order = [...missing].sort((a, b) => weights.get(b)! - weights.get(a)!);
    await Promise.all(
      order.map(async (half) => {
        const { port1, port2 } = new MessageChannel();
        let steps = 0;
        port1.on("message", () => report(half, Math.min(0.9, (0.9 * ++steps) / STEPS)));
        try {
          const task = { half: half.name, folder: options.folder, port: port2 };
          landed(await pool.run(task, { transferList: [port2] }));
        } finally {
          port1.close(); // an open port would keep the process alive
        }
        report(half, 1);
      }),
    );
  } finally {
    await pool.destroy();
  }
}

// Tables that are taken as they are, or built while somebody is told how far that has come.

import type { Material } from "../chess/material.js";
import { type Care, buildHalves, missingHalves } from "../tablebase/build.js";
import type { Half } from "../tablebase/half.js";

/** Told of a build; nothing is told where all tables are there. */
export interface BuildObserver {
  begin?(materials: readonly Material[]): void;
  /** The share of the work done, 0 to 1, and the name of the half in hand. */
  progress?(done: number, half: string): void;
  /** The build has ended: with so many tables, or none if it failed. */
  end?(built: number): void;
}

/** Builds what is missing of some materials' tables. Returns what was built. Throws `cannot-write`. */
export async function buildMissing(
  materials: readonly Material[],
  care: Care,
  { folder, threads }: { readonly folder: string; readonly threads: number },
  observer: BuildObserver,
): Promise<readonly Half[]> {
  const missing = missingHalves(folder, materials, care);
  if (missing.length === 0) return missing;
  observer.begin?.(materials);
  let built = 0;
  try {
    await buildHalves(missing, {
      folder,
      threads,
      onProgress: (done, half) => observer.progress?.(done, half),
    });
    built = missing.length;
    return missing;
  } finally {
    observer.end?.(built);
  }
}

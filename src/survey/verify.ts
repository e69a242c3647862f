// Every proof of a material's tables: the checks of the tablebase, and the published zugzwangs, which take a survey.

import { placementOf, readFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import { frameOf } from "../geometry/frame.js";
import { type Check, type Sample, checkTables } from "../tablebase/checks.js";
import { knownValues } from "../tablebase/known-values.js";
import { survey } from "./survey.js";

/** The reciprocal zugzwangs of the whole table against the list that is published, where there is one. */
async function zugzwangChecks(material: Material, threads: number): Promise<Check[]> {
  const rows = knownValues("published-zugzwangs.csv").map(({ fen, source }) => ({
    ...placementOf(readFen(fen)),
    source,
  }));
  const published = rows.filter((row) => row.material.id === material.id);
  if (published.length === 0) return [];
  const { zugzwangs } = await survey(material, { question: "", setUps: null, by: null }, threads);
  const all = new Set(
    zugzwangs.map((fen) => {
      const { squares } = placementOf(readFen(fen));
      return frameOf({ squares, attackerToMove: true }, material).squares.join();
    }),
  );
  const wanted = new Set(
    published.map(({ squares }) => frameOf({ squares, attackerToMove: true }, material).squares.join()),
  );
  const missing = [...wanted].filter((key) => !all.has(key)).length;
  const found = all.size;
  return [
    {
      name: "reciprocal zugzwangs of the whole table",
      passed: missing === 0 && found === wanted.size,
      detail: `${found}, of them published ${wanted.size - missing} of ${wanted.size} (${published[0].source})`,
    },
  ];
}

/** Checks a material's tables in `folder` on `threads` threads. Throws `tables-missing`. */
export const verifyTables = async (
  material: Material,
  folder: string,
  sample: Sample,
  threads: number,
): Promise<Check[]> => [
  ...checkTables(material, folder, sample),
  ...(await zugzwangChecks(material, threads)),
];

// The choice among candidates: no two alike, spread over set-ups and squares, the same for the same seed.

import type { Material } from "../chess/material.js";
import { placementHash } from "../chess/random.js";
import { frameOf } from "../geometry/frame.js";
import { Likeness } from "../geometry/likeness.js";
import { type Candidate, POOL } from "./candidates.js";
import type { ExercisesAsked } from "./exercise.js";
import type { Weighed, Weigher } from "./weighing.js";

/** Placements at most this many king's steps apart are one exercise. */
const ALIKE_STEPS = 1;

/** Candidates in their frames in a random order, positions of games before those of the table. */
function shuffled(candidates: readonly Candidate[], material: Material, seed: number) {
  return candidates
    .map(({ placement, from }) => {
      const frame = frameOf(placement, material);
      const candidate: Candidate = { placement: frame, from };
      return { candidate, hash: placementHash(frame.squares, frame.attackerToMove, seed) };
    })
    .sort(
      (a, b) =>
        Number(!a.candidate.from) - Number(!b.candidate.from) ||
        a.hash - b.hash ||
        (a.candidate.from?.ending ?? 0) - (b.candidate.from?.ending ?? 0) ||
        (a.candidate.from?.ply ?? 0) - (b.candidate.from?.ply ?? 0),
    );
}

/** Rows of candidates in an order in which verdicts alternate. */
function interleaved(rows: readonly Weighed[][]): Weighed[][] {
  const byVerdict = new Map<number, Weighed[][]>();
  for (const row of rows) {
    const { verdict } = row[0];
    byVerdict.set(verdict, [...(byVerdict.get(verdict) ?? []), row]);
  }
  const groups = [...byVerdict.values()];
  const most = Math.max(0, ...groups.map(({ length }) => length));
  return Array.from({ length: most }, (_, n) => groups.flatMap((group) => group.slice(n, n + 1))).flat();
}

/** What has been chosen so far. */
class Chosen {
  readonly all: Weighed[] = [];
  private readonly likenesses: Likeness[] = [];
  private readonly afterWaiting = new Set<number>();
  private readonly endings = new Set<number>();

  constructor(private readonly weigher: Weigher) {}

  private isNew(one: Weighed): boolean {
    return (
      !(one.from && this.endings.has(one.from.ending)) &&
      !this.afterWaiting.has(one.key) &&
      !this.likenesses.some(
        (likeness) =>
          likeness.placement.attackerToMove === one.placement.attackerToMove &&
          likeness.of(one.key, ALIKE_STEPS) <= ALIKE_STEPS,
      )
    );
  }

  /** Takes the first of a row that is like none that was taken before; those before it leave the row as well. */
  takeFrom(row: Weighed[]): void {
    while (row.length > 0) {
      const one = row.shift()!;
      if (!this.isNew(one)) continue;
      const after = this.weigher.afterWaiting(one);
      if (this.all.some(({ key }) => after.has(key))) continue;
      this.all.push(one);
      for (const key of after) this.afterWaiting.add(key);
      this.likenesses.push(new Likeness(one.placement, false));
      if (one.from) this.endings.add(one.from.ending);
      return;
    }
  }
}

/**
 * Chooses up to `size` candidates. Two are alike, and never both chosen, if one is a twin of the other under the
 * symmetries, or at most one king's step from it, or comes from it by a waiting move of each side, or if both come
 * from the same game.
 */
export function choose(
  candidates: readonly Candidate[],
  asked: ExercisesAsked,
  material: Material,
  weigher: Weigher,
): readonly Weighed[] {
  // positions of games first; the table's make up for what is missing
  const waves = [new Map<string, Weighed[]>(), new Map<string, Weighed[]>()];
  let pool = 0;
  let last = NaN;
  for (const { candidate, hash } of shuffled(candidates, material, asked.seed)) {
    // twins have the same hash
    if (hash === last) continue;
    last = hash;
    const weighed = weigher.weigh(candidate, asked);
    if (!weighed) continue;
    const strata = waves[weighed.from ? 0 : 1];
    const stratum = strata.get(weighed.stratum);
    if (stratum) stratum.push(weighed);
    else strata.set(weighed.stratum, [weighed]);
    if (++pool >= POOL * asked.size) break;
  }
  const chosen = new Chosen(weigher);
  for (const strata of waves) {
    const rows = interleaved([...strata.values()]);
    while (chosen.all.length < asked.size && rows.some((row) => row.length > 0))
      for (const row of rows) if (chosen.all.length < asked.size) chosen.takeFrom(row);
  }
  return chosen.all;
}

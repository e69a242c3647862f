// What set-ups turn into when the attacker tests them: over the whole table, for every drawn placement of a set-up and every
// quiet move of the attacker, where the replies that hold can lead.

import type { Region, Regions } from "./regions.js";

/** What the attacker's quiet moves leave to the defender of one set-up. Placements count with all their twins. */
export interface Changes {
  readonly setUp: string;
  /** Its placements with the attacker to move that are not won. */
  readonly held: number;
  /** The attacker's quiet moves in these. */
  readonly moves: number;
  /** Those after which some reply holds and keeps the set-up. */
  readonly stay: number;
  /** Of the others: those after which the defender can capture into an ending that is not lost. */
  readonly captures: number;
  /** Of the rest: those after which a reply that holds leads into another set-up; one move may lead into several. */
  readonly into: readonly { readonly setUp: string; readonly moves: number }[];
  /** Those after which every reply that holds leads to a placement that no set-up names. */
  readonly nameless: number;
}

/** The changes of each set-up among all of them, the most frequent first. */
export function changesOver(regions: Regions, setUps: readonly Region[]): Changes[] {
  const held = setUps.map((one) => () => regions.inside([one]));
  const solver = regions.solverFor(setUps.length + 1);
  return solver.countMoves(held).map(({ placements, all, stay, captures, into, none }, n) => ({
    setUp: setUps[n].name,
    held: placements,
    moves: all,
    stay,
    captures,
    into: into
      .map((moves, m) => ({ setUp: setUps[m].name, moves }))
      .filter(({ moves }) => moves > 0)
      .sort((a, b) => b.moves - a.moves),
    nameless: none,
  }));
}

/** Arrows of the map of changes: what at least this share of the attacker's moves forces. */
const LEAST = 0.03;
/** Arrows out of one set-up: the strongest. */
const MOST = 3;

/** One set-up that is forced into another, and by which share of the attacker's quiet moves. */
export interface ChangeArrow {
  readonly from: string;
  readonly to: string;
  readonly share: number;
}

/** The changes that a map shows: the strongest of each set-up of a table, if they are frequent. */
export function arrowsOf(table: readonly Changes[]): ChangeArrow[] {
  return table.flatMap(({ setUp, moves, into }) =>
    into
      .filter(({ moves: n }) => n / moves >= LEAST)
      .slice(0, MOST)
      .map(({ setUp: to, moves: n }) => ({ from: setUp, to, share: n / moves })),
  );
}

// Drawing placements of a table one by one, at random, until enough of them fit a question: far less work than a visit to all
// of them where many do.

import type { Material, Pieces } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import { FIRST_PIECE, type Placement, placementNumber } from "../chess/placement.js";
import { randomNumbers } from "../chess/random.js";
import { cacheFolder } from "../places.js";
import { kingsOfPairs } from "../tablebase/solver-kernel.js";
import { Tables, unpack } from "../tablebase/tables.js";
import { SWEPT_LOST } from "../tablebase/values.js";
import { PairTest, type ValueOf, placementTest } from "./walk.js";

/** Placements that are drawn at most for each that is wanted, and besides: a visit to all takes longer than these. */
const FOR_EACH = 50;
const BESIDES = 100_000;
/** After so many it is asked whether enough will be found. */
const STEP = 10_000;

/** What is asked, in plain words. */
export interface SampleAsked {
  readonly question: string;
  readonly setUps: string | null;
  readonly seed: number;
  /** Placements wanted. */
  readonly size: number;
}

/** Looks up swept values in tables. */
function valueLookup(tables: Tables): ValueOf {
  return (squares, attackerToMove) => {
    const { verdict, dtm } = unpack(tables.probe(squares, attackerToMove));
    if (verdict === "drawn") return 0;
    return verdict === "won" ? dtm! + 1 : SWEPT_LOST + dtm!;
  };
}

/** Indices of pieces that are like the next one of their side. */
function equalNeighbours({ attacker, defender }: Material): number[] {
  const of = (pieces: Pieces, first: number) =>
    pieces.flatMap((kind, n) => (kind === pieces[n + 1] ? [first + n] : []));
  return [...of(attacker, FIRST_PIECE), ...of(defender, FIRST_PIECE + attacker.length)];
}

/**
 * Draws different placements that fit a question, each of the table as likely as any other, and the same ones for the
 * same seed. Undefined where too few fit for this way. Throws `tables-missing` and `table-damaged`.
 */
export function drawPlacements(material: Material, asked: SampleAsked): Placement[] | undefined {
  const most = FOR_EACH * asked.size + BESIDES;
  const { question, setUps, seed, size } = asked;
  const random = randomNumbers(seed);
  const below = (most: number) => Math.floor(random() * most);
  const movement = new Movement(material);
  const kings = kingsOfPairs();
  const equal = equalNeighbours(material);
  const tables = new Tables(material, cacheFolder());
  try {
    const test = placementTest(question, setUps, material, () => tables);
    const valueOf = valueLookup(tables);
    const tests = kings.map((): PairTest | undefined => undefined);
    const found = new Map<number, Placement>();
    for (let drawn = 1; found.size < size; ++drawn) {
      if (drawn % STEP === 0 && found.size * most < size * drawn) return undefined;
      const pair = below(kings.length);
      const squares = [...kings[pair]];
      while (squares.length < material.men) squares.push(below(64));
      const attackerToMove = random() < 0.5;
      // equal pieces stand in one order only
      if (equal.some((n) => squares[n] > squares[n + 1])) continue;
      if (new Set(squares).size < squares.length || movement.inCheck(squares, attackerToMove ? 1 : 0))
        continue;
      const ofPair = (tests[pair] ??= new PairTest(test, material, ...kings[pair]));
      if (ofPair.fits(squares, attackerToMove, valueOf))
        found.set(placementNumber({ squares, attackerToMove }), { squares, attackerToMove });
    }
    return [...found.values()];
  } finally {
    tables.close();
  }
}

// What every visitor of a sweep shares: the question it asks, and the walk that finds the placements of a pair of
// kings that fit it, with their values.

import { join } from "node:path";
import { pathToFileURL } from "node:url";

import type { Material } from "../chess/material.js";
import type { Square } from "../chess/units.js";
import { SCORES, VERDICTS } from "../chess/verdict.js";
import { PairFacts, hasTwoEdges } from "../geometry/pairs.js";
import { PACKAGE } from "../places.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { parseQuestion } from "../query/language/parse.js";
import { PlacementTest } from "../query/engine/placement-test.js";
import type { SweptPair } from "../tablebase/sweep.js";
import { SWEPT_ILLEGAL, SWEPT_LOST, columnOf, shiftsOf } from "../tablebase/values.js";
import type { Tables } from "../tablebase/tables.js";

/** The place of a swept value's verdict in `VERDICTS`. */
export const verdictPlace = (value: number): number => (value === 0 ? 1 : value < SWEPT_LOST ? 0 : 2);
/** The winner's moves to mate of a swept value, 0 where it is drawn. */
export const movesOf = (value: number): number =>
  value === 0 ? 0 : value < SWEPT_LOST ? value - 1 : value - SWEPT_LOST;

/** The address of a visitor's module in this folder: threads find modules among the compiled ones. */
export const visitorModule = (name: "survey" | "theory" | "sample" | "planes" | "rule"): string =>
  pathToFileURL(join(PACKAGE, "dist", "src", "survey", `${name}.js`)).href;

/**
 * A question in words, ready to be put to every placement; `setUps` is a file of the user's own. `tables` gives those that the
 * thread has.
 */
export const placementTest = (
  question: string,
  setUps: string | null,
  material: Material,
  tables: () => Tables,
): PlacementTest =>
  new PlacementTest(
    parseQuestion(question, catalogueWith(setUps).known),
    material,
    columnOf(material),
    tables,
  );

/** Score of a verdict by its place. */
const SCORE_AT = VERDICTS.map((verdict) => SCORES[verdict]);

/**
 * Told of a placement that fits (`squares` is used again for the next): the side to move, the swept value, and the
 * swept value with the other side to move.
 */
export type Look = (
  squares: readonly number[],
  attackerToMove: boolean,
  value: number,
  otherValue: number,
) => void;

/** Says which placements are worth testing. */
export type Wants = (squares: readonly number[], attackerToMove: boolean) => boolean;

/** The facts of a pair of kings seen from an edge, with those from the other where the defender's king is as near to two. */
type Edge = readonly [facts: PairFacts, other: PairFacts | undefined];

/** The edges from which a pair of kings is seen, the defender's in the triangle a1–d1–d4. */
function edgesOf(material: Material, attackerKing: Square, defenderKing: Square): readonly Edge[] {
  const facts = new PairFacts(material, attackerKing, defenderKing);
  if (!hasTwoEdges(defenderKing)) return [[facts, undefined]];
  const other = new PairFacts(material, attackerKing, defenderKing, true);
  return [
    [facts, other],
    [other, facts],
  ];
}

/**
 * Calls `look` once with each placement of a pair of kings that fits, seen from either edge where the defender's king is as
 * near to two; `wants` may refuse some before they are tested.
 */
export function walkPair(test: PlacementTest, pair: SweptPair, look: Look, wants?: Wants): void {
  const { material, attackerKing, defenderKing, attackerToMove } = pair;
  const edges = edgesOf(material, attackerKing, defenderKing);
  if (edges.length === 1) {
    walkEdge(test, pair, edges[0], look, wants);
    return;
  }
  const shifts = shiftsOf(material);
  const seen = new Uint8Array(2 * attackerToMove.length);
  for (const edge of edges)
    walkEdge(
      test,
      pair,
      edge,
      (squares, attackerToMove, value, otherValue) => {
        let index = attackerToMove ? 0 : seen.length / 2;
        for (let slot = 0; slot < shifts.length; ++slot) index += squares[slot + 2] << shifts[slot];
        if (seen[index]) return;
        seen[index] = 1;
        look(squares, attackerToMove, value, otherValue);
      },
      wants,
    );
}

/** Gives the swept value of a legal placement. */
export type ValueOf = (squares: readonly Square[], attackerToMove: boolean) => number;

/** Puts a question to single placements of a pair of kings, as `walkPair` puts it to all of them. */
export class PairTest {
  private readonly edges: readonly Edge[];

  /** The defender's king is in the triangle a1–d1–d4. */
  constructor(
    private readonly test: PlacementTest,
    material: Material,
    attackerKing: Square,
    defenderKing: Square,
  ) {
    this.edges = edgesOf(material, attackerKing, defenderKing);
  }

  /** Whether a legal placement fits; `valueOf` gives its swept value. */
  fits(squares: Square[], attackerToMove: boolean, valueOf: ValueOf): boolean {
    const { test } = this;
    return this.edges.some(([facts, other]) => {
      if (!test.pair(facts, squares, other) || !test.row() || !test.column()) return false;
      if (test.settled) return true;
      if (!test.pieces() || !test.lines(attackerToMove)) return false;
      const value = valueOf(squares, attackerToMove);
      return test.fits(attackerToMove, SCORE_AT[verdictPlace(value)], movesOf(value));
    });
  }
}

/** The same as `walkPair`, seen from one edge. */
function walkEdge(
  test: PlacementTest,
  pair: SweptPair,
  [facts, otherFacts]: Edge,
  look: Look,
  wants?: Wants,
): void {
  const { attackerToMove, defenderToMove, material } = pair;
  const shifts = shiftsOf(material);
  const squares: number[] = [pair.attackerKing, pair.defenderKing, ...shifts.map(() => 0)];
  if (!test.pair(facts, squares, otherFacts)) return;
  const column = columnOf(material);
  const columns = Uint8Array.from({ length: 64 }, (_, square) => {
    squares[column] = square;
    return test.column() ? 1 : 0;
  });
  const settled = test.settled;
  let found = false;
  const tell = (attackers: boolean, index: number) => {
    if (!found) {
      pair.findValues();
      found = true;
    }
    const value = (attackers ? attackerToMove : defenderToMove)[index];
    const otherValue = (attackers ? defenderToMove : attackerToMove)[index];
    // where nobody else could be to move, somebody is in check
    const inCheck = otherValue === SWEPT_ILLEGAL;
    if (!settled && !test.fits(attackers, SCORE_AT[verdictPlace(value)], movesOf(value), inCheck)) return;
    look(squares, attackers, value, otherValue);
  };
  for (let row = 0; row < attackerToMove.length; row += 64) {
    for (let slot = 0; slot < shifts.length; ++slot) squares[slot + 2] = (row >> shifts[slot]) & 63;
    if (!test.row()) continue;
    for (let n = 0; n < 64; ++n) {
      if (columns[n] === 0) continue;
      const index = row + n;
      squares[column] = n;
      const firstWanted =
        attackerToMove[index] !== SWEPT_ILLEGAL && (wants === undefined || wants(squares, true));
      const secondWanted =
        defenderToMove[index] !== SWEPT_ILLEGAL && (wants === undefined || wants(squares, false));
      if (!firstWanted && !secondWanted) continue;
      if (!settled && !test.pieces()) continue;
      if (firstWanted) tell(true, index);
      if (secondWanted) tell(false, index);
    }
  }
}

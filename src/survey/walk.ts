// What every visitor of a sweep shares: the question it asks, and the walk that finds the placements of a pair of
// kings that fit it, with their values.

import { join } from "node:path";
import { pathToFileURL } from "node:url";

import type { Material } from "../chess/material.js";
import type { Square } from "../chess/units.js";
import { PairFacts, hasTwoEdges } from "../geometry/pairs.js";
import { PACKAGE } from "../places.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { parseQuestion } from "../query/language/parse.js";
import { PlacementTest } from "../query/engine/placement-test.js";
import type { SweptPair } from "../tablebase/sweep.js";
import { SWEPT_ILLEGAL, columnOf, shiftsOf } from "../tablebase/values.js";
import type { Tables } from "../tablebase/tables.js";

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

/** Whose move it is. */
export const TURNS = ["attacker", "defender"] as const;
export type Turn = (typeof TURNS)[number];

/** Which placements are looked at: all that are legal, if not said. */
export interface WalkOptions {
  /** Only those with one side to move. */
  readonly turn?: Turn;
  /** Says which are worth testing. */
  readonly wants?: (squares: readonly number[], attackerToMove: boolean) => boolean;
}

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
 * near to two.
 */
export function walkPair(test: PlacementTest, pair: SweptPair, look: Look, options: WalkOptions = {}): void {
  const { material, attackerKing, defenderKing, attackerToMove } = pair;
  const edges = edgesOf(material, attackerKing, defenderKing);
  if (edges.length === 1) {
    walkEdge(test, pair, edges[0], look, options);
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
      options,
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
      return test.fits(attackerToMove, valueOf(squares, attackerToMove));
    });
  }
}

/** The same as `walkPair`, seen from one edge. */
function walkEdge(
  test: PlacementTest,
  pair: SweptPair,
  [facts, otherFacts]: Edge,
  look: Look,
  { wants, turn }: WalkOptions,
): void {
  const { attackerToMove, defenderToMove, material } = pair;
  const shifts = shiftsOf(material);
  const squares: number[] = [pair.attackerKing, pair.defenderKing, ...shifts.map(() => 0)];
  if (!test.pair(facts, squares, otherFacts)) return;
  const column = columnOf(material);
  const columns = Uint8Array.from({ length: 64 }, (_, square) => square).filter((square) => {
    squares[column] = square;
    return test.column();
  });
  const { settled } = test;
  const asksPieces = !settled && test.asksPieces;
  const asksValues = !settled && test.asksValues;
  if (asksValues) pair.findValues();
  const ofTurns = TURNS.filter((one) => turn === undefined || turn === one).map((one) => {
    const attackers = one === "attacker";
    const mayFit = (inCheck: boolean) => settled || test.check(attackers, inCheck);
    const [values, others] = attackers ? [attackerToMove, defenderToMove] : [defenderToMove, attackerToMove];
    return { attackers, values, others, ifInCheck: mayFit(true), ifNot: mayFit(false) };
  });
  const fitting = new Uint32Array(2);
  for (let row = 0; row < attackerToMove.length; row += 64) {
    for (let slot = 0; slot < shifts.length; ++slot) squares[slot + 2] = (row >> shifts[slot]) & 63;
    if (!test.row()) continue;
    for (let m = 0; m < ofTurns.length; ++m) {
      const { attackers, values, others, ifInCheck, ifNot } = ofTurns[m];
      fitting.fill(0);
      for (let n = 0; n < columns.length; ++n) {
        const square = columns[n];
        const value = values[row + square];
        if (value === SWEPT_ILLEGAL) continue;
        // where nobody else could be to move, somebody is in check
        const inCheck = others[row + square] === SWEPT_ILLEGAL;
        if (!(inCheck ? ifInCheck : ifNot)) continue;
        squares[column] = square;
        if (wants && !wants(squares, attackers)) continue;
        if (asksPieces && !test.pieces()) continue;
        if (asksValues && !test.values(attackers, value, others[row + square])) continue;
        fitting[square >> 5] |= 1 << (square & 31);
      }
      if ((fitting[0] | fitting[1]) === 0) continue;
      if (!settled) test.filter(fitting, column, attackers);
      if ((fitting[0] | fitting[1]) === 0) continue;
      pair.findValues();
      for (let half = 0; half < 2; ++half) {
        for (let bits = fitting[half]; bits !== 0; bits &= bits - 1) {
          const square = 32 * half + 31 - Math.clz32(bits & -bits);
          const value = values[row + square];
          const otherValue = others[row + square];
          squares[column] = square;
          if (!settled && !test.rest(attackers, value, otherValue)) continue;
          look(squares, attackers, value, otherValue);
        }
      }
    }
  }
}

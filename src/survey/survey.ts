// A survey: how the placements of a whole table that fit a question come out, with each side to move, split by a
// fact; with the longest wins, the reciprocal zugzwangs and examples of each verdict. A visitor of `sweep`.

import { placementFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import type { Moves } from "../chess/units.js";
import { VERDICTS, type Verdict, type VerdictCounts } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import { GEOMETRY, NO_FACT, geometryIndex } from "../geometry/facts.js";
import { frameOf } from "../geometry/frame.js";
import { PairFacts } from "../geometry/pairs.js";
import { nearest } from "../query/language/tokens.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { shownFact } from "../query/engine/rows.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import type { Tables } from "../tablebase/tables.js";
import { SWEPT_ILLEGAL, movesOf, verdictPlace } from "../tablebase/values.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** What a survey is asked: in plain words, since it goes to threads. */
export interface SurveyAsked {
  readonly question: string;
  /** A file of the user's own set-ups. */
  readonly setUps: string | null;
  /** Name of the geometry fact to split by. */
  readonly by: string | null;
}

/** Placements with one side to move: how many are won, drawn and lost, and the winner's moves to mate. */
export interface Outcomes {
  readonly counts: VerdictCounts;
  /** Of the won, and of the lost. */
  readonly moves: { readonly won: number; readonly lost: number };
  readonly longest: { readonly won: Moves; readonly lost: Moves };
}

interface Cell {
  readonly verdict: Verdict;
  readonly attackerToMove: boolean;
}

/** What threads find and put together. */
interface Found {
  readonly groups: Map<number, Float64Array>;
  /** By the squares of their frames: attacker to move does not win, defender to move loses. */
  readonly zugzwangs: Map<string, Placement>;
  /** One placement a pair of kings, for each verdict and turn. */
  readonly examples: Placement[][];
}

/** In a group's numbers, for each turn: won, drawn, lost; moves of the won and lost; longest of them. */
const TURN = 7;
const MOVES = 3;
const LONGEST = 5;

/** Places of verdicts in `VERDICTS`. */
const WON = VERDICTS.indexOf("won");
const DRAWN = VERDICTS.indexOf("drawn");

/** This thread's; what is found is sent to others and must hold plain data only. */
let test: PlacementTest;
let by: number;

export function start(asked: SurveyAsked, material: Material, tables: () => Tables): Found {
  by = asked.by === null ? -1 : geometryIndex(asked.by);
  test = placementTest(asked.question, asked.setUps, material, tables);
  return { groups: new Map(), zugzwangs: new Map(), examples: Array.from({ length: 6 }, () => []) };
}

/** Swept values that there can be. */
const VALUES = 256;

/** A group's numbers from how often each value comes, with the attacker and then with the defender to move. */
function numbersOf(counted: Uint32Array, weight: number): Float64Array {
  const group = new Float64Array(2 * TURN);
  counted.forEach((count, n) => {
    if (count === 0) return;
    const value = n % VALUES;
    const at = n < VALUES ? 0 : TURN;
    const verdict = verdictPlace(value);
    group[at + verdict] += count * weight;
    if (verdict === DRAWN) return;
    const side = verdict === WON ? 0 : 1;
    const moves = movesOf(value);
    group[at + MOVES + side] += count * moves * weight;
    group[at + LONGEST + side] = Math.max(group[at + LONGEST + side], moves);
  });
  return group;
}

export function visit(found: Found, pair: SweptPair): void {
  const { weight, material } = pair;
  const facts = new PairFacts(material, pair.attackerKing, pair.defenderKing);
  const groups = new Map<number, Uint32Array>();
  const given = new Uint8Array(6);
  let last = NaN;
  let group: Uint32Array | undefined;
  walkPair(test, pair, (squares, attackerToMove, value, otherValue) => {
    // the value of a fact may depend on the side to move
    const key = by < 0 ? NO_FACT : facts.get(by, squares, attackerToMove);
    if (key !== last) {
      group = groups.get(key);
      if (!group) groups.set(key, (group = new Uint32Array(2 * VALUES)));
      last = key;
    }
    ++group![attackerToMove ? value : VALUES + value];
    const cell = (attackerToMove ? 0 : 3) + verdictPlace(value);
    if (given[cell] === 0) {
      given[cell] = 1;
      found.examples[cell].push({ squares: [...squares], attackerToMove });
    }
    if (otherValue === SWEPT_ILLEGAL) return;
    const attackers = attackerToMove ? value : otherValue;
    const defenders = attackerToMove ? otherValue : value;
    if (verdictPlace(defenders) !== WON || verdictPlace(attackers) === WON) return;
    const frame = frameOf({ squares, attackerToMove: true }, material);
    found.zugzwangs.set(frame.squares.join(), frame);
  });
  for (const [value, counted] of groups) addTo(found.groups, value, numbersOf(counted, weight));
}

function addTo(groups: Found["groups"], value: number, group: Float64Array): void {
  const sum = groups.get(value);
  if (!sum) {
    groups.set(value, group);
    return;
  }
  for (let n = 0; n < sum.length; ++n)
    sum[n] = n % TURN >= LONGEST ? Math.max(sum[n], group[n]) : sum[n] + group[n];
}

export function merge(one: Found, other: Found): Found {
  for (const [value, group] of other.groups) addTo(one.groups, value, group);
  for (const [key, placement] of other.zugzwangs) one.zugzwangs.set(key, placement);
  other.examples.forEach((placements, cell) => one.examples[cell].push(...placements));
  return one;
}

export interface SurveyGroup {
  /** Value of the fact it is split by; null where there is none, or no fact. */
  readonly value: number | string | boolean | null;
  readonly attackerToMove: Outcomes;
  readonly defenderToMove: Outcomes;
}

export interface Survey {
  readonly material: string;
  readonly all: SurveyGroup;
  /** By rising value; empty where it is not split. */
  readonly groups: readonly SurveyGroup[];
  /** FENs, the attacker White and to move. */
  readonly zugzwangs: readonly string[];
  /** FENs of fitting placements, the attacker White, one a pair of kings. */
  readonly examples: readonly (Cell & { readonly fens: readonly string[] })[];
}

const outcomesOf = (group: Float64Array, turn: number): Outcomes => {
  const at = turn * TURN;
  const [won, drawn, lost, movesWon, movesLost, longestWon, longestLost] = group.subarray(at, at + TURN);
  return {
    counts: { won, drawn, lost },
    moves: { won: movesWon, lost: movesLost },
    longest: { won: longestWon, lost: longestLost },
  };
};
const groupOf = (value: SurveyGroup["value"], group: Float64Array): SurveyGroup => ({
  value,
  attackerToMove: outcomesOf(group, 0),
  defenderToMove: outcomesOf(group, 1),
});

/** Sweeps the table of a material. Throws `bad-option` where `by` names no fact of the geometry. */
export async function survey(material: Material, asked: SurveyAsked, threads: number): Promise<Survey> {
  const fact = GEOMETRY.find((one) => one.name === asked.by);
  if (asked.by !== null && !fact) {
    const near = nearest(
      asked.by,
      GEOMETRY.map(({ name }) => name),
    );
    const cause = asked.by.includes(",")
      ? "a survey is split by one fact"
      : `"${asked.by}" is no fact of the geometry${near ? `; did you mean ${near}?` : "; see: longside words"}`;
    throw new LongsideError("bad-option", { option: "--by", cause, command: "survey" });
  }
  const visitor = visitorModule("survey");
  const { groups, zugzwangs, examples } = await sweep<Found>(material, { threads, visitor, asked });
  const all = new Map<number, Float64Array>([[NO_FACT, new Float64Array(2 * TURN)]]);
  for (const group of groups.values()) addTo(all, NO_FACT, group);
  const fen = (placement: Placement) => placementFen(placement, material, "white");
  return {
    material: material.name,
    all: groupOf(null, all.get(NO_FACT)!),
    groups: fact
      ? [...groups]
          .sort(([a], [b]) => a - b)
          .map(([value, group]) => groupOf(shownFact(fact, value === NO_FACT ? null : value), group))
      : [],
    zugzwangs: [...zugzwangs.keys()].sort().map((key) => fen(zugzwangs.get(key)!)),
    examples: examples.map((placements, cell) => ({
      verdict: VERDICTS[cell % 3],
      attackerToMove: cell < 3,
      fens: placements.map((placement) => fen(frameOf(placement, material))),
    })),
  };
}

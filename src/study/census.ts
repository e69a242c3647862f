// A census of a whole table: how many placements there are, and how many are won, drawn and lost, with each side
// to move and split by one fact of the geometry; and the reciprocal zugzwangs. A visitor of `sweep`.

import { frameOf } from "../geometry/frame.js";
import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import { GEOMETRY, Geometer } from "../geometry/facts.js";
import { NO_FACT, PairFacts } from "../geometry/pairs.js";
import { SWEPT_ILLEGAL, SWEPT_LOST, type SweptPair, squaresOf } from "../solver/sweep.js";

/** Won, drawn, lost for the attacker. */
export type Tally = [won: number, drawn: number, lost: number];

export interface Census {
  /** By value of the fact (NO_FACT where it is null): placements with the attacker and the defender to move. */
  readonly groups: Map<number, { readonly attackerToMove: Tally; readonly defenderToMove: Tally }>;
  /** Numbers of placements in their frames: attacker to move does not win, defender to move loses. */
  readonly zugzwangs: Map<string, Placement>;
  /** Number in GEOMETRY of the fact it is split by, -1 for none. */
  readonly fact: number;
}

/** This thread's; what is found is sent to others and must hold plain data only. */
let geometer: Geometer;

/** Begins a census split by the fact of this name, or by none. */
export function start(asked: unknown, material: Material): Census {
  const fact = GEOMETRY.findIndex((one) => one.name === asked);
  geometer = new Geometer(material);
  return { groups: new Map(), zugzwangs: new Map(), fact };
}

const which = (value: number) => (value === 0 ? 1 : value < SWEPT_LOST ? 0 : 2);

export function visit(census: Census, pair: SweptPair): void {
  const { fact, groups, zugzwangs } = census;
  const facts = new PairFacts(geometer, pair.attackerKing, pair.defenderKing);
  const { attackerToMove, defenderToMove } = pair;
  // counted by value + 1, since NO_FACT is -1; six counts each
  const counts = new Float64Array(6 * (2 + Math.max(fact < 0 ? 0 : mostOf(fact), 0)));
  const squares: number[] = squaresOf(pair, 0);
  const men = squares.length - 2;
  const shifts = squares.slice(2).map((_, slot) => 6 * (slot === men - 1 ? men - 1 : men - 2 - slot));
  const column = 2 + shifts.indexOf(0);
  for (let row = 0; row < attackerToMove.length; row += 64) {
    for (let slot = 0; slot < men; ++slot) squares[slot + 2] = (row >> shifts[slot]) & 63;
    for (let n = 0; n < 64; ++n) {
      const one = attackerToMove[row + n];
      const other = defenderToMove[row + n];
      if (one === SWEPT_ILLEGAL && other === SWEPT_ILLEGAL) continue;
      squares[column] = n;
      const group = 6 * (1 + (fact < 0 ? NO_FACT : facts.get(fact, squares, true)));
      if (one !== SWEPT_ILLEGAL) ++counts[group + which(one)];
      if (other === SWEPT_ILLEGAL) continue;
      ++counts[group + 3 + which(other)];
      if (which(other) === 0 && one !== SWEPT_ILLEGAL && which(one) !== 0) {
        const frame = frameOf({ squares, attackerToMove: true }, geometer.material);
        zugzwangs.set(frame.squares.join(), frame);
      }
    }
  }
  for (let at = 0; at < counts.length; at += 6) {
    const six = [...counts.subarray(at, at + 6)].map((number) => number * pair.weight);
    if (six.every((number) => number === 0)) continue;
    addTo(groups, at / 6 - 1, six.slice(0, 3) as Tally, six.slice(3) as Tally);
  }
}

/** The greatest number a fact is stored as. */
function mostOf(fact: number): number {
  const { type, most, values } = GEOMETRY[fact];
  return type === "number" ? most! : type === "word" ? values!.length - 1 : 1;
}

function addTo(groups: Census["groups"], value: number, attackerToMove: Tally, defenderToMove: Tally): void {
  const group = groups.get(value);
  if (!group) {
    groups.set(value, { attackerToMove, defenderToMove });
    return;
  }
  attackerToMove.forEach((count, n) => (group.attackerToMove[n] += count));
  defenderToMove.forEach((count, n) => (group.defenderToMove[n] += count));
}

export function merge(one: Census, other: Census): Census {
  for (const [value, { attackerToMove, defenderToMove }] of other.groups) {
    addTo(one.groups, value, attackerToMove, defenderToMove);
  }
  for (const [key, placement] of other.zugzwangs) one.zugzwangs.set(key, placement);
  return one;
}

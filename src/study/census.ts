// A census of a whole table: how many placements there are, and how many are won, drawn and lost, with each side
// to move and split by one fact of the geometry; and the reciprocal zugzwangs. A visitor of `sweep`.

import { frameOf } from "../geometry/frame.js";
import type { Material } from "../chess/material.js";
import type { Placement } from "../chess/placement.js";
import { GEOMETRY, Geometer } from "../geometry/facts.js";
import { NO_FACT, PairFacts } from "../geometry/pairs.js";
import { SWEPT_ILLEGAL, type SweptPair, squaresOf } from "../solver/sweep.js";

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

const which = (value: number) => (value === 0 ? 1 : value < 128 ? 0 : 2);

export function visit(census: Census, pair: SweptPair): void {
  const { fact, groups, zugzwangs } = census;
  const facts = new PairFacts(geometer, pair.attackerKing, pair.defenderKing);
  const { attackerToMove, defenderToMove, weight } = pair;
  const squares: number[] = squaresOf(pair, 0);
  const men = squares.length - 2;
  const shifts = squares.slice(2).map((_, slot) => 6 * (slot === men - 1 ? men - 1 : men - 2 - slot));
  for (let index = 0; index < attackerToMove.length; ++index) {
    const one = attackerToMove[index];
    const other = defenderToMove[index];
    if (one === SWEPT_ILLEGAL && other === SWEPT_ILLEGAL) continue;
    for (let slot = 0; slot < men; ++slot) squares[slot + 2] = (index >> shifts[slot]) & 63;
    const value = fact < 0 ? NO_FACT : facts.get(fact, squares, true);
    let group = groups.get(value);
    if (!group) groups.set(value, (group = { attackerToMove: [0, 0, 0], defenderToMove: [0, 0, 0] }));
    if (one !== SWEPT_ILLEGAL) group.attackerToMove[which(one)] += weight;
    if (other !== SWEPT_ILLEGAL) {
      group.defenderToMove[which(other)] += weight;
      if (other !== 0 && other < 128 && one !== SWEPT_ILLEGAL && (one === 0 || one >= 128)) {
        const placement = { squares: [...squares], attackerToMove: true };
        const frame = frameOf(placement, geometer.material);
        zugzwangs.set(frame.squares.join(), frame);
      }
    }
  }
}

export function merge(one: Census, other: Census): Census {
  for (const [value, { attackerToMove, defenderToMove }] of other.groups) {
    const group = one.groups.get(value);
    if (!group) one.groups.set(value, { attackerToMove, defenderToMove });
    else {
      attackerToMove.forEach((count, n) => (group.attackerToMove[n] += count));
      defenderToMove.forEach((count, n) => (group.defenderToMove[n] += count));
    }
  }
  for (const [key, placement] of other.zugzwangs) one.zugzwangs.set(key, placement);
  return one;
}

// A position with its value and its moves: what probing finds, and what variations and explanations are made from.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";

import type { BoardPlacement } from "../chess/fen.js";
import type { Placement } from "../chess/placement.js";
import type { Square } from "../chess/units.js";
import { OTHER_SIDE } from "../chess/verdict.js";
import { type PackedValue, type Value, unpack } from "../tablebase/tables.js";

/** A legal move, with the value of the position after it. */
export interface ProbedMove extends Value {
  readonly san: string;
  readonly from: Square;
  readonly to: Square;
}

/** A position's value and its moves, the best first. */
export interface Valued {
  readonly placed: BoardPlacement & Placement;
  readonly packed: PackedValue;
  readonly moves: readonly ProbedMove[];
}

/** Gives positions their values. */
export interface Valuer {
  values(position: Chess): Valued;
}

/** A position's value and moves for a colour as the attacker: captures may make the other side the stronger. */
export function valuesFor(
  valuer: Valuer,
  position: Chess,
  attacker: Color,
): { value: Value; moves: ProbedMove[]; name: string } {
  const { placed, packed, moves } = valuer.values(position);
  const turned = <T extends Value>(value: T): T =>
    placed.attacker === attacker ? value : { ...value, verdict: OTHER_SIDE[value.verdict] };
  return { value: turned(unpack(packed)), moves: moves.map(turned), name: placed.material.name };
}

// The moments of a game that matter: where something was given away, and where one move alone kept the result.

import type { PositionAnswer } from "../../query/engine/rows.js";

/** A position of a game to stop at. */
export interface Moment {
  /** Its place among the positions of the ending. */
  readonly at: number;
  readonly kind: "error" | "only move";
}

/** Half-moves between two moments, so that they are not the same one. */
const APART = 5;
/** Legal moves with which an only move was a choice. */
const CHOICE = 5;

const isError = ({ error }: PositionAnswer) => error !== null && error !== "none";

/** A move of a side that has the result to keep, where one alone keeps it and it is no capture. */
function isOnlyMove({ keeping, legal, move, verdict, sideToMove, error }: PositionAnswer): boolean {
  if (move === null || error !== "none" || keeping !== 1 || legal < CHOICE || move.includes("x"))
    return false;
  return verdict === "drawn"
    ? sideToMove === "defender"
    : (verdict === "won") === (sideToMove === "attacker");
}

/** Up to `most` moments from a position on: errors first, the last of them surely; then only moves where many fail. */
export function momentsOf(positions: readonly PositionAnswer[], from: number, most: number): Moment[] {
  const places = positions.map((_, at) => at).filter((at) => at >= from);
  const errors = places.filter((at) => isError(positions[at]));
  const only = places
    .filter((at) => isOnlyMove(positions[at]))
    .sort((a, b) => positions[b].legal - positions[a].legal || a - b);
  const chosen: Moment[] = [];
  const take = (at: number | undefined, kind: Moment["kind"]) => {
    if (at === undefined || chosen.length >= most) return;
    if (chosen.some((one) => Math.abs(one.at - at) < APART)) return;
    chosen.push({ at, kind });
  };
  take(errors.at(-1), "error");
  take(errors[0], "error");
  for (const at of errors) take(at, "error");
  for (const at of only) take(at, "only move");
  return chosen.sort((a, b) => a.at - b.at);
}

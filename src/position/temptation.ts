// What tempts a person to play a move, and what tempts nobody.

import type { Chess } from "chessops/chess";

import { KINDS_OF_MOVE, type KindSet } from "../geometry/move-kinds.js";
import type { ProbedMove } from "./valued.js";

/** How much a move of a kind tempts: what looks active is tried first (common practice, no source). */
const TEMPTS: Readonly<Partial<Record<(typeof KINDS_OF_MOVE)[number]["name"], number>>> = {
  capture: 5,
  check: 4,
  pin: 3,
  attack: 3,
  "mate block": 2,
  block: 2,
  switch: 1,
  "from corner": 1,
};
/** A move that simply gives a piece away, or walks into mate, does not tempt. */
const GIVEN_AWAY = -10;

/** How much a move tempts a human: what looks active, and does not simply give a piece away. */
export function temptation(position: Chess, move: Pick<ProbedMove, "from" | "to">, kinds: KindSet): number {
  const active = KINDS_OF_MOVE.reduce(
    (sum, { name }, n) => sum + ((kinds >> n) & 1 ? (TEMPTS[name] ?? 0) : 0),
    0,
  );
  return active + (temptsNobody(position, move) ? GIVEN_AWAY : 0);
}

/** Whether everybody sees the answer: a piece can be taken for nothing, or there is a mate in one. */
export function temptsNobody(position: Chess, { from, to }: Pick<ProbedMove, "from" | "to">): boolean {
  // a capture is looked at, whatever comes of it
  if (position.board.occupied.has(to)) return false;
  const after = position.clone();
  after.play({ from, to });
  for (const [start, targets] of after.allDests())
    for (const target of targets) {
      const takes = after.board.occupied.has(target);
      const answered = after.clone();
      answered.play({ from: start, to: target });
      if (answered.isCheckmate()) return true;
      if (takes && !answered.isStalemate() && !canTake(answered, target)) return true;
    }
  return false;
}

const canTake = (position: Chess, square: number): boolean =>
  [...position.allDests().values()].some((targets) => targets.has(square));

// What tempts a person to play a move, and what tempts nobody.

import type { Color, Role } from "chessops";
import type { Chess } from "chessops/chess";
import { opposite } from "chessops/util";

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

/** Worth of pieces as everybody knows it; a king risks nothing by taking. */
const WORTH: Readonly<Record<Role, number>> = { king: 0, queen: 9, rook: 5, bishop: 3, knight: 3, pawn: 1 };

/** How much a move tempts a human: what looks active, and does not simply give a piece away. */
export function temptation(position: Chess, move: Pick<ProbedMove, "from" | "to">, kinds: KindSet): number {
  const active = KINDS_OF_MOVE.reduce(
    (sum, { name }, n) => sum + ((kinds >> n) & 1 ? (TEMPTS[name] ?? 0) : 0),
    0,
  );
  return active + (temptsNobody(position, move) ? GIVEN_AWAY : 0);
}

/** Whether everybody sees the answer: a piece is taken for nothing, or traded so that nothing can be won, or mate in one. */
export function temptsNobody(position: Chess, { from, to }: Pick<ProbedMove, "from" | "to">): boolean {
  const worth = (square: number) => WORTH[position.board.get(square)?.role ?? "pawn"];
  const after = position.clone();
  after.play({ from, to });
  // a capture is looked at, unless it only gives more for less
  if (position.board.occupied.has(to)) return worth(from) > worth(to) && isTakenBack(after, to);
  for (const [start, targets] of after.allDests())
    for (const target of targets) {
      const taken = after.board.get(target);
      const answered = after.clone();
      const taker = after.board.get(start)!.role;
      answered.play({ from: start, to: target });
      if (answered.isCheckmate()) return true;
      if (
        taken &&
        !answered.isStalemate() &&
        (WORTH[taken.role] > worthAtRisk(taker, taken.role) ||
          !canTake(answered, target) ||
          leavesTooLittle(position, answered, target))
      )
        return true;
    }
  return false;
}

/** Whether a piece can be taken, and not only by giving stalemate. */
const isTakenBack = (position: Chess, square: number): boolean =>
  [...position.allDests()].some(([from, targets]) => {
    if (!targets.has(square)) return false;
    const after = position.clone();
    after.play({ from, to: square });
    return !after.isStalemate();
  });

/** What a piece risks by taking: a king nothing that counts, since it never may take what is guarded. */
const worthAtRisk = (taker: Role, taken: Role): number => (taker === "king" ? WORTH[taken] : WORTH[taker]);

/** Whether the side with more, which is to move, has too little left to win when it has taken back. */
const leavesTooLittle = (before: Chess, position: Chess, square: number): boolean => {
  const { turn } = position;
  const worthOf = (color: Color) =>
    [...before.board[color]].reduce((sum, own) => sum + WORTH[before.board.get(own)!.role], 0);
  if (worthOf(turn) <= worthOf(opposite(turn))) return false;
  return [...position.allDests()].every(([from, targets]) => {
    if (!targets.has(square)) return true;
    const after = position.clone();
    after.play({ from, to: square });
    return after.hasInsufficientMaterial(turn);
  });
};

const canTake = (position: Chess, square: number): boolean =>
  [...position.allDests().values()].some((targets) => targets.has(square));

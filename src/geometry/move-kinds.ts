// Kinds of move: what a move does, seen from the placement before it and after it. A move is of several kinds at
// once, so that its kinds are a set: bit n stands for word n of `KINDS_OF_MOVE`.

import { KINDS, ROOK } from "../chess/material.js";
import type { MoveList } from "../chess/moves.js";
import { fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import type { Geometer } from "./facts.js";
import {
  type Side,
  type View,
  attacks,
  between,
  depths,
  enemyOf,
  piecesOf,
  pinLine,
  sideToMove,
} from "./lines.js";
import { type Mate, after, matesInOne } from "./threats.js";

/** Every kind, with what it means. "The enemy" is the side that is not to move. */
export const KINDS_OF_MOVE = [
  { name: "king", meaning: "a move of the king" },
  ...KINDS.map((name) => ({ name, meaning: `a move of a ${name}` })),
  { name: "capture", meaning: "takes a piece" },
  { name: "check", meaning: "gives check" },
  { name: "discovered check", meaning: "gives check with a piece that did not move" },
  { name: "attack", meaning: "attacks the enemy's rook, which was not attacked before" },
  { name: "block", meaning: "a piece steps between its king and a check" },
  {
    name: "mate block",
    meaning: "a piece steps into the way of a mate that threatened, which is no mate any more",
  },
  { name: "pin", meaning: "pins an enemy piece that was not pinned before" },
  { name: "pin kept", meaning: "an enemy piece that was pinned stays so" },
  {
    name: "switch",
    meaning: "a rook goes from one side of the defender's king to the other (files of the frame)",
  },
  { name: "leaves rank", meaning: "a rook leaves its rank of the frame" },
  { name: "to corner", meaning: "the defender's king steps nearer to a corner" },
  { name: "from corner", meaning: "the defender's king steps away from the nearest corner" },
  { name: "into wedge", meaning: "the defender's king steps into the bishop's wedge" },
  { name: "out of wedge", meaning: "the defender's king steps out of the bishop's wedge" },
] as const satisfies readonly { name: string; meaning: string }[];

/** A set of kinds: bit n is kind n of `KINDS_OF_MOVE`. */
export type KindSet = number;

/** The bit of a kind in a set. */
export const kindBit = (name: (typeof KINDS_OF_MOVE)[number]["name"]): KindSet =>
  1 << KINDS_OF_MOVE.findIndex((kind) => kind.name === name);
const KING = kindBit("king");
const PIECES = KINDS.map(kindBit);
const CAPTURE = kindBit("capture");
const CHECK = kindBit("check");
const DISCOVERED_CHECK = kindBit("discovered check");
const ATTACK = kindBit("attack");
const BLOCK = kindBit("block");
const MATE_BLOCK = kindBit("mate block");
const PIN = kindBit("pin");
const PIN_KEPT = kindBit("pin kept");
const SWITCH = kindBit("switch");
const LEAVES_RANK = kindBit("leaves rank");
const TO_CORNER = kindBit("to corner");
const FROM_CORNER = kindBit("from corner");
const INTO_WEDGE = kindBit("into wedge");
const OUT_OF_WEDGE = kindBit("out of wedge");

/** Kinds that do something: none of them is only waiting. */
export const ACTIVE_KINDS: KindSet = CAPTURE | CHECK | ATTACK | BLOCK | MATE_BLOCK | PIN;

/** The names of a set's kinds. */
export const kindNames = (kinds: KindSet): string[] =>
  KINDS_OF_MOVE.filter((_, n) => (kinds >> n) & 1).map(({ name }) => name);

const cornerSteps = (square: Square) =>
  Math.max(Math.min(fileOf(square), 7 - fileOf(square)), Math.min(rankOf(square), 7 - rankOf(square)));

/** Tells the kinds of moves of placements of one material. */
export class MoveKinds {
  constructor(private readonly geometer: Geometer) {}

  /**
   * The kinds of each move of `list`, the legal moves of `view`'s placement, both in squares of its frame; they are
   * written to `found`.
   */
  of(view: View, list: MoveList, found: Int32Array): void {
    const { squares, movement, material } = view;
    const side = sideToMove(view);
    const enemy = enemyOf(side);
    const enemies = piecesOf(enemy, material);
    const own = piecesOf(side, material);
    const rooks = enemies.filter((n) => movement.kindOf(n) === ROOK && !attacks(view, side, squares[n]));
    const pinned = enemies.map((n) => pinLine(view, n) > 0);
    const inCheck = movement.inCheck(squares, side);
    const mates = inCheck ? [] : matesInOne(view, enemy);
    for (let n = 0; n < list.count; ++n) {
      const piece = list.piece[n];
      const to = list.to[n];
      const captured = list.captured[n];
      const kind = movement.kindOf(piece);
      let kinds = kind === undefined ? KING : PIECES[kind];
      if (kind === ROOK) kinds |= this.rookMove(view, squares[piece], to);
      if (kind === undefined && side === 1) kinds |= this.kingMove(view, to, captured);
      if (captured >= 0) kinds |= CAPTURE;
      else if (inCheck && kind !== undefined) kinds |= BLOCK;
      after(squares, list, n, () => {
        if (movement.inCheck(squares, enemy)) {
          kinds |= CHECK;
          const king = squares[enemy];
          if (own.some((m) => m !== piece && movement.attacks(squares, m, king))) kinds |= DISCOVERED_CHECK;
        }
        if (rooks.some((m) => m !== captured && attacks(view, side, squares[m]))) kinds |= ATTACK;
        enemies.forEach((m, at) => {
          if (m !== captured && pinLine(view, m) > 0) kinds |= pinned[at] ? PIN_KEPT : PIN;
        });
        if (kind !== undefined && mates.some((mate) => shuts(view, side, mate, to))) kinds |= MATE_BLOCK;
      });
      found[n] = kinds;
    }
  }

  private rookMove({ king }: View, from: Square, to: Square): KindSet {
    const sideOf = (square: Square) => Math.sign(fileOf(square) - fileOf(king));
    const switches = sideOf(from) * sideOf(to) < 0;
    return (switches ? SWITCH : 0) | (rankOf(from) !== rankOf(to) ? LEAVES_RANK : 0);
  }

  private kingMove(view: View, to: Square, captured: number): KindSet {
    const steps = cornerSteps(to) - cornerSteps(view.king);
    let kinds = steps < 0 ? TO_CORNER : steps > 0 ? FROM_CORNER : 0;
    if (captured >= 0 || view.bishop === undefined) return kinds;
    const before = depths(view).least !== null;
    const moved = view.squares.map((square) => (square === view.king ? to : square));
    const then =
      depths(this.geometer.view({ squares: moved, attackerToMove: !view.attackerToMove })).least !== null;
    if (then !== before) kinds |= then ? INTO_WEDGE : OUT_OF_WEDGE;
    return kinds;
  }
}

/** Whether a piece that has come to `to` stands in the way of a mate that threatened, and the move mates no more. */
function shuts(view: View, side: Side, mate: Mate, to: Square): boolean {
  const king = view.squares[side];
  const stands = between(mate.from, mate.to)?.includes(to) || between(mate.to, king)?.includes(to);
  if (!stands) return false;
  const still = matesInOne(view, enemyOf(side));
  return !still.some(({ piece, to: square }) => piece === mate.piece && square === mate.to);
}

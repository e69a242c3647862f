// A game's stays in the target: its unbroken stretches with exactly the target's men on the board.

import { type Board, type Color, defined } from "chessops";
import type { Chess } from "chessops/chess";
import { makeSan } from "chessops/san";
import { type Move, isNormal } from "chessops/types";

import { KINDS, type Material, type Men } from "../chess/material.js";
import type { Ply, Square } from "../chess/units.js";

export interface StayPosition {
  /** In a placement's order: kings, attacker's men, defender's men. */
  readonly squares: Square[];
  readonly attackerToMove: boolean;
  /** Half-moves since the last capture or pawn move (the FEN's fifth field). */
  readonly halfmoves: number;
  readonly fullmove: number;
  /** A king could still castle: possible from an invented FEN, and outside the tables. */
  readonly castling: boolean;
  /** The move played, null at the end of the game. */
  readonly move: { readonly san: string; readonly from: Square; readonly to: Square } | null;
  /** Seconds left on the mover's clock after the move. */
  readonly clock: number | null;
}

export interface Stay {
  readonly attacker: Color;
  readonly firstPly: Ply;
  readonly positions: StayPosition[];
}

/** Squares of a side's men in order, or undefined if they are not these men. */
function squaresOf(board: Board, color: Color, men: Men): Square[] | undefined {
  const squares: Square[] = [];
  if (board[color].size() !== men.length + 1) return undefined;
  for (let kind = 0; kind < KINDS.length; ++kind) {
    const found = [...board.pieces(color, KINDS[kind])];
    if (found.length !== men.filter((one) => one === kind).length) return undefined;
    squares.push(...found);
  }
  return squares;
}

const other = (color: Color): Color => (color === "white" ? "black" : "white");

/** The squares of a position in the target's order, with White or Black as the attacker. */
export function targetSquares(
  board: Board,
  material: Material,
): { readonly attacker: Color; readonly squares: Square[] } | undefined {
  if (board.occupied.size() !== material.men) return undefined;
  for (const attacker of ["white", "black"] as const) {
    const kings = [board.kingOf(attacker), board.kingOf(other(attacker))];
    const attackers = squaresOf(board, attacker, material.attacker);
    const defenders = attackers && squaresOf(board, other(attacker), material.defender);
    if (kings.every(defined) && attackers && defenders) {
      return { attacker, squares: [...(kings as Square[]), ...attackers, ...defenders] };
    }
  }
  return undefined;
}

/** Collects stays while a game is played through: call `visit` with each position and the move played there. */
export class StayCollector {
  readonly stays: Stay[] = [];
  private open: Stay | undefined;

  constructor(
    private readonly material: Material,
    private readonly clocks: readonly (number | undefined)[] = [],
  ) {}

  readonly visit = (position: Chess, ply: Ply, move: Move | undefined): void => {
    const found = targetSquares(position.board, this.material);
    if (!found) {
      this.open = undefined;
      return;
    }
    if (!this.open) {
      this.open = { attacker: found.attacker, firstPly: ply, positions: [] };
      this.stays.push(this.open);
    }
    this.open.positions.push({
      squares: found.squares,
      attackerToMove: position.turn === found.attacker,
      halfmoves: position.halfmoves,
      fullmove: position.fullmoves,
      castling: position.castles.castlingRights.nonEmpty(),
      move: move && isNormal(move) ? { san: makeSan(position, move), from: move.from, to: move.to } : null,
      clock: (move && this.clocks[ply]) ?? null,
    });
  };
}

// A game's spans in the target: its unbroken stretches with exactly the target's pieces on the board.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";
import { makeSan } from "chessops/san";
import { type Move, type NormalMove, isNormal } from "chessops/types";

import { placeBoard } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import type { Ply, Square } from "../chess/units.js";
import type { MainLine } from "../pgn/game/movetext.js";

/** SAN by the rules library, for moves that lead out of the material or that placements know nothing of. */
const sanWhereOdd = (position: Chess, move: NormalMove): string | null =>
  position.board.occupied.has(move.to) ? makeSan(position, move) : null;

export interface SpanPosition {
  /** In a placement's order: kings, attacker's pieces, defender's pieces. */
  readonly squares: Square[];
  readonly attackerToMove: boolean;
  /** Half-moves since the last capture or pawn move (the FEN's fifth field). */
  readonly halfmoves: number;
  readonly fullmove: number;
  /** A king could still castle: possible from an invented FEN, and outside the tables. */
  readonly castling: boolean;
  /** The move played, null at the end of the game; with its SAN where it takes something or castles. */
  readonly move: { readonly san: string | null; readonly from: Square; readonly to: Square } | null;
  /** Seconds left on the mover's clock after the move, and before it. */
  readonly clock: number | null;
  readonly clockBefore: number | null;
  /** Seconds the move took. */
  readonly spent: number | null;
}

export interface Span {
  readonly attacker: Color;
  readonly firstPly: Ply;
  readonly positions: SpanPosition[];
}

/** Collects spans while a game is played through: call `visit` with each position and the move played there. */
export class SpanCollector {
  readonly spans: Span[] = [];
  private open: Span | undefined;

  /** `increment` in seconds a move, where the time control has one for the whole game. */
  constructor(
    private readonly material: Material,
    private readonly times: Partial<Pick<MainLine, "clocks" | "elapsed">> = {},
    private readonly increment?: number,
  ) {}

  /** The mover's times at a ply: clocks are read with the increment already added (common practice, no source). */
  private timesAt(ply: Ply): Pick<SpanPosition, "clock" | "clockBefore" | "spent"> {
    const clock = this.times.clocks?.[ply] ?? null;
    const clockBefore = (ply >= 2 ? this.times.clocks?.[ply - 2] : undefined) ?? null;
    const told = this.times.elapsed?.[ply];
    if (told !== undefined || clock === null || clockBefore === null || this.increment === undefined)
      return { clock, clockBefore, spent: told ?? null };
    const spent = clockBefore + this.increment - clock;
    // a clock that was set anew in between tells nothing
    return { clock, clockBefore, spent: spent >= 0 && spent <= clockBefore + this.increment ? spent : null };
  }

  readonly visit = (position: Chess, ply: Ply, move: Move | undefined): void => {
    const full = position.board.occupied.size() === this.material.men;
    const found = full ? placeBoard(position.board) : undefined;
    if (found?.material.id !== this.material.id) {
      this.open = undefined;
      return;
    }
    if (!this.open) {
      this.open = { attacker: found.attacker, firstPly: ply, positions: [] };
      this.spans.push(this.open);
    }
    this.open.positions.push({
      squares: found.squares,
      attackerToMove: position.turn === found.attacker,
      halfmoves: position.halfmoves,
      fullmove: position.fullmoves,
      castling: position.castles.castlingRights.nonEmpty(),
      move:
        move && isNormal(move) ? { san: sanWhereOdd(position, move), from: move.from, to: move.to } : null,
      ...(move ? this.timesAt(ply) : { clock: null, clockBefore: null, spent: null }),
    });
  };
}

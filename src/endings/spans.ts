// A game's spans in the target: its unbroken stretches with exactly the target's pieces on the board. Within one, where few
// pieces are left, most moves are read at a glance.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";
import { makeSan } from "chessops/san";
import { type Move, type NormalMove, isNormal } from "chessops/types";

import { placeBoard } from "../chess/fen.js";
import { type Material, hasEqualPieces } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import { NO_MOVE, readQuietSan } from "../chess/san.js";
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

/** Collects spans while a game is played through: give `visit` and `glance` to `playThrough`. */
export class SpanCollector {
  readonly spans: Span[] = [];
  private open: Span | undefined;
  /** A move leaves the order of the squares: equal pieces of a side are kept in the order of theirs. */
  private readonly keepsOrder: boolean;
  private movement: Movement | undefined;
  private lookedAt: Ply = -1;
  private lookedSquares: Square[] | undefined;

  /** `increment` in seconds a move, where the time control has one for the whole game. */
  constructor(
    private readonly material: Material,
    private readonly times: Partial<Pick<MainLine, "clocks" | "elapsed">> = {},
    private readonly increment?: number,
  ) {
    this.keepsOrder = !hasEqualPieces(material);
  }

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

  /** The squares after the last move of the open span; undefined where something was taken, or a king castled. */
  private squaresNow(position: Chess): Square[] | undefined {
    const last = this.keepsOrder ? this.open?.positions.at(-1) : undefined;
    if (!last?.move || last.castling || position.board.occupied.size() !== last.squares.length)
      return undefined;
    const { from, to } = last.move;
    // as many pieces as before, and none that can be promoted: one has moved
    return last.squares.map((square) => (square === from ? to : square));
  }

  /** The squares of the position that was looked at last, by its ply. */
  private squaresAt(position: Chess, ply: Ply): Square[] | undefined {
    if (this.lookedAt !== ply) this.lookedSquares = this.squaresNow(position);
    this.lookedAt = ply;
    return this.lookedSquares;
  }

  /** Reads a move within the open span, where it is written as usual and takes nothing. */
  readonly glance = (position: Chess, ply: Ply, token: string): NormalMove | undefined => {
    const squares = this.squaresAt(position, ply);
    if (!squares) return undefined;
    const movement = (this.movement ??= new Movement(this.material));
    const move = readQuietSan(movement, squares, position.turn === this.open!.attacker, token);
    return move === NO_MOVE ? undefined : { from: squares[move >> 6], to: move & 63 };
  };

  readonly visit = (position: Chess, ply: Ply, move: Move | undefined): void => {
    let squares = this.squaresAt(position, ply);
    if (!squares) {
      const full = position.board.occupied.size() === this.material.men;
      const found = full ? placeBoard(position.board) : undefined;
      if (found?.material.id !== this.material.id) {
        this.open = undefined;
        return;
      }
      ({ squares } = found);
      if (!this.open) {
        this.open = { attacker: found.attacker, firstPly: ply, positions: [] };
        this.spans.push(this.open);
      }
    }
    const open = this.open!;
    open.positions.push({
      squares,
      attackerToMove: position.turn === open.attacker,
      halfmoves: position.halfmoves,
      fullmove: position.fullmoves,
      castling: position.castles.castlingRights.nonEmpty(),
      move:
        move && isNormal(move) ? { san: sanWhereOdd(position, move), from: move.from, to: move.to } : null,
      ...(move ? this.timesAt(ply) : { clock: null, clockBefore: null, spent: null }),
    });
  };
}

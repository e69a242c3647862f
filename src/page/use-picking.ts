// What a board is given, and the choosing of its squares: a piece is picked up, put down, moved, or only pointed at.

import { useEffect, useMemo, useState } from "preact/hooks";

import { piecesOn } from "../chess/fen-text.js";
import type { Colour, Square } from "./fen.js";
import type { Arrow, ScreenMark } from "./screen-board.js";

export interface BoardProps {
  readonly fen: string;
  readonly below: Colour;
  /** What the board is called by those who do not see it. */
  readonly label: string;
  readonly marks?: ReadonlyMap<Square, ScreenMark>;
  readonly framed?: Square;
  /** The move that is spoken of. */
  readonly arrows?: readonly Arrow[];
  /** Whether the side to move is in check. */
  readonly inCheck?: boolean;
  /** More to be said of a square, such as the verdict of a move to it. */
  readonly saidOf?: (square: Square) => string | undefined;
  /** Whether a piece may be picked up. */
  readonly movable?: (square: Square, piece: string) => boolean;
  /** Called with a move made by dragging, or by choosing a piece and then a square; `to` is null off the board. */
  readonly onMove?: (from: Square, to: Square | null) => void;
  /** Called with the piece that has been picked up, and with undefined when it is put down. */
  readonly onPick?: (square: Square | undefined) => void;
  /** Called with a square that was pointed at, where that picks up no piece. */
  readonly onSquare?: (square: Square) => void;
  /** Called when a finger sweeps over the board: 1 to the left, which goes on, -1 to the right. */
  readonly onSweep?: (way: 1 | -1) => void;
}

/** The piece picked up, and what choosing a square does. */
export function usePicking({ fen, movable, onMove, onPick, onSquare }: BoardProps) {
  const [chosen, setChosen] = useState<Square>();
  const pieces = useMemo(() => piecesOn(fen), [fen]);
  const can = (square: Square) => pieces.has(square) && (movable?.(square, pieces.get(square)!) ?? false);
  const pick = (square: Square | undefined) => {
    setChosen(square);
    onPick?.(square);
  };
  // what a click does may have been changed meanwhile: a piece that may not be picked up any more is put down
  const picked = chosen !== undefined && can(chosen) ? chosen : undefined;
  useEffect(() => {
    if (picked === undefined) pick(undefined);
  }, [picked]);
  useEffect(() => pick(undefined), [fen]);
  const choose = (square: Square) => {
    if (picked === square) return pick(undefined);
    if (can(square)) return pick(square);
    if (picked !== undefined) {
      onMove?.(picked, square);
      return pick(undefined);
    }
    onSquare?.(square);
  };
  return { pieces, picked, can, pick, choose };
}

/** What picking gives to the grid of squares and to dragging. */
export type Picking = ReturnType<typeof usePicking>;

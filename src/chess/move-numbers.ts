// Numbers of moves: as they are written before moves, and as sentences name them.

import type { Color } from "chessops";

import { fenFields } from "./fen-text.js";
import type { Ply } from "./units.js";

/** Number of the move to be played at position `n` of an ending whose first position has move `first`. */
export const fullmoveAt = (first: number, whiteBegins: boolean, n: number): number =>
  first + Math.floor((n + (whiteBegins ? 0 : 1)) / 2);

/** What is written before a move: "84." for White's, "84..." for Black's. */
const label = (turn: Color, number: number) => `${number}${turn === "white" ? "." : "..."}`;

/** The number of the move that is made in a position: "84." or "84...". */
export function moveNumber(fen: string): string {
  const { turn, fullmove } = fenFields(fen);
  return label(turn, fullmove);
}

/** Numbers of moves by their plies, counted from a position whose ply is known: right for games from a FEN as well. */
export function moveOf({
  look,
}: {
  readonly look: { readonly fen: string; readonly ply: Ply };
}): (ply: Ply) => number {
  const { turn, fullmove } = fenFields(look.fen);
  return (ply) => fullmoveAt(fullmove, turn === "white", ply - look.ply);
}

/** Moves of a line with their numbers, the first of which is `number`: ["1... Rb4+", "2. Ka5", "Rc4"]. */
export const numbered = (turn: Color, number: number, line: readonly string[]): string[] =>
  line.map((move, n) => {
    const half = n + (turn === "white" ? 0 : 1);
    if (half % 2 === 0) return `${label("white", number + half / 2)} ${move}`;
    return n === 0 ? `${label("black", number)} ${move}` : move;
  });

// FENs as the page needs them: whose move it is, other pieces on the board, the same position. No rules of chess: those
// are the server's.

import { type Arrow, pieceInWords } from "../documents/diagram.js";
import { boardOf, fenFields, fenOf, piecesOn } from "../chess/fen-text.js";

/** A square as drawings number them, a1 = 0, b1 = 1 … h8 = 63. */
export type Square = Arrow["from"];
export type Colour = "white" | "black";

export const otherColour = (colour: Colour): Colour => (colour === "white" ? "black" : "white");
/** "White". */
export const colourName = (colour: Colour): string => (colour === "white" ? "White" : "Black");

/** Whose piece a letter of a FEN is. */
export const colourOf = (letter: string): Colour => (letter === letter.toUpperCase() ? "white" : "black");

/** "White king". */
export const pieceName = (letter: string): string =>
  `${colourName(colourOf(letter))} ${pieceInWords(letter)}`;

/** Whose move it is in a position. */
export const turnOf = (fen: string): Colour => (fen.split(" ")[1] === "w" ? "white" : "black");

/** A FEN with other pieces: `change` is given every piece by square. */
export function changed(fen: string, change: (pieces: Map<Square, string>) => void): string {
  const pieces = piecesOn(fen);
  change(pieces);
  return fenOf({ ...fenFields(fen), board: boardOf(pieces) });
}

/** A FEN without the piece on a square. */
export const without = (fen: string, square: Square): string =>
  changed(fen, (pieces) => void pieces.delete(square));

/** A FEN with single blanks and all six fields. */
export function tidyFen(fen: string): string {
  const fields = fen.trim().split(/\s+/);
  return ["", "w", "-", "-", "0", "1"].map((usual, n) => fields[n] ?? usual).join(" ");
}

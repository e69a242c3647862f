// FENs as text: their fields and the pieces on their board. Nothing is checked and no rules library is needed, so that the page
// in the browser can use it too.

import type { Color } from "chessops";

import type { Square } from "./units.js";

/** Names of pieces by the letters of the PGN standard. */
export const PIECE_NAMES: Readonly<Record<string, string>> = {
  K: "king",
  Q: "queen",
  R: "rook",
  B: "bishop",
  N: "knight",
  P: "pawn",
};

export const opponent = (color: Color): Color => (color === "white" ? "black" : "white");

/** The FEN that somebody has typed as one word or several. */
export const typedFen = (words: readonly string[]): string => words.join(" ").trim();

/** The fields of a FEN. */
export interface FenFields {
  readonly board: string;
  readonly turn: Color;
  /** Castling rights and the en passant square, as they are written. */
  readonly castling: string;
  readonly enPassant: string;
  /** Half-moves since the last capture or pawn move. */
  readonly halfmoves: number;
  /** Number of the next move. */
  readonly fullmove: number;
}

/** Takes a FEN apart without checking it; what is left out is as in a position without a history. */
export function fenFields(fen: string): FenFields {
  const [board, turn, castling = "-", enPassant = "-", halfmoves = "0", fullmove = "1"] = fen
    .trim()
    .split(/\s+/);
  return {
    board,
    turn: turn === "b" ? "black" : "white",
    castling,
    enPassant,
    halfmoves: Number(halfmoves),
    fullmove: Number(fullmove),
  };
}

/** The FEN of fields. Inverse of `fenFields`. */
export const fenOf = ({ board, turn, castling, enPassant, halfmoves, fullmove }: FenFields): string =>
  `${board} ${turn[0]} ${castling} ${enPassant} ${halfmoves} ${fullmove}`;

/** A FEN with the other side to move. */
export function otherTurn(fen: string): string {
  const fields = fenFields(fen);
  return fenOf({ ...fields, turn: opponent(fields.turn) });
}

/** The letters of a FEN's pieces by square, from the eighth rank down. */
export function piecesOn(fen: string): Map<Square, string> {
  const pieces = new Map<Square, string>();
  fenFields(fen)
    .board.split("/")
    .forEach((row, n) => {
      let file = 0;
      for (const c of row) {
        if (/\d/.test(c)) file += Number(c);
        else pieces.set((7 - n) * 8 + file++, c);
      }
    });
  return pieces;
}

/** The board of a FEN. Inverse of `piecesOn`. */
export function boardOf(pieces: ReadonlyMap<Square, string>): string {
  const ranks = [];
  for (let rank = 7; rank >= 0; --rank) {
    let row = "";
    for (let file = 0, gap = 0; file < 8; ++file) {
      const letter = pieces.get(rank * 8 + file);
      if (letter === undefined) ++gap;
      if (gap > 0 && (letter !== undefined || file === 7)) {
        row += gap;
        gap = 0;
      }
      row += letter ?? "";
    }
    ranks.push(row);
  }
  return ranks.join("/");
}

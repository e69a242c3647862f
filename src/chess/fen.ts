// The way between FENs and placements, which know attacker and defender instead of colours. Legality is left to the rules
// library; FENs as text are fen-text.ts.

import { type Board, type Color, defined } from "chessops";
import { Chess } from "chessops/chess";
import { parseFen } from "chessops/fen";

import { LongsideError } from "../errors.js";
import { boardOf, fenOf, opponent } from "./fen-text.js";
import { KINDS, type Kind, LETTERS, MAX_MEN, type Material, type Pieces, materialOf } from "./material.js";
import { FIRST_PIECE, type Placement, firstDefender } from "./placement.js";
import type { Square } from "./units.js";

/** Squares of a side's pieces, queens first to knights, or undefined if the side has pawns. */
function sideOf(board: Board, color: Color): { pieces: Pieces; squares: Square[] } | undefined {
  const pieces: Kind[] = [];
  const squares: Square[] = [];
  if (board.pieces(color, "pawn").nonEmpty()) return undefined;
  KINDS.forEach((role, kind) => {
    for (const square of board.pieces(color, role)) {
      pieces.push(kind as Kind);
      squares.push(square);
    }
  });
  return { pieces, squares };
}

export interface BoardPlacement {
  readonly material: Material;
  readonly attacker: Color;
  /** In a placement's order. */
  readonly squares: Square[];
}

/**
 * The pieces of a board as attacker and defender (White attacks where the sides are equal); undefined if there
 * are pawns, or more pieces than the tables hold.
 */
export function placeBoard(board: Board): BoardPlacement | undefined {
  if (board.occupied.size() > MAX_MEN) return undefined;
  const white = sideOf(board, "white");
  const black = sideOf(board, "black");
  const kings = { white: board.kingOf("white"), black: board.kingOf("black") };
  if (!white || !black || !defined(kings.white) || !defined(kings.black)) return undefined;
  const material = materialOf(white.pieces, black.pieces);
  const attacker = samePieces(material.attacker, white.pieces) ? "white" : "black";
  const [one, other] = attacker === "white" ? [white, black] : [black, white];
  return {
    material,
    attacker,
    squares: [kings[attacker]!, kings[opponent(attacker)]!, ...one.squares, ...other.squares],
  };
}

const samePieces = (a: Pieces, b: Pieces) => a.length === b.length && a.every((kind, n) => kind === b[n]);

/** Reads a FEN as a legal position. Throws `bad-fen`. */
export function readFen(fen: string): Chess {
  const setup = parseFen(fen.trim());
  if (setup.isErr) throw new LongsideError("bad-fen", { fen, cause: reason(setup.error) });
  const position = Chess.fromSetup(setup.value);
  if (position.isErr) throw new LongsideError("bad-fen", { fen, cause: reason(position.error) });
  return position.value;
}

const REASONS: Readonly<Record<string, string>> = {
  ERR_FEN: "it cannot be read",
  ERR_BOARD: "the board part cannot be read",
  ERR_TURN: "the side to move must be w or b",
  ERR_CASTLING: "the castling part cannot be read",
  ERR_EP_SQUARE: "the en passant square cannot be read",
  ERR_HALFMOVES: "the half-move clock is no number from 0 to 9999",
  ERR_FULLMOVES: "the move number is no number from 1 to 9999",
  ERR_EMPTY: "the board is empty",
  ERR_OPPOSITE_CHECK: "the side that is not to move is in check",
  ERR_IMPOSSIBLE_CHECK: "no last move can have given this check",
  ERR_PAWNS_ON_BACKRANK: "a pawn stands on the first or last rank",
  ERR_KINGS: "each side needs one king",
  ERR_VARIANT: "it belongs to another variant",
};
const reason = (error: Error) => REASONS[error.message] ?? error.message;

/** A legal position's placement. Throws `outside-tables` for pawns, castling rights or too many men. */
export function placementOf(position: Chess): BoardPlacement & Placement {
  const outside = (cause: string) => new LongsideError("outside-tables", { cause });
  if (position.board.pawn.nonEmpty()) throw outside("there are pawns on the board");
  const pieces = position.board.occupied.size();
  if (pieces > MAX_MEN) throw outside(`there are ${pieces} pieces on the board, kings included`);
  if (position.castles.castlingRights.nonEmpty()) throw outside("a king can still castle");
  const placed = placeBoard(position.board)!;
  return { ...placed, attackerToMove: position.turn === placed.attacker };
}

/** Letters of a material's men in the order of a placement, White's large; the attacker has the given colour. */
export function menLetters(material: Material, attacker: Color): string[] {
  const kinds: readonly Kind[] = [...material.attacker, ...material.defender];
  return Array.from({ length: material.men }, (_, n) => {
    const attackers = n === 0 || (n >= FIRST_PIECE && n < firstDefender(material));
    const letter = n < FIRST_PIECE ? "K" : LETTERS[kinds[n - FIRST_PIECE]];
    return attackers === (attacker === "white") ? letter : letter.toLowerCase();
  });
}

/** The FEN of a placement with the given colour as the attacker. */
export function placementFen(
  placement: Placement,
  material: Material,
  attacker: Color,
  halfmoves = 0,
  fullmove = 1,
): string {
  const letters = menLetters(material, attacker);
  const pieces = new Map<Square, string>(placement.squares.map((square, n) => [square, letters[n]]));
  const turn = placement.attackerToMove ? attacker : opponent(attacker);
  return fenOf({ board: boardOf(pieces), turn, castling: "-", enPassant: "-", halfmoves, fullmove });
}

// Whether a result is plain from the pieces alone: where a student needs no more moves to believe it.

import { type Color, COLORS } from "chessops";
import type { Chess } from "chessops/chess";

import type { Verdict } from "../chess/verdict.js";

/** How many heavy pieces (queens, rooks) and minor ones (bishops, knights) a side has. */
interface Force {
  readonly queens: number;
  readonly rooks: number;
  readonly minors: number;
}

function forceOf({ board }: Chess, color: Color): Force {
  const count = (role: "queen" | "rook" | "bishop" | "knight") => board.pieces(color, role).size();
  return { queens: count("queen"), rooks: count("rook"), minors: count("bishop") + count("knight") };
}

const canMate = ({ queens, rooks, minors }: Force) => queens + rooks > 0 || minors > 1;
const isBare = ({ queens, rooks, minors }: Force) => queens + rooks + minors === 0;
const isLike = (one: Force, other: Force) =>
  one.queens === other.queens && one.rooks === other.rooks && one.minors === other.minors;
const isRook = ({ queens, rooks, minors }: Force) => queens === 0 && rooks === 1 && minors === 0;
const isMinor = ({ queens, rooks, minors }: Force) => queens === 0 && rooks === 0 && minors === 1;

/**
 * False where the pieces make one expect another result: a lone king that does not lose to a rook, equal pieces or a rook
 * against a minor piece that somebody wins. Other balances are taken as they come.
 */
export function isPlain(position: Chess, verdict: Verdict): boolean {
  const [one, other] = COLORS.map((color) => forceOf(position, color));
  if (isBare(one) || isBare(other)) return (canMate(one) || canMate(other)) === (verdict !== "drawn");
  const usuallyDrawn =
    isLike(one, other) || (isRook(one) && isMinor(other)) || (isMinor(one) && isRook(other));
  return !usuallyDrawn || verdict === "drawn";
}

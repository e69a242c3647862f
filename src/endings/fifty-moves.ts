// The fifty-move rule, FIDE Laws of Chess 2023, 9.3: a draw may be claimed when each side's last fifty moves were made
// without a capture and without the move of a pawn. What a position is worth under it follows from the moves to
// conversion and from the count. It is exact: after a conversion the count begins anew, and no smaller ending without pawns
// of four pieces or fewer takes fifty moves. Whether a claim is right the arbiter decides.

import type { Moves } from "../chess/units.js";
import type { Score } from "../chess/verdict.js";

/** Half-moves without capture or pawn move after which a draw may be claimed. */
const COUNT = 100;

/**
 * A claim may be written with the move that completes the count, which is then not made (FIDE Laws 9.3.1): the score
 * ends one half-move earlier.
 */
export const CLAIMED_FROM = COUNT - 1;

/** The half-moves a conversion in `dtc` moves of the winner takes. */
export const halfMovesFor = (dtc: Moves, winnerToMove: boolean): number => 2 * dtc - (winnerToMove ? 1 : 0);

/** The most moves of the winner in which a conversion is in time; 0 where only a mate on the board is. */
export const movesInTime = (halfmoves: number, winnerToMove: boolean): Moves =>
  Math.max(0, Math.floor((COUNT - halfmoves + (winnerToMove ? 1 : 0)) / 2));

/**
 * Whether the win would come later than a draw can be claimed. `halfmoves` is the count so far; a mate on the board ends
 * the game before any claim.
 */
export function isBeyondFifty(
  score: Score,
  dtc: Moves | null,
  attackerToMove: boolean,
  halfmoves: number,
): boolean {
  if (score === 0 || dtc === null || dtc === 0) return false;
  return halfMovesFor(dtc, attackerToMove === score > 0) > COUNT - halfmoves;
}

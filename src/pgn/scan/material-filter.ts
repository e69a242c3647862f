// The quick reject: whether a game may reach a material at all, told without reading it in full.
//
// Material of n men cannot arise from a start with m men before m − n captures. Everything that could make the count too
// small (captures without a sign, a start that cannot be counted, another variant) is flagged by the finder of games,
// and the game is then read in full; counting too many does no harm. Of what holds enough captures, the kernel looks at
// the moves (src/pgn/scan/kernel/material-filter.ts).

import type { Material } from "../../chess/material.js";
import type { GameBounds } from "./game-bounds.js";
import { theKernel } from "./scan-kernel.js";

/** Movetext of this many bytes holds captures in any real game. */
const LONG_TEXT = 400;

/** Whether a game may have the captures that lead to `men` men; false only where it certainly has not. */
export function hasCapturesFor(game: Readonly<GameBounds>, men: number): boolean {
  if (game.special || game.unsigned) return true;
  const needed = game.startMen - men;
  if (needed > 0 && game.captures === 0) return game.end - game.text > LONG_TEXT;
  return needed >= 0 && game.captures >= needed;
}

/** Whether a game that was found in `bytes` may reach the material; false only where it certainly does not. */
export function mayReach(bytes: Uint8Array, game: Readonly<GameBounds>, target: Material): boolean {
  if (!hasCapturesFor(game, target.men)) return false;
  return game.special || game.unsigned || game.captures === 0 || theKernel().mayReach(bytes, game, target);
}

// Pictures: the same formation, wherever on the board it stands and however it is turned.

import type { Placement } from "../chess/placement.js";
import { SYMMETRIES, fileOf, imageOf, rankOf } from "../chess/squares.js";

/** Equal for placements that are one formation with one side to move: turned, mirrored or moved over the board. */
export function pictureOf({ squares, attackerToMove }: Placement): string {
  const forms = SYMMETRIES.map((symmetry) => {
    const turned = squares.map((square) => imageOf(symmetry, square));
    const file = Math.min(...turned.map(fileOf));
    const rank = Math.min(...turned.map(rankOf));
    return turned.map((square) => square - file - 8 * rank).join(" ");
  });
  return `${forms.sort()[0]} ${attackerToMove ? "attacker" : "defender"}`;
}

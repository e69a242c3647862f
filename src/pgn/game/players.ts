// The players of a game in a line.

import { plainLine } from "../../plain-text.js";

/** "Adler v Brandt". */
export const namesText = ({
  white,
  black,
}: {
  readonly white: string | null;
  readonly black: string | null;
}): string => plainLine(`${white ?? "?"} v ${black ?? "?"}`);

/** "Adler (2310) v Brandt", with ratings where known. */
export function playersText(game: {
  readonly white: string | null;
  readonly black: string | null;
  readonly whiteRating: number | null;
  readonly blackRating: number | null;
}): string {
  const one = (name: string | null, rating: number | null) =>
    (name ?? "?") + (rating === null ? "" : ` (${rating})`);
  return namesText({
    white: one(game.white, game.whiteRating),
    black: one(game.black, game.blackRating),
  });
}

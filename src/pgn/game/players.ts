// The players of a game in a line, and where it was played.

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

/** What collections put to a name to tell people of one name apart: "Quellmar, Ada2", "Quellmar, A(QD)", "Quellmar, A NED". */
const MARKS = /\([^()]*\)|(?<=\p{L})\d+|(?<=^\s*\p{Lu}\.?)\s+[A-Z]{3}\s*$/gu;

/** A name as people write it: "Evgeny Potkin" for "Potkin,Evgeny", "V. Potkin" for "Potkin,V". */
export function writtenName(name: string): string {
  const [last, first, ...more] = name
    .split(",")
    .map((part) => part.replace(MARKS, "").replace(/\s+/g, " ").trim());
  if (last && first === undefined) return last;
  if (!last || !first || more.length > 0) return name;
  return `${first.replace(/\b(\p{L})(?=\s|$)(?!\.)/gu, "$1.")} ${last}`;
}

/** How books call a player of whom no name is known; PGN writes "?". */
const NAMELESS = "NN";

/** A game with its players' names as people write them. */
export const withWrittenNames = <T extends { readonly white: string | null; readonly black: string | null }>(
  game: T,
): T => {
  const written = (name: string | null) =>
    name === null || /^[?\s]*$/.test(name) ? NAMELESS : writtenName(name);
  return { ...game, white: written(game.white), black: written(game.black) };
};

const MONTHS = "January February March April May June July August September October November December".split(
  " ",
);

/** A date of PGN as people write it: "1 October 2011", "October 2011", "2011"; null for none. */
export function writtenDate(date: string | null): string | null {
  const [, year, month, day] = /^(\d{4})(?:\.(\d\d))?(?:\.(\d\d))?/.exec(date ?? "") ?? [];
  if (year === undefined) return null;
  const name = month === undefined ? undefined : MONTHS[Number(month) - 1];
  if (name === undefined) return year;
  return day === undefined ? `${name} ${year}` : `${Number(day)} ${name} ${year}`;
}

/** Where and when a game was played; what is not known of it is left out. */
export const placeText = (where: readonly (string | null)[], date: string | null): string =>
  [...where, date?.replaceAll(".??", "").replace("????", "")]
    .filter((part) => part && part !== "?")
    .join(", ");

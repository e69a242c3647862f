// Places of the board in words: squares, files, the corner, the edge, the centre, and several of them with "or" between.

import type { Found } from "./phrase-pattern.js";
import { type Quantities, isWord } from "./quantities.js";
import type { SpokenWord } from "./spoken.js";

/** Places of the board that are neither squares nor lines. */
const SPOTS = [
  { name: "corner", said: ["corner"] },
  { name: "edge", said: ["edge", "of", "the", "board"] },
  { name: "edge", said: ["edge"] },
  { name: "edge", said: ["rim"] },
  { name: "edge", said: ["side", "of", "the", "board"] },
  { name: "back", said: ["back", "rank"] },
  { name: "back", said: ["last", "rank"] },
  { name: "centre", said: ["centre", "of", "the", "board"] },
  { name: "centre", said: ["centre"] },
  { name: "centre", said: ["middle", "of", "the", "board"] },
] as const;

/** Whether a name is no more than a place. */
export const isSpot = (name: string): boolean => SPOTS.some(({ said }) => said.join(" ") === name);

/** Joins places to a list. */
const joinsSpots = (word: SpokenWord | undefined): boolean => /^(?:or|nor|,|\/)$/.test(word?.word ?? "");

/** "On a file" is on some file, unlike "on the a file" and "on the a-file". */
const isArticle = (words: readonly SpokenWord[], at: number): boolean =>
  words[at].text === "a" &&
  isWord(words, at + 1, "file") &&
  words[at + 1].token !== words[at].token &&
  words[at - 1]?.word !== "the" &&
  !joinsSpots(words[at - 1]);

/** The squares from one to another on a diagonal; none where they lie on none. */
function diagonal(from: string, to: string): string[] {
  const [file, rank] = [from.charCodeAt(0), from.charCodeAt(1)];
  const [files, ranks] = [to.charCodeAt(0) - file, to.charCodeAt(1) - rank];
  const steps = Math.abs(files);
  return steps === 0 || steps !== Math.abs(ranks)
    ? []
    : Array.from({ length: steps + 1 }, (_, n) =>
        String.fromCharCode(file + n * Math.sign(files), rank + n * Math.sign(ranks)),
      );
}

/** "The long diagonal", "the a1-h8 diagonal": where it ends, and its squares. */
function diagonalAt(
  words: readonly SpokenWord[],
  quantities: Quantities,
  at: number,
): { readonly end: number; readonly squares: readonly string[] } | undefined {
  // "a long diagonal" is either; the light one may be told from the dark one
  const said = [0, 1, 2].map((n) => words[at + n]?.word);
  const named = said.indexOf("diagonal");
  const tone = said.slice(0, named).find((word) => word !== "long");
  if (named > 0 && said.slice(0, named).includes("long") && /^(?:light|dark|undefined)$/.test(`${tone}`)) {
    const [dark, light] = [diagonal("a1", "h8"), diagonal("h1", "a8")];
    return {
      end: at + named + 1,
      squares: [...(tone === "light" ? [] : dark), ...(tone === "dark" ? [] : light)],
    };
  }
  const [from] = quantities.squares(at);
  const next = from && (isWord(words, from.end, "to") ? from.end + 1 : from.end);
  const [to] = next !== undefined && words[next] ? quantities.squares(next) : [];
  return to && isWord(words, to.end, "diagonal")
    ? { end: to.end + 1, squares: diagonal(from.value, to.value) }
    : undefined;
}

/** Places of the board, between which "or" may stand: "d5 or e5", "the a or h file", "the corner". */
export function spotsAt(words: readonly SpokenWord[], quantities: Quantities, at: number): Found[] {
  const found: Found[] = [];
  let places: string[] = [];
  for (let n = at; words[n] !== undefined;) {
    const line = diagonalAt(words, quantities, n);
    const [square] = quantities.squares(n);
    const place = SPOTS.find(({ said }) => said.every((word, m) => isWord(words, n + m, word)));
    const file = /^[a-h]$/.test(words[n].word) && !isArticle(words, n) ? words[n].word : undefined;
    if (line && line.squares.length > 0) {
      places = [...places, ...line.squares];
      n = line.end;
    } else if (square) {
      places = [...places, square.value];
      n = square.end;
    } else if (place) {
      places = [...places, place.name];
      n += place.said.length;
    } else if (file) {
      places = [...places, file];
      ++n;
      if (isWord(words, n, "file")) ++n;
      // "the a or h file": the word stands behind the last
      else if (!joinsSpots(words[n]) && !(places.length > 1 && places.every((one) => one.length === 1)))
        return found;
    } else return found;
    found.push({ end: n, value: `${SPOT}${places.join(" ")}` });
    if (!joinsSpots(words[n]) || words[n + 1] === undefined) return found;
    // "a8" begins with a word that says nothing elsewhere
    n = quantities.squares(n + 1).length > 0 ? n + 1 : quantities.skipLight(n + 1);
  }
  return found;
}

/** Begins the values of places of the board. */
export const SPOT = "at ";

/** What a place of the board is for a piece, as a condition on its squares. */
export function spotOf(value: string, piece: string): string {
  const [file, rank] = [`${piece}-board-file`, `${piece}-board-rank`];
  const places: Readonly<Record<string, string>> = {
    corner: `(${file} = a or ${file} = h) and (${rank} = 1 or ${rank} = 8)`,
    edge: `${file} = a or ${file} = h or ${rank} = 1 or ${rank} = 8`,
    back: `${piece}-rank = 1`,
    centre: `${file} = c..f and ${rank} = 3..6`,
    ...(piece === "king"
      ? { corner: "corner-steps = 0", edge: "king-rank = 1", centre: "king-rank >= 3 and king-file >= 3" }
      : {}),
  };
  const one = (place: string) =>
    places[place] ??
    (place.length === 1 ? `${file} = ${place}` : `${rank} = ${place[1]} and ${file} = ${place[0]}`);
  return value
    .split(" ")
    .map((place) => `(${one(place)})`)
    .join(" or ");
}

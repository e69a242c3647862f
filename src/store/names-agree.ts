// Whether two files may mean one player, however they write the name: in another order, with initials only, without
// accents, put into letters otherwise ("Kortschnoj", "Korchnoi"), misspelt by a letter, or not known.

import distance from "damerau-levenshtein";

import { foldText } from "./names.js";

/** Letters for one sound in the ways in which names are put into Latin letters (common practice, no source). */
const SOUNDS: readonly (readonly [RegExp, string])[] = [
  [/schtsch|shch|szcz/g, "s"],
  [/tsch|tch|tsh|cz|kh|ch/g, "c"],
  [/sch|sh|sz/g, "s"],
  [/ts|tz|zh/g, "z"],
  [/ph|w|f/g, "v"],
  [/ks/g, "x"],
  [/ck|q/g, "k"],
  [/th/g, "t"],
  // vowels, and what stands for one
  [/[aeiouyjh]/g, ""],
  [/(.)\1+/g, "$1"],
];

/** The consonants of a word, as they sound. */
const soundOf = (word: string): string => SOUNDS.reduce((text, [from, to]) => text.replace(from, to), word);

const wordsOf = (name: string): string[] => foldText(name).match(/[\p{L}\d]{3,}/gu) ?? [];

function isAlike(a: string, b: string): boolean {
  if (a === b) return true;
  const [one, other] = [soundOf(a), soundOf(b)];
  if (one.length >= 2 && one === other) return true;
  return Math.min(a.length, b.length) >= 5 && distance(a, b).steps <= 1;
}

/** Whether names agree: unknown ones do with any, others if they share a word of three letters or more. */
export function namesAgree(a: string | null, b: string | null): boolean {
  if (a === b || a === null || b === null) return true;
  const [some, others] = [wordsOf(a), wordsOf(b)];
  if (some.length === 0 || others.length === 0) return true;
  return some.some((one) => others.some((other) => isAlike(one, other)));
}

// Words that several blocks of a lesson share: shares as people say them, lists, names of files.

import { numberWord } from "../../position/wording.js";

/** A list as a sentence has it: "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[], last = "and"): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;

/** A share as a person says it: "all", "nine in ten", "one in four", "hardly any", "none". */
export function shareInWords(share: number): string {
  if (share === 1) return "all";
  if (share === 0) return "none";
  if (share > 0.97) return "nearly all";
  if (share < 0.03) return "hardly any";
  if (share < 0.08) return "one in twenty";
  if (share >= 0.15 && share < 0.175) return "one in six";
  const near = [
    [1 / 5, "one in five"],
    [1 / 4, "one in four"],
    [1 / 3, "one in three"],
    [1 / 2, "half"],
    [2 / 3, "two in three"],
    [3 / 4, "three in four"],
    [4 / 5, "four in five"],
  ] as const;
  const found = near.find(([value]) => Math.abs(value - share) <= 0.025);
  if (found) return found[1];
  const tenths = Math.max(1, Math.min(9, Math.round(10 * share)));
  return tenths === 5 ? "about half" : `${numberWord(tenths)} in ten`;
}

/** A share beside its numbers: "nine in ten (212 of 236)". */
export const shareWithNumbers = (count: number, of: number): string =>
  `${shareInWords(count / of)} (${count.toLocaleString("en")} of ${of.toLocaleString("en")})`;

// Words that several blocks of a lesson share: shares as people say them, lists, names of files.

/** A list as a sentence has it: "a", "a and b", "a, b and c". */
export const listed = (words: readonly string[], last = "and"): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${last} ${words.at(-1)}`;

const TENS = ["none", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];

/** A small number as a word: "three", "12". */
export const numberWord = (n: number): string =>
  n > 0 && n < TENS.length ? TENS[n] : n.toLocaleString("en");

/** A share as a person says it: "all", "nine in ten", "one in four", "hardly any", "none". */
export function shareInWords(share: number): string {
  if (share === 1) return "all";
  if (share === 0) return "none";
  if (share > 0.97) return "nearly all";
  if (share < 0.03) return "hardly any";
  if (share < 0.08) return "one in twenty";
  const near = [
    [1 / 4, "one in four"],
    [1 / 3, "one in three"],
    [1 / 2, "half"],
    [2 / 3, "two in three"],
    [3 / 4, "three in four"],
  ] as const;
  const found = near.find(([value]) => Math.abs(value - share) < 0.02);
  return found ? found[1] : `${TENS[Math.max(1, Math.round(10 * share))]} in ten`;
}

/** A share beside its numbers: "nine in ten (212 of 236)". */
export const shareWithNumbers = (count: number, of: number): string =>
  `${shareInWords(count / of)} (${count.toLocaleString("en")} of ${of.toLocaleString("en")})`;

/** What the files are called, by their number from 0. */
export const FILE_NAMES = ["edge", "knight's", "bishop's", "centre"] as const;
export const fileName = (file: number): string => FILE_NAMES[Math.min(file, 7 - file)];

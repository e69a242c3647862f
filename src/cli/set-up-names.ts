// Set-ups named on the command line: with commas between them, each in quotes, or one after another.

import { spoken } from "../query/language/tokens.js";

/** Words of the longest name that is looked for. */
const LONGEST = 8;

/**
 * The names among the words of a command. Commas part them; where there are none, the longest names that are known are
 * taken one after another ("Szén second-rank defence"). What is no name is left as it was typed, so that whoever looks it up
 * can say so.
 */
export function setUpNames(words: readonly string[], isKnown: (spokenName: string) => boolean): string[] {
  return words
    .join(" ")
    .split(",")
    .map((part) => part.trim())
    .filter((part) => part !== "")
    .flatMap((part) => namesIn(part, isKnown) ?? [part]);
}

/** The names that a part consists of; undefined if something in it is none. */
function namesIn(part: string, isKnown: (spokenName: string) => boolean): string[] | undefined {
  const words = part.split(/\s+/);
  const names: string[] = [];
  for (let from = 0; from < words.length;) {
    let to = Math.min(words.length, from + LONGEST);
    while (to > from && !isKnown(spoken(words.slice(from, to).join(" ")))) --to;
    if (to === from) return undefined;
    names.push(words.slice(from, to).join(" "));
    from = to;
  }
  return names;
}

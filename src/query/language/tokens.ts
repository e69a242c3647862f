// Words of a question: cutting the text into tokens, and finding the nearest known word to an unknown one.

import distance from "damerau-levenshtein";

export interface Token {
  /** As written; without its quotes if it was quoted. */
  readonly text: string;
  /** Lower case, for comparing. */
  readonly word: string;
  readonly at: number;
  readonly end: number;
  readonly quoted: boolean;
}

/** Quoted text (straight or curly quotes; a backslash before a quote keeps it), signs, words. */
const TOKEN =
  /"((?:[^"\\]|\\.)*)"|“([^”]*)”|(?<![^\s(,=~<>])'([^']*)'(?![^\s),])|\.\.|<=|>=|!=|[=<>~(),]|(?:(?!\.\.)[^\s"“”()=<>!~,])+|[!"“”]/g;

/** A word's entry in a table; a table's own entries only, since every object knows "constructor". */
export const entryOf = <T>(table: Readonly<Record<string, T>>, word: string): T | undefined =>
  Object.hasOwn(table, word) ? table[word] : undefined;

/** Cuts a question into tokens. */
export function tokenize(text: string): Token[] {
  return [...text.matchAll(TOKEN)].map((match) => {
    const inQuotes = match[1]?.replace(/\\(["\\])/g, "$1") ?? match[2] ?? match[3];
    const quoted = inQuotes !== undefined;
    const written = inQuotes ?? match[0].replaceAll("’", "'");
    return {
      text: written,
      word: written.toLowerCase(),
      at: match.index,
      end: match.index + match[0].length,
      quoted,
    };
  });
}

/** Little words that may stand anywhere between the words of a phrase. */
export const LITTLE: ReadonlySet<string> = new Set([
  "the",
  "a",
  "an",
  "his",
  "its",
  "their",
  "is",
  "was",
  "are",
  "were",
  "had",
  "has",
  "reached",
]);

/** A name as people say it: lower case, spaces for hyphens. */
export const spoken = (text: string): string => text.toLowerCase().replaceAll("-", " ");

/** A spoken name of a set-up without the word that says what kind of thing it is. */
export const withoutKind = (name: string): string => name.replace(/ (?:defence|set up|position)$/, "");

/** Edits within which an unknown word may be a slip for a known one: a letter in three, at least one; none in two letters. */
const slips = (word: string): number => (word.length < 3 ? 0 : Math.max(1, Math.floor(word.length / 3)));

/** Known words that an unknown one may be a slip for, the nearest first; two letters swapped count as one edit. */
export function nearestWords(unknown: string, known: Iterable<string>): string[] {
  const most = slips(unknown);
  const found: { word: string; steps: number }[] = [];
  for (const word of new Set(known)) {
    if (Math.abs(word.length - unknown.length) > most) continue;
    const { steps } = distance(unknown, word);
    if (steps <= most) found.push({ word, steps });
  }
  return found.sort((a, b) => a.steps - b.steps || (a.word < b.word ? -1 : 1)).map(({ word }) => word);
}

/** Letters of the shortest word in which one letter may stand for another: "match" is none for "march". */
const LONG_ENOUGH = 7;

/**
 * Known words that an unknown one can be a slip for without a doubt: a letter too many or too few, two swapped, and in longer
 * words one for another; never the first, and no ending, since "strong" is no slip for "stronger".
 */
export function slippedFrom(unknown: string, known: Iterable<string>): string[] {
  const [swapped, found, replaced] = [new Set<string>(), new Set<string>(), new Set<string>()];
  for (const word of known) {
    if (word[0] !== unknown[0] || Math.abs(word.length - unknown.length) > 1) continue;
    if (word.startsWith(unknown) || unknown.startsWith(word)) continue;
    const isSwapped = [...word].sort().join("") === [...unknown].sort().join("");
    const isReplaced = word.length === unknown.length && !isSwapped;
    if ((isReplaced && word.length < LONG_ENOUGH) || distance(unknown, word).steps > 1) continue;
    (isSwapped ? swapped : isReplaced ? replaced : found).add(word);
  }
  // of several the likeliest kind of slip
  return [...(swapped.size > 0 ? swapped : found.size > 0 ? found : replaced)];
}

/** The known word nearest to an unknown one, if it is near enough to be what was meant. */
export const nearest = (unknown: string, known: Iterable<string>): string | undefined =>
  nearestWords(unknown, known)[0];

// Words of a question: cutting the text into tokens, and finding the nearest known word to an unknown one.

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

/** Single edits between two words: insertions, deletions, substitutions (Levenshtein 1966). */
function edits(a: string, b: string): number {
  let row = Array.from({ length: b.length + 1 }, (_, n) => n);
  for (let i = 1; i <= a.length; ++i) {
    const next = [i];
    for (let j = 1; j <= b.length; ++j) {
      next[j] = Math.min(next[j - 1] + 1, row[j] + 1, row[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
    }
    row = next;
  }
  return row[b.length];
}

/** The known word nearest to an unknown one, if it is near enough to be what was meant. */
export function nearest(unknown: string, known: Iterable<string>): string | undefined {
  let best: string | undefined;
  let least = Math.max(1, Math.floor(unknown.length / 3)) + 1;
  for (const word of known) {
    const count = edits(unknown, word);
    if (count < least) [best, least] = [word, count];
  }
  return best;
}

// Faults of grammar that a program makes: numbers that do not fit their nouns, doubled signs, values that show through.

const NOUNS =
  "moves?|games?|files?|ranks?|exercises?|positions?|errors?|endings?|placements?|answers?|pages?|checks?";

const FAULTS: readonly (readonly [string, RegExp])[] = [
  ["plural after 1", new RegExp(`(?<![\\d.,–-])1 (?:more |other )?(?:${NOUNS.replaceAll("?", "")})\\b`)],
  [
    "singular after a number",
    new RegExp(
      `(?<![\\d.,])(?:[2-9]|\\d\\d+|[\\d,]+[02-9]) (?:more |other )?(?:${NOUNS.replaceAll("s?", "")})(?![a-z-])`,
    ),
  ],
  ["verb after 1", /(?<![\d.,])1 (?:of \d+ \w+ )?(?:hold|win|draw|lose|have|are)\b/],
  ["article", /\b[Aa] [aeiou][a-z]+/],
  ["article", /\b[Aa]n [bcdfgjklmnpqrstvwxyz][a-z]+/],
  ["two blanks", /\S {2,}\S/],
  ["two stops", /(?<!\.)\.\.(?!\.)|[,;:]\.|,,|;;/],
  ["blank before a sign", / [,;:!?](?!\.)/],
  ["value that shows through", /undefined|null|NaN|\[object|Infinity/],
  ["a word twice", /\b([a-z]+) \1\b/],
  ["small letter at the beginning", /^[a-z]/],
  ["no end", /[^.!?…)]$/],
];

/** Names of the faults in a text of whole sentences. */
export const faultsOf = (text: string): string[] =>
  FAULTS.filter(([, pattern]) => pattern.test(text.trim())).map(([name]) => name);

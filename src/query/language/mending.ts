// A question as it was meant where its writing stands in the way: a slip in a word of which there is but one that it can
// be, and a verb that is said once of two things. What it was read as is told.

import { vocabularyWords } from "./categories.js";
import { FORMS, PASSED_OVER } from "./lexicon/words.js";
import { type SpokenWord, spokenWords } from "./spoken.js";
import { slippedFrom, tokenize } from "./tokens.js";

/** Words as they were written, and as they were read. */
export interface Mended {
  readonly words: string;
  readonly as: string;
}
interface MendedText {
  readonly text: string;
  readonly mended: readonly Mended[];
}

/** Letters of the shortest word that is mended: of shorter ones too many are near each other. */
const SHORTEST = 5;
/** Letters of the shortest word in which two swapped letters are put right: "wno". */
const SHORTEST_SWAPPED = 3;
const areSwapped = (word: string, other: string): boolean =>
  word.length === other.length && [...word].sort().join("") === [...other].sort().join("");
/** Slips that are mended; with more of them little is certain. */
const MOST_SLIPS = 3;

let known: ReadonlySet<string> | undefined;
/** Every word that is understood, in all its irregular forms. */
const knownWords = (): ReadonlySet<string> =>
  (known ??= new Set([
    ...vocabularyWords(),
    ...Object.keys(FORMS),
    ...Object.values(FORMS).flatMap((forms) => forms.split(" ")),
  ]));

/** Whether a word means nothing, so that there may be a slip in it. */
const isUnknown = ({ word, forms, number, quoted, text }: SpokenWord, others: ReadonlySet<string>): boolean =>
  !quoted &&
  number === undefined &&
  /^\p{L}/u.test(text) &&
  !PASSED_OVER.has(word) &&
  [...forms].every((form) => !knownWords().has(form) && !others.has(form));

/** "Less then ten": of what is compared with a number. */
const THEN_FOR_THAN =
  /\b((?:less|more|fewer|longer|shorter|higher|lower|better|worse|greater|bigger|smaller)\s+)then(?=\s+(?:an?|half|\d+|[a-z]+)\b)/gi;

/** What a word can be a slip for; of a plural, the plural of what its singular can be. */
function slipsOf(word: string, all: readonly string[]): readonly string[] {
  const near = slippedFrom(word, all);
  return near.length > 0 || !word.endsWith("s")
    ? near
    : slippedFrom(word.slice(0, -1), all).map((one) => `${one}s`);
}

/**
 * A question with slips in words that nobody knows put right: where exactly one known word is a slip away from each;
 * undefined where there is none, or some word can be several. `others` are known words too, such as set-ups are made of;
 * `isName` says what may be somebody's name.
 */
export function withoutSlips(
  text: string,
  others: ReadonlySet<string>,
  isName: (word: string) => boolean,
): MendedText | undefined {
  const mended: Mended[] = [];
  let rest = text.replace(THEN_FOR_THAN, (words: string, before: string) => {
    mended.push({ words, as: `${before}than` });
    return `${before}than`;
  });
  const words = spokenWords(tokenize(rest));
  const unknown = words.filter((word) => isUnknown(word, others));
  if (unknown.length + mended.length === 0 || unknown.length > MOST_SLIPS) return undefined;
  for (const { word, at, text: written, capital } of unknown.reverse()) {
    // a capital inside a sentence is a name's
    if (word.length < SHORTEST_SWAPPED || (capital && at > 0) || isName(written)) return undefined;
    const near = slipsOf(word, [...knownWords(), ...others]);
    if (near.length !== 1 || (word.length < SHORTEST && !areSwapped(word, near[0]))) return undefined;
    const end = at + written.replace(/['’]s?$/, "").length;
    mended.unshift({ words: rest.slice(at, end), as: near[0] });
    rest = rest.slice(0, at) + near[0] + rest.slice(end);
  }
  return { text: rest, mended };
}

const VERB =
  "(?:miss(?:es|ed|ing)?|overlook(?:s|ed|ing)?|(?:threw|throws?|throwing|gave|gives?|giving) away|squander(?:s|ed|ing)?)";
const THING =
  "(?:(?:an?|the)\\s+(?:(?:clear|easy|simple|forced|second|quick)\\s+)?)?(?:mate\\s+in\\s+\\w+|(?<=\\b(?:an?|the|clear|easy|simple|forced|second|quick)\\s+)(?:win|draw|stalemate|fork|skewer|mate))\\b";
/** Another of the same sort: "missed a win and later another". */
const ANOTHER = "another(?:\\s+one)?(?=\\W*$|\\W+(?:and|but|in|then)\\b)";
/** What follows a thing that something is said of: "missed a win and the draw was agreed". */
const OF_ITSELF =
  "\\s+(?:was|were|is|are|came|had|has|after|by\\s+(?:agreement|repetition|stalemate|the\\s+fifty|fifty|50)|agreed|claimed|offer|position|game|(?:trick|resource|idea|chance|threat))\\b";
const JOINT =
  "(?:\\s*,)?\\s+(?:and|but)(?:\\s+(?:then|later|also|afterwards))?\\s+|\\s*,\\s*then\\s+|\\s+then\\s+";
/** A verb that is said of two things: "missed mate in 3 and then mate in 5"; and one that stands behind the first. */
const SAID_BEFORE = new RegExp(
  `\\b(${VERB})(\\s+${THING})(${JOINT})(${THING}|${ANOTHER})(?!${OF_ITSELF})`,
  "i",
);
const SAID_BEHIND = new RegExp(
  `\\b(${THING}\\s+)((?:(?:was|were)\\s+)?(?:missed|overlooked))(${JOINT})(${THING})(?!${OF_ITSELF})`,
  "i",
);

/** A question in which a verb that is said once of two things is said of each; undefined where there is none. */
export function saidOfEach(text: string): MendedText | undefined {
  // "both players missed the win and the draw": each one of them
  if (/\b(?:both|each|neither|either)\b/i.test(text)) return undefined;
  const [before, verb, first, joint, second] = SAID_BEFORE.exec(text) ?? [];
  if (before !== undefined) {
    const isAnother = /^another/i.test(second);
    const as = `${verb}${isAnother ? first : ` ${second}`}`;
    // one moment is not another: they come in order
    const said = isAnother ? " then " : joint;
    return { text: text.replace(before, verb + first + said + as), mended: [{ words: second, as }] };
  }
  const [behind, thing, missed, then, other] = SAID_BEHIND.exec(text) ?? [];
  if (behind === undefined) return undefined;
  const as = `${other} ${missed}`;
  return { text: text.replace(behind, thing + missed + then + as), mended: [{ words: other, as }] };
}

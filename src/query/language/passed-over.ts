// Words that judge and say nothing that could be looked up: "a famous draw", "tragically lost". Where a question is not
// understood with them it is read without, and whoever asked is told which words were passed over.

import { vocabularyWords } from "./categories.js";
import {
  ADVERBS_THAT_MATTER,
  FILLERS,
  JOINING_WORDS,
  LIGHT,
  PASSED_OVER,
  PASSED_BEFORE,
} from "./lexicon/words.js";
import { type SpokenWord, spokenWords } from "./spoken.js";
import { entryOf, tokenize } from "./tokens.js";

/** An adverb that nobody knows: "tragically", but not "reply", nor "unsuccessfully", which denies something. */
const isIdleAdverb = (word: string): boolean =>
  /^(?!(?:un|in|im|ir|mis|non|dis))\p{L}{3,}ly$/u.test(word) &&
  !ADVERBS_THAT_MATTER.has(word) &&
  !vocabularyWords().has(word);

function isPassedOver({ word, quoted }: SpokenWord, next: SpokenWord | undefined): boolean {
  if (quoted || FILLERS.has(word) || LIGHT.has(word) || JOINING_WORDS.has(word)) return false;
  const before = entryOf(PASSED_BEFORE, word);
  if (before) return next !== undefined && before.some((one) => next.forms.has(one));
  // "the most beautiful"
  if (word === "most" && next !== undefined && PASSED_OVER.has(next.word)) return true;
  return PASSED_OVER.has(word) || isIdleAdverb(word);
}

/** Why somebody asks, before a request: "My pupil keeps resigning too soon, so let me see …". */
const REASON =
  /^\s*(?:my|our|i|we)\b[^.?!:;]*?(?:,\s*so|[.!;:])\s+(?=(?:let|show|give|find|please|can|could|may|i|we|are|is|do|have|which|what|list|where|so|did|does|has|was|were|how|who)\b)/i;
/** An example that somebody gives, up to the end of the part: "won in the end, for example on the flag". */
const EXAMPLE = /(?:,\s*|\()(?:for (?:example|instance)|e\.\s?g\.|say)\b[^,.;:?!()]*\)?(?:[.?!]+\s*$)?/gi;

/** What is asked besides, of what was found: "Has Marlow defended it, and if so did he hold every time?" */
const BESIDES = /(?:,\s*)?\band if so\b[^]*$/i;

/** What takes up something that was said in the reason. */
const TAKES_UP =
  /\b(?:such|those|these|like (?:that|this|it)|of (?:that|this)|the same|similar|others?|more)\b/i;

/**
 * A question with blanks for the reason why it is asked, where nothing behind takes that up, for examples that are given, and
 * for what is asked besides; and what was taken out.
 */
export function withoutAsides(text: string): { readonly text: string; readonly passed: readonly string[] } {
  const [said = ""] = REASON.exec(text) ?? [];
  const reason = TAKES_UP.test(text.slice(said.length)) ? "" : said;
  const passed = reason === "" ? [] : [reason.trim()];
  const takeOut = (aside: string): string => {
    passed.push(aside.replace(/^[,(\s]+|[).?!\s]+$/g, ""));
    return " ".repeat(aside.length);
  };
  const rest = text.slice(reason.length).replace(EXAMPLE, takeOut).replace(BESIDES, takeOut);
  return { text: " ".repeat(reason.length) + rest, passed };
}

/** A question with blanks for the words that can be passed over, each of which is given; every other word keeps its place. */
export function withoutIdleWords(
  text: string,
  isName: (text: string) => boolean = () => false,
): { readonly text: string; readonly passed: readonly string[] } {
  const words = spokenWords(tokenize(text));
  const isIdle = words.map(
    (word, n) =>
      isPassedOver(word, words[n + 1]) &&
      // "Nice" may be a place; at the beginning every word has a capital
      (!word.capital || (n === 0 && !isName(word.text))),
  );
  const idle = words.filter((_, n) => isIdle[n]);
  // "a nice and typical win": what joins two of them goes with them
  const joints = words.filter(({ word }, n) => /^(?:and|,)$/.test(word) && isIdle[n - 1] && isIdle[n + 1]);
  let rest = text;
  for (const { at, end } of [...idle, ...joints])
    rest = rest.slice(0, at) + " ".repeat(end - at) + rest.slice(end);
  return { text: rest, passed: idle.map((word) => word.text) };
}

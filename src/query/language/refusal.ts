// Refusing a question that was not understood: which word is in the way, what was understood before it, and whole
// questions that would work, each of them read before it is offered.

import { type Question, formatQuestion } from "./ast.js";
import type { KnownSetUps } from "./canonical.js";
import { PHRASES } from "./lexicon.js";
import { QueryError, UnknownWord } from "./query-error.js";
import { type KnownNames, vocabularyWords } from "./categories.js";
import { type Understood, readWords } from "./reading.js";
import { exampleOf } from "./phrase-examples.js";
import { nearestWords } from "./tokens.js";

/** The error for words that could be read up to a place; `fault` is what the canonical form makes of them. */
export function refusal(
  text: string,
  understood: Understood,
  fault: QueryError,
  setUps: KnownSetUps,
  names: KnownNames | undefined,
): QueryError {
  const { words, at, before, error } = understood;
  if (error) return error;
  const word = words.at(Math.min(at, words.length - 1));
  if (word === undefined) return fault;
  // signs belong to the canonical form, and so does what it read farther than the words, or found wrong in a known word
  const canonical = /[=<>~]/.test(text) || fault.at > word.at;
  if (canonical || (fault.at === word.at && !(fault instanceof UnknownWord))) return fault;
  const end = at >= words.length;
  const message = end
    ? "the question stops in the middle of a condition"
    : word.capital && names
      ? `"${word.text}" is not understood here, and nobody of that name is in this database`
      : `"${word.text}" is not understood here`;
  const said = before ? `understood so far: ${formatQuestion(before)}. ` : "";
  const hint = end ? "" : hintFor(text, understood, setUps, names);
  return new QueryError(
    text,
    word.at,
    word.end - word.at,
    message,
    `${said}${hint || "search the vocabulary: longside words WORD"}`,
  );
}

/** Known words that are tried in place of one that is not, and words that are read for that: fewer tries in a long question. */
const MOST_TRIED = 12;
const MOST_READ = 400;
/** Questions that are offered. */
const MOST_OFFERED = 3;

/** What would be understood: the question with a word in place of the one in the way, else what is said with that word. */
function hintFor(
  text: string,
  { words, at, before }: Understood,
  setUps: KnownSetUps,
  names: KnownNames | undefined,
): string {
  const word = words[at];
  const known = [...vocabularyWords(), ...[...setUps.keys()].flatMap((name) => name.split(" "))];
  const near = nearestWords(word.word, known).filter((one) => one !== word.word);
  // a slip is seldom in the first letter
  const likely = near.filter((one) => one[0] === word.word[0]);
  // what is written like a name is one first of all
  const tries = Math.max(1, Math.min(MOST_TRIED, Math.floor(MOST_READ / words.length)));
  const players = (names?.near?.(word.text) ?? []).slice(0, tries);
  const others = (likely.length > 0 ? likely : near).slice(0, tries);
  const slips = (word.capital ? [...players, ...others] : [...others, ...players]).map(
    (one) => text.slice(0, word.at) + one + text.slice(word.end),
  );
  const meant = understoodOf(slips, before, setUps, names);
  if (meant.length > 0) return `did you mean ${meant.join(" or ")}?`;
  const phrases = PHRASES.filter(({ say }) =>
    say.some((one) => one.split(/[\s()[\]|]+/).includes(word.word)),
  );
  const said = understoodOf(phrases.slice(0, MOST_TRIED).map(exampleOf), before, setUps, names);
  return said.length > 0 ? `what is said with "${word.text}": ${said.join(", ")}` : "";
}

/**
 * Of some questions those that are understood, in quotes; none that asks what was understood before and no more, or that no
 * ending of the database answers.
 */
function understoodOf(
  questions: readonly string[],
  before: Question | undefined,
  setUps: KnownSetUps,
  names: KnownNames | undefined,
): string[] {
  const offered = new Map<string, string>();
  for (const one of questions) {
    if (offered.size === MOST_OFFERED) break;
    const read = readWords(one, setUps, names);
    if ("words" in read) continue;
    const { question } = read[0];
    const key = formatQuestion(question);
    if (before && key === formatQuestion(before)) continue;
    if (offered.has(key) || names?.answers?.(question) === false) continue;
    offered.set(key, `"${one.trim()}"`);
  }
  return [...offered.values()];
}

// Reading a question, however it is written: in canonical form, in plain words, or both mixed.

import { EVERYTHING, type Question, leavesOf } from "./ast.js";
import { type KnownSetUps, parseCanonical } from "./canonical.js";
import { QueryError, tooLong } from "./query-error.js";
import { type KnownNames, vocabularyWords, wordsOfSetUps } from "./categories.js";
import { saidOfEach, withoutSlips } from "./mending.js";
import { withoutIdleWords, withoutAsides } from "./passed-over.js";
import { type Reading, readWords } from "./reading.js";
import { refusal } from "./refusal.js";

export type { KnownSetUps } from "./canonical.js";
export type { KnownNames } from "./categories.js";
export type { Reading } from "./reading.js";

/** Characters of the longest question. */
const MOST_CHARACTERS = 4000;
/** Conditions of the longest question; a set-up is one. */
const MOST_CONDITIONS = 100;

/**
 * Every way to understand a question, the most likely first; at least one. What is canonical form has one reading. An
 * empty text is answered by everything. Throws `QueryError`, also for a question beyond the limits.
 */
export function readingsOf(
  text: string,
  setUps: KnownSetUps = new Map(),
  names?: KnownNames,
): readonly Reading[] {
  if (text.length > MOST_CHARACTERS)
    throw tooLong(text, MOST_CHARACTERS, `${MOST_CHARACTERS.toLocaleString("en")} characters`);
  const readings = understood(text, setUps, names);
  if (leavesOf(readings[0].question).length > MOST_CONDITIONS)
    throw tooLong(text, 0, `${MOST_CONDITIONS} conditions`);
  return readings;
}

/** "WHITE ATTACKER": where all is in capitals, they tell no names from words, so that known words are read in small letters. */
const withoutCapitals = (text: string): string =>
  /\p{Ll}/u.test(text)
    ? text
    : text.replace(/[A-Z]{3,}/g, (word) =>
        vocabularyWords().has(word.toLowerCase()) ? word.toLowerCase() : word,
      );

function understood(written: string, setUps: KnownSetUps, names?: KnownNames): readonly Reading[] {
  const text = withoutCapitals(written);
  if (text.trim() === "") return [{ question: EVERYTHING, cost: 0, guesses: [], order: undefined }];
  let fault: QueryError;
  try {
    return [{ question: parseCanonical(text, setUps), cost: 0, guesses: [], order: undefined }];
  } catch (thrown) {
    if (!(thrown instanceof QueryError)) throw thrown;
    fault = thrown;
  }
  const each = saidOfEach(text);
  const again = each && readWords(each.text, setUps, names);
  if (each && again) {
    if (!("words" in again)) return again.map((reading) => ({ ...reading, mended: each.mended }));
    const [{ words, as }] = each.mended;
    const message = `what was done is said of the first only, so that "${words}" would be taken for something else`;
    throw new QueryError(text, text.lastIndexOf(words), words.length, message, `say it again: "${as}"`);
  }
  const asked = withoutAsides(text);
  const read = readWords(asked.text, setUps, names);
  if (!("words" in read))
    return asked.passed.length > 0 ? read.map((one) => passingOver(one, asked.passed, text)) : read;
  const idle = withoutIdleWords(asked.text, names && ((word) => names.isPlayer(word) || names.isSite(word)));
  const bare = { text: idle.text, passed: [...asked.passed, ...idle.passed] };
  const others = idle.passed.length > 0 ? readWords(bare.text, setUps, names) : read;
  if (!("words" in others)) return others.map((reading) => passingOver(reading, bare.passed, text));
  const isName = (word: string) =>
    names !== undefined &&
    (names.isPlayer(word) || names.isSite(word) || (names.near?.(word) ?? []).length > 0);
  const slips = /[=<>~]/.test(text) ? undefined : withoutSlips(bare.text, wordsOfSetUps(setUps), isName);
  const right = slips && readWords(slips.text, setUps, names);
  if (right && !("words" in right))
    return right.map((reading) => ({
      ...reading,
      mended: slips.mended,
      passed: [...bare.passed, ...(reading.passed ?? [])],
    }));
  throw refusal(text, others.at > read.at ? others : read, fault, setUps, names);
}

/** A reading of a question without its idle words, which are told; guesses have the words as they were written. */
const passingOver = (reading: Reading, passed: readonly string[], text: string): Reading => ({
  ...reading,
  passed: [...passed, ...(reading.passed ?? [])],
  guesses: reading.guesses.map((guess) => ({
    ...guess,
    words: text.slice(guess.at, guess.at + guess.length),
  })),
});

/** The most likely reading of a question. Throws `QueryError`. */
export const parseQuestion = (text: string, setUps: KnownSetUps = new Map(), names?: KnownNames): Question =>
  readingsOf(text, setUps, names)[0].question;

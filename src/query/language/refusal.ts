// Refusing a question that was not understood: which word is in the way, what was understood before it, and whole
// questions that would work, each of them read before it is offered.

import { type Question, formatQuestion } from "./ast.js";
import type { KnownSetUps } from "./canonical.js";
import { PHRASES } from "./lexicon.js";
import { QueryError } from "./query-error.js";
import { type Understood, readWords, vocabularyWords } from "./reading.js";
import { nearest } from "./tokens.js";
import { FACTS } from "./vocabulary.js";

/** The error for words that could be read up to a place; `fault` is what the canonical form makes of them. */
export function refusal(
  text: string,
  understood: Understood,
  fault: QueryError,
  setUps: KnownSetUps,
): QueryError {
  const { words, at, before, error } = understood;
  if (error) return error;
  // signs are canonical form's, and so are faults behind them
  if (/[=<>~]/.test(text)) return fault;
  const word = words[Math.min(at, words.length - 1)];
  const end = at >= words.length;
  const message = end ? "this is no whole condition" : `"${word.text}" is not understood here`;
  const said = before ? `understood so far: ${formatQuestion(before)}. ` : "";
  const offers = end ? [] : offersFor(text, understood, setUps);
  const hint =
    offers.length > 0
      ? `did you mean ${offers.map((offer) => `"${offer}"`).join(" or ")}?`
      : "search the vocabulary: longside words WORD";
  return new QueryError(text, word.at, word.end - word.at, message, `${said}${hint}`);
}

/** Questions with the word that is in the way replaced or left out, which are understood and say no less. */
function offersFor(text: string, { words, at, before }: Understood, setUps: KnownSetUps): string[] {
  const word = words[at];
  const known = [...vocabularyWords(), ...setUps.keys(), ...FACTS.map(({ name }) => name)];
  const near = nearest(word.word, known);
  const tries = [
    ...(near ? [text.slice(0, word.at) + near + text.slice(word.end)] : []),
    ...PHRASES.flatMap(({ say }) => say.slice(0, 1))
      .filter((said) => !/[{@]/.test(said) && said.split(/[\s()[\]|]+/).includes(word.word))
      .slice(0, 3)
      .map((said) => said.replace(/\[[^\]]*\] ?/g, "").replace(/\(([^|)]*)[^)]*\)/g, "$1")),
  ];
  const offered = new Map<string, string>();
  const nothing: Question | undefined = before;
  for (const one of tries) {
    const read = readWords(one, setUps);
    if ("words" in read) continue;
    const key = formatQuestion(read[0].question);
    if (nothing && key === formatQuestion(nothing)) continue;
    if (!offered.has(key)) offered.set(key, one.trim());
  }
  return [...offered.values()].slice(0, 3);
}

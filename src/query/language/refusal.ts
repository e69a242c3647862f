// Refusing a question that was not understood: which word is in the way, what was understood before it, and whole
// questions that would work, each of them read before it is offered.

import { type Question, formatQuestion, isEverything } from "./ast.js";
import type { KnownSetUps } from "./canonical.js";
import { PHRASES } from "./lexicon/phrases.js";
import { JOINING_WORDS, LIGHT } from "./lexicon/words.js";
import { QueryError, UnknownWord } from "./query-error.js";
import { type KnownNames, vocabularyWords } from "./categories.js";
import { type Understood, readWords } from "./reading.js";
import { examplesWith } from "./phrase-examples.js";
import { type SpokenWord, spokenWords } from "./spoken.js";
import { entryOf, nearestWords, tokenize } from "./tokens.js";

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
  const undefinedName = words.map((one) => entryOf(UNDEFINED, one.word)).find((one) => one !== undefined);
  const wider = broader(text, understood, setUps, names);
  if (undefinedName) {
    const [what, near] = undefinedName;
    return new QueryError(text, word.at, word.end - word.at, what, [wider, near].filter(Boolean).join("; "));
  }
  const end = at >= words.length;
  const message = end
    ? "the question stops in the middle of a condition"
    : word.capital && names
      ? `"${word.text}" is not understood here, and nobody of that name is in this database`
      : `"${word.text}" is not understood here`;
  const said = before ? `understood so far: ${formatQuestion(before)}. ` : "";
  const offered = end || wider !== "" ? wider : hintFor(text, understood, setUps, names);
  const rest = offered.startsWith(MEANT) ? "" : remainder(text, words.length, setUps, names);
  const begun =
    rest === "" && wider === "" && !offered.startsWith(MEANT)
      ? beginning(text, at, words, setUps, names)
      : "";
  const hint = [offered, rest, begun].filter((one) => one !== "").join("; ");
  return new QueryError(
    text,
    word.at,
    word.end - word.at,
    message,
    `${said}${hint || "search the vocabulary: longside words WORD"}`,
  );
}

/** Names of the trade that the catalogue has no definition for: what is said of each, and what to do. */
const UNDEFINED: Readonly<Record<string, readonly [message: string, hint: string]>> = {
  lolli: [
    "Lolli's position is not in the catalogue: no source says exactly what belongs to it",
    "near it are Philidor, next to Philidor and bishop behind its king; or define it in a file of your own (--set-ups; see: longside help set-ups)",
  ],
};

/** Whether one word is the other or its contrary: "unsuccessfully" is no slip for "successfully". */
const denies = (word: string, other: string): boolean =>
  word === other ||
  ["un", "in", "im", "ir", "dis", "non"].some((no) => no + other === word || no + word === other);

/** Words for what no fact says, each with the nearest thing that can be asked for. */
const BROADER: Readonly<Record<string, string>> = {
  lolli: "Philidor",
  retreat: "move",
  withdrawal: "move",
  advance: "move",
  sidestep: "move",
};

/** The question that asks for more than was asked, where a word says what no fact does: "bishop move" for "bishop retreat". */
function broader(
  text: string,
  { words, before }: Understood,
  setUps: KnownSetUps,
  names: KnownNames | undefined,
): string {
  let rest = text;
  for (const { word, at, end } of [...words].reverse()) {
    const instead = entryOf(BROADER, word);
    if (instead !== undefined) rest = rest.slice(0, at) + instead + rest.slice(end);
  }
  if (rest === text) return "";
  const [offered] = understoodOf([rest], before, setUps, names);
  if (offered !== undefined) return `wider than that, and understood: ${offered}`;
  const again = spokenWords(tokenize(rest));
  return beginning(rest, again.length - 1, again, setUps, names).replace("its", "wider than that, its");
}

/** Words at the end of a question that are left out to find a beginning that is understood. */
const MOST_LEFT_OUT = 12;

/** The longest beginning of a question that is one by itself. */
function beginning(
  text: string,
  at: number,
  words: readonly SpokenWord[],
  setUps: KnownSetUps,
  names: KnownNames | undefined,
): string {
  const last = Math.min(at, words.length - 1);
  for (let n = last; n > 0 && n > last - MOST_LEFT_OUT; --n) {
    // without what joins it to the rest
    if (JOINING_WORDS.has(words[n - 1].word) || LIGHT.has(words[n - 1].word)) continue;
    const [offered] = understoodOf([text.slice(0, words[n - 1].end)], undefined, setUps, names);
    if (offered !== undefined) return `its beginning is understood: ${offered}`;
  }
  return "";
}

/** Words that are read to find what remains of a question: a long one is not read again and again. */
const MOST_READ_AGAIN = 240;

const MEANT = "did you mean";

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
  const near = nearestWords(word.word, known).filter((one) => !denies(word.word, one));
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
  if (meant.length > 0) return `${MEANT} ${meant.join(" or ")}?`;
  // what joins others, or says nothing by itself, is in everything
  if (!/\p{L}/u.test(word.word) || JOINING_WORDS.has(word.word) || LIGHT.has(word.word)) return "";
  const examples = PHRASES.flatMap((phrase) => examplesWith(phrase, word.word).slice(0, 1));
  const said = understoodOf(examples.slice(0, MOST_TRIED), before, setUps, names);
  return said.length > 0 ? `what is said with "${word.text}": ${said.join(", ")}` : "";
}

/** Slips tried for a word. */
const MOST_SLIPS = 3;
/** Where one condition ends and the next begins: a whole one can be left out without changing what the others mean. */
const BETWEEN = /\s*(?:[,;]|[:?!.](?=\s)|\b(?:and|where|while|who|which|that|after|with)\b)\s*/gi;
/** Words that tie conditions together, so that none can be left out. */
const TIED = /\b(?:or|not|no|never|then|before|but|except|without|neither|nor|either)\b/i;

/** How far a question is read: the readings, or the word at which it stops. */
const stopOf = (text: string, setUps: KnownSetUps, names: KnownNames | undefined) => {
  const read = readWords(text, setUps, names);
  if (!("words" in read)) return { question: read[0].question, at: text.length, word: undefined };
  const word = read.error ? undefined : read.words[Math.min(read.at, read.words.length - 1)];
  return { question: undefined, at: word?.at ?? 0, word };
};

/**
 * The question with slips mended, or without the one condition that is not understood, if what remains is: 'without "zzz":
 * "…"'; else nothing.
 */
function remainder(text: string, length: number, setUps: KnownSetUps, names: KnownNames | undefined): string {
  let reads = Math.floor(MOST_READ_AGAIN / length);
  const stop = (one: string) => (--reads >= 0 ? stopOf(one, setUps, names) : undefined);
  const known = vocabularyWords();
  const answered = (question: Question) => !isEverything(question) && names?.answers?.(question) !== false;
  let rest = text;
  for (let read = stop(rest); read;) {
    const { question, word, at } = read;
    if (question) return answered(question) ? `${MEANT} "${rest.trim()}"?` : "";
    if (!word) return "";
    const mended = nearestWords(word.word, known)
      .filter((one) => !denies(word.word, one) && one[0] === word.word[0])
      // "strong" is no slip for "stronger"
      .filter((one) => Math.abs(one.length - word.word.length) <= 1)
      .slice(0, MOST_SLIPS)
      .map((one) => rest.slice(0, word.at) + one + rest.slice(word.end))
      .find((one) => (stop(one)?.at ?? 0) > at);
    if (mended === undefined) return withoutCondition(rest, word.at, stop, answered);
    rest = mended;
    read = stop(rest);
  }
  return "";
}

/** A question without the condition that holds a place. */
function withoutCondition(
  text: string,
  at: number,
  stop: (text: string) => ReturnType<typeof stopOf> | undefined,
  answered: (question: Question) => boolean,
): string {
  if (TIED.test(text)) return "";
  const joints = [...text.matchAll(BETWEEN)].map(({ index, 0: joint }) => ({
    from: index,
    to: index + joint.length,
  }));
  const before = joints.findLast(({ to }) => to <= at);
  const behind = joints.find(({ from }) => from > at);
  if (!before && !behind) return "";
  const [from, to] = [before?.to ?? 0, behind?.from ?? text.length];
  // the joint before the condition goes with it, or the one behind the first
  const rest = before ? text.slice(0, before.from) + text.slice(to) : text.slice(behind!.to);
  const question = stop(rest)?.question;
  return question && answered(question) ? `without "${text.slice(from, to)}": "${rest}"` : "";
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

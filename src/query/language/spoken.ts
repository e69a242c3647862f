// A question as words to be read: lower case, without accents, one spelling, hyphens opened, each word with the other
// forms that it may stand for. Where each came from in the text is kept, so that errors can point at it.

import { FORMS, NUMBER_WORDS, HIGHER_ORDINALS, ORDINALS, SPELLINGS } from "./lexicon/words.js";
import { type Token, entryOf } from "./tokens.js";

/** One word of a question. */
export interface SpokenWord {
  /** In one spelling, without the 's of a possessive. */
  readonly word: string;
  /** The word itself and what it is a form of: "drew" is a form of "draw". */
  readonly forms: ReadonlySet<string>;
  /** As it was written. */
  readonly text: string;
  readonly at: number;
  readonly end: number;
  /** The token it is a part of, and whether it is the first word of that token. */
  readonly token: number;
  readonly first: boolean;
  readonly quoted: boolean;
  /** The number it says: 20, "twenty", "3rd", "second". */
  readonly number: number | undefined;
  readonly ordinal: boolean;
  /** Begins with a capital letter. */
  readonly capital: boolean;
}

/** Without accents, in lower case. */
export const bareText = (text: string): string =>
  text
    .normalize("NFD")
    .replace(/\p{M}/gu, "")
    .replace(/[øØ]/g, "o")
    .replace(/[łŁ]/g, "l")
    .replace(/ß/g, "ss")
    .toLowerCase();

const formOf = new Map<string, string[]>();
for (const [base, forms] of Object.entries(FORMS))
  for (const form of forms.split(" ")) formOf.set(form, [...(formOf.get(form) ?? []), base]);

/** What a regular past or participle may be a form of: "chucked" and "chucking" of "chuck", "bagged" of "bag". */
function stemsOf(word: string): readonly string[] {
  const [, stem] = /^([a-z]{3,})(?:ed|ing)$/.exec(word) ?? [];
  if (stem === undefined) return [];
  return [stem, `${stem}e`, ...(/([b-df-hj-np-tv-z])\1$/.test(stem) ? [stem.slice(0, -1)] : [])];
}

/** Pieces by the letters that scores have for them, in capitals: "pinned B"; a small b is a file. */
const LETTERS: Readonly<Record<string, string>> = { K: "king", R: "rook", B: "bishop" };
const letterForms = (text: string): readonly string[] => {
  const piece = entryOf(LETTERS, text);
  return piece === undefined ? [] : [piece];
};

/** A text with pieces and squares in words: "king f8" for "Kf8". */
export const piecesInWords = (text: string): string =>
  text.replace(/(?<![\p{L}\p{N}])([KRB])(?=[a-h][1-8](?![\p{L}\p{N}]))/gu, (letter) => `${LETTERS[letter]} `);

/** Whether a word is a form of a verb or a piece, whatever its capital: "White Won", "Black King". */
export const isVerbOrPiece = (word: string): boolean =>
  formOf.has(word) ||
  entryOf(FORMS, word) !== undefined ||
  /^(?:(?:king|rook|bishop)s?|(?:attack|defend)(?:er|ing))$/.test(word);

/** The word and what it may be a form of: an entry of FORMS, a regular form of a verb, or a plural. */
function formsOf(word: string): Set<string> {
  const forms = new Set([word, ...(formOf.get(word) ?? stemsOf(word))]);
  if (word.length > 3 && word.endsWith("s") && !word.endsWith("ss")) {
    const single = word.slice(0, -1);
    forms.add(single);
    if (word.endsWith("ies")) forms.add(`${word.slice(0, -3)}y`);
    if (/(?:ch|sh|x|ss)es$/.test(word)) forms.add(word.slice(0, -2));
    for (const base of formOf.get(single) ?? []) forms.add(base);
  }
  return forms;
}

/** "12.3.2014", "2014-03-12": one word. */
const WRITTEN_DATE = /^(?:\d{4}([.-])\d{1,2}\1\d{1,2}|\d{1,2}\.\d{1,2}\.\d{4})$/;

const numberOf = (word: string): number | undefined => {
  if (/^\d{1,7}(?:\.\d+)?$/.test(word)) return Number(word);
  const short = /^(\d{1,2})(?:st|nd|rd|th)$/.exec(word);
  if (short) return Number(short[1]);
  const ordinal = ORDINALS.indexOf(word);
  return ordinal >= 0 ? ordinal + 1 : (entryOf(HIGHER_ORDINALS, word) ?? entryOf(NUMBER_WORDS, word));
};

/** The words of a question's tokens. */
export function spokenWords(tokens: readonly Token[]): SpokenWord[] {
  return tokens.flatMap((token, n) => {
    const whole = { token: n, quoted: token.quoted };
    const say = (text: string, at: number, end: number, first: boolean): SpokenWord => {
      const plain = bareText(text).replace(/(?<=[a-z0-9])'s$|(?<=s)'$/, "");
      const word = entryOf(SPELLINGS, plain) ?? plain;
      return {
        word,
        // "can't win" is about the position, though "can't" is a kind of "not"
        forms: new Set([plain, ...formsOf(word), ...letterForms(text)]),
        text,
        at,
        end,
        first,
        number: token.quoted ? undefined : numberOf(word),
        ordinal:
          ORDINALS.includes(word) ||
          entryOf(HIGHER_ORDINALS, word) !== undefined ||
          /^\d{1,2}(?:st|nd|rd|th)$/.test(word),
        capital: /^\p{Lu}/u.test(text),
        ...whole,
      };
    };
    // "held a draw - any more like that?": a part ends; "20 - 40" goes on
    if (/^[-–—]$/.test(token.text) && [tokens[n - 1], tokens[n + 1]].every((one) => one && isProse(one)))
      return [say(",", token.at, token.end, true)];
    // "draws!"
    if (!token.quoted && token.text === "!") return [];
    if (
      token.quoted ||
      WRITTEN_DATE.test(token.text) ||
      /^[^\p{L}\p{N}]+$/u.test(token.text) ||
      token.text.includes("/")
    )
      return [say(token.text, token.at, token.end, true)];
    // what ends a part of the question parts it as a comma does; at the end of all it says nothing
    const text = token.text.replace(/[.;:?!]+$/, "");
    const next = tokens[n + 1];
    const stop =
      next && isStop(token.text, next.text) ? [say(",", token.at + text.length, token.end, false)] : [];
    // a result is one word
    const result = text.replaceAll(":", "-");
    if (/^(?:1-0|0-1|½-½|½)$/.test(result))
      return [say(result, token.at, token.at + text.length, true), ...stop];
    const words: SpokenWord[] = [];
    for (const match of text.matchAll(
      /(?<![\p{L}\p{N}])[KRB](?=[a-h][1-8](?![\p{L}\p{N}]))|\d+(?:\.\d+)?|[\p{L}\p{M}'’]+(?:\.(?=\p{L}))?|[\p{L}\p{N}\p{M}'’.]+|\S/gu,
    )) {
      const [part] = match;
      if (/^[-–‐.;:?!*]$/.test(part)) continue;
      words.push(say(part, token.at + match.index, token.at + match.index + part.length, words.length === 0));
    }
    return [...joinOrdinals(words), ...stop];
  });
}

const MONTHS = /^(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)/i;
/** A word that a dash beside it parts from others: no number, and no month. */
const isProse = ({ text, quoted }: Token): boolean =>
  !quoted && /^\p{L}{2,}/u.test(text) && !MONTHS.test(text);

/** Whether a word ends a part of a question: "attacker white; defender drew", "Blitz. Defender held.", but not "def. Marlow". */
const isStop = (text: string, next: string): boolean =>
  /;$/.test(text) ||
  (/[\p{L}\d]{3}[.?!]$/u.test(text) && /^\p{Lu}/u.test(next) && !/^(?:def|min|sec|max|pos)\./i.test(text));

/** "2" and "nd" of one token are one word, as "n't" and what it negates are two. */
function joinOrdinals(words: SpokenWord[]): SpokenWord[] {
  const joined: SpokenWord[] = [];
  for (const word of words) {
    const before = joined.at(-1);
    // "2nd" and "2-nd"
    const near = before !== undefined && word.at - before.end <= 1 && word.token === before.token;
    if (near && /^(?:st|nd|rd|th)$/.test(word.word) && /^\d+$/.test(before.word))
      joined[joined.length - 1] = { ...before, end: word.end, text: before.text + word.text, ordinal: true };
    else joined.push(word);
  }
  return joined;
}

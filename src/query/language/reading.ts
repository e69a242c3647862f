// Reading a question in plain words: a chart of everything that its words can be, the cheapest ways through it, and each
// of these put together into a question. All readings that differ are kept, the most likely first.
//
// Three steps. Every condition, connecting word, side and name that begins at each word is found (phrase-pattern.ts). The
// cheapest ways from the first word to the last are kept, word by word, so that the time is proportional to the length: a
// condition costs one, a word that says nothing a little, so that the fewest conditions win. Then the items of a way are
// joined: a comma binds weaker than "or", "or" weaker than "and", conditions of one sort joined by "or" are one; and
// whom a word is about is settled by the nearest one spoken of before it.

import { DEFAULT_TARGET, type Material, parseMaterial } from "../../chess/material.js";
import { EVERYTHING, type Question, formatQuestion } from "./ast.js";
import { CanonicalParser, type KnownSetUps } from "./canonical.js";
import { Composer, type Item, subjectOf } from "./composer.js";
import { CATEGORIES, FILLERS, LIGHT, ORDINALS, PHRASES, type Phrase } from "./lexicon.js";
import { type Found, PhrasePattern } from "./phrase-pattern.js";
import { QueryError } from "./query-error.js";
import { type SpokenWord, bareText, spokenWords } from "./spoken.js";
import { tokenize } from "./tokens.js";

/** Names that a database holds, so that a bare one can be told from a word that is not known. */
export interface KnownNames {
  /** Whether some player's name has all these words, in any order. */
  readonly isPlayer: (text: string) => boolean;
  /** Whether some event, or some site, has this in its name. */
  readonly isEvent: (text: string) => boolean;
  readonly isSite: (text: string) => boolean;
  /** The ending that the database holds. */
  readonly target?: Material;
}

/** One way to understand a question. */
export interface Reading {
  readonly question: Question;
  readonly cost: number;
  /** What was taken for one of several things it can mean. */
  readonly guesses: readonly Guess[];
}

/** A word that can mean several things, and which it was taken for. */
export interface Guess {
  /** The words as they were written. */
  readonly words: string;
  readonly at: number;
  readonly length: number;
  /** What it could mean instead: a whole question, and what the words would then be about. */
  readonly other: Question;
  readonly about: string;
}

/** How far the words were understood, where they were not understood to the end. */
export interface Understood {
  readonly words: readonly SpokenWord[];
  /** The first word that could not be read. */
  readonly at: number;
  /** What was understood before it. */
  readonly before: Question | undefined;
  /** Why, where something was understood and cannot be. */
  readonly error: QueryError | undefined;
}

/** Ways that are kept at each word. */
const MOST_WAYS = 8;
/** Words of the longest question that is read. */
export const MOST_WORDS = 400;
const COST = { condition: 1, weak: 0.6, light: 0.05, filler: 0.2, who: 0.5, joint: 0.1, quantifier: 0.3 };
/** A reading that costs more than the cheapest by this is not offered. */
const NEARLY = 0.35;

interface Way {
  readonly cost: number;
  readonly item: Item | undefined;
  readonly before: Way | undefined;
}

const ITEM_WORDS: ReadonlyMap<string, Item["kind"]> = new Map([
  [",", "comma"],
  [";", "comma"],
  ["and", "and"],
  ["or", "or"],
  ["but", "and"],
  ["then", "then"],
  ["afterwards", "then"],
  ["with", "with"],
  ["without", "without"],
  ["except", "without"],
  ["not", "not"],
  ["no", "not"],
  ["(", "open"],
  [")", "close"],
]);

/** Patterns by the words and categories they can begin with. */
interface PatternIndex {
  readonly byWord: ReadonlyMap<string, readonly IndexedPattern[]>;
  readonly byCategory: ReadonlyMap<string, readonly IndexedPattern[]>;
}
interface IndexedPattern {
  readonly pattern: PhrasePattern;
  readonly phrase: Phrase;
}

function indexOf(patterns: readonly IndexedPattern[]): PatternIndex {
  const byWord = new Map<string, IndexedPattern[]>();
  const byCategory = new Map<string, IndexedPattern[]>();
  for (const one of patterns) {
    for (const begin of one.pattern.begins) {
      const [map, key] = begin.startsWith("{") ? [byCategory, begin.slice(1, -1)] : [byWord, begin];
      map.set(key, [...(map.get(key) ?? []), one]);
    }
  }
  return { byWord, byCategory };
}

let phraseIndex: PatternIndex | undefined;
const phrases = (): PatternIndex =>
  (phraseIndex ??= indexOf(
    PHRASES.flatMap((phrase) => phrase.say.map((text) => ({ phrase, pattern: new PhrasePattern(text) }))),
  ));

/** Categories of words: patterns with their values. */
const categoryPatterns = new Map<string, readonly (readonly [PhrasePattern, string])[]>();
const patternsOf = (name: string): readonly (readonly [PhrasePattern, string])[] => {
  let known = categoryPatterns.get(name);
  if (!known) {
    known = (CATEGORIES[name] ?? []).map(([text, value]) => [new PhrasePattern(text), value] as const);
    categoryPatterns.set(name, known);
  }
  return known;
};

const MORE = [
  ["more", "than"],
  ["over"],
  ["above"],
  ["greater", "than"],
  ["longer", "than"],
  ["better", "than"],
  ["higher", "than"],
  ["exceeding"],
  ["beyond"],
  ["upwards", "of"],
];
const LESS = [
  ["less", "than"],
  ["under"],
  ["below"],
  ["fewer", "than"],
  ["shorter", "than"],
  ["lower", "than"],
  ["worse", "than"],
];
const LEAST = [
  ["at", "least"],
  ["not", "less", "than"],
  ["no", "less", "than"],
  ["no", "fewer", "than"],
  ["minimum"],
  ["minimum", "of"],
  ["a", "minimum", "of"],
];
const MOST = [
  ["at", "most"],
  ["no", "more", "than"],
  ["not", "more", "than"],
  ["up", "to"],
  ["maximum"],
  ["a", "maximum", "of"],
  ["no", "longer", "than"],
];
const COMPARISONS: readonly (readonly [readonly (readonly string[])[], string])[] = [
  [MORE, ">"],
  [LESS, "<"],
  [LEAST, ">="],
  [MOST, "<="],
];
const UPWARDS = new Set(["more", "longer", "higher", "better", "above", "over", "up", "greater"]);
const DOWNWARDS = new Set(["fewer", "less", "lower", "shorter", "under", "below"]);
const UNITS: Readonly<Record<string, number>> = { second: 1, sec: 1, minute: 60, min: 60, hour: 3600 };

/** Reads one question. */
class Chart {
  readonly words: readonly SpokenWord[];
  private readonly tokens;
  private readonly canonical: CanonicalParser;
  private readonly found = new Map<string, readonly Found[]>();
  /** Words that names of set-ups are made of. */
  private readonly setUpWords: ReadonlySet<string>;
  /** An error in something that is written like canonical form. */
  private error: QueryError | undefined;

  constructor(
    private readonly text: string,
    private readonly setUps: KnownSetUps,
    private readonly names: KnownNames | undefined,
  ) {
    this.tokens = tokenize(text);
    this.words = spokenWords(this.tokens);
    this.canonical = new CanonicalParser(text, setUps, this.tokens);
    this.setUpWords = wordsOfSetUps(setUps);
  }

  private is(at: number, word: string): boolean {
    const one = this.words[at];
    return one !== undefined && !one.quoted && one.forms.has(word);
  }

  /** Everything of a category that begins at a word. */
  private readonly categories = (name: string, at: number): readonly Found[] => {
    const key = `${name} ${at}`;
    let known = this.found.get(key);
    if (!known) {
      // what is being looked for is not to be found in itself
      this.found.set(key, []);
      known = this.words[at] === undefined ? [] : this.category(name, at);
      this.found.set(key, known);
    }
    return known;
  };

  private category(name: string, at: number): readonly Found[] {
    switch (name) {
      case "n":
        return this.numbers(at).map(({ end, value }) => ({ end, value: String(value) }));
      case "successor":
        return this.numbers(at).map(({ end, value }) => ({ end, value: String(value + 1) }));
      case "rel":
        return this.relations(at);
      case "range":
        return this.ranges(at);
      case "cmp":
        if (/^(?:exactly|precisely|just|only)$/.test(this.words[at].word))
          return this.numbers(at + 1).map(({ end, value }) => ({ end, value: `= ${value}` }));
        return [
          ...this.relations(at),
          ...this.plain(at).map(({ end, value }) => ({ end, value: `= ${value}` })),
        ];
      case "least":
        return [
          ...this.relations(at),
          ...this.plain(at).map(({ end, value }) => ({ end, value: `>= ${value}` })),
        ];
      case "rating":
        return this.relations(at).filter(
          ({ value }) =>
            Number(/\d+/.exec(value)![0]) >= 1000 &&
            // "1990 to 1999" are years unless ratings are spoken of
            (!value.includes("..") || Number(value.split("..")[1]) > 2100 || this.is(at - 1, "rate")),
        );
      case "year":
        return this.years(at);
      case "years":
        return this.spansOfYears(at);
      case "rank":
        return this.ranks(at);
      case "file":
        return /^[a-h]$/.test(this.words[at].word) ? [{ end: at + 1, value: this.words[at].word }] : [];
      case "square":
        return this.squares(at);
      case "time":
        return this.times(at);
      case "setup":
        return this.namedSetUps(at);
      case "name":
        return this.playerNames(at);
      case "text":
        return this.texts(at);
      case "place":
        return this.places(at);
      case "who":
        return [
          ...this.categories("both", at),
          ...this.categories("side", at),
          ...this.categories("colour", at),
          ...this.categories("name", at),
        ];
      default:
        return patternsOf(name).flatMap(([pattern, value]) =>
          pattern
            .matches(this.words, at, this.categories, () => undefined)
            .map(({ end }) => ({ end, value })),
        );
    }
  }

  private numbers(at: number): { end: number; value: number }[] {
    const word = this.words[at];
    if (word?.number === undefined || word.ordinal) return [];
    const next = this.words[at + 1];
    // "twenty five", "a hundred and twenty"
    if (
      next?.number !== undefined &&
      !/\d/.test(word.word) &&
      !/\d/.test(next.word) &&
      word.number >= 20 &&
      word.number % 10 === 0 &&
      next.number < 10 &&
      word.number < 100
    )
      return [{ end: at + 2, value: word.number + next.number }];
    if (word.word === "dozen" || word.word === "couple")
      return [{ end: this.is(at + 1, "of") ? at + 2 : at + 1, value: word.number }];
    return [{ end: at + 1, value: word.number }];
  }

  /** Numbers of which no more is said. */
  private plain(at: number): { end: number; value: number }[] {
    return this.numbers(at).filter(
      ({ end }) =>
        (this.orMore(end) < 0 && !/^(?:or|and)$/.test(this.words[end]?.word ?? "")) ||
        (!(UPWARDS.has(this.words[end + 1]?.word ?? "") || DOWNWARDS.has(this.words[end + 1]?.word ?? "")) &&
          this.orMore(end) < 0),
    );
  }

  private literal(at: number, words: readonly string[]): number {
    return words.every((word, n) => this.words[at + n]?.word === word) ? at + words.length : -1;
  }

  /** A number with "over", "at least", "or more", a range, or half a minute: all but a bare one. */
  private relations(at: number): Found[] {
    const found = this.ranges(at);
    for (const [ways, operator] of COMPARISONS)
      for (const way of ways) {
        const next = this.literal(at, way);
        if (next < 0) continue;
        for (const { end, value } of this.numbers(this.skipLight(next)))
          found.push({ end, value: `${operator} ${value}` });
      }
    for (const sign of [">=", "<=", ">", "<", "="])
      if (this.words[at].word === sign)
        for (const { end, value } of this.numbers(at + 1)) found.push({ end, value: `${sign} ${value}` });
    for (const { end, value } of this.numbers(at)) {
      if (this.words[end]?.word === "+") found.push({ end: end + 1, value: `>= ${value}` });
      const joined = this.is(end, "or") || this.is(end, "and") ? end + 1 : -1;
      const behind = this.words[joined]?.word ?? "";
      if (UPWARDS.has(behind)) found.push({ end: joined + 1, value: `>= ${value}` });
      if (DOWNWARDS.has(behind)) found.push({ end: joined + 1, value: `<= ${value}` });
      const later = this.orMore(end);
      if (later > 0)
        found.push({ end, value: `${UPWARDS.has(this.words[later + 1].word) ? ">=" : "<="} ${value}` });
    }
    return found;
  }
  /** Where "or more" or "or fewer" stands behind what is counted: "two mistakes or more"; -1 if nowhere near. */
  private orMore(from: number): number {
    for (let n = from + 1; n < from + 4 && this.words[n] !== undefined; ++n) {
      if (this.words[n - 1].number !== undefined || this.words[n - 1].word === ",") return -1;
      const behind = this.words[n + 1]?.word ?? "";
      if (this.is(n, "or") && (UPWARDS.has(behind) || DOWNWARDS.has(behind))) return n;
    }
    return -1;
  }

  private skipLight(at: number): number {
    while (
      this.words[at] !== undefined &&
      LIGHT.has(this.words[at].word) &&
      this.words[at].number === undefined
    )
      ++at;
    return at;
  }

  /** "between 20 and 40", "from 20 to 40", "20 to 40", "20-40". */
  private ranges(at: number): Found[] {
    const opened = this.is(at, "between") || this.words[at].word === "from" ? at + 1 : at;
    return this.numbers(opened).flatMap(({ end, value: from }) => {
      const word = this.words[end];
      if (word === undefined) return [];
      const joint =
        word.word === "to" ||
        word.word === ".." ||
        (opened > at && word.word === "and") ||
        word.word === "until";
      const close = joint
        ? end + 1
        : word.token === this.words[end - 1].token && word.number !== undefined
          ? end
          : -1;
      if (close < 0) return [];
      return this.numbers(close)
        .filter(({ value }) => value >= from)
        .map(({ end: last, value }) => ({ end: last, value: `= ${from}..${value}` }));
    });
  }

  private yearAt(at: number): number | undefined {
    const word = this.words[at];
    return word !== undefined && /^(?:1[4-9]\d\d|20\d\d)$/.test(word.word) ? Number(word.word) : undefined;
  }
  private years(at: number): Found[] {
    const year = this.yearAt(at);
    return year === undefined ? [] : [{ end: at + 1, value: String(year) }];
  }

  /** "2010 to 2015", "between 2010 and 2015", "the 1990s", "the nineties". */
  private spansOfYears(at: number): Found[] {
    const found: Found[] = [];
    for (const { end, value } of this.ranges(at)) {
      const [from, to] = value.slice(2).split("..").map(Number);
      if (from >= 1400 && to <= 2099) found.push({ end, value: `${from}..${to}` });
    }
    const { word, number, text } = this.words[at];
    const decade = /^(1[4-9]\d0|20\d0)'?s?$/.exec(word);
    const next = this.words[at + 1];
    if (decade && (/s$/.test(text) || (next?.word === "s" && next.token === this.words[at].token)))
      found.push({ end: /s$/.test(text) ? at + 1 : at + 2, value: `${decade[1]}..${Number(decade[1]) + 9}` });
    const tens = DECADES[word] ?? (number !== undefined && /^\d0'?s$/.test(text) ? number : undefined);
    if (tens !== undefined) {
      const century = tens >= 30 ? 1900 : 2000;
      found.push({ end: at + 1, value: `${century + tens}..${century + tens + 9}` });
    }
    return found;
  }

  private ranks(at: number): Found[] {
    const { word, ordinal, number } = this.words[at];
    const value = word === "back" || word === "edge" ? 1 : ordinal ? number : undefined;
    return value !== undefined && value <= ORDINALS.length ? [{ end: at + 1, value: String(value) }] : [];
  }

  private squares(at: number): Found[] {
    const { text, token } = this.words[at];
    if (/^[a-h][1-8]$/i.test(text)) return [{ end: at + 1, value: text.toLowerCase() }];
    const next = this.words[at + 1];
    return /^[a-h]$/i.test(text) && next?.token === token && /^[1-8]$/.test(next.text)
      ? [{ end: at + 2, value: text.toLowerCase() + next.text }]
      : [];
  }

  /** "less than a minute", "under 30 seconds", in seconds. */
  private times(at: number): Found[] {
    const unitAt = (n: number) =>
      [...(this.words[n]?.forms ?? [])].map((form) => UNITS[form]).find((unit) => unit);
    const compared = this.relations(at).flatMap(({ end, value }) => {
      const unit = unitAt(end);
      return unit === undefined
        ? []
        : [{ end: end + 1, value: value.replace(/\d+(?:\.\d+)?/g, (n) => String(Number(n) * unit)) }];
    });
    for (const [ways, operator] of COMPARISONS)
      for (const way of ways) {
        const next = this.literal(at, way);
        if (next < 0) continue;
        const word = this.words[next]?.word;
        const half = word === "half" ? 0.5 : 1;
        const start = half === 0.5 ? next + 1 : next;
        const article = this.words[start]?.word === "a" || this.words[start]?.word === "an" ? start + 1 : -1;
        const unit = article < 0 ? undefined : unitAt(article);
        if (unit !== undefined) compared.push({ end: article + 1, value: `${operator} ${unit * half}` });
      }
    return compared;
  }

  /** A set-up by any of its names, with or without the word that says what it is. */
  private namedSetUps(at: number): Found[] {
    const found = new Map<number, Found>();
    let name = "";
    for (let n = at; n < at + 7 && this.words[n] !== undefined; ++n) {
      const { word, quoted, number, ordinal } = this.words[n];
      if (quoted && n > at) break;
      const said =
        ordinal && number !== undefined ? ORDINALS[number - 1] : word === "set-up" ? "set up" : word;
      name = name ? `${name} ${said}` : quoted ? bareText(this.words[n].text).replaceAll("-", " ") : said;
      const known = this.setUpCalled(name);
      if (known) found.set(n + 1, { end: n + 1, value: formatQuestion(known) });
      if (quoted) break;
    }
    for (const { end, value } of [...found.values()]) {
      for (const behind of patternsOf("kindOfSetUp"))
        for (const match of behind[0].matches(this.words, end, this.categories, () => undefined))
          if (!found.has(match.end)) found.set(match.end, { end: match.end, value });
    }
    return [...found.values()];
  }

  private setUpCalled(name: string): Question | undefined {
    const { setUps } = this;
    return (
      setUps.get(name) ??
      setUps.get(name.replace(/s$/, "")) ??
      setUps.get(name.replace(/ (?:defence|position|set up|formation)s?$/, ""))
    );
  }

  /** Words that begin with capitals, or that the database knows as a name: the longest that is one. */
  private playerNames(at: number): Found[] {
    const { names } = this;
    const first = this.words[at];
    if (first.quoted)
      return first.text.includes("/") ? [] : [{ end: at + 1, value: JSON.stringify(first.text) }];
    if (!/^\p{L}/u.test(first.text)) return [];
    for (let length = Math.min(4, this.words.length - at); length > 0; --length) {
      const part = this.words.slice(at, at + length);
      if (part.some((word) => word.quoted || !/^[\p{L}.'’]+$/u.test(word.text))) continue;
      // words that all mean something are no name, so that names are looked up only where a word is not known
      if (part.every((_, n) => this.isKnownWord(at + n))) continue;
      const text = part.map((word) => word.text.replace(/['’]s$/, "")).join(" ");
      if (names?.isPlayer(text)) return [{ end: at + length, value: JSON.stringify(text) }];
    }
    return [];
  }

  /** Whether a word begins something that people say. */
  private isKnownWord(at: number): boolean {
    const { forms, number } = this.words[at];
    return (
      number !== undefined ||
      [...forms].some((form) => vocabularyWords().has(form) || this.setUpWords.has(form))
    );
  }

  /** A text in quotes, or words that begin with capitals. */
  private texts(at: number): Found[] {
    const first = this.words[at];
    if (first.quoted) return [{ end: at + 1, value: JSON.stringify(first.text) }];
    const found: Found[] = [];
    for (let length = 1; length <= 5 && this.words[at + length - 1] !== undefined; ++length) {
      const part = this.words.slice(at, at + length);
      if (!part[0].capital || !part[length - 1].capital) continue;
      found.push({ end: at + length, value: JSON.stringify(part.map(({ text }) => text).join(" ")) });
    }
    return found.reverse();
  }

  /** An event or a place that the database holds. */
  private places(at: number): Found[] {
    const { names } = this;
    if (!names) return [];
    const first = this.words[at];
    if (!/^\p{L}/u.test(first.text)) return [];
    for (let length = Math.min(5, this.words.length - at); length > 0; --length) {
      const part = this.words.slice(at, at + length);
      if (part.some(({ text, quoted }) => quoted || !/^[\p{L}\p{N}.'’]+$/u.test(text))) continue;
      const text = part.map((word) => word.text).join(" ");
      // words that mean something else are a name only where they are written like one
      if (text.length < 3 || part.every((_, n) => this.isKnownWord(at + n))) continue;
      const [event, site] = [names.isEvent(text), names.isSite(text)];
      const quoted = JSON.stringify(text);
      const inPlace = this.words[at - 1]?.word === "in";
      const said =
        inPlace && site
          ? `site ~ ${quoted}`
          : event && site
            ? `(event ~ ${quoted} or site ~ ${quoted})`
            : event
              ? `event ~ ${quoted}`
              : site
                ? `site ~ ${quoted}`
                : "";
      if (said) return [{ end: at + length, value: said }];
    }
    return [];
  }

  private countedBefore(at: number): boolean {
    for (let n = at - 1; n >= 0 && n > at - 5; --n)
      if (this.words[n].number !== undefined) return this.orMore(n + 1) === at;
    return false;
  }

  private readonly quantifierAt = (at: number): Found | undefined => {
    const found = this.categories("quantifier", at);
    return found.length === 0 ? undefined : found.reduce((best, one) => (one.end > best.end ? one : best));
  };

  /** Something written in canonical form: a fact and what it is compared with, or `like` and a position. */
  private written(at: number): { end: number; question: Question } | undefined {
    const { first, token, word } = this.words[at];
    if (!first) return undefined;
    const raw = this.tokens[token];
    const sign = this.tokens[token + 1];
    const like = raw.word === "like" && sign?.text.includes("/");
    const fact = this.canonical.fact(token);
    const compared = sign !== undefined && !sign.quoted && /^(?:[<>]=?|!?=|~)$/.test(sign.text);
    if (!like && !(fact && (compared || word !== raw.word))) return undefined;
    try {
      const read = like ? this.canonical.likeAt(token) : this.canonical.condition(token);
      if (!read) return undefined;
      const end = this.words.findIndex((one) => one.token >= read.next);
      return { end: end < 0 ? this.words.length : end, question: read.node };
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      this.error ??= thrown;
      return undefined;
    }
  }

  /** One side's pieces in words: "rook and bishop", "two knights", "a lone king". */
  private pieces(at: number): { end: number; letters: string } | undefined {
    let letters = "";
    let n = at;
    for (;;) {
      n = this.skipLight(n);
      const many = this.words[n]?.word === "two" ? 2 : 1;
      if (many === 2) ++n;
      const letter = [...(this.words[n]?.forms ?? [])]
        .map((form) => LETTERS[form])
        .find((one) => one !== undefined);
      if (letter !== undefined) {
        letters += letter.repeat(many);
        ++n;
      } else if (this.is(n, "king") || ((this.is(n, "lone") || this.is(n, "bare")) && this.is(n + 1, "king")))
        n += this.is(n, "king") ? 1 : 2;
      else return undefined;
      const joined = this.words[n]?.word;
      if (joined === "and" || joined === "+" || joined === "plus") ++n;
      else return { end: n, letters };
    }
  }

  /** Another ending by its name: "queen against rook". */
  private material(at: number): { end: number; error: QueryError | undefined } | undefined {
    const strong = this.pieces(at);
    if (!strong || !this.is(strong.end, "against")) return undefined;
    const weak = this.pieces(strong.end + 1);
    if (!weak || strong.letters + weak.letters === "") return undefined;
    let material: Material;
    try {
      material = parseMaterial(`K${strong.letters}vK${weak.letters}`);
    } catch {
      return undefined;
    }
    const { target = parseMaterial(DEFAULT_TARGET) } = this.names ?? {};
    const { at: from } = this.words[at];
    const error =
      material.id === target.id
        ? undefined
        : new QueryError(
            this.text,
            from,
            this.words[weak.end - 1].end - from,
            `${material.name} is another ending; this is about ${target.name}`,
            `read games for it into a database of its own: longside index GAMES --target "${material.name}" --db FILE, then ask that one`,
          );
    return { end: weak.end, error };
  }

  /** Everything that begins at a word. */
  private itemsAt(at: number): { item: Item | undefined; end: number; cost: number }[] {
    const items: { item: Item | undefined; end: number; cost: number }[] = [];
    const { words } = this;
    const word = words[at];
    const span = (end: number) => ({ at: word.at, length: words[end - 1].end - word.at });
    const written = this.written(at);
    if (written)
      items.push({
        item: { kind: "question", question: written.question, ...span(written.end) },
        end: written.end,
        cost: COST.condition,
      });
    const material = this.material(at);
    if (material)
      items.push({
        item: { kind: "question", question: EVERYTHING, error: material.error, ...span(material.end) },
        end: material.end,
        cost: COST.condition,
      });
    const { byWord, byCategory } = phrases();
    const candidates = new Set<IndexedPattern>();
    if (!word.quoted)
      for (const form of word.forms) for (const one of byWord.get(form) ?? []) candidates.add(one);
    for (const [name, patterns] of byCategory)
      if (this.categories(name, at).length > 0) for (const one of patterns) candidates.add(one);
    for (const { pattern, phrase } of candidates) {
      for (const { end, bound, skipped, quantifier } of pattern.matches(
        words,
        at,
        this.categories,
        this.quantifierAt,
      )) {
        const cost =
          COST.condition +
          skipped * COST.light +
          (phrase.weak ? COST.weak : 0) +
          (quantifier ? COST.quantifier : 0);
        items.push({ item: { kind: "condition", phrase, bound, quantifier, ...span(end) }, end, cost });
      }
    }
    for (const { end, value } of this.categories("who", at))
      items.push({ item: { kind: "who", subject: subjectOf(value), ...span(end) }, end, cost: COST.who });
    for (const { end, value } of this.categories("quantifier", at))
      items.push({
        item: { kind: "quantifier", quantifier: value, ...span(end) },
        end,
        cost: COST.quantifier,
      });
    if (!word.quoted) this.joints(at, items);
    return items;
  }

  /** Connecting words, and words that say nothing. */
  private joints(at: number, items: { item: Item | undefined; end: number; cost: number }[]): void {
    const { words } = this;
    const { word } = words[at];
    const span = (end: number) => ({ at: words[at].at, length: words[end - 1].end - words[at].at });
    const kind = ITEM_WORDS.get(word);
    if (kind) items.push({ item: { kind, ...span(at + 1) } as Item, end: at + 1, cost: COST.joint });
    if (word === "within" || word === "in") {
      for (const { end, value } of this.numbers(at + 1)) {
        if (!this.is(end, "move")) continue;
        const of = this.is(end + 1, "of") || this.is(end + 1, "after");
        if (word === "in" && !of) continue;
        const stop = of ? end + 2 : end + 1;
        items.push({
          item: { kind: of ? "within-of" : "within", moves: value, ...span(stop) },
          end: stop,
          cost: COST.joint,
        });
      }
    }
    if (word === "for" || word === "over") {
      const least = this.literal(at + 1, ["at", "least"]);
      const more = this.literal(at + 1, ["more", "than"]);
      for (const { end, value } of this.numbers(Math.max(at + 1, least, more)))
        if (this.is(end, "move"))
          items.push({
            item: { kind: "for", moves: value + (more > 0 ? 1 : 0), ...span(end + 1) },
            end: end + 1,
            cost: COST.joint,
          });
    }
    // behind a number that has been read with it
    if (
      word === "or" &&
      this.countedBefore(at) &&
      (UPWARDS.has(words[at + 1]?.word ?? "") || DOWNWARDS.has(words[at + 1]?.word ?? ""))
    )
      items.push({ item: undefined, end: at + 2, cost: 0 });
    if (LIGHT.has(word)) items.push({ item: undefined, end: at + 1, cost: COST.light });
    else if (FILLERS.has(word) || FILLERS.has([...words[at].forms].at(-1)!))
      items.push({ item: undefined, end: at + 1, cost: COST.filler });
  }

  /** The cheapest ways to each word, and how far they reach. */
  private ways(): readonly Way[][] {
    const { words } = this;
    const best: Way[][] = Array.from({ length: words.length + 1 }, () => []);
    best[0].push({ cost: 0, item: undefined, before: undefined });
    for (let at = 0; at < words.length; ++at) {
      if (best[at].length === 0) continue;
      best[at].sort((a, b) => a.cost - b.cost).splice(MOST_WAYS);
      for (const { item, end, cost } of this.itemsAt(at))
        for (const way of best[at]) best[end].push({ cost: way.cost + cost, item, before: way });
    }
    best[words.length].sort((a, b) => a.cost - b.cost).splice(MOST_WAYS * 2);
    return best;
  }

  private itemsOf(way: Way): Item[] {
    const items: Item[] = [];
    for (let one: Way | undefined = way; one; one = one.before) if (one.item) items.push(one.item);
    return items.reverse();
  }

  private composed(way: Way) {
    return new Composer(this.itemsOf(way), this.setUps, this.text).compose();
  }

  /** Every reading, the most likely first; or how far it was understood. */
  read(): readonly Reading[] | Understood {
    const { words } = this;
    if (words.length > MOST_WORDS)
      throw new QueryError(
        this.text,
        words[MOST_WORDS].at,
        1,
        `the question has more than ${MOST_WORDS} words`,
        "ask in parts",
      );
    const best = this.ways();
    const readings: Reading[] = [];
    const seen = new Set<string>();
    let error: QueryError | undefined;
    for (const way of best[words.length]) {
      try {
        const composed = this.composed(way);
        if (!composed) continue;
        const key = formatQuestion(composed.question);
        if (seen.has(key)) continue;
        seen.add(key);
        readings.push({
          question: composed.question,
          cost: way.cost + composed.cost,
          guesses: composed.guesses,
        });
      } catch (thrown) {
        if (!(thrown instanceof QueryError)) throw thrown;
        error ??= thrown;
      }
    }
    readings.sort((a, b) => a.cost - b.cost);
    if (readings.length > 0) return readings.filter(({ cost }) => cost <= readings[0].cost + NEARLY);
    let at = words.length;
    while (at > 0 && best[at].length === 0) --at;
    let before: Question | undefined;
    for (const way of best[at].sort((a, b) => a.cost - b.cost)) {
      try {
        before = this.composed(way)?.question;
      } catch (thrown) {
        if (!(thrown instanceof QueryError)) throw thrown;
      }
      if (before) break;
    }
    return { words, at, before, error: this.error ?? error };
  }
}

const LETTERS: Readonly<Record<string, string>> = { queen: "Q", rook: "R", bishop: "B", knight: "N" };
const DECADES: Readonly<Record<string, number>> = {
  twenties: 20,
  thirties: 30,
  forties: 40,
  fifties: 50,
  sixties: 60,
  seventies: 70,
  eighties: 80,
  nineties: 90,
};

const setUpWords = new WeakMap<KnownSetUps, ReadonlySet<string>>();
function wordsOfSetUps(setUps: KnownSetUps): ReadonlySet<string> {
  let words = setUpWords.get(setUps);
  if (!words)
    setUpWords.set(
      setUps,
      (words = new Set([...setUps.keys()].flatMap((name) => bareText(name).split(/[ -]/)))),
    );
  return words;
}

let known: ReadonlySet<string> | undefined;
/** Every word that some pattern has. */
export function vocabularyWords(): ReadonlySet<string> {
  known ??= new Set(
    [
      ...PHRASES.flatMap(({ say }) => say),
      ...Object.values(CATEGORIES).flatMap((list) => list.map(([say]) => say)),
    ]
      .flatMap((text) => text.replace(/[{@][\w=.-]+}?/g, " ").split(/[\s()[\]|]+/))
      .concat([...LIGHT, ...FILLERS, ...ITEM_WORDS.keys()])
      .filter((word) => word !== ""),
  );
  return known;
}

/** Everything a question in plain words can mean, the most likely first; or how far it was understood. */
export function readWords(
  text: string,
  setUps: KnownSetUps,
  names?: KnownNames,
): readonly Reading[] | Understood {
  return new Chart(text, setUps, names).read();
}

// What categories of the lexicon's patterns find in the words of a question: sides, pieces, set-ups, names, places, numbers.

import { entryOf } from "./tokens.js";
import type { Material } from "../../chess/material.js";
import { type Question, formatQuestion } from "./ast.js";
import type { KnownSetUps } from "./canonical.js";
import { Dates } from "./dates.js";
import { CATEGORIES } from "./lexicon/categories.js";
import { PHRASES } from "./lexicon/phrases.js";
import { FILLERS, JOINING_WORDS, LIGHT, ORDINALS, PASSED_OVER } from "./lexicon/words.js";
import { type NamedMaterial, materialAt } from "./named-material.js";
import { type Found, PhrasePattern } from "./phrase-pattern.js";
import { Quantities, isWord } from "./quantities.js";
import { type SpokenWord, bareText, isVerbOrPiece } from "./spoken.js";
import { isSpot, spotsAt } from "./spots.js";

/** Names that a database holds, so that a bare one can be told from a word that is not known. */
/** What a database knows that helps to read a question. */
export interface KnownNames {
  /** Whether some player's name has all these words, in any order. */
  readonly isPlayer: (text: string) => boolean;
  /** Whether some event, or some site, has this in its name. */
  readonly isEvent: (text: string) => boolean;
  readonly isSite: (text: string) => boolean;
  /** The ending that the database holds. */
  readonly target?: Material;
  /** Words of players' names that a word may be a slip for, the nearest first. */
  readonly near?: (word: string) => readonly string[];
  /** Whether some ending answers a question. */
  readonly answers?: (question: Question) => boolean;
}

/** Categories of words: patterns with their values. */
interface CategoryPattern {
  readonly pattern: PhrasePattern;
  /** Words that it begins with; undefined where it can begin with something of a category. */
  readonly begins: ReadonlySet<string> | undefined;
  readonly value: string;
}
const categoryPatterns = new Map<string, readonly CategoryPattern[]>();
const patternsOf = (name: string): readonly CategoryPattern[] => {
  let known = categoryPatterns.get(name);
  if (!known) {
    known = (CATEGORIES[name] ?? []).map(([text, value]) => {
      const pattern = new PhrasePattern(text);
      const { begins } = pattern;
      return { pattern, begins: [...begins].some((one) => one.startsWith("{")) ? undefined : begins, value };
    });
    categoryPatterns.set(name, known);
  }
  return known;
};

/** How words are spelt in names of set-ups. */
const IN_NAMES: Readonly<Record<string, string>> = { "set-up": "set up", def: "defence" };

const setUpWords = new WeakMap<KnownSetUps, ReadonlySet<string>>();
/** Words that names of set-ups are made of. */
export function wordsOfSetUps(setUps: KnownSetUps): ReadonlySet<string> {
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
      .flatMap((text) => text.replace(/[{@!][\w=.-]+}?/g, " ").split(/[\s()[\]|^]+/))
      .concat([...LIGHT, ...FILLERS, ...JOINING_WORDS.keys()])
      .filter((word) => word !== ""),
  );
  return known;
}

/** Finds categories among the words of one question; what has been found is remembered. */
export class CategoryFinder {
  readonly quantities: Quantities;
  private readonly dates: Dates;
  private readonly found = new Map<string, readonly Found[]>();
  /** Words that names of set-ups are made of. */
  private readonly setUpWords: ReadonlySet<string>;

  constructor(
    private readonly text: string,
    private readonly words: readonly SpokenWord[],
    private readonly setUps: KnownSetUps,
    private readonly names: KnownNames | undefined,
  ) {
    this.quantities = new Quantities(words);
    this.dates = new Dates(words, this.quantities);
    this.setUpWords = wordsOfSetUps(setUps);
  }

  private is(at: number, word: string): boolean {
    return isWord(this.words, at, word);
  }

  /** Everything of a category that begins at a word. */
  readonly categories = (name: string, at: number): readonly Found[] => {
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
        return this.quantities.numbers(at).map(({ end, value }) => ({ end, value: String(value) }));
      case "nth":
        return this.quantities.ordinals(at);
      case "successor":
        return this.quantities.numbers(at).map(({ end, value }) => ({ end, value: String(value + 1) }));
      case "rel":
        return this.quantities.relations(at);
      case "range":
        return this.quantities.ranges(at);
      case "cmp":
        if (/^(?:exactly|precisely|just|only)$/.test(this.words[at].word))
          return this.quantities.numbers(at + 1).map(({ end, value }) => ({ end, value: `= ${value}` }));
        return [
          ...this.quantities.relations(at),
          ...this.quantities.vague(at),
          ...this.quantities.plain(at).map(({ end, value }) => ({ end, value: `= ${value}` })),
        ];
      case "level":
        return this.quantities
          .plain(at)
          .filter(({ value }) => value >= 1000 && value < 4000)
          .map(({ end, value }) => ({ end, value: `>= ${value}` }));
      case "least":
        if (/^(?:exactly|precisely|just)$/.test(this.words[at].word))
          return this.quantities.numbers(at + 1).map(({ end, value }) => ({ end, value: `= ${value}` }));
        return [
          ...this.quantities.relations(at),
          ...this.quantities.vague(at),
          ...this.quantities.plain(at).map(({ end, value }) => ({ end, value: `>= ${value}` })),
        ];
      case "rating":
        return this.quantities.relations(at).filter(
          ({ value }) =>
            Number(/\d+/.exec(value)![0]) >= 1000 &&
            // "1990 to 1999" are years unless ratings are spoken of
            (!value.includes("..") || Number(value.split("..")[1]) > 2100 || this.is(at - 1, "rate")),
        );
      case "year":
        return this.quantities.years(at);
      case "month":
        return this.dates.months(at);
      case "dated":
        return this.dates.dated(at);
      case "day":
        return this.dates.days(at);
      case "sinceMonth":
        return this.dates.sinceMonths(at);
      case "years":
        return this.quantities.spansOfYears(at);
      case "rank":
        return this.quantities.ranks(at);
      case "file":
        return /^[a-h]$/.test(this.words[at].word) ? [{ end: at + 1, value: this.words[at].word }] : [];
      // "Kf8": a piece on a square, or a move
      case "man":
        return /^[KRB]$/.test(this.words[at].text) && this.words[at + 1]?.token === this.words[at].token
          ? this.quantities.squares(at + 1)
          : [];
      case "square":
        return this.quantities.squares(at);
      case "material": {
        const named = this.material(at);
        return named && !named.error ? [{ end: named.end, value: "" }] : [];
      }
      case "quantifier":
        // "at once" is not "once"
        return this.is(at, "once") && this.is(at - 1, "at") ? [] : this.patternsAt(name, at);
      case "tallied":
        return [...this.patternsAt(name, at), ...this.times(at)];
      case "spot":
        return spotsAt(this.words, this.quantities, at);
      case "remaining":
        return this.quantities.amounts(at);
      case "control":
        return this.quantities.controls(at);
      case "time":
        return this.quantities.times(at);
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
        return this.patternsAt(name, at);
    }
  }

  private patternsAt(name: string, at: number): readonly Found[] {
    const forms = [...this.words[at].forms];
    return patternsOf(name).flatMap(({ pattern, begins, value }) =>
      begins === undefined || forms.some((form) => begins.has(form))
        ? pattern.matches(this.words, at, this.categories, () => undefined).map(({ end }) => ({ end, value }))
        : [],
    );
  }

  /** "three times", "at least ten times". */
  private times(at: number): Found[] {
    return this.categories("least", at)
      .filter(({ end }) => this.is(end, "time"))
      .map(({ end, value }) => ({ end: end + 1, value }));
  }

  /** A set-up by any of its names, with or without the word that says what it is. */
  private namedSetUps(at: number): Found[] {
    const found = new Map<number, Found>();
    let name = "";
    for (let n = at; n < at + 7 && this.words[n] !== undefined; ++n) {
      const { word, quoted, number, ordinal } = this.words[n];
      if (quoted && n > at) break;
      const said =
        ordinal && number !== undefined ? (ORDINALS[number - 1] ?? word) : (entryOf(IN_NAMES, word) ?? word);
      name = name ? `${name} ${said}` : quoted ? bareText(this.words[n].text).replaceAll("-", " ") : said;
      const known = this.setUpCalled(name);
      // "in the corner" is a place, and no set-up
      if (isSpot(name)) continue;
      // "pinned on the third rank" is about a rank; "the third rank" by itself may be the defence
      if (/ rank$/.test(name) && this.behindOn(at)) continue;
      if (known) found.set(n + 1, { end: n + 1, value: formatQuestion(known) });
      if (quoted) break;
    }
    for (const { end, value } of [...found.values()]) {
      for (const { pattern } of patternsOf("kindOfSetUp"))
        for (const match of pattern.matches(this.words, end, this.categories, () => undefined))
          if (!found.has(match.end)) found.set(match.end, { end: match.end, value });
    }
    return [...found.values()];
  }

  /** Whether a place is spoken of: "on", "along" or "to" before it. */
  private behindOn(at: number): boolean {
    let n = at - 1;
    while (/^(?:the|its|his|a|own)$/.test(this.words[n]?.word ?? "")) --n;
    return /^(?:on|along|to|from|across)$/.test(this.words[n]?.word ?? "") && !this.is(at + 2, "defence");
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
      // nor has a name a verb or a joining word in it: "Marlow Defended", "Against Marlow"
      if (
        length > 1 &&
        part.some(({ word }) => isVerbOrPiece(word) || JOINING_WORDS.has(word) || word === "against")
      )
        continue;
      // nor is one that means something and has no capital a part of a name: "Vastrel missed a win"
      if (part.some(({ capital }, n) => !capital && this.isKnownWord(at + n))) continue;
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
      // "event Tarn Cup and White won"
      if (JOINING_WORDS.has(this.words[at + length - 1].word)) break;
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
      // "a real game" is not of the Real Estate Cup
      if (part.every(({ word, capital }) => !capital && PASSED_OVER.has(word))) continue;
      if (part.some(({ text, quoted }) => quoted || !/^[\p{L}\p{N}.'’]+$/u.test(text))) continue;
      const text = part.map((word) => word.text).join(" ");
      // words that mean something else are a name only where they are written like one
      if (text.length < 3 || part.every((_, n) => this.isKnownWord(at + n))) continue;
      // a tournament that bears a player's name does not defend
      if (this.is(at + length, "defend") || this.is(at + length, "attack")) return [];
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

  /** Another ending by its name: "queen against rook". */
  material(at: number): NamedMaterial | undefined {
    return materialAt(this.words, at, this.quantities, this.names?.target, this.text);
  }
}

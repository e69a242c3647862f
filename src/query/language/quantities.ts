// Numbers in the words of a question, and what is said with them: comparisons, ranges, years, ranks, squares, times.

import { entryOf } from "./tokens.js";
import { LIGHT, ORDINALS } from "./lexicon/words.js";
import type { Found } from "./phrase-pattern.js";
import type { SpokenWord } from "./spoken.js";

const MORE = [
  ["more", "than"],
  ["over"],
  ["above"],
  ["greater", "than"],
  ["bigger", "than"],
  ["larger", "than"],
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
  ["smaller", "than"],
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
  ["max"],
  ["a", "maximum", "of"],
  ["no", "longer", "than"],
  ["not", "longer", "than"],
];
const COMPARISONS: readonly (readonly [readonly (readonly string[])[], string])[] = [
  [MORE, ">"],
  [LESS, "<"],
  [LEAST, ">="],
  [MOST, "<="],
];
/** Numbers that are not told. */
const VAGUE: readonly (readonly [readonly string[], string])[] = [
  [["several"], ">= 3"],
  [["multiple"], ">= 2"],
  [["a", "number", "of"], ">= 3"],
  [["many"], ">= 4"],
  [["lots", "of"], ">= 4"],
  [["a", "lot", "of"], ">= 4"],
  [["plenty", "of"], ">= 4"],
  [["numerous"], ">= 4"],
];
export const UPWARDS = new Set(["more", "longer", "higher", "better", "above", "over", "up", "greater"]);
export const DOWNWARDS = new Set(["fewer", "less", "lower", "shorter", "under", "below"]);
const UNITS: Readonly<Record<string, number>> = { second: 1, sec: 1, minute: 60, min: 60, hour: 3600 };

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

/** Whether there is a word of some form at a place. */
export const isWord = (words: readonly SpokenWord[], at: number, form: string): boolean => {
  const one = words[at];
  return one !== undefined && !one.quoted && one.forms.has(form);
};

/** Finds quantities among the words of one question; each method gives what begins at a word. */
export class Quantities {
  constructor(private readonly words: readonly SpokenWord[]) {}

  private is(at: number, word: string): boolean {
    return isWord(this.words, at, word);
  }

  /** A number below a hundred, or one in digits: "25", "twenty five". */
  private belowHundred(at: number): { end: number; value: number } | undefined {
    const word = this.words[at];
    if (word?.number === undefined || word.ordinal) return undefined;
    const next = this.words[at + 1];
    const isTens = word.number >= 20 && word.number < 100 && word.number % 10 === 0;
    if (isTens && next?.number !== undefined && next.number < 10 && this.isSpelt(at) && this.isSpelt(at + 1))
      return { end: at + 2, value: word.number + next.number };
    return { end: at + 1, value: word.number };
  }

  private isSpelt(at: number): boolean {
    return !/\d/.test(this.words[at].word);
  }

  /** Numbers in digits and in words: "25", "two hundred and ten", "two thousand five hundred". */
  numbers(at: number): { end: number; value: number }[] {
    const small = this.belowThousand(at);
    const [first] = small;
    if (first?.value >= 100 || this.words[first?.end]?.word !== "thousand") return small;
    const thousands = { end: first.end + 1, value: 1000 * first.value };
    const from = this.words[thousands.end]?.word === "and" ? thousands.end + 1 : thousands.end;
    const [rest] = this.belowThousand(from);
    return rest?.value < 1000 && this.isSpelt(from)
      ? [{ end: rest.end, value: thousands.value + rest.value }, thousands]
      : [thousands];
  }

  private belowThousand(at: number): { end: number; value: number }[] {
    const first = this.belowHundred(at);
    if (!first) return [];
    const { word } = this.words[at];
    if (word === "dozen" || word === "couple")
      return [{ end: this.is(at + 1, "of") ? at + 2 : at + 1, value: first.value }];
    // "two hundred", "a hundred and twenty"
    const times = word !== "hundred" && this.words[first.end]?.word === "hundred" && first.value < 100;
    const hundreds = times ? { end: first.end + 1, value: 100 * first.value } : first;
    if (!times && word !== "hundred") return [hundreds];
    const from = this.words[hundreds.end]?.word === "and" ? hundreds.end + 1 : hundreds.end;
    const rest = this.belowHundred(from);
    return rest && rest.value < 100 && this.isSpelt(from)
      ? [{ end: rest.end, value: hundreds.value + rest.value }, hundreds]
      : [hundreds];
  }

  /** Numbers of which no more is said. */
  plain(at: number): { end: number; value: number }[] {
    return this.numbers(at).filter(
      ({ end }) =>
        this.orMore(end) < 0 &&
        (!/^(?:or|and)$/.test(this.words[end]?.word ?? "") ||
          !(UPWARDS.has(this.words[end + 1]?.word ?? "") || DOWNWARDS.has(this.words[end + 1]?.word ?? ""))),
    );
  }

  literal(at: number, words: readonly string[]): number {
    return words.every((word, n) => this.words[at + n]?.word === word) ? at + words.length : -1;
  }

  /** A number with "over", "at least", "or more", a range, or half a minute: all but a bare one. */
  relations(at: number): Found[] {
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
      if (/^(?:\+|plus)$/.test(this.words[end]?.word ?? ""))
        found.push({ end: end + 1, value: `>= ${value}` });
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

  /** "Several" and "many" of what is counted; not of moves, points and times, of which some are few and some are many. */
  vague(at: number): Found[] {
    return VAGUE.flatMap(([way, value]) => {
      const end = this.literal(at, way);
      return end < 0 ||
        /^(?:move|time|point|second|minute|game|ending|year)s?$/.test(this.words[end]?.word ?? "")
        ? []
        : [{ end, value }];
    });
  }

  /** Where "or more" or "or fewer" stands behind what is counted: "two mistakes or more"; -1 if nowhere near. */
  orMore(from: number): number {
    for (let n = from + 1; n < from + 6 && this.words[n] !== undefined; ++n) {
      if (this.words[n - 1].number !== undefined || this.words[n - 1].word === ",") return -1;
      const behind = this.words[n + 1]?.word ?? "";
      if (this.is(n, "or") && (UPWARDS.has(behind) || DOWNWARDS.has(behind))) return n;
    }
    return -1;
  }

  countedBefore(at: number): boolean {
    for (let n = at - 1; n >= 0 && n > at - 7; --n)
      if (this.words[n].number !== undefined) return !this.words[n].ordinal && this.orMore(n + 1) === at;
    return false;
  }

  skipLight(at: number): number {
    while (
      this.words[at] !== undefined &&
      LIGHT.has(this.words[at].word) &&
      this.words[at].number === undefined
    )
      ++at;
    return at;
  }

  /** "between 20 and 40", "from 20 to 40", "20 to 40", "20-40". */
  ranges(at: number): Found[] {
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

  years(at: number): Found[] {
    const year = this.yearAt(at);
    return year === undefined ? this.spelledYears(at) : [{ end: at + 1, value: String(year) }];
  }

  /** "nineteen ninety five", "twenty fifteen", "two thousand and ten". */
  private spelledYears(at: number): Found[] {
    const century = this.words[at];
    if (century.number === undefined || century.ordinal || !this.isSpelt(at)) return [];
    if (century.number === 2)
      return this.numbers(at)
        .filter(({ value }) => value > 2000 && value < 2100)
        .map(({ end, value }) => ({ end, value: String(value) }));
    const rest = century.number >= 14 && century.number <= 20 ? this.belowHundred(at + 1) : undefined;
    return rest && rest.value >= 10 && rest.value < 100 && this.isSpelt(at + 1)
      ? [{ end: rest.end, value: String(100 * century.number + rest.value) }]
      : [];
  }

  /** "2010 to 2015", "between 2010 and 2015", "the 1990s", "the nineties". */
  spansOfYears(at: number): Found[] {
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
    const apart = next?.word === "s" && next.token === this.words[at].token;
    if (apart && number !== undefined && number >= 10 && number < 100 && number % 10 === 0) {
      const from = (number >= 30 ? 1900 : 2000) + number;
      found.push({ end: at + 2, value: `${from}..${from + 9}` });
    }
    const tens =
      entryOf(DECADES, word) ?? (number !== undefined && /^\d0'?s$/.test(text) ? number : undefined);
    if (tens !== undefined) {
      const century = tens >= 30 ? 1900 : 2000;
      found.push({ end: at + 1, value: `${century + tens}..${century + tens + 9}` });
    }
    return found;
  }

  /** The number of something in an order: "the twentieth", "the 30th". */
  ordinals(at: number): Found[] {
    const { ordinal, number } = this.words[at];
    return ordinal && number !== undefined ? [{ end: at + 1, value: String(number) }] : [];
  }

  ranks(at: number): Found[] {
    return this.ordinals(at).filter(({ value }) => Number(value) <= ORDINALS.length);
  }

  squares(at: number): Found[] {
    const { text, token } = this.words[at];
    if (/^[a-h][1-8]$/i.test(text)) return [{ end: at + 1, value: text.toLowerCase() }];
    const next = this.words[at + 1];
    return /^[a-h]$/i.test(text) && next?.token === token && /^[1-8]$/.test(next.text)
      ? [{ end: at + 2, value: text.toLowerCase() + next.text }]
      : [];
  }

  private unitAt(at: number): number | undefined {
    return [...(this.words[at]?.forms ?? [])].map((form) => entryOf(UNITS, form)).find((unit) => unit);
  }

  /** "5 seconds", "a minute", "half a minute": at most so many seconds, where they are what is left. */
  amounts(at: number): Found[] {
    const atMost = (end: number, amount: number): Found[] => {
      const unit = this.unitAt(end);
      return unit === undefined ? [] : [{ end: end + 1, value: `<= ${amount * unit}` }];
    };
    const half = this.words[at].word === "half" ? 0.5 : 1;
    const article = half === 0.5 ? at + 1 : at;
    if (/^an?$/.test(this.words[article]?.word ?? "")) return atMost(article + 1, half);
    return this.plain(at).flatMap(({ end, value }) => atMost(end, value));
  }

  /** A time control as players say it, "3+2": minutes and seconds a move, in seconds as files have it. */
  controls(at: number): Found[] {
    const [minutes, plus, seconds] = this.words.slice(at, at + 3);
    return /^\d{1,3}$/.test(minutes.word) &&
      plus?.word === "+" &&
      /^\d{1,2}$/.test(seconds?.word ?? "") &&
      seconds.token === minutes.token
      ? [{ end: at + 3, value: `${60 * Number(minutes.word)}+${seconds.word}` }]
      : [];
  }

  /** "less than a minute", "under 30 seconds", in seconds. */
  times(at: number): Found[] {
    const compared = this.relations(at).flatMap(({ end, value }) => {
      const unit = this.unitAt(end);
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
        const unit = article < 0 ? undefined : this.unitAt(article);
        if (unit !== undefined) compared.push({ end: article + 1, value: `${operator} ${unit * half}` });
      }
    return compared;
  }
}

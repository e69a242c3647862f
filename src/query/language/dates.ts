// Dates in words: months and days, as conditions on the date and the year.

import type { Found } from "./phrase-pattern.js";
import { type Quantities, isWord } from "./quantities.js";
import type { SpokenWord } from "./spoken.js";
import { entryOf } from "./tokens.js";

const NAMES = [
  "january jan",
  "february feb",
  "march mar",
  "april apr",
  "may",
  "june jun",
  "july jul",
  "august aug",
  "september sept sep",
  "october oct",
  "november nov",
  "december dec",
];
const MONTHS: Readonly<Record<string, number>> = Object.fromEntries(
  NAMES.flatMap((names, n) => names.split(" ").map((name) => [name, n + 1])),
);

/** A date of which the day may be left out. */
interface Dated {
  readonly end: number;
  readonly year: number;
  readonly month: number;
  readonly day?: number;
}

const twoDigits = (n: number): string => String(n).padStart(2, "0");
/** A part of the date as files write it: "2014.03", "2014.03.12". */
const dateIs = ({ year, month, day }: Omit<Dated, "end">): string =>
  `date ~ "${year}.${twoDigits(month)}${day === undefined ? "" : `.${twoDigits(day)}`}"`;

/** Some months of one year. */
function monthsOf(year: number, from: number, to: number): string {
  const months = Array.from({ length: to - from + 1 }, (_, n) => dateIs({ year, month: from + n }));
  return months.length === 1 ? months[0] : `(${months.join(" or ")})`;
}

/** Finds dates among the words of one question; each method gives what begins at a word. */
export class Dates {
  constructor(
    private readonly words: readonly SpokenWord[],
    private readonly quantities: Quantities,
  ) {}

  private nameAt(at: number): number | undefined {
    const word = this.words[at];
    return word === undefined || word.quoted ? undefined : entryOf(MONTHS, word.word.replace(/\.$/, ""));
  }

  /** A month by itself, "March", where "in" or "during" stands before it. */
  months(at: number): Found[] {
    const month = this.nameAt(at);
    return month === undefined ? [] : [{ end: at + 1, value: twoDigits(month) }];
  }

  private yearAt(at: number): { end: number; year: number } | undefined {
    const from = /^(?:,|of|in)$/.test(this.words[at]?.word ?? "") ? at + 1 : at;
    const [year] = this.words[from] === undefined ? [] : this.quantities.years(from);
    return year && { end: year.end, year: Number(year.value) };
  }

  private dayAt(at: number): number | undefined {
    const word = this.words[at];
    const day = word?.number;
    return day !== undefined && Number.isInteger(day) && day >= 1 && day <= 31 ? day : undefined;
  }

  /** "March 2014". */
  private monthAndYear(at: number): Dated | undefined {
    const month = this.nameAt(at);
    const year = month === undefined ? undefined : this.yearAt(at + 1);
    return year && { ...year, month: month! };
  }

  /** "12 March 2014", "March 12th, 2014", "12.3.2014", "2014-03-12". */
  private dayOfMonth(at: number): Dated | undefined {
    const text = this.words[at]?.text ?? "";
    const [, year, month, day] = /^(\d{4})[./-](\d{1,2})[./-](\d{1,2})$/.exec(text) ?? [];
    const [, first, second, last] = /^(\d{1,2})\.(\d{1,2})\.(\d{4})$/.exec(text) ?? [];
    const written = year
      ? { end: at + 1, year: Number(year), month: Number(month), day: Number(day) }
      : last
        ? { end: at + 1, year: Number(last), month: Number(second), day: Number(first) }
        : undefined;
    if (written) return written.month >= 1 && written.month <= 12 && written.day <= 31 ? written : undefined;
    const before = this.dayAt(at);
    if (before !== undefined) {
      const dated = this.monthAndYear(isWord(this.words, at + 1, "of") ? at + 2 : at + 1);
      return dated && { ...dated, day: before };
    }
    const named = this.nameAt(at);
    const behind = named === undefined ? undefined : this.dayAt(at + 1);
    const dated = behind === undefined ? undefined : this.yearAt(at + 2);
    return dated && { ...dated, month: named!, day: behind! };
  }

  /** A day, as a condition. */
  days(at: number): Found[] {
    const day = this.dayOfMonth(at);
    return day ? [{ end: day.end, value: dateIs(day) }] : [];
  }

  /** A month of a year, or some months of it, as a condition: "March 2014", "from March to June 2014". */
  dated(at: number): Found[] {
    const one = this.monthAndYear(at);
    if (one) return [{ end: one.end, value: dateIs(one) }];
    const opened = /^(?:between|from)$/.test(this.words[at].word) ? at + 1 : at;
    const from = this.nameAt(opened);
    if (from === undefined) return [];
    const joint = /^(?:and|to|until|till|-)$/.test(this.words[opened + 1]?.word ?? "") ? 1 : 0;
    const to = this.monthAndYear(opened + 1 + joint);
    return to && to.month > from ? [{ end: to.end, value: monthsOf(to.year, from, to.month) }] : [];
  }

  /** From a month on, or before it: "since March 2014". */
  sinceMonths(at: number): Found[] {
    const { word } = this.words[at];
    const dated = this.monthAndYear(at + 1);
    if (!dated) return [];
    const { year, month } = dated;
    const later = (from: number) =>
      from > 12 ? `year > ${year}` : `year > ${year} or ${monthsOf(year, from, 12)}`;
    const earlier = (to: number) =>
      to < 1 ? `year < ${year}` : `year < ${year} or ${monthsOf(year, 1, to)}`;
    const on = /^(?:on|onwards|onward)$/.test(this.words[dated.end]?.word ?? "");
    if (word === "from" && on) return [{ end: dated.end + 1, value: later(month) }];
    const value = {
      since: later(month),
      after: later(month + 1),
      before: earlier(month - 1),
      until: earlier(month),
      till: earlier(month),
    }[word];
    return value === undefined ? [] : [{ end: dated.end, value }];
  }
}

// Facts and the values they are compared with, in canonical form: numbers, ranges, words, texts; and what is wrong with those
// that cannot be.

import type { Operator, Question } from "./ast.js";
import type { UnknownWord } from "./query-error.js";
import { QueryError } from "./query-error.js";
import { type Token, nearest, spoken } from "./tokens.js";
import { type Fact, type Stored, factNamed } from "./vocabulary.js";

/** Signs and words of comparison; of those that begin alike the longer comes first. */
export const OPERATORS: readonly (readonly [readonly string[], Operator])[] = [
  [["is", "not"], "!="],
  [["more", "than"], ">"],
  [["less", "than"], "<"],
  [["at", "least"], ">="],
  [["at", "most"], "<="],
  [["!="], "!="],
  [["<="], "<="],
  [[">="], ">="],
  [["="], "="],
  [["<"], "<"],
  [[">"], ">"],
  [["~"], "contains"],
  [["is"], "="],
  [["over"], ">"],
  [["above"], ">"],
  [["after"], ">"],
  [["under"], "<"],
  [["below"], "<"],
  [["before"], "<"],
  [["contains"], "contains"],
];

/** Something read from the tokens at a place: how many it took, and what it means. */
export interface CanonicalReading {
  readonly next: number;
  readonly node: Question;
}

/** The tokens of a question, and reading values from them. */
export class CanonicalValues {
  constructor(
    protected readonly text: string,
    readonly tokens: readonly Token[],
  ) {}

  /** An error that points at tokens `from` up to and without `to`. */
  fault(
    from: number,
    to: number,
    message: string,
    hint: string,
    Kind: typeof QueryError | typeof UnknownWord = QueryError,
  ): QueryError {
    const first = this.tokens[from];
    const at = first ? first.at : this.text.length;
    const end = this.tokens[Math.max(from, to - 1)]?.end ?? this.text.length + 1;
    return new Kind(this.text, at, end - at, message, hint);
  }

  protected word(n: number): string | undefined {
    const token = this.tokens[n];
    return token && !token.quoted ? token.word : undefined;
  }

  /** A fact's name at a token. */
  fact(from: number): { readonly fact: Fact; readonly next: number } | undefined {
    const fact = factNamed(this.word(from) ?? "");
    return fact && { fact, next: from + 1 };
  }

  protected checkOperator(fact: Fact, operator: Operator, from: number, to: number): void {
    const ordered = fact.type === "number" || fact.name === "date";
    const fits =
      operator === "=" || operator === "!=" || (operator === "contains" ? fact.type === "text" : ordered);
    if (fits) return;
    throw this.fault(
      from,
      to,
      `${fact.name} cannot be compared with "${operator}"`,
      `it is a ${fact.type === "kinds" ? "set of kinds" : fact.type}: use = or !=`,
    );
  }

  /** A value that no placement can have would find nothing, and look like an answer. */
  protected checkLimits(fact: Fact, from: Stored, to: Stored, start: number, end: number): void {
    const { least = -Infinity, most = Infinity } = fact;
    if (fact.type !== "number" || (Number(to) >= least && Number(from) <= most)) return;
    const hint =
      fact.name === "king-file" || fact.name === "king-rank"
        ? "positions are turned so that the defender's king stands on ranks 1 to 4 and files a to d"
        : fact.meaning;
    throw this.fault(start, end, `${fact.name} is never that: it is from ${least} to ${most}`, hint);
  }

  protected range(fact: Fact, next: number): CanonicalReading | undefined {
    if (fact.type !== "number") return undefined;
    const number = (n: number) => this.number(fact, n);
    let n = next;
    let separator = "..";
    if (this.word(n) === "between") {
      ++n;
      separator = "and";
    } else if (this.word(n) === "=" || this.word(n) === "is" || this.word(n) === "from") {
      ++n;
    }
    const from = number(n);
    const to = number(n + 2);
    if (from === undefined || to === undefined || this.word(n + 1) !== separator) return undefined;
    if (from > to) {
      throw this.fault(
        n,
        n + 3,
        "the range runs backwards",
        `write the smaller number first: ${to}..${from}`,
      );
    }
    this.checkLimits(fact, from, to, n, n + 3);
    return { next: n + 3, node: { kind: "range", fact, from, to } };
  }

  protected number(fact: Fact, n: number): number | undefined {
    const word = this.word(n);
    if (word === undefined) return undefined;
    if (fact.unit === "file" && /^[a-h]$/.test(word)) return word.charCodeAt(0) - 96;
    if (/^-?\d+(?:\.\d+)?%$/.test(word)) return Number(word.slice(0, -1)) / 100;
    return /^-?\d+(?:\.\d+)?$/.test(word) ? Number(word) : undefined;
  }

  protected value(fact: Fact, n: number): { next: number; stored: Stored } | undefined {
    switch (fact.type) {
      case "number": {
        const stored = this.number(fact, n);
        return stored === undefined ? undefined : { next: n + 1, stored };
      }
      case "flag": {
        const word = this.word(n) ?? "";
        if (/^(?:yes|true|1)$/.test(word)) return { next: n + 1, stored: 1 };
        return /^(?:no|false|0)$/.test(word) ? { next: n + 1, stored: 0 } : undefined;
      }
      case "text": {
        const token = this.tokens[n];
        return token && (token.quoted || !/^[()=<>~,]/.test(token.text))
          ? { next: n + 1, stored: token.text }
          : undefined;
      }
      case "kinds":
      case "word": {
        let said = "";
        let best: { next: number; stored: Stored } | undefined;
        for (let m = n; m < n + 3 && this.tokens[m] !== undefined; ++m) {
          const token = this.tokens[m];
          said = spoken(said ? `${said} ${token.word}` : token.word);
          const value = fact.values!.find((one) =>
            [one.name, ...(one.also ?? [])].some((name) => spoken(name) === said),
          );
          if (value) best = { next: m + 1, stored: value.stored };
        }
        return best;
      }
    }
  }

  protected badValue(fact: Fact, n: number): QueryError {
    const kinds = {
      number: `a number${fact.unit ? ` (${fact.unit})` : ""}, or a range like 10..20`,
      flag: "yes or no",
      text: "a word, or several in quotes",
      word: fact.values?.map((value) => value.name).join(", ") ?? "",
      kinds: fact.values?.map((value) => value.name).join(", ") ?? "",
    };
    const said = this.tokens[n]?.text;
    const names = fact.values?.flatMap((value) => [value.name, ...(value.also ?? [])]) ?? [];
    const near = said && nearest(said.toLowerCase(), names);
    const message =
      said === undefined ? `${fact.name} needs a value` : `"${said}" is no value of ${fact.name}`;
    return this.fault(n, n + 1, message, near ? `did you mean ${near}?` : `it takes ${kinds[fact.type]}`);
  }

  /** Two facts compared with each other: both numbers, or words that can mean the same. */
  protected facts(
    fact: Fact,
    operator: Operator,
    other: Fact,
    from: number,
    next: number,
  ): CanonicalReading | undefined {
    const equal = operator === "=" || operator === "!=";
    const numbers = fact.type === "number" && other.type === "number";
    const alike =
      fact.type === "word" &&
      other.type === "word" &&
      fact.values!.some((one) =>
        other.values!.some(({ name, stored }) => name === one.name && stored === one.stored),
      );
    if (numbers || (equal && alike)) return { next, node: { kind: "facts", fact, operator, other } };
    if (fact.type === "text") return undefined;
    throw this.fault(
      from,
      next,
      `${fact.name} cannot be compared with ${other.name}`,
      "numbers can be compared with numbers, words with words of the same kind",
    );
  }
}

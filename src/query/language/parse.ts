// The parser of questions. Canonical form and the trade's phrases mix freely:
//
//   question   = all { "or" all }
//   all        = one { [ "," | "and" | "with" | "where" | "but" ] one }
//   one        = single { "then" [ "within" number "moves" ] single } | single "within" number "moves" "of" single
//              | "held" single "for" number "moves"
//              | "left" single [ "by" single ] | "reached" single ( "by" single | "from" single [ "within" number "moves" ] )
//              | "first" single "within" number "moves" "of" ( "entry" | [ "entering" ] single )
//   single     = "everything" | "not" one | quantifier single | "(" question ")" | comparison | phrase | set-up | flag
//              | "like" FEN [ "within" number ] | "waiting-move"
//   comparison = fact operator value | fact value | fact [ "=" ] number ".." number | fact "between" number "and" number
//
// The longest reading of the words at hand wins. What is not understood is reported with its place and the
// nearest known word.

import { placementOf, readFen } from "../../chess/fen.js";
import type { LongsideError } from "../../errors.js";
import {
  EVERYTHING,
  type Junction,
  type Operator,
  type Question,
  type SetUpTest,
  formatQuestion,
  levelOf,
} from "./ast.js";
import { QueryError } from "./query-error.js";
import {
  FACTS,
  type Fact,
  PHRASES,
  QUANTIFIERS,
  type Quantifier,
  type Stored,
  factNamed,
} from "./vocabulary.js";
import { LITTLE, type Token, nearest, spoken, tokenize, withoutKind } from "./tokens.js";

/** Set-ups a question may name: every name, in lower case with spaces, and what it means. */
export type KnownSetUps = ReadonlyMap<string, SetUpTest>;

const JOINING = new Set([",", "and", "with", "where", "but", "while", "&"]);
/** Between two conditions these say no more than that both hold: "lost in the Philidor position". */
const LEANING = new Set(["for", "against", "at", "on", "in", "by", "from", "during"]);
/** Words that begin or join conditions on the course of an ending. */
const COURSE_WORDS = ["held", "left", "reached", "first", "then", "within", "like", "waiting-move"];
/** Moves in which one set-up turns into another, where it is not said. */
const REACH = 10;
/** King's steps within which positions are like each other, where it is not said. */
const NEAR = 4;
/** Words that could be about the position or about the game: what to write instead. */
const TWO_MEANINGS: ReadonlyMap<string, string> = new Map(
  Object.entries({
    won: '"attacker won" (the game) or "verdict won" (a position)',
    winning: '"verdict won" (a position) or "attacker won" (the game)',
    drawn: '"defender drew" (the game) or "verdict drawn" (a position)',
    draw: '"defender drew" (the game) or "verdict drawn" (a position)',
    lost: '"defender lost" (the game) or "verdict lost" (a position)',
    losing: '"verdict lost" (a position) or "defender won" (the game)',
  }),
);

const OPERATORS: readonly (readonly [readonly string[], Operator])[] = [
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

const ORDINALS = ["first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth"];
const SLOTS: Readonly<Record<string, string>> = {
  n: "(\\d+(?:\\.\\d+)?)",
  year: "(1[4-9]\\d\\d|20\\d\\d)",
  file: "([a-h]|[1-8])",
  rank: `(${ORDINALS.join("|")}|[1-8](?:st|nd|rd|th)?)`,
};

interface Pattern {
  readonly words: readonly RegExp[];
  readonly slots: readonly string[];
  readonly means: string;
  readonly ofAttacker: string;
}

const PATTERNS: readonly Pattern[] = PHRASES.map(({ say, means, ofAttacker = means }) => {
  const words = say.split(" ").filter((word) => !LITTLE.has(word));
  return {
    words: words.map((word) => {
      const parts = word.split(/\{(\w+)\}/);
      return new RegExp(`^${parts.map((part, n) => (n % 2 ? SLOTS[part] : part)).join("")}$`);
    }),
    slots: [...say.matchAll(/\{(\w+)\}/g)].map(([, slot]) => slot),
    means,
    ofAttacker,
  };
});

const numberFrom = (word: string): string => {
  const ordinal = ORDINALS.indexOf(word);
  if (ordinal >= 0) return String(ordinal + 1);
  return /^[a-h]$/.test(word) ? String(word.charCodeAt(0) - 96) : word.replace(/(?:st|nd|rd|th)$/, "");
};

/** Something read from the tokens at a place: how many it took, and what it means. */
interface Reading {
  readonly next: number;
  readonly node: Question;
}

class Parser {
  private readonly tokens: Token[];
  private p = 0;
  /** Of whom the last words spoke: "won against a stronger player" depends on it. */
  private subject: "attacker" | "defender" = "defender";

  /** `phrases` is off for what phrases mean, which is canonical. */
  constructor(
    private readonly text: string,
    private readonly setUps: KnownSetUps,
    private readonly phrases = true,
  ) {
    this.tokens = tokenize(text);
  }

  private fault(from: number, to: number, message: string, hint: string): QueryError {
    const first = this.tokens[from];
    const at = first ? first.at : this.text.length;
    const end = this.tokens[Math.max(from, to - 1)]?.end ?? this.text.length + 1;
    return new QueryError(this.text, at, end - at, message, hint);
  }

  private word(n: number): string | undefined {
    const token = this.tokens[n];
    return token && !token.quoted ? token.word : undefined;
  }

  /** Index after the words given (little words before them passed over), or -1. */
  private match(from: number, words: readonly (string | RegExp)[], found: string[] = []): number {
    let n = from;
    for (const wanted of words) {
      let word = this.word(n);
      while (word !== undefined && LITTLE.has(word) && wanted !== word) word = this.word(++n);
      if (word === undefined) return -1;
      const match = typeof wanted === "string" ? (word === wanted ? [word] : null) : wanted.exec(word);
      if (!match) return -1;
      if (match[1] !== undefined) found.push(match[1]);
      ++n;
    }
    return n;
  }

  parse(): Question {
    if (this.tokens.length === 0) return EVERYTHING;
    const node = this.any();
    if (this.p < this.tokens.length) {
      const word = this.tokens[this.p].text;
      const hint =
        word === ")"
          ? "a bracket is closed that was not opened"
          : "join conditions with a comma, and, or; quote a name of several words";
      throw this.fault(this.p, this.p + 1, `"${word}" was not expected here`, hint);
    }
    return node;
  }

  private any(): Question {
    const parts = [this.all()];
    while (this.word(this.p) === "or") {
      ++this.p;
      parts.push(this.all());
    }
    return join("or", parts);
  }

  private all(): Question {
    const parts = [this.one()];
    for (;;) {
      const joined = JOINING.has(this.word(this.p) ?? "");
      while (JOINING.has(this.word(this.p) ?? "")) ++this.p;
      if (!this.longest(this.p)) {
        // a preposition that begins no phrase
        if (LEANING.has(this.word(this.p) ?? "") && this.longest(this.p + 1)) ++this.p;
        else if (!joined) return join("and", parts);
      }
      parts.push(this.one());
    }
  }

  /** A condition with those that follow it in the game. */
  private one(): Question {
    const course = this.course();
    if (course) return course;
    const from = this.p;
    const first = this.single();
    const near = levelOf(first) === "position" ? this.nearTo(first) : undefined;
    if (near) return near;
    const follows = () => this.take("then") || this.take(",", "then");
    const then: { part: Question; within: number | null }[] = [];
    while (follows()) {
      this.mustBePosition(first, from, "then");
      const within = this.withinMoves() ?? null;
      const at = this.p;
      const part = this.single();
      this.mustBePosition(part, at, "then");
      then.push({ part, within });
    }
    return then.length > 0 ? { kind: "sequence", first, then } : first;
  }

  /** "B within 5 moves of A": A, and then B. */
  private nearTo(part: Question): Question | undefined {
    const from = this.p;
    const within = this.withinMoves();
    if (within === undefined || !this.take("of")) {
      this.p = from;
      return undefined;
    }
    const at = this.p;
    const first = this.single();
    this.mustBePosition(first, at, "of");
    return { kind: "sequence", first, then: [{ part, within }] };
  }

  private mustBePosition(part: Question, from: number, word: string): void {
    if (levelOf(part) === "position") return;
    throw this.fault(
      from,
      this.p,
      `"${word}" needs conditions about a position`,
      "put what concerns the game or the ending outside the brackets",
    );
  }

  /** Takes the words if they come next. */
  private take(...words: string[]): boolean {
    if (!words.every((word, n) => this.word(this.p + n) === word)) return false;
    this.p += words.length;
    return true;
  }

  /** Takes a number of moves behind a word: "within 10 moves", "for at least 10 moves". */
  private countOfMoves(word: string): number | undefined {
    if (this.word(this.p) !== word) return undefined;
    const least = this.word(this.p + 1) === "at" && this.word(this.p + 2) === "least" ? 2 : 0;
    const [number, moves] = [1, 2].map((n) => this.word(this.p + n + least));
    if (!/^\d{1,4}$/.test(number ?? "") || !/^moves?$/.test(moves ?? "")) return undefined;
    this.p += 3 + least;
    return Number(number);
  }
  private withinMoves(): number | undefined {
    return this.countOfMoves("within");
  }

  /** A condition about a position at hand; undefined, and nothing taken, if there is none. */
  private trial(): Question | undefined {
    const from = this.p;
    try {
      const part = this.single();
      if (levelOf(part) === "position") return part;
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
    }
    this.p = from;
    return undefined;
  }

  /** A condition on the course of an ending that begins with a word of its own; undefined if there is none. */
  private course(): Question | undefined {
    const from = this.p;
    const word = this.word(from);
    const back = (): undefined => {
      this.p = from;
      return undefined;
    };
    if (word === "held" || (word === "defender" && this.word(from + 1) === "held")) {
      this.p += word === "held" ? 1 : 2;
      const part = this.trial();
      const moves = part && this.countOfMoves("for");
      return moves === undefined ? back() : { kind: "run", part: part!, moves };
    }
    if (word === "left") {
      ++this.p;
      const part = this.single();
      this.mustBePosition(part, from + 1, "left");
      return { kind: "change", how: "left", part, by: this.by() };
    }
    if (word === "reached") {
      ++this.p;
      const part = this.trial();
      if (!part) return back();
      if (this.take("from")) {
        const at = this.p;
        const first = this.single();
        this.mustBePosition(first, at, "from");
        return { kind: "sequence", first, then: [{ part, within: this.withinMoves() ?? REACH }] };
      }
      const by = this.by();
      return by ? { kind: "change", how: "reached", part, by } : back();
    }
    if (word === "first") {
      ++this.p;
      const part = this.trial();
      const within = part && this.withinMoves();
      if (within === undefined || !this.take("of")) return back();
      if (this.take("entry")) return { kind: "first", part: part!, within, of: null };
      const entering = this.take("entering") || this.take("reaching");
      const end = this.word(this.p);
      if (entering && (end === undefined || end === ")" || JOINING.has(end)))
        return { kind: "first", part: part!, within, of: null };
      const at = this.p;
      const of = this.single();
      this.mustBePosition(of, at, "entering");
      return { kind: "first", part: part!, within, of };
    }
    return undefined;
  }

  private by(): Question | null {
    const from = this.p;
    if (!this.take("by")) return null;
    const part = this.single();
    this.mustBePosition(part, from + 1, "by");
    return part;
  }

  /** `like` and a FEN, in quotes or not, whose move need not be said. */
  private like(): Question {
    const from = this.p++;
    const board = this.tokens[this.p]?.text;
    if (!board?.includes("/"))
      throw this.fault(
        from,
        from + 1,
        '"like" needs a position',
        "write a FEN behind it: like 8/2R5/8/1r6/4b3/4k3/8/3K4 b",
      );
    ++this.p;
    let fen = board;
    // the fields of a FEN without quotes
    while (
      !this.tokens[this.p - 1].quoted &&
      /^(?:[wb]|-|[KQkq]+|\d+)$/.test(this.tokens[this.p]?.text ?? "")
    )
      fen += ` ${this.tokens[this.p++].text}`;
    const [squares, turn] = fen.trim().split(/\s+/);
    const read = (said: string) => placementOf(readFen(`${squares} ${said} - - 0 1`));
    let placed;
    try {
      placed = read(turn ?? "w");
    } catch (thrown) {
      try {
        if (turn !== undefined) throw thrown;
        placed = read("b");
      } catch {
        const { message, hint } = thrown as LongsideError;
        throw this.fault(from + 1, this.p, message, hint);
      }
    }
    const within =
      /^\d{1,2}$/.test(this.word(this.p + 1) ?? "") && this.take("within")
        ? Number(this.word(this.p++))
        : NEAR;
    if (/^steps?$/.test(this.word(this.p) ?? "")) ++this.p;
    const { material, squares: placedSquares, attackerToMove } = placed;
    return {
      kind: "like",
      fen: turn === undefined ? squares : `${squares} ${turn}`,
      material,
      placement: { squares: placedSquares, attackerToMove },
      turn: turn !== undefined,
      within,
    };
  }

  private single(): Question {
    if (this.word(this.p) === "like") return this.like();
    if (this.take("waiting-move") || this.take("waiting", "move") || this.take("a", "waiting", "move")) {
      const waiting: Question = { kind: "waiting", setUps: [...new Set(this.setUps.values())] };
      const [by, the, who] = [0, 1, 2].map((n) => this.word(this.p + n));
      const mover = by === "by" ? (LITTLE.has(the ?? "") ? who : the) : undefined;
      if (mover !== "attacker" && mover !== "defender") return waiting;
      this.p += mover === the ? 2 : 3;
      return join("and", [waiting, new Parser(`to-move = ${mover}`, this.setUps, false).parse()]);
    }
    const reading = this.longest(this.p);
    if (reading) {
      for (; this.p < reading.next; ++this.p) {
        const side = /^(attacker|defender)(?:'s)?$/.exec(this.word(this.p) ?? "")?.[1];
        if (side) this.subject = side as "attacker" | "defender";
      }
      return reading.node;
    }
    while (LITTLE.has(this.word(this.p) ?? "")) ++this.p;
    const word = this.word(this.p);
    if (word === "everything") {
      ++this.p;
      return EVERYTHING;
    }
    if (word === "not") {
      ++this.p;
      return { kind: "not", part: this.one() };
    }
    if (word === "(") return this.bracket();
    const quantifier = this.quantifier();
    if (quantifier) return this.scoped(quantifier);
    throw this.unknown();
  }

  private bracket(): Question {
    const open = this.p++;
    const node = this.any();
    if (this.word(this.p) !== ")") {
      throw this.fault(open, open + 1, "this bracket is never closed", "add a closing bracket");
    }
    ++this.p;
    return node;
  }

  private quantifier(): Quantifier | undefined {
    for (const [name, { say }] of Object.entries(QUANTIFIERS)) {
      for (const words of [
        [name],
        ...say.map((text) => text.split(" ").filter((word) => !LITTLE.has(word))),
      ]) {
        const next = this.match(this.p, words);
        if (next < 0) continue;
        this.p = next;
        return name as Quantifier;
      }
    }
    return undefined;
  }

  private scoped(quantifier: Quantifier): Question {
    const from = this.p;
    const part = this.single();
    this.mustBePosition(part, from, quantifier);
    return { kind: "scoped", quantifier, part };
  }

  /** The longest reading at `from` as a comparison, phrase, set-up or flag. */
  private longest(from: number): Reading | undefined {
    let best: Reading | undefined;
    const consider = (reading: Reading | undefined) => {
      if (reading && (!best || reading.next > best.next)) best = reading;
    };
    let fault: unknown;
    try {
      consider(this.comparison(from));
    } catch (thrown) {
      fault = thrown; // "attacker over 2500" is a phrase, though no colour is called "over"
    }
    consider(this.phrase(from));
    consider(this.setUp(from));
    if (!best && fault !== undefined) throw fault;
    return best;
  }

  private phrase(from: number): Reading | undefined {
    if (!this.phrases) return undefined;
    let best: Reading | undefined;
    for (const { words, slots, means, ofAttacker } of PATTERNS) {
      const found: string[] = [];
      const next = this.match(from, words, found);
      if (next < 0 || (best && next <= best.next)) continue;
      const canonical = slots.reduce(
        (text, slot, n) => text.replaceAll(`{${slot}}`, numberFrom(found[n])),
        this.subject === "attacker" ? ofAttacker : means,
      );
      try {
        best = { next, node: new Parser(canonical, this.setUps, false).parse() };
      } catch (thrown) {
        if (!(thrown instanceof QueryError)) throw thrown;
        throw this.fault(from, next, thrown.message, thrown.hint);
      }
    }
    return best;
  }

  private setUp(from: number): Reading | undefined {
    while (LITTLE.has(this.word(from) ?? "")) ++from;
    const quoted = this.tokens[from]?.quoted ? this.setUps.get(spoken(this.tokens[from].text)) : undefined;
    if (quoted) return { next: from + 1, node: quoted };
    let name = "";
    let best: Reading | undefined;
    for (let n = from; n < from + 6 && this.word(n) !== undefined; ++n) {
      name = spoken(name ? `${name} ${this.word(n)}` : this.word(n)!);
      const node = this.setUps.get(name) ?? this.setUps.get(withoutKind(name));
      if (node) best = { next: n + 1, node };
    }
    return best;
  }

  /** A fact's name at `from`, written with hyphens or spaces. */
  private fact(from: number): { fact: Fact; next: number } | undefined {
    while (LITTLE.has(this.word(from) ?? "")) ++from;
    let found: { fact: Fact; next: number } | undefined;
    let name = "";
    for (let n = from; n < from + 4 && this.word(n) !== undefined; ++n) {
      name = name ? `${name}-${this.word(n)}` : this.word(n)!;
      const fact = factNamed(name);
      if (fact) found = { fact, next: n + 1 };
    }
    return found;
  }

  private comparison(from: number): Reading | undefined {
    const found = this.fact(from);
    if (!found) return undefined;
    const { fact, next } = found;
    const range = this.range(fact, next);
    if (range) return range;
    for (const [words, operator] of OPERATORS) {
      let n = next;
      if (!words.every((word) => this.word(n++) === word)) continue;
      const value = this.value(fact, n);
      if (!value) throw this.badValue(fact, n);
      this.checkOperator(fact, operator, next, n);
      if (operator === "=") this.checkLimits(fact, value.stored, value.stored, n, value.next);
      return { next: value.next, node: { kind: "compare", fact, operator, value: value.stored } };
    }
    // a bare name is taken for one where it is written like one
    const named = this.tokens[next]?.quoted === true || /^\p{Lu}/u.test(this.tokens[next]?.text ?? "");
    const value = fact.type === "text" && !named ? undefined : this.value(fact, next);
    if (value) this.checkLimits(fact, value.stored, value.stored, next, value.next);
    if (value)
      return { next: value.next, node: { kind: "compare", fact, operator: "=", value: value.stored } };
    return fact.type === "flag"
      ? { next, node: { kind: "compare", fact, operator: "=", value: 1 } }
      : undefined;
  }

  private checkOperator(fact: Fact, operator: Operator, from: number, to: number): void {
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
  private checkLimits(fact: Fact, from: Stored, to: Stored, start: number, end: number): void {
    const { least = -Infinity, most = Infinity } = fact;
    if (fact.type !== "number" || (Number(to) >= least && Number(from) <= most)) return;
    const hint =
      fact.name === "king-file" || fact.name === "king-rank"
        ? "positions are turned so that the defender's king stands on ranks 1 to 4 and files a to d"
        : fact.meaning;
    throw this.fault(start, end, `${fact.name} is never that: it is from ${least} to ${most}`, hint);
  }

  private range(fact: Fact, next: number): Reading | undefined {
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

  private number(fact: Fact, n: number): number | undefined {
    const word = this.word(n);
    if (word === undefined) return undefined;
    if (fact.unit === "file" && /^[a-h]$/.test(word)) return word.charCodeAt(0) - 96;
    if (/^-?\d+(?:\.\d+)?%$/.test(word)) return Number(word.slice(0, -1)) / 100;
    return /^-?\d+(?:\.\d+)?$/.test(word) ? Number(word) : undefined;
  }

  private value(fact: Fact, n: number): { next: number; stored: Stored } | undefined {
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
          if (m === n && LITTLE.has(token.word)) continue;
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

  private badValue(fact: Fact, n: number): QueryError {
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
    if (this.fact(n)) {
      const hint = "compare a fact with a value; rating-difference compares the players' ratings";
      return this.fault(n, n + 1, `"${said}" is a fact itself`, hint);
    }
    const message =
      said === undefined ? `${fact.name} needs a value` : `"${said}" is no value of ${fact.name}`;
    return this.fault(n, n + 1, message, near ? `did you mean ${near}?` : `it takes ${kinds[fact.type]}`);
  }

  private unknown(): QueryError {
    const word = this.word(this.p);
    if (this.tokens[this.p] === undefined) {
      return this.fault(this.p, this.p, "a condition is missing here", "see: longside words");
    }
    const found = this.fact(this.p);
    if (found) {
      return this.badValue(found.fact, found.next);
    }
    const said = this.tokens[this.p].text;
    const lower = said.toLowerCase();
    const meant = TWO_MEANINGS.get(lower);
    if (meant) return this.fault(this.p, this.p + 1, `"${said}" can mean two things`, `write ${meant}`);
    const known = [
      ...FACTS.map((fact) => fact.name),
      ...this.setUps.keys(),
      ...Object.keys(QUANTIFIERS),
      ...COURSE_WORDS,
      ...PHRASES.flatMap(({ say }) => say.split(" ")).filter((one) => /^[a-z'-]{3,}$/.test(one)),
    ];
    const near = word === undefined ? undefined : (nearest(lower, known) ?? nearest(spoken(lower), known));
    // a known first word with an unknown continuation: point at what cannot be read
    if (near === lower) return this.brokenPhrase(lower);
    return this.fault(
      this.p,
      this.p + 1,
      `"${said}" is not in the vocabulary`,
      near ? `did you mean ${near}?` : "see: longside words",
    );
  }

  /** The words begin like a phrase and then leave it. */
  private brokenPhrase(first: string): QueryError {
    const start = this.p;
    let reach = start + 1;
    let expected: string[] = [];
    for (const { say } of PHRASES) {
      const words = say.split(" ").filter((word) => !LITTLE.has(word));
      for (let take = 1; take < words.length; ++take) {
        const next = words[0] === first || take > 1 ? this.match(start, words.slice(0, take)) : -1;
        if (next < 0) break;
        if (next > reach) [reach, expected] = [next, []];
        if (next === reach) expected.push(words[take]);
      }
    }
    while (LITTLE.has(this.word(reach) ?? "")) ++reach;
    const said = this.tokens[reach]?.text;
    const near = said === undefined ? undefined : nearest(said.toLowerCase(), expected);
    const examples = expected.map((word) =>
      word.replace("{rank}", "second").replace("{file}", "b").replace("{n}", "30").replace("{year}", "2010"),
    );
    const choices = [...new Set(examples)].slice(0, 6).join(", ");
    const hint = near
      ? `did you mean ${near}?`
      : choices
        ? `"${first}" goes on with: ${choices}`
        : "see: longside words";
    if (said === undefined) return this.fault(start, reach, "the phrase breaks off", hint);
    return this.fault(
      reach,
      reach + 1,
      `"${said}" was not expected after "${this.tokens[reach - 1].text}"`,
      hint,
    );
  }
}

/** Joins parts, flattening equal junctions so that brackets around them change nothing. */
function join(kind: "and" | "or", parts: readonly Question[]): Question {
  if (parts.length === 1) return parts[0];
  const flat = parts.flatMap((part) => (part.kind === kind ? (part as Junction).parts : [part]));
  if (flat.length === 0) return EVERYTHING;
  // what a phrase and its neighbour both say is said once
  const once = [...new Map(flat.map((part) => [formatQuestion(part), part])).values()];
  return once.length === 1 ? once[0] : { kind, parts: once };
}

/**
 * Parses a question. An empty one, or "everything", is answered by all endings. Throws `QueryError`.
 */
export function parseQuestion(text: string, setUps: KnownSetUps = new Map()): Question {
  return new Parser(text, setUps).parse();
}

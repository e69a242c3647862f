// The canonical form of the question language: strict, unambiguous, and what every question in plain words is turned
// into (see reading.ts). Reading a printed question again gives the same tree.
//
//   question   = all { "or" all }
//   all        = one { [ "," | "and" | "with" | "where" | "but" ] one }
//   one        = single { "then" [ "within" number "moves" ] single } | single "within" number "moves" "of" single
//              | "held" single "for" number "moves"
//              | ( "count" | "streak" | "stays" ) single operator number
//              | "left" single [ "by" single ] | "reached" single ( "by" single | "from" single [ "within" number "moves" ] )
//              | "first" single "within" number "moves" "of" ( "entry" | [ "entering" ] single )
//   single     = "everything" | "not" one | quantifier single | "(" question ")" | comparison | set-up | flag
//              | "like" FEN [ "within" number ] | "waiting-move"
//   comparison = fact operator value | fact operator fact | fact value | fact [ "=" ] number ".." number
//              | fact "between" number "and" number
//
// Nothing is tried twice, so that the time is proportional to the length.

import { placementOf, readFen } from "../../chess/fen.js";
import type { LongsideError } from "../../errors.js";
import {
  EVERYTHING,
  type Operator,
  type Question,
  type SetUpTest,
  join,
  levelOf,
  waitingMove,
} from "./ast.js";
import { CanonicalValues, type CanonicalReading, OPERATORS } from "./canonical-values.js";
import { type QueryError, UnknownWord } from "./query-error.js";
import { FACTS, QUANTIFIERS, type Quantifier } from "./vocabulary.js";
import { isVerbOrPiece } from "./spoken.js";
import { type Token, nearest, spoken, tokenize, withoutKind } from "./tokens.js";

/** Set-ups a question may name: every name, in lower case with spaces, and what it means. */
export type KnownSetUps = ReadonlyMap<string, SetUpTest>;

const JOINING = new Set([",", "and", "with", "where", "but", "while", "&"]);
/** Words that begin or join conditions on the course of an ending. */
const COURSE_WORDS = [
  "held",
  "count",
  "streak",
  "stays",
  "left",
  "reached",
  "first",
  "then",
  "within",
  "like",
  "waiting-move",
];
/** Moves in which one set-up turns into another, where it is not said. */
export const REACH = 10;
/** King's steps within which positions are like each other, where it is not said. */
const NEAR = 4;
/** Brackets, quantifiers and negations inside each other. */
const DEEPEST = 50;

/** Reads canonical form from tokens; each method begins at the token at hand and moves on behind what it has read. */
export class CanonicalParser extends CanonicalValues {
  private p = 0;
  private depth = 0;

  constructor(
    text: string,
    private readonly setUps: KnownSetUps,
    tokens: readonly Token[] = tokenize(text),
  ) {
    super(text, tokens);
  }

  /** Takes the words if they come next. */
  private take(...words: string[]): boolean {
    if (!words.every((word, n) => this.word(this.p + n) === word)) return false;
    this.p += words.length;
    return true;
  }

  /** The whole text. Throws `QueryError`. */
  parse(): Question {
    if (this.tokens.length === 0) return EVERYTHING;
    const node = this.any();
    if (this.p < this.tokens.length) {
      const word = this.tokens[this.p].text;
      const hint =
        word === ")"
          ? "a bracket is closed that was not opened"
          : "join conditions with a comma, and, or; quote a name of several words";
      throw this.fault(this.p, this.p + 1, `"${word}" was not expected here`, hint, UnknownWord);
    }
    return node;
  }

  private any(): Question {
    const parts = [this.all()];
    while (this.take("or")) parts.push(this.all());
    return join("or", parts);
  }

  private all(): Question {
    const parts = [this.one()];
    for (;;) {
      let joined = false;
      const from = this.p;
      while (JOINING.has(this.word(this.p) ?? "")) {
        ++this.p;
        joined = true;
      }
      if (!joined) return join("and", parts);
      const next = this.one();
      // "Philidor, Cochrane, then Szén" may be a course of three
      const isSetUp = (node: Question | undefined) => node?.kind === "set-up";
      if (this.word(from) === "," && next.kind === "sequence" && isSetUp(next.first) && isSetUp(parts.at(-1)))
        throw this.fault(
          from,
          this.p,
          "what stands before a comma may be a step of what comes then, or not",
          'say "A then B then C", or "A and (B then C)"',
        );
      parts.push(next);
    }
  }

  /** A condition with those that follow it in the game. */
  private one(): Question {
    const course = this.course();
    if (course) return course;
    const from = this.p;
    const first = this.single();
    if (levelOf(first) === "position" && this.word(this.p) === "within") {
      const within = this.countOfMoves("within");
      if (!this.take("of")) throw this.expected("of", '"B within 5 moves of A" says what comes before');
      return { kind: "sequence", first: this.position("of"), then: [{ part: first, within }] };
    }
    const then: { part: Question; within: number | null }[] = [];
    while (this.take("then") || this.take(",", "then")) {
      this.mustBePosition(first, from, "then");
      const within = this.word(this.p) === "within" ? this.countOfMoves("within") : null;
      then.push({ part: this.position("then"), within });
    }
    return then.length > 0 ? { kind: "sequence", first, then } : first;
  }

  private expected(word: string, hint: string): QueryError {
    const said = this.tokens[this.p]?.text;
    const message =
      said === undefined ? `"${word}" is missing here` : `"${word}" was expected, not "${said}"`;
    return this.fault(this.p, this.p + 1, message, hint);
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

  /** A condition about a position, behind a word that needs one. */
  private position(word: string): Question {
    const from = this.p;
    const part = this.single();
    this.mustBePosition(part, from, word);
    return part;
  }

  /** A number of moves behind a word: "within 10 moves", "for at least 10 moves". */
  private countOfMoves(word: string): number {
    if (!this.take(word)) throw this.expected(word, `"${word} 10 moves" is wanted here`);
    this.take("at", "least");
    const number = this.word(this.p) ?? "";
    if (!/^\d{1,4}$/.test(number)) throw this.expected("a number", `write it like "${word} 10 moves"`);
    ++this.p;
    if (!this.take("move") && !this.take("moves"))
      throw this.expected("moves", `write it like "${word} 10 moves"`);
    return Number(number);
  }
  /** A condition on the course of an ending that begins with a word of its own; undefined if there is none. */
  private course(): Question | undefined {
    if (this.take("held")) {
      const part = this.position("held");
      return { kind: "run", part, moves: this.countOfMoves("for") };
    }
    for (const how of ["count", "streak", "stays"] as const)
      if (this.take(how)) return { kind: "tally", how, part: this.position(how), ...this.compared(how) };
    if (this.take("left")) return { kind: "change", how: "left", part: this.position("left"), by: this.by() };
    if (this.take("reached")) {
      const part = this.position("reached");
      if (this.take("from")) {
        const first = this.position("from");
        const within = this.word(this.p) === "within" ? this.countOfMoves("within") : REACH;
        return { kind: "sequence", first, then: [{ part, within }] };
      }
      const by = this.by();
      if (by) return { kind: "change", how: "reached", part, by };
      throw this.expected("by or from", 'a condition alone says that it was reached: "philidor"');
    }
    if (this.take("first")) {
      const part = this.position("first");
      const within = this.countOfMoves("within");
      if (!this.take("of")) throw this.expected("of", '"first (…) within 10 moves of entry"');
      if (this.take("entry")) return { kind: "first", part, within, of: null };
      this.take("entering");
      return { kind: "first", part, within, of: this.position("of") };
    }
    return undefined;
  }

  /** What a number of positions is compared with. */
  private compared(word: string): { operator: Operator; value: number } {
    const found = OPERATORS.find(([words]) => this.take(...words));
    const said = this.word(this.p) ?? "";
    if (!found || found[1] === "contains" || !/^\d{1,4}$/.test(said))
      throw this.expected("a comparison", `write it like "${word} (kind = check) >= 3"`);
    ++this.p;
    return { operator: found[1], value: Number(said) };
  }

  private by(): Question | null {
    return this.take("by") ? this.position("by") : null;
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

  /** `like` and its position at a token. */
  likeAt(from: number): CanonicalReading {
    this.p = from;
    const node = this.like();
    return { next: this.p, node };
  }

  private single(): Question {
    const word = this.word(this.p);
    if (word === "like") return this.like();
    if (this.take("waiting-move")) return waitingMove(this.setUps);
    if (this.take("everything")) return EVERYTHING;
    if (word === "not" || word === "(" || (word !== undefined && Object.hasOwn(QUANTIFIERS, word)))
      return this.nested(word);
    const reading = this.condition(this.p);
    if (!reading) throw this.unknown();
    this.p = reading.next;
    return reading.node;
  }

  private nested(word: string): Question {
    if (++this.depth > DEEPEST)
      throw this.fault(
        this.p,
        this.p + 1,
        "this goes too deep",
        `at most ${DEEPEST} brackets stand inside each other`,
      );
    const from = this.p++;
    let node: Question;
    if (word === "not") node = { kind: "not", part: this.one() };
    else if (word === "(") {
      node = this.any();
      if (!this.take(")"))
        throw this.fault(from, from + 1, "this bracket is never closed", "add a closing bracket");
    } else node = { kind: "scoped", quantifier: word as Quantifier, part: this.position(word) };
    --this.depth;
    return node;
  }

  /** A comparison, flag or set-up at a token; undefined where there is none. Throws for a fact with a wrong value. */
  condition(from: number): CanonicalReading | undefined {
    // a set-up's name may begin like a fact's
    const setUp = this.setUp(from);
    if (setUp) return setUp;
    return this.comparison(from);
  }

  private setUp(from: number): CanonicalReading | undefined {
    const token = this.tokens[from];
    if (token === undefined) return undefined;
    const known = (said: string) =>
      this.setUps.get(spoken(said)) ?? this.setUps.get(withoutKind(spoken(said)));
    if (token.quoted) {
      const node = known(token.text);
      return node && { next: from + 1, node };
    }
    let best: CanonicalReading | undefined;
    let name = "";
    for (let n = from; n < from + 6 && this.word(n) !== undefined; ++n) {
      name = name ? `${name} ${this.word(n)}` : this.word(n)!;
      const node = known(name);
      if (node) best = { next: n + 1, node };
    }
    return best;
  }

  private comparison(from: number): CanonicalReading | undefined {
    const found = this.fact(from);
    if (!found) return undefined;
    const { fact, next } = found;
    const range = this.range(fact, next);
    if (range) return range;
    for (const [words, operator] of OPERATORS) {
      let n = next;
      if (!words.every((word) => this.word(n++) === word)) continue;
      // "to-move = attacker": what is a value is none of the facts of that name
      const other = fact.values && this.value(fact, n) ? undefined : this.fact(n);
      if (other) {
        const two = this.facts(fact, operator, other.fact, from, other.next);
        if (two) return two;
      }
      const value = this.value(fact, n);
      if (!value) throw this.badValue(fact, n);
      this.checkOperator(fact, operator, next, n);
      if (operator === "=") this.checkLimits(fact, value.stored, value.stored, n, value.next);
      return { next: value.next, node: { kind: "compare", fact, operator, value: value.stored } };
    }
    // a bare name is taken for one where it is written like one
    const name = this.tokens[next];
    const named = name?.quoted === true || (/^\p{Lu}/u.test(name?.text ?? "") && !isSaidOfSide(name.text));
    const value = fact.type === "text" && !named ? undefined : this.value(fact, next);
    if (value) this.checkLimits(fact, value.stored, value.stored, next, value.next);
    if (value)
      return { next: value.next, node: { kind: "compare", fact, operator: "=", value: value.stored } };
    return fact.type === "flag"
      ? { next, node: { kind: "compare", fact, operator: "=", value: 1 } }
      : undefined;
  }

  private unknown(): QueryError {
    if (this.tokens[this.p] === undefined)
      return this.fault(this.p, this.p, "a condition is missing here", "see: longside words");
    const found = this.fact(this.p);
    if (found) return this.badValue(found.fact, found.next);
    const said = this.tokens[this.p].text;
    const known = [
      ...FACTS.map((fact) => fact.name),
      ...this.setUps.keys(),
      ...Object.keys(QUANTIFIERS),
      ...COURSE_WORDS,
    ];
    const near = nearest(said.toLowerCase(), known);
    const hint = near ? `did you mean ${near}?` : "see: longside words";
    return this.fault(this.p, this.p + 1, `"${said}" is not in the vocabulary`, hint, UnknownWord);
  }
}

/** "White King", "Black Won", "black Kf8": what is said of a side, and nobody's name. */
const isSaidOfSide = (text: string): boolean =>
  /^[KRB][a-h][1-8]$/.test(text) || isVerbOrPiece(text.toLowerCase());

/** Reads canonical form and nothing else. An empty text is answered by all endings. Throws `QueryError`. */
export function parseCanonical(text: string, setUps: KnownSetUps = new Map()): Question {
  return new CanonicalParser(text, setUps).parse();
}

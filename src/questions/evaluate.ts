// Answering a question from a database's columns: a mask over its positions, and from it a mask over its endings.
//
// What concerns games and endings as wholes is left to SQL (sql.ts); everything about positions is a pass over an
// array per condition. Masks hold 1 where a condition is met; what has been worked out is never changed again.

import { LongsideError } from "../errors.js";
import { SAN_CODES, sanText } from "../chess/san.js";
import type { Material } from "../chess/material.js";
import { Likeness } from "../geometry/likeness.js";
import type { Connection } from "../index/connection.js";
import { targetOf } from "../index/database.js";
import { type Shelf, type Values, shelfOf } from "../index/shelf.js";
import {
  type Compare,
  type Course,
  type Like,
  type Operator,
  type Question,
  type Range,
  type Scoped,
  type Waiting,
  aboutEndings,
  formatQuestion,
  levelOf,
} from "./ast.js";
import { compilePlain, fold, isPlain, tablesFor } from "./sql.js";
import type { Derived, Fact, Stored } from "./vocabulary.js";

/** What an answer's row is. */
export type Unit = "ending" | "position";

/** 1 where a condition is met, 0 where it is not. */
export type Mask = Uint8Array;

/** Folded texts, since the same names come again and again; forgotten when they are too many. */
const folded = new Map<string, string>();
const FOLDED = 100_000;
function foldAgain(text: string): string {
  let known = folded.get(text);
  if (known === undefined) {
    if (folded.size >= FOLDED) folded.clear();
    folded.set(text, (known = fold(text)));
  }
  return known;
}

/** Half-moves in so many moves. */
const PLIES = 2;

export class Evaluation {
  private readonly shelf: Shelf;
  private readonly target: Material;
  private readonly masks = new Map<Question, Mask>();
  private readonly abouts = new Map<Question, Question>();
  private readonly likenesses = new Map<Like, Uint8Array>();

  constructor(private readonly db: Connection) {
    this.shelf = shelfOf(db);
    this.target = targetOf(db);
    db.function("fold", { deterministic: true }, (text: unknown) =>
      typeof text === "string" ? foldAgain(text) : text,
    );
  }

  /** A question about endings with its scopes explicit, the same tree each time, so that masks are known again. */
  private about(question: Question): Question {
    let about = this.abouts.get(question);
    if (!about) this.abouts.set(question, (about = aboutEndings(question)));
    return about;
  }

  /** The endings that answer a question; places are those of the shelf. */
  endings(question: Question): Mask {
    return this.ending(this.about(question));
  }

  /** The positions that answer a question: those that meet what it says of positions, in endings that meet the rest. */
  positions(question: Question): Mask {
    return this.position(question);
  }

  private remember(node: Question, make: () => Mask): Mask {
    let mask = this.masks.get(node);
    if (!mask) this.masks.set(node, (mask = make()));
    return mask;
  }

  /** The mask over the endings of a condition whose scopes are explicit. */
  private ending(node: Question): Mask {
    return this.remember(node, () => {
      if (isPlain(node)) return this.plain(node);
      switch (node.kind) {
        case "not":
          return inverse(this.ending(node.part));
        case "and":
        case "or": {
          // what SQL can answer is one statement
          const plain = node.parts.filter(isPlain);
          const rest = node.parts.filter((part) => !isPlain(part)).map((part) => this.ending(part));
          const all = plain.length > 0 ? [this.plain({ kind: node.kind, parts: plain }), ...rest] : rest;
          return combine(node.kind, all);
        }
        default:
          return this.course(node as Scoped | Course);
      }
    });
  }

  private plain(node: Question): Mask {
    const { endings, ids } = this.shelf;
    const mask = roomFor(endings);
    if (node.kind === "and" && node.parts.length === 0) return mask.fill(1);
    const { text, values } = compilePlain(node);
    const found = this.db
      .prepare(`SELECT e.id FROM ${tablesFor(text)} WHERE ${text} ORDER BY e.id`)
      .pluck()
      .all(...values) as number[];
    let place = 0;
    for (const id of found) {
      while (ids[place] < id) ++place;
      mask[place] = 1;
    }
    return mask;
  }

  /** The mask over the positions of a condition. */
  private position(node: Question): Mask {
    return this.remember(node, () => {
      if (levelOf(node) === "ending") return this.spread(this.ending(node));
      switch (node.kind) {
        case "compare":
          return this.compare(node);
        case "range":
          return this.range(node);
        case "set-up":
          return this.position(node.means);
        case "not":
          return inverse(this.position(node.part));
        case "and":
          return this.allOf(node.parts);
        case "or":
          return combine(
            "or",
            node.parts.map((part) => this.position(part)),
          );
        case "like":
          return this.like(node);
        case "waiting":
          return this.waiting(node);
        default:
          throw new Error(`${node.kind} is about endings`);
      }
    });
  }

  /** A mask over the positions from one over their endings. */
  private spread(endings: Mask): Mask {
    const { starts } = this.shelf;
    const mask = roomFor(this.shelf.positions);
    for (let n = 0; n < endings.length; ++n) if (endings[n]) mask.fill(1, starts[n], starts[n + 1]);
    return mask;
  }

  /** Positions that meet every one of some conditions: what the first leave over is all that the others look at. */
  private allOf(parts: readonly Question[]): Mask {
    const flat = parts.flatMap((part) => this.conditions(part));
    const mask = roomFor(this.shelf.positions);
    // the dearest last, when few positions are left; those that are no spans are passes of their own
    const spans = flat.map((part) => this.span(part));
    const others = flat.filter((_, n) => spans[n] === undefined).map((part) => this.position(part));
    const [first, ...rest] = spans.filter((span) => span !== undefined);
    if (first) fill(mask, first);
    else mask.fill(1);
    for (const other of others) both(words(mask), words(other));
    for (const span of rest) narrow(mask, span);
    return mask;
  }

  /** The conditions that must all be met; set-ups are taken apart unless they are known already. */
  private conditions(node: Question): readonly Question[] {
    if (this.masks.has(node)) return [node];
    if (node.kind === "and") return node.parts.flatMap((part) => this.conditions(part));
    return node.kind === "set-up" ? this.conditions(node.means) : [node];
  }

  /** A condition that holds where a whole number lies in a span, or does not; undefined for any other. */
  private span(node: Question): Span | undefined {
    const inside = node.kind !== "not";
    const asked = node.kind === "not" ? node.part : node;
    if (asked.kind !== "compare" && asked.kind !== "range") return undefined;
    const { fact } = asked;
    if (fact.sql !== undefined || fact.type === "text" || fact.type === "kinds") return undefined;
    const { values, none } = this.values(fact);
    if (!(values instanceof Int32Array)) return undefined;
    if (asked.kind === "range")
      return { values, low: Math.max(none + 1, Math.ceil(asked.from)), high: Math.floor(asked.to), inside };
    const limits = limitsOf(asked.operator, Number(asked.value), none);
    return limits && { values, ...limits, inside };
  }

  private compare(node: Compare): Mask {
    const { fact, operator, value } = node;
    const { values, none } = this.values(fact);
    if (fact.type === "text") return this.compareMoves(values, none, operator, String(value));
    const mask = roomFor(this.shelf.positions);
    const span = this.span(node);
    if (span) {
      fill(mask, span);
      return mask;
    }
    if (fact.type === "kinds") {
      const bit = 1 << Number(value);
      const wanted = operator === "!=" ? 0 : bit;
      for (let n = 0; n < mask.length; ++n)
        mask[n] = values[n] !== none && (values[n] & bit) === wanted ? 1 : 0;
      return mask;
    }
    compareTo(mask, values, none, operator, Number(value));
    return mask;
  }

  /** Moves by their text; each different move is looked at once. */
  private compareMoves(
    values: Int32Array | Float64Array,
    none: number,
    operator: Operator,
    sought: string,
  ): Mask {
    const mask = roomFor(this.shelf.positions);
    const known = new Int8Array(SAN_CODES).fill(-1);
    // the case of letters matters in a move: b is a file, B a bishop
    const fits = (text: string) =>
      operator === "contains" ? text.includes(sought) : (text === sought) === (operator === "=");
    for (let n = 0; n < mask.length; ++n) {
      const code = values[n];
      if (code === none) continue;
      if (known[code] < 0) known[code] = fits(sanText(code)) ? 1 : 0;
      mask[n] = known[code];
    }
    return mask;
  }

  private range(node: Range): Mask {
    const mask = roomFor(this.shelf.positions);
    const span = this.span(node);
    if (span) {
      fill(mask, span);
      return mask;
    }
    const { values } = this.values(node.fact);
    for (let n = 0; n < mask.length; ++n) mask[n] = values[n] >= node.from && values[n] <= node.to ? 1 : 0;
    return mask;
  }

  /** The values of a fact of positions or moves, in the order of the shelf. */
  values(fact: Fact): Values {
    if (fact.column !== undefined) return this.shelf.column(fact.column);
    const name = fact.derived!;
    const { derived } = this.shelf;
    let values = derived.get(name) as Values | undefined;
    if (!values) derived.set(name, (values = this.derive(name)));
    return values;
  }

  private derive(name: Derived): Values {
    const { shelf } = this;
    const { starts, positions } = shelf;
    switch (name) {
      case "ply":
      case "moves-in":
      case "halfmoves": {
        const values = new Int32Array(positions);
        for (let n = 0; n < shelf.endings; ++n) {
          const first =
            name === "ply" ? shelf.firstPlies[n] : name === "halfmoves" ? shelf.firstHalfmoves[n] : 0;
          for (let p = starts[n]; p < starts[n + 1]; ++p)
            values[p] = name === "moves-in" ? (p - starts[n]) >> 1 : first + p - starts[n];
        }
        return { values, none: -1 };
      }
      case "only-move": {
        const { values: keeping, none } = shelf.column("keeping");
        const values = new Int32Array(positions);
        for (let n = 0; n < positions; ++n) values[n] = keeping[n] === none ? -1 : keeping[n] === 1 ? 1 : 0;
        return { values, none: -1 };
      }
      case "blunder-potential": {
        const { values: keeping, none } = shelf.column("keeping");
        const { values: legal } = shelf.column("legal");
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = keeping[n] === none || legal[n] === 0 ? NaN : (legal[n] - keeping[n]) / legal[n];
        return { values, none: NaN };
      }
      case "clock": {
        const { values: milliseconds, none } = shelf.column("clock");
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = milliseconds[n] === none ? NaN : milliseconds[n] / 1000;
        return { values, none: NaN };
      }
    }
  }

  /** A fact of games or endings for every ending. Null where it is unknown. */
  endingValues(fact: Fact): (Stored | null)[] {
    const sql = fact.sql!;
    return this.db
      .prepare(`SELECT ${sql} FROM ${tablesFor(sql)} ORDER BY e.id`)
      .pluck()
      .all() as (Stored | null)[];
  }

  /** Steps from each position to a placement (see `Likeness`), where they are no more than the question allows. */
  steps(node: Like): Uint8Array {
    const known = this.likenesses.get(node);
    if (known) return known;
    const { fen, material, placement, turn, within } = node;
    const { target } = this;
    if (material.id !== target.id)
      throw new LongsideError("bad-fen", {
        fen,
        cause: `it is ${material.name}; the database holds ${target.name}`,
      });
    const { values } = this.shelf.column("placement");
    const likeness = new Likeness(placement, turn);
    const steps = new Uint8Array(values.length);
    likeness.measure(values, within, steps);
    this.likenesses.set(node, steps);
    return steps;
  }

  private like(node: Like): Mask {
    const steps = this.steps(node);
    const mask = roomFor(steps.length);
    for (let n = 0; n < mask.length; ++n) if (steps[n] <= node.within) mask[n] = 1;
    return mask;
  }

  private waiting({ setUps }: Waiting): Mask {
    const { starts, positions, endings } = this.shelf;
    const { values: errors } = this.shelf.column("error");
    const mask = roomFor(positions);
    for (let n = 0; n < positions; ++n) if (errors[n] === 0) mask[n] = 1;
    for (let n = 0; n < endings; ++n) mask[starts[n + 1] - 1] = 0;
    for (const setUp of setUps) {
      const fits = this.position(setUp.means);
      for (let n = 0; n + 1 < positions; ++n) if (fits[n] !== fits[n + 1]) mask[n] = 0;
    }
    return mask;
  }

  private course(node: Scoped | Course): Mask {
    const match = this.matcher(node);
    const { starts, endings } = this.shelf;
    const mask = roomFor(endings);
    for (let n = 0; n < endings; ++n) if (match(starts[n], starts[n + 1])) mask[n] = 1;
    return mask;
  }

  /**
   * For a condition on the course of an ending: a function that says whether the positions from `start` up to and
   * without `end`, an ending's, meet it, and which places show it.
   */
  private matcher(node: Scoped | Course): (start: number, end: number) => number[] | undefined {
    switch (node.kind) {
      case "scoped":
        return SCOPES[node.quantifier](this.position(node.part));
      case "run": {
        const mask = this.position(node.part);
        return (start, end) => {
          for (let from = start; from < end; ++from) {
            if (!mask[from]) continue;
            let to = from;
            while (to + 1 < end && mask[to + 1]) ++to;
            if (to - from >= PLIES * node.moves) return [from, to];
            from = to;
          }
          return undefined;
        };
      }
      case "change": {
        const mask = this.position(node.part);
        const by = node.by && this.position(node.by);
        const before = node.how === "left" ? 1 : 0;
        return (start, end) => {
          for (let n = start; n + 1 < end; ++n)
            if (mask[n] === before && mask[n + 1] !== before && (!by || by[n])) return [n, n + 1];
          return undefined;
        };
      }
      case "first": {
        const mask = this.position(node.part);
        const of = node.of && this.position(node.of);
        return (start, end) => {
          const first = firstIn(mask, start, end);
          if (first < 0) return undefined;
          // the last time that it is reached before
          let reached = start;
          if (of) {
            reached = first;
            while (reached >= start && !(of[reached] && (reached === start || !of[reached - 1]))) --reached;
          }
          return reached >= start && first - reached <= PLIES * node.within ? [reached, first] : undefined;
        };
      }
      case "sequence": {
        const first = this.position(node.first);
        const then = node.then.map(({ part, within }) => ({ mask: this.position(part), within }));
        return (start, end) => follow(first, then, start, end);
      }
    }
  }

  /** Plies of an ending's positions that show how it answers a question; none where it is about the whole. */
  shown(question: Question, place: number): number[] {
    const { starts, firstPlies } = this.shelf;
    const about = this.about(question);
    const parts = about.kind === "and" ? about.parts : [about];
    for (const part of parts) {
      if (!["scoped", "run", "change", "first", "sequence"].includes(part.kind)) continue;
      const found = this.matcher(part as Scoped | Course)(starts[place], starts[place + 1]);
      if (found && found.length > 0) return found.map((at) => firstPlies[place] + at - starts[place]);
    }
    return [];
  }
}

/** A condition on a column: its values lie from `low` to `high`, or do not. */
interface Span {
  readonly values: Int32Array;
  readonly low: number;
  readonly high: number;
  readonly inside: boolean;
}

/** The greatest whole number of a column. */
const GREATEST = 2 ** 31 - 1;

/** The span of whole numbers that a comparison lets through; undefined where it is not one. `none` is below all values. */
function limitsOf(
  operator: Operator,
  value: number,
  none: number,
): { low: number; high: number } | undefined {
  switch (operator) {
    case "=":
      return Number.isInteger(value) && value > none ? { low: value, high: value } : { low: 1, high: 0 };
    case "<":
      return { low: none + 1, high: Math.ceil(value) - 1 };
    case "<=":
      return { low: none + 1, high: Math.floor(value) };
    case ">":
      return { low: Math.max(none, Math.floor(value)) + 1, high: GREATEST };
    case ">=":
      return { low: Math.max(none + 1, Math.ceil(value)), high: GREATEST };
    default:
      return undefined;
  }
}

/** Marks the positions of a span. */
function fill(mask: Mask, { values, low, high, inside }: Span): void {
  const wide = high < low ? -1 : high - low;
  const met = inside ? 1 : 0;
  for (let n = 0; n < mask.length; ++n) mask[n] = (values[n] - low) >>> 0 <= wide ? met : met ^ 1;
}

/** Takes away what is marked and not in a span. */
function narrow(mask: Mask, { values, low, high, inside }: Span): void {
  const wide = high < low ? -1 : high - low;
  const four = words(mask);
  for (let word = 0; word < four.length; ++word) {
    if (four[word] === 0) continue;
    const end = Math.min(mask.length, 4 * word + 4);
    for (let n = 4 * word; n < end; ++n) if ((values[n] - low) >>> 0 <= wide !== inside) mask[n] = 0;
  }
}

/** Marks what compares with a limit as asked. Unknown fractions are not numbers, and compare with nothing. */
function compareTo(
  mask: Mask,
  values: ArrayLike<number>,
  none: number,
  operator: Operator,
  limit: number,
): void {
  const end = mask.length;
  switch (operator) {
    case "=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] === limit ? 1 : 0;
      break;
    case "!=":
      for (let n = 0; n < end; ++n) {
        const value = values[n];
        mask[n] = value !== limit && value !== none && !Number.isNaN(value) ? 1 : 0;
      }
      break;
    case "<":
      for (let n = 0; n < end; ++n) mask[n] = values[n] < limit ? 1 : 0;
      break;
    case "<=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] <= limit ? 1 : 0;
      break;
    case ">":
      for (let n = 0; n < end; ++n) mask[n] = values[n] > limit ? 1 : 0;
      break;
    case ">=":
      for (let n = 0; n < end; ++n) mask[n] = values[n] >= limit ? 1 : 0;
      break;
    case "contains":
      throw new Error("only text contains text");
  }
}

/** Places that follow each other: for each step the earliest that still lets the rest follow. */
function follow(
  first: Mask,
  then: readonly { readonly mask: Mask; readonly within: number | null }[],
  start: number,
  end: number,
): number[] | undefined {
  const from = (at: number, step: number): number[] | undefined => {
    if (step === then.length) return [at];
    const { mask, within } = then[step];
    const limit = within === null ? end : Math.min(end, at + PLIES * within + 1);
    for (let n = at + 1; n < limit; ++n) {
      if (!mask[n]) continue;
      const rest = from(n, step + 1);
      if (rest) return [at, ...rest];
      // without a limit on the next step, a later place can do no better
      if (step + 1 < then.length && then[step + 1].within === null) return undefined;
    }
    return undefined;
  };
  // most endings want one of the steps altogether
  if (firstIn(first, start, end) < 0 || then.some(({ mask }) => firstIn(mask, start, end) < 0))
    return undefined;
  for (let n = start; n < end; ++n) {
    if (!first[n]) continue;
    const found = from(n, 0);
    if (found) return found;
    if (then[0].within === null) return undefined;
  }
  return undefined;
}

/** The first place that is met from `start` up to and without `end`; -1 if there is none. */
function firstIn(mask: Mask, start: number, end: number): number {
  for (let n = start; n < end; ++n) if (mask[n]) return n;
  return -1;
}

/** How a quantifier looks at the positions of an ending. */
const SCOPES: Readonly<
  Record<Scoped["quantifier"], (mask: Mask) => (start: number, end: number) => number[] | undefined>
> = {
  somewhere: (mask) => (start, end) => {
    const at = firstIn(mask, start, end);
    return at < 0 ? undefined : [at];
  },
  mostly: (mask) => (start, end) => {
    let met = 0;
    for (let n = start; n < end; ++n) met += mask[n];
    return 2 * met > end - start ? [firstIn(mask, start, end)] : undefined;
  },
  throughout: (mask) => (start, end) => {
    for (let n = start; n < end; ++n) if (!mask[n]) return undefined;
    return [];
  },
  never: (mask) => (start, end) => {
    for (let n = start; n < end; ++n) if (mask[n]) return undefined;
    return [];
  },
  entry: (mask) => (start) => (mask[start] ? [start] : undefined),
  end: (mask) => (_, end) => (mask[end - 1] ? [end - 1] : undefined),
};

/** A mask four positions at a time: its length is rounded up, and what lies behind its end is never read. */
const words = ({ buffer }: Mask): Uint32Array => new Uint32Array(buffer);
/** Room for a mask that can be read in words. */
const roomFor = (length: number): Mask => new Uint8Array(new ArrayBuffer((length + 3) & ~3), 0, length);

function inverse(mask: Mask): Mask {
  const result = roomFor(mask.length);
  const [from, into] = [words(mask), words(result)];
  for (let n = 0; n < into.length; ++n) into[n] = from[n] ^ 0x01010101;
  return result;
}
function both(into: Uint32Array, mask: Uint32Array): void {
  for (let n = 0; n < into.length; ++n) into[n] = into[n] & mask[n];
}
function either(into: Uint32Array, mask: Uint32Array): void {
  for (let n = 0; n < into.length; ++n) into[n] = into[n] | mask[n];
}

function combine(kind: "and" | "or", masks: readonly Mask[]): Mask {
  const [first, ...rest] = masks;
  if (rest.length === 0) return first;
  const result = roomFor(first.length);
  result.set(first);
  for (const mask of rest) (kind === "and" ? both : either)(words(result), words(mask));
  return result;
}

/** The likeness that a question asks about, if it does: its answers come nearest first. */
export function likenessIn(node: Question): Like | undefined {
  switch (node.kind) {
    case "like":
      return node;
    case "and":
      return node.parts.map(likenessIn).find((part) => part !== undefined);
    case "scoped":
      return node.quantifier === "somewhere" ? likenessIn(node.part) : undefined;
    default:
      return undefined;
  }
}

/** The question as it was understood, scopes made plain. */
export const understood = (question: Question, unit: Unit): string =>
  formatQuestion(unit === "ending" ? aboutEndings(question) : question);

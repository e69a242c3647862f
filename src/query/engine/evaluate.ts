// Answering a question from a database's columns: a mask over its positions, and from it a mask over its endings.
//
// What concerns games and endings as wholes is left to SQL (sql.ts); everything about positions is a pass over an
// array per condition. Masks hold 1 where a condition is met; what has been worked out is never changed again.

import { LongsideError } from "../../errors.js";
import { SAN_CODES, sanText } from "../../chess/san.js";
import { BISHOP, type Material, ROOK } from "../../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, firstDefender } from "../../chess/placement.js";
import { ACTIVE_KINDS } from "../../geometry/move-kinds.js";
import { Likeness } from "../../geometry/likeness.js";
import type { Connection } from "../../store/connection.js";
import { targetOf } from "../../store/database.js";
import { type ColumnStore, type Values, columnStoreOf } from "../../store/column-store.js";
import {
  type Compare,
  type CompareFacts,
  type Course,
  type Like,
  type Operator,
  type Question,
  type Range,
  type Scoped,
  type Waiting,
  aboutEndings,
  conditionsOf,
  formatQuestion,
  isCourse,
  leavesOf,
  levelOf,
} from "../language/ast.js";
import { isZugzwang } from "../../tablebase/zugzwang.js";
import { type Matcher, longestStay, matcherOf } from "./sequences.js";
import {
  type Mask,
  type ValueRange,
  both,
  combine,
  compareTo,
  fill,
  inverse,
  limitsOf,
  narrow,
  roomFor,
  words,
} from "./masks.js";
import { foldText, isNamed } from "../../store/names.js";
import { compilePlain, isPlain, tablesFor } from "./sql.js";
import { type BoardPiece, type Fact, type Stored, factNamed } from "../language/vocabulary.js";

/** What an answer's row is. */
export type Unit = "ending" | "position";

/** Folded texts, since the same names come again and again; forgotten when they are too many. */
const folded = new Map<string, string>();
const FOLDED = 100_000;
function foldAgain(text: string): string {
  let known = folded.get(text);
  if (known === undefined) {
    if (folded.size >= FOLDED) folded.clear();
    folded.set(text, (known = foldText(text)));
  }
  return known;
}

function remember(masks: Map<Question, Mask>, node: Question, make: () => Mask): Mask {
  let mask = masks.get(node);
  if (!mask) masks.set(node, (mask = make()));
  return mask;
}

export class Evaluation {
  private readonly store: ColumnStore;
  private readonly target: Material;
  /** Masks worked out so far: a condition on games has one over the endings and another over their positions. */
  private readonly overEndings = new Map<Question, Mask>();
  private readonly overPositions = new Map<Question, Mask>();
  private readonly abouts = new Map<Question, Question>();
  private readonly likenesses = new Map<Like, Uint8Array>();

  constructor(private readonly db: Connection) {
    this.store = columnStoreOf(db);
    this.target = targetOf(db);
    db.function("fold", { deterministic: true }, (text: unknown) =>
      typeof text === "string" ? foldAgain(text) : text,
    );
    db.function("named", { deterministic: true }, (name: unknown, sought: unknown) =>
      typeof name === "string" && isNamed(foldAgain(name), foldAgain(String(sought))) ? 1 : 0,
    );
  }

  /** A question about endings with its scopes explicit, the same tree each time, so that masks are known again. */
  private about(question: Question): Question {
    let about = this.abouts.get(question);
    if (!about) this.abouts.set(question, (about = aboutEndings(question)));
    return about;
  }

  /** The endings that answer a question; places are those of the store. */
  endings(question: Question): Mask {
    return this.ending(this.about(question));
  }

  /** The positions that answer a question: those that meet what it says of positions, in endings that meet the rest. */
  positions(question: Question): Mask {
    return this.position(question);
  }

  /** The mask over the endings of a condition whose scopes are explicit. */
  private ending(node: Question): Mask {
    return remember(this.overEndings, node, () => {
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
          if (!isCourse(node)) throw new Error(`${node.kind} is about positions`);
          return this.course(node);
      }
    });
  }

  private plain(node: Question): Mask {
    const { endings, ids } = this.store;
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
    return remember(this.overPositions, node, () => {
      if (levelOf(node) === "ending") return this.spread(this.ending(node));
      switch (node.kind) {
        case "compare":
          return this.compare(node);
        case "facts":
          return this.compareFacts(node);
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
    const { starts } = this.store;
    const mask = roomFor(this.store.positions);
    for (let n = 0; n < endings.length; ++n) if (endings[n]) mask.fill(1, starts[n], starts[n + 1]);
    return mask;
  }

  /** Positions that meet every one of some conditions: what the first leave over is all that the others look at. */
  private allOf(parts: readonly Question[]): Mask {
    // a set-up that is known already need not be worked out again
    const flat = parts.flatMap((part) => conditionsOf(part, (one) => this.overPositions.has(one)));
    const mask = roomFor(this.store.positions);
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

  /** A condition that holds where a whole number lies in a span, or does not; undefined for any other. */
  private span(node: Question): ValueRange | undefined {
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
    if (fact.derived === "mover") return this.byMover(node);
    const { values, none } = this.values(fact);
    if (fact.type === "text") return this.compareMoves(values, none, operator, String(value));
    const mask = roomFor(this.store.positions);
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

  /** Positions in which a player of some name is to move. */
  private byMover(node: Compare): Mask {
    const [attackers, defenders] = ["attacker-name", "defender-name"].map((name) =>
      this.plain({ ...node, fact: factNamed(name)! }),
    );
    const { values: attackerToMove } = this.store.column("attacker-to-move");
    const { starts, endings } = this.store;
    const mask = roomFor(this.store.positions);
    for (let n = 0; n < endings; ++n)
      for (let p = starts[n]; p + 1 < starts[n + 1]; ++p)
        mask[p] = attackerToMove[p] === 1 ? attackers[n] : defenders[n];
    return mask;
  }

  /** The values of a fact over positions; of one about games and endings, each as often as it has positions. */
  private spreadValues(fact: Fact): ArrayLike<number> {
    if (fact.sql === undefined) {
      const { values, none } = this.values(fact);
      return Float64Array.from(values, (value) => (value === none ? NaN : value));
    }
    const { starts, positions } = this.store;
    const spread = new Float64Array(positions);
    this.endingValues(fact).forEach((value, n) =>
      spread.fill(typeof value === "number" ? value : NaN, starts[n], starts[n + 1]),
    );
    return spread;
  }

  private compareFacts({ fact, operator, other }: CompareFacts): Mask {
    const [one, two] = [this.spreadValues(fact), this.spreadValues(other)];
    const mask = roomFor(this.store.positions);
    // unknown values are not numbers, and compare with nothing
    const compared: Readonly<Record<string, (a: number, b: number) => boolean>> = {
      "=": (a, b) => a === b,
      "!=": (a, b) => a < b || a > b,
      "<": (a, b) => a < b,
      "<=": (a, b) => a <= b,
      ">": (a, b) => a > b,
      ">=": (a, b) => a >= b,
    };
    const meets = compared[operator];
    for (let n = 0; n < mask.length; ++n) mask[n] = meets(one[n], two[n]) ? 1 : 0;
    return mask;
  }

  /** Moves by their text; each different move is looked at once. */
  private compareMoves(
    values: Int32Array | Float64Array,
    none: number,
    operator: Operator,
    sought: string,
  ): Mask {
    const mask = roomFor(this.store.positions);
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
    const mask = roomFor(this.store.positions);
    const span = this.span(node);
    if (span) {
      fill(mask, span);
      return mask;
    }
    const { values } = this.values(node.fact);
    for (let n = 0; n < mask.length; ++n) mask[n] = values[n] >= node.from && values[n] <= node.to ? 1 : 0;
    return mask;
  }

  /** The values of a fact of positions or moves, in the order of the store. */
  values(fact: Fact): Values {
    if (fact.column !== undefined) return this.store.column(fact.column);
    const { derived } = this.store;
    let values = derived.get(fact.name) as Values | undefined;
    if (!values) derived.set(fact.name, (values = this.derive(fact)));
    return values;
  }

  private derive(fact: Fact): Values {
    const { store } = this;
    const { starts, positions } = store;
    const name = fact.derived!;
    switch (name) {
      case "ply":
      case "moves-in":
      case "halfmoves": {
        const values = new Int32Array(positions);
        for (let n = 0; n < store.endings; ++n) {
          const first =
            name === "ply" ? store.firstPlies[n] : name === "halfmoves" ? store.firstHalfmoves[n] : 0;
          for (let p = starts[n]; p < starts[n + 1]; ++p)
            values[p] = name === "moves-in" ? (p - starts[n]) >> 1 : first + p - starts[n];
        }
        return { values, none: -1 };
      }
      case "only-move": {
        const { values: keeping, none } = store.column("keeping");
        const values = new Int32Array(positions);
        for (let n = 0; n < positions; ++n) values[n] = keeping[n] === none ? -1 : keeping[n] === 1 ? 1 : 0;
        return { values, none: -1 };
      }
      case "blunder-potential": {
        const { values: keeping, none } = store.column("keeping");
        const { values: legal } = store.column("legal");
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = keeping[n] === none || legal[n] === 0 ? NaN : (legal[n] - keeping[n]) / legal[n];
        return { values, none: NaN };
      }
      case "clock": {
        const { values: milliseconds, none } = store.column("clock");
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = milliseconds[n] === none ? NaN : milliseconds[n] / 1000;
        return { values, none: NaN };
      }
      case "turn":
        return this.turns();
      case "first-mistake":
      case "decisive-mistake":
        return this.mistakes(name);
      case "zugzwang":
      case "reciprocal-zugzwang":
        return this.zugzwangs(name);
      case "board-square":
        return this.boardSquares(fact);
      case "mover":
        throw new Error("names of movers are compared by byMover");
    }
  }

  /** The colour to move: 1 white, 0 black. */
  private turns(): Values {
    const { starts } = this.store;
    const { values: attackerToMove } = this.store.column("attacker-to-move");
    const values = new Int32Array(this.store.positions);
    this.endingValues(factNamed("attacker")!).forEach((colour, n) => {
      const white = colour === "white" ? 1 : 0;
      for (let p = starts[n]; p < starts[n + 1]; ++p) values[p] = attackerToMove[p] === 1 ? white : 1 - white;
    });
    return { values, none: -1 };
  }

  /** The first move of each ending that gave something away, or the last. */
  private mistakes(which: "first-mistake" | "decisive-mistake"): Values {
    const { starts, endings } = this.store;
    const { values: errors, none } = this.store.column("error");
    const values = Int32Array.from(errors, (error) => (error === none ? -1 : 0));
    for (let n = 0; n < endings; ++n) {
      let at = -1;
      for (let p = starts[n]; p < starts[n + 1]; ++p) {
        if (errors[p] <= 0 || (at >= 0 && which === "first-mistake")) continue;
        at = p;
      }
      if (at >= 0) values[at] = 1;
    }
    return { values, none: -1 };
  }

  private zugzwangs(which: "zugzwang" | "reciprocal-zugzwang"): Values {
    const { values: verdicts, none } = this.store.column("verdict");
    const { values: others, none: noOther } = this.store.column("other-turn");
    const { values: attackerToMove } = this.store.column("attacker-to-move");
    const values = new Int32Array(this.store.positions);
    for (let n = 0; n < values.length; ++n)
      values[n] =
        verdicts[n] === none
          ? -1
          : others[n] === noOther
            ? 0
            : Number(isZugzwang(which, verdicts[n], others[n], attackerToMove[n] === 1));
    return { values, none: -1 };
  }

  private boardSquares({ board }: Fact): Values {
    const { piece, line } = board!;
    const values = new Int32Array(this.store.positions).fill(-1);
    const place = placeOfPiece(piece, this.target);
    if (place < 0) return { values, none: -1 };
    const { values: placements } = this.store.column("placement");
    const shift = 6 * (this.target.men - 1 - place) + (line === "rank" ? 3 : 0);
    for (let n = 0; n < values.length; ++n) values[n] = (Math.floor(placements[n] / 2 ** shift) & 7) + 1;
    return { values, none: -1 };
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
    const { values } = this.store.column("placement");
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
    const { starts, positions, endings } = this.store;
    const { values: errors } = this.store.column("error");
    const mask = roomFor(positions);
    const { values: kinds } = this.store.column("kind");
    for (let n = 0; n < positions; ++n) if (errors[n] === 0 && (kinds[n] & ACTIVE_KINDS) === 0) mask[n] = 1;
    for (let n = 0; n < endings; ++n) mask[starts[n + 1] - 1] = 0;
    for (const setUp of setUps) {
      const fits = this.position(setUp.means);
      for (let n = 0; n + 1 < positions; ++n) if (fits[n] !== fits[n + 1]) mask[n] = 0;
    }
    return mask;
  }

  private matcher(node: Scoped | Course): Matcher {
    return matcherOf(node, (part) => this.position(part), this.store.column("attacker-to-move").values);
  }

  private course(node: Scoped | Course): Mask {
    const match = this.matcher(node);
    const { starts, endings } = this.store;
    const mask = roomFor(endings);
    for (let n = 0; n < endings; ++n) if (match(starts[n], starts[n + 1])) mask[n] = 1;
    return mask;
  }

  /** Positions of the ending at a place. */
  positionsOf(place: number): number {
    return this.store.starts[place + 1] - this.store.starts[place];
  }

  /** How many of an ending's positions meet a condition on some or all of them; of a stay, how many it is long. */
  coveredPositions(part: Question, place: number): number {
    const { starts } = this.store;
    const [start, end] = [starts[place], starts[place + 1]];
    if (part.kind === "run") {
      const { values } = this.store.column("attacker-to-move");
      const stay = longestStay(this.position(part.part), values, start, end);
      return stay ? stay[1] - stay[0] + 1 : 0;
    }
    if (part.kind !== "scoped") return 0;
    const mask = this.position(part.part);
    let met = 0;
    for (let n = start; n < end; ++n) met += mask[n];
    return met;
  }

  /**
   * Plies of an ending's positions that show how it answers a question, the one to look at first; none where it is about
   * the whole. Of many positions that show it, that is the last mistake among them, if mistakes are asked for, else where
   * the longest stay begins.
   */
  shown(question: Question, place: number): number[] {
    const { starts, firstPlies } = this.store;
    const [start, end] = [starts[place], starts[place + 1]];
    const about = this.about(question);
    const parts = about.kind === "and" ? about.parts : [about];
    const plyOf = (at: number) => firstPlies[place] + at - start;
    for (const part of parts) {
      if (!isCourse(part)) continue;
      const found = this.matcher(part)(start, end);
      if (!found || found.length === 0) continue;
      if (part.kind === "scoped" && (part.quantifier === "somewhere" || part.quantifier === "mostly"))
        return [plyOf(this.bestOf(part.part, start, end) ?? found[0])];
      return found.map(plyOf);
    }
    return [];
  }

  /** The position between two places that shows a condition best. */
  private bestOf(part: Question, start: number, end: number): number | undefined {
    const mask = this.position(part);
    if (asksForMistakes(part)) {
      const { values: errors } = this.store.column("error");
      for (let n = end - 1; n >= start; --n) if (mask[n] && errors[n] > 0) return n;
    }
    return longestStay(mask, this.store.column("attacker-to-move").values, start, end)?.[0];
  }
}

/** Whether a condition is about moves that gave something away. */
const asksForMistakes = (node: Question): boolean =>
  leavesOf(node).some(
    (leaf) =>
      leaf.kind === "compare" && ["error", "first-mistake", "decisive-mistake"].includes(leaf.fact.name),
  );

/** The place among a placement's squares of a piece that people speak of; -1 where the material has none. */
export function placeOfPiece(piece: BoardPiece, material: Material): number {
  const of = (first: number, kinds: readonly number[], kind: number) =>
    kinds.includes(kind) ? first + kinds.indexOf(kind) : -1;
  switch (piece) {
    case "king":
      return DEFENDER_KING;
    case "attacker-king":
      return ATTACKER_KING;
    case "rook":
      return of(firstDefender(material), material.defender, ROOK);
    case "attacker-rook":
      return of(FIRST_PIECE, material.attacker, ROOK);
    case "bishop":
      return of(FIRST_PIECE, material.attacker, BISHOP);
  }
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

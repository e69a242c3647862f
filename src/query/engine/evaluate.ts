// Answering a question from a database's columns: a mask over its positions, and from it a mask over its endings.
//
// What concerns games and endings as wholes is left to SQL (sql.ts); everything about positions is a pass over an
// array per condition. Masks hold 1 where a condition is met; what has been worked out is never changed again.

import { LongsideError } from "../../errors.js";
import { SAN_CODES, sanText } from "../../chess/san.js";
import type { Material } from "../../chess/material.js";
import { ACTIVE_KINDS } from "../../geometry/move-kinds.js";
import { Likeness } from "../../geometry/likeness.js";
import type { Connection } from "../../store/connection.js";
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
  levelOf,
} from "../language/ast.js";
import { DerivedColumns } from "./derived-columns.js";
import { OtherEdge, isOfFrame } from "./other-edge.js";
import { type Matcher, matcherOf } from "./sequences.js";
import { type Sets, setsOf } from "./sets.js";
import {
  type Mask,
  type ValueRange,
  both,
  combine,
  compareNumbers,
  comparePairs,
  copyOf,
  limitsIn,
  markKinds,
  fill,
  isEmpty,
  inverse,
  narrow,
  roomFor,
  words,
} from "./masks.js";
import { endingsWhere, readTogether, valuesAt, valuesOfEndings } from "./endings-by-sql.js";
import { isPlain } from "./sql.js";
import { type Fact, type Stored, factNamed } from "../language/vocabulary.js";

/** What an answer's row is. */
export type Unit = "ending" | "position";

/** Below every value that a column can have. */
const NONE_AT_ALL = -(2 ** 31);

function remember(masks: Map<Question, Mask>, node: Question, make: () => Mask): Mask {
  let mask = masks.get(node);
  if (!mask) masks.set(node, (mask = make()));
  return mask;
}

export class Evaluation {
  private readonly target: Material;
  private readonly derived: DerivedColumns;
  /** Masks worked out so far: a condition on games has one over the endings and another over their positions. */
  private readonly overEndings = new Map<Question, Mask>();
  private readonly overPositions = new Map<Question, Mask>();
  private readonly fromEitherEdge = new Map<Question, Mask>();
  private readonly likenesses = new Map<Like, Uint8Array>();
  private readonly setUpSets = new Map<readonly { readonly test: Question }[], Sets>();
  private otherEdge: OtherEdge | undefined;

  /** Of all endings, or of those of a part of the store. */
  constructor(
    private readonly db: Connection,
    readonly store: ColumnStore = columnStoreOf(db),
  ) {
    this.target = store.target;
    this.derived = new DerivedColumns(this.store, this.target, () =>
      this.endingValues(factNamed("attacker")!),
    );
  }

  /** The endings that answer a question; places are those of the store. */
  endings(question: Question): Mask {
    return this.ending(aboutEndings(question));
  }

  /** The positions that answer a question: those that meet what it says of positions, in endings that meet the rest. */
  positions(question: Question): Mask {
    return this.position(question);
  }

  /** Which of some set-ups each position fits, by their places in the list. */
  setUps(list: readonly { readonly test: Question }[]): Sets {
    let sets = this.setUpSets.get(list);
    if (!sets) {
      const masks = list.map(({ test }) => this.positions(test));
      this.setUpSets.set(list, (sets = setsOf(masks, this.store.positions)));
    }
    return sets;
  }

  /** The mask over the endings of a condition whose scopes are explicit. */
  private ending(node: Question): Mask {
    return remember(this.overEndings, node, () => {
      if (isPlain(node)) return endingsWhere(this.db, this.store, node);
      switch (node.kind) {
        case "not":
          return inverse(this.ending(node.part));
        case "and":
        case "or": {
          // what SQL can answer is one statement
          const plain = node.parts.filter(isPlain);
          const rest = node.parts.filter((part) => !isPlain(part));
          const masks =
            plain.length > 0 ? [endingsWhere(this.db, this.store, { kind: node.kind, parts: plain })] : [];
          for (const part of rest) {
            // nothing is left that the others could leave over
            if (node.kind === "and" && masks.some((mask) => isEmpty(mask))) break;
            masks.push(this.ending(part));
          }
          return combine(node.kind, masks);
        }
        default:
          if (!isCourse(node)) throw new Error(`${node.kind} is about positions`);
          return this.course(node);
      }
    });
  }

  /** The mask over the positions of a condition, seen from either edge where two are as near. */
  private position(node: Question): Mask {
    if (levelOf(node) === "ending" || !isOfFrame(node)) return this.seen(node);
    return remember(this.fromEitherEdge, node, () => {
      const mask = copyOf(this.seen(node));
      this.otherEdge ??= new OtherEdge(this.store, {
        valuesOf: (fact) => this.values(fact),
        numbersOf: (fact) => this.numbers(fact),
        maskOf: (part) => this.seen(part),
      });
      this.otherEdge.correct(node, mask);
      return mask;
    });
  }

  /** The mask over the positions of a condition, seen from the edge that the columns are seen from. */
  private seen(node: Question): Mask {
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
          return this.seen(node.means);
        case "not":
          return inverse(this.seen(node.part));
        case "and":
          return this.allOf(node.parts);
        case "or":
          return combine(
            "or",
            node.parts.map((part) => this.seen(part)),
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
    const all = parts.flatMap((part) => conditionsOf(part, (one) => this.overPositions.has(one)));
    const mask = roomFor(this.store.positions);
    const foreseen = all.map((part) => this.foreseen(part));
    if (foreseen.includes(false)) return mask;
    const flat = all.filter((_, n) => foreseen[n] === undefined);
    // what is about endings and rules out all of them leaves nothing to look at
    for (const part of flat) if (levelOf(part) === "ending" && isEmpty(this.ending(part))) return mask;
    // the dearest last, when few positions are left; those that are no ranges are passes of their own
    const ranges = flat.map((part) => this.rangeOf(part));
    const others = flat.filter((_, n) => ranges[n] === undefined).map((part) => this.seen(part));
    const [first, ...rest] = ranges.filter((range) => range !== undefined);
    if (first) fill(mask, first);
    else mask.fill(1);
    for (const other of others) both(words(mask), words(other));
    for (const range of rest) narrow(mask, range);
    return mask;
  }

  /** Whether all positions meet a condition, or none does, where what a column holds at least and at most says so. */
  private foreseen(node: Question): boolean | undefined {
    const inside = node.kind !== "not";
    const asked = node.kind === "not" ? node.part : node;
    if (asked.kind !== "compare" && asked.kind !== "range") return undefined;
    const { column, type } = asked.fact;
    if (column === undefined || type === "text" || type === "kinds") return undefined;
    const bounds = this.store.boundsOf(column);
    const limits = limitsIn(asked, NONE_AT_ALL);
    if (!bounds || !limits) return undefined;
    const { least, greatest, absent } = bounds;
    if (least === null || greatest === null || greatest < limits.low || least > limits.high) return !inside;
    return absent === 0 && least >= limits.low && greatest <= limits.high ? inside : undefined;
  }

  /** A condition that holds where a whole number lies in a range, or does not; undefined for any other. */
  private rangeOf(node: Question): ValueRange | undefined {
    const inside = node.kind !== "not";
    const asked = node.kind === "not" ? node.part : node;
    if (asked.kind !== "compare" && asked.kind !== "range") return undefined;
    const { fact } = asked;
    if (fact.sql !== undefined || fact.type === "text" || fact.type === "kinds") return undefined;
    const { values, none } = this.values(fact);
    if (values instanceof Float64Array) return undefined;
    const limits = limitsIn(asked, none);
    return limits && { values, ...limits, inside };
  }

  private compare(node: Compare): Mask {
    const foreseen = this.foreseen(node);
    if (foreseen !== undefined) return roomFor(this.store.positions).fill(foreseen ? 1 : 0);
    const { fact, operator, value } = node;
    if (fact.derived === "mover") return this.byMover(node);
    const { values, none } = this.values(fact);
    if (fact.type === "text") return this.compareMoves(values, none, operator, String(value));
    const mask = roomFor(this.store.positions);
    if (fact.type === "kinds") {
      markKinds(mask, values as Int32Array, none, 1 << Number(value), operator !== "!=");
      return mask;
    }
    compareNumbers(mask, { values, none }, node);
    return mask;
  }

  /** Positions in which a player of some name is to move. */
  private byMover(node: Compare): Mask {
    const [attackers, defenders] = ["attacker-name", "defender-name"].map((name) =>
      endingsWhere(this.db, this.store, { ...node, fact: factNamed(name)! }),
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
  private numbers(fact: Fact): Values {
    if (fact.sql === undefined) return this.values(fact);
    const { starts, positions } = this.store;
    const spread = new Float64Array(positions);
    this.endingValues(fact).forEach((value, n) =>
      spread.fill(typeof value === "number" ? value : NaN, starts[n], starts[n + 1]),
    );
    return { values: spread, none: NaN };
  }

  private compareFacts({ fact, operator, other }: CompareFacts): Mask {
    const mask = roomFor(this.store.positions);
    comparePairs(mask, this.numbers(fact), operator, this.numbers(other));
    return mask;
  }

  /** Moves by their text; each different move is looked at once. */
  private compareMoves(values: Values["values"], none: number, operator: Operator, sought: string): Mask {
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
    const foreseen = this.foreseen(node);
    if (foreseen !== undefined) return roomFor(this.store.positions).fill(foreseen ? 1 : 0);
    const mask = roomFor(this.store.positions);
    compareNumbers(mask, this.values(node.fact), node);
    return mask;
  }

  /** The values of a fact of positions or moves, in the order of the store. */
  values(fact: Fact): Values {
    if (fact.column !== undefined) return this.store.column(fact.column);
    const { derived } = this.store;
    let values = derived.get(fact.name) as Values | undefined;
    if (!values) derived.set(fact.name, (values = this.derived.values(fact)));
    return values;
  }

  /** Reads several facts of games or endings in one pass. */
  readTogether(facts: readonly Fact[]): void {
    readTogether(this.db, this.store, facts);
  }

  /** A fact of games or endings for every ending. Null where it is unknown. */
  endingValues(fact: Fact): readonly (Stored | null)[] {
    return valuesOfEndings(this.db, this.store, fact);
  }

  /** Some facts of games or endings for the endings at some places, which rise: a list for each fact. */
  endingValuesAt(facts: readonly Fact[], places: Int32Array): (Stored | null)[][] {
    return valuesAt(this.db, this.store, facts, places);
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

  /** Says how an ending meets a condition on its course. */
  matcher(node: Scoped | Course): Matcher {
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
}

/** The question as it was understood, scopes made plain. */
export const understood = (question: Question, unit: Unit): string =>
  formatQuestion(unit === "ending" ? aboutEndings(question) : question);

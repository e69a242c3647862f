// Finding examples: the endings, or the single positions, that a question is about.

import { placementAt } from "../../chess/placement.js";
import { squareName } from "../../chess/squares.js";
import { type Material, kindNameOf } from "../../chess/material.js";
import type { Ply } from "../../chess/units.js";
import { growingInts } from "../../growing.js";
import { GEOMETRY, Geometer, isCoordinate } from "../../geometry/facts.js";
import { Likeness } from "../../geometry/likeness.js";
import type { Connection } from "../../store/connection.js";
import { type ColumnStore, columnStoreOf } from "../../store/column-store.js";
import type { Like, Question } from "../language/ast.js";
import { type Covered, coverageOf } from "./coverage.js";
import { Evaluation, type Unit } from "./evaluate.js";
import { asksForCover, ranksOf } from "./order.js";
import { DEFAULT_ORDER, type Order } from "../language/orders.js";
import { shownPlies } from "./shown.js";
import { ANSWERS_IN, type Near, likenessIn } from "./slice-answers.js";
import { eachSlice } from "./slice-threads.js";
import { type EndingAnswer, EndingReader, type PositionAnswer } from "./rows.js";

/** How near a position is to the one a question asks to be like, and what differs. */
export interface Nearness {
  /** King's steps of all pieces together; a different side to move counts as one. */
  readonly steps: number;
  /** What differs, in words, seen from the position asked about: "rook e2→f2". */
  readonly differs: readonly string[];
  /** Facts of lines and relations that differ; of positions as near, those with fewer come first. */
  readonly relations: readonly string[];
}

export type FoundEnding = EndingAnswer & {
  readonly like?: Nearness;
  /** How much of the ending each condition covers. */
  readonly covers: readonly Covered[];
};
export type FoundPosition = PositionAnswer & { readonly like?: Nearness };

/** Facts that say more than where a piece stands: these make positions with pieces on other squares alike. */
const RELATIONS = GEOMETRY.map((fact, n) => ({ ...fact, n })).filter(({ name }) => !isCoordinate(name));

export interface AnswerOptions {
  readonly order?: Order;
  /** For each ending of the store why it is no answer, -1 where it may be one. */
  readonly leftOut?: Int8Array;
}

/** What one look at every ending has found, before any limit. */
interface Gathered {
  /** Places of the endings that answer, as they are to be given. */
  readonly endings: Int32Array;
  /** How many positions of each answer; not of a likeness. */
  readonly counts: Int32Array;
  /** What answers a question about likeness, nearest first: the nearest of each ending, or every position. */
  readonly near: readonly Near[];
  /** Answers that may be given, and those that are left out, by the reason's number. */
  readonly all: number;
  readonly without: ReadonlyMap<number, number>;
}

/** Endings that are read together, in the order in which they lie in the database: at first, and when many are wanted. */
const FIRST = 32;
const TOGETHER = 256;

/** The answers to one question in one database. */
export class Answers {
  private readonly store: ColumnStore;
  private readonly target: Material;
  private readonly like: Like | undefined;
  private readonly order: Order;
  private readonly leftOut: Int8Array | undefined;
  private readonly gathered = new Map<Unit, Gathered>();
  private likeness: Likeness | undefined;
  private geometer: Geometer | undefined;
  /** Relations that differ, by the placement's number: the same positions come again and again. */
  private readonly differing = new Map<number, string[]>();
  /** Facts of the position that a likeness asks about. */
  private asked: (number | null)[] | undefined;

  constructor(
    private readonly db: Connection,
    private readonly question: Question,
    { order = DEFAULT_ORDER, leftOut }: AnswerOptions = {},
  ) {
    this.store = columnStoreOf(db);
    this.target = this.store.target;
    this.order = order;
    this.leftOut = leftOut;
    this.like = likenessIn(question);
  }

  /**
   * Endings that answer, in the order asked for, or the nearest first. At most `limit`, skipping the first `from`; they are
   * read as they are asked for.
   */
  *endings(limit = Infinity, from = 0): Generator<FoundEnding> {
    const { question, like } = this;
    const { endings, near } = this.gather("ending");
    const nearest = new Map(near.map((one) => [one.ending, one]));
    const reader = new EndingReader(this.db, this.target);
    yield* this.asTheyLie([...endings.subarray(from, from + limit)], (place) => {
      const evaluation = this.evaluationOf(place);
      const ending = reader.read(this.store.ids[place])!;
      const covers = coverageOf(evaluation, question, 0);
      const twin = nearest.get(place);
      if (!like || !twin) return { ...ending.answer(shownPlies(evaluation, question, 0)), covers };
      const ply = (ending.firstPly + twin.at) as Ply;
      return { ...ending.answer([ply]), covers, like: this.nearness(like, twin) };
    });
  }

  /** Positions that answer, ending by ending in the order asked for, or the nearest first. */
  *positions(limit = Infinity, from = 0): Generator<FoundPosition> {
    const { like, store } = this;
    const { endings, counts, near } = this.gather("position");
    const reader = new EndingReader(this.db, this.target);
    if (like) {
      const some = near.slice(from, from + limit);
      yield* this.asTheyLie(some, (one) => {
        const ending = reader.read(store.ids[one.ending])!;
        return {
          ...ending.position((ending.firstPly + one.at) as Ply),
          like: this.nearness(like, one),
        };
      });
      return;
    }
    // the endings among whose positions are those from the first to the last wanted
    let [first, skip] = [0, from];
    while (first < endings.length && skip >= counts[first]) skip -= counts[first++];
    let [last, wanted] = [first, skip + limit];
    while (last < endings.length && wanted > 0) wanted -= counts[last++];
    let left = limit;
    const each = this.asTheyLie([...endings.subarray(first, last)], (place) => {
      const mask = this.evaluationOf(place).positions(this.question);
      const ending = reader.read(store.ids[place])!;
      return [...mask.keys()]
        .filter((at) => mask[at])
        .map((at) => ending.position((ending.firstPly + at) as Ply));
    });
    for (const positions of each) {
      for (const position of positions.slice(skip)) if (left-- > 0) yield position;
      skip = 0;
    }
  }

  /** What is made of places, in their order; of many they are made in the order in which they lie in the database. */
  private *asTheyLie<P extends number | Near, T>(places: readonly P[], make: (place: P) => T): Generator<T> {
    const placeOf = (one: P): number => (typeof one === "number" ? one : one.ending);
    for (let from = 0, size = FIRST; from < places.length; from += size, size = TOGETHER) {
      const some = places.slice(from, from + size);
      const made = new Map<P, T>();
      for (const one of [...some].sort((a, b) => placeOf(a) - placeOf(b))) made.set(one, make(one));
      for (const one of some) yield made.get(one)!;
    }
  }

  /** An evaluation of the ending at a place only, which is its first. */
  private evaluationOf(place: number): Evaluation {
    return new Evaluation(this.db, this.store.only(place));
  }

  /** Looks at every ending, slice by slice; once, since answers are often read page by page. */
  private gather(unit: Unit): Gathered {
    let gathered = this.gathered.get(unit);
    if (!gathered) this.gathered.set(unit, (gathered = this.look(unit)));
    return gathered;
  }

  /** The endings that answer, or have positions that do; counts them all, and those that are left out. */
  private look(unit: Unit): Gathered {
    const { question, like, order, leftOut } = this;
    const without = new Map<number, number>();
    const asked = { question, unit, covers: !like && asksForCover(order), near: like !== undefined };
    const slices = eachSlice(this.db, ANSWERS_IN, asked, this.store);
    const reasonOf = (place: number) => (leftOut ? leftOut[place] : -1);
    const [placesKept, countsKept, coveredKept] = [growingInts(), growingInts(), growingInts()];
    let all = 0;
    for (const { places, counts, covered } of slices)
      places.forEach((place, n) => {
        const reason = reasonOf(place);
        if (reason >= 0) {
          without.set(reason, (without.get(reason) ?? 0) + counts[n]);
          return;
        }
        all += counts[n];
        placesKept.push(place);
        countsKept.push(counts[n]);
        coveredKept.push(covered[n]);
      });
    if (like) {
      const near = slices.flatMap((one) => one.near).filter(({ ending }) => reasonOf(ending) < 0);
      this.sortByNearness(near);
      return {
        endings: Int32Array.from(near, ({ ending }) => ending),
        counts: new Int32Array(0),
        near,
        all,
        without,
      };
    }
    const [places, counts] = [placesKept.values, countsKept.values];
    const found = { places, covered: coveredKept.values };
    const ranks = ranksOf(order, new Evaluation(this.db, this.store), found);
    const ranked = places.map((_, n) => n).sort((one, other) => ranks[other] - ranks[one] || one - other);
    return {
      endings: ranked.map((n) => places[n]),
      counts: ranked.map((n) => counts[n]),
      near: [],
      all,
      without,
    };
  }

  /** How many answer, before any limit. */
  tally(unit: Unit): number {
    return this.gather(unit).all;
  }

  /** How many answers are left out, by the number of the reason. */
  without(unit: Unit): ReadonlyMap<number, number> {
    return this.gather(unit).without;
  }

  /** How many endings answer another question, of those that are not left out. */
  readonly countOf = (question: Question): number => {
    const asked = { question, unit: "ending", covers: false, near: false } as const;
    let count = 0;
    for (const { places } of eachSlice(this.db, ANSWERS_IN, asked, this.store))
      for (const place of places) if (!(this.leftOut && this.leftOut[place] >= 0)) ++count;
    return count;
  };

  /** Sorts by steps, then by how many relations differ, then as they lie. */
  private sortByNearness(near: Near[]): void {
    const relations = new Map(near.map((one) => [one, this.relations(one.number).length]));
    near.sort(
      (a, b) =>
        a.steps - b.steps || relations.get(a)! - relations.get(b)! || a.ending - b.ending || a.at - b.at,
    );
  }

  /** Relations in which the placement of a number differs from the one asked about. */
  private relations(number: number): string[] {
    const { material, placement } = this.like!;
    const known = this.differing.get(number);
    if (known) return known;
    this.geometer ??= new Geometer(material);
    this.asked ??= this.geometer.facts(placement);
    const { asked } = this;
    const own = this.geometer.facts(placementAt(number, material.men));
    const found = RELATIONS.filter(({ n }) => own[n] !== asked[n]).map(({ name }) => name);
    this.differing.set(number, found);
    return found;
  }

  private nearness(like: Like, { number, steps }: Near): Nearness {
    this.likeness ??= new Likeness(like.placement, like.turn);
    const twin = this.likeness.nearest(number);
    const differs = twin.moved.map(
      ({ piece, from, to }) => `${kindNameOf(like.material, piece)} ${squareName(from)}→${squareName(to)}`,
    );
    return {
      steps,
      differs: twin.otherTurn ? [...differs, "the other side to move"] : differs,
      relations: this.relations(number),
    };
  }
}

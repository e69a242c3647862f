// Finding examples: the endings, or the single positions, that a question is about.

import { placementAt } from "../../chess/placement.js";
import { squareName } from "../../chess/squares.js";
import { kindNameOf } from "../../chess/material.js";
import type { Ply } from "../../chess/units.js";
import { GEOMETRY, Geometer, isCoordinate } from "../../geometry/facts.js";
import { Likeness } from "../../geometry/likeness.js";
import type { Connection } from "../../store/connection.js";
import { targetOf } from "../../store/database.js";
import { type ColumnStore, columnStoreOf } from "../../store/column-store.js";
import { type Like, type Question, partsOf } from "../language/ast.js";
import { type Covered, coverageOf } from "./coverage.js";
import { Evaluation, type Unit } from "./evaluate.js";
import { rankBy } from "./order.js";
import { DEFAULT_ORDER, type Order } from "../language/orders.js";
import { coveredPositions, shownPlies } from "./shown.js";
import type { Mask } from "./masks.js";
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

/** Places of a mask that are met, in order. */
function placesOf(mask: Mask): number[] {
  const places: number[] = [];
  for (let n = 0; n < mask.length; ++n) if (mask[n]) places.push(n);
  return places;
}

/** Facts that say more than where a piece stands: these make positions with pieces on other squares alike. */
const RELATIONS = GEOMETRY.map((fact, n) => ({ ...fact, n })).filter(({ name }) => !isCoordinate(name));

/** The nearest position of each ending, and its steps. */
function nearestOf(
  { starts, endings }: ColumnStore,
  steps: Uint8Array,
): { steps: Uint8Array; at: Int32Array } {
  const least = new Uint8Array(endings).fill(255);
  const at = new Int32Array(endings);
  for (let n = 0; n < endings; ++n) {
    for (let p = starts[n]; p < starts[n + 1]; ++p)
      if (steps[p] < least[n]) [least[n], at[n]] = [steps[p], p];
  }
  return { steps: least, at };
}

/** The likeness that a question asks about, if it does: its answers come nearest first. */
function likenessIn(node: Question): Like | undefined {
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

export interface AnswerOptions {
  readonly order?: Order;
  readonly leftOut?: Int8Array;
  /** One that has seen the question, or parts of it, need not work them out again. */
  readonly evaluation?: Evaluation;
}

/** The answers to one question in one database. */
export class Answers {
  private readonly store: ColumnStore;
  readonly evaluation: Evaluation;
  private readonly like: Like | undefined;
  private readonly steps: Uint8Array | undefined;
  private endingPlaces: ReturnType<Answers["sortedEndings"]> | undefined;
  private positionPlaces: number[] | undefined;
  private likeness: Likeness | undefined;
  private geometer: Geometer | undefined;
  /** Relations that differ, by the placement's number: the same positions come again and again. */
  private readonly differing = new Map<number, string[]>();
  /** Facts of the position that a likeness asks about. */
  private asked: (number | null)[] | undefined;

  private readonly order: Order;
  private readonly leftOut: Int8Array | undefined;

  /** `leftOut` says for each ending of the store why it is no answer, -1 where it may be one. */
  constructor(
    private readonly db: Connection,
    private readonly question: Question,
    { order = DEFAULT_ORDER, leftOut, evaluation = new Evaluation(db) }: AnswerOptions = {},
  ) {
    this.store = columnStoreOf(db);
    this.order = order;
    this.leftOut = leftOut;
    this.evaluation = evaluation;
    this.like = likenessIn(question);
    this.steps = this.like && this.evaluation.steps(this.like);
  }

  /**
   * Endings that answer, in the order asked for, or the nearest first. At most `limit`, skipping the first `from`; each
   * is read when it is asked for.
   */
  *endings(limit = Infinity, from = 0): Generator<FoundEnding> {
    const { store, evaluation, question, like } = this;
    const reader = new EndingReader(this.db, targetOf(this.db));
    const { places, nearest } = (this.endingPlaces ??= this.sortedEndings());
    for (const place of places.slice(from, from + limit)) {
      const ending = reader.read(store.ids[place])!;
      if (!like || !nearest) {
        yield { ...ending.answer(shownPlies(evaluation, question, place)), covers: this.covers(place) };
        continue;
      }
      const ply = store.firstPlies[place] + nearest.at[place] - store.starts[place];
      yield {
        ...ending.answer([ply]),
        covers: this.covers(place),
        like: this.nearness(like, nearest.at[place], nearest.steps[place]),
      };
    }
  }

  private covers(place: number): Covered[] {
    return coverageOf(this.evaluation, this.question, place);
  }

  /** Positions that answer, ending by ending in the order asked for, or the nearest first. */
  *positions(limit = Infinity, from = 0): Generator<FoundPosition> {
    const { store, like, steps } = this;
    const reader = new EndingReader(this.db, targetOf(this.db));
    const of = store.endingOf();
    let last = -1;
    let ending;
    const places = (this.positionPlaces ??= this.sortedPositions());
    for (const at of places.slice(from, from + limit)) {
      const place = of[at];
      if (place !== last) ending = reader.read(store.ids[(last = place)])!;
      const position = ending!.position((store.firstPlies[place] + at - store.starts[place]) as Ply);
      yield like && steps ? { ...position, like: this.nearness(like, at, steps[at]) } : position;
    }
  }

  /** Places of the endings that answer, as they are given; found once, since answers are often read page by page. */
  private sortedEndings() {
    const { store, steps } = this;
    const nearest = steps && nearestOf(store, steps);
    const places = this.kept(placesOf(this.evaluation.endings(this.question)), (place) => place);
    if (nearest) this.sortByNearness(places, nearest.steps, (place) => nearest.at[place]);
    else this.sortByRank(places);
    return { places, nearest };
  }

  /** Without the endings that are left out. */
  private kept(places: number[], endingOf: (place: number) => number): number[] {
    const { leftOut } = this;
    return leftOut ? places.filter((place) => leftOut[endingOf(place)] < 0) : places;
  }

  private sortByRank(places: number[]): void {
    const { evaluation, question } = this;
    const parts = partsOf(question);
    const covered = (place: number) =>
      Math.max(0, ...parts.map((part) => coveredPositions(evaluation, part, place)));
    const rank = rankBy(this.order, evaluation, covered);
    const ranks = new Map(places.map((place) => [place, rank(place)]));
    places.sort((a, b) => ranks.get(b)! - ranks.get(a)! || a - b);
  }

  private sortedPositions(): number[] {
    const { store } = this;
    const of = store.endingOf();
    const places = this.kept(placesOf(this.evaluation.positions(this.question)), (at) => of[at]);
    if (this.steps) this.sortByNearness(places, this.steps, (at) => at);
    else if (this.order !== "file") {
      const endings = [...new Set(places.map((at) => of[at]))];
      this.sortByRank(endings);
      const rank = new Map(endings.map((ending, n) => [ending, n]));
      places.sort((a, b) => rank.get(of[a])! - rank.get(of[b])! || a - b);
    }
    return places;
  }

  /** How many answer, before any limit. */
  tally(unit: Unit): number {
    if (unit === "position") return (this.positionPlaces ??= this.sortedPositions()).length;
    return (this.endingPlaces ??= this.sortedEndings()).places.length;
  }

  /** The place of the ending of every answer, those that are left out among them. */
  everyEnding(unit: Unit): number[] {
    if (unit === "ending") return placesOf(this.evaluation.endings(this.question));
    const of = this.store.endingOf();
    return placesOf(this.evaluation.positions(this.question)).map((at) => of[at]);
  }

  /** How many endings answer another question, of those that are not left out. */
  readonly countOf = (question: Question): number =>
    this.kept(placesOf(this.evaluation.endings(question)), (place) => place).length;

  /** Sorts places by steps, then by how many relations differ, then in order. `positionOf` gives a place's position. */
  private sortByNearness(places: number[], steps: Uint8Array, positionOf: (place: number) => number): void {
    const relations = new Map(places.map((place) => [place, this.relations(positionOf(place)).length]));
    places.sort((a, b) => steps[a] - steps[b] || relations.get(a)! - relations.get(b)! || a - b);
  }

  /** Relations in which a position differs from the one asked about. */
  private relations(at: number): string[] {
    const { material, placement } = this.like!;
    const number = this.store.column("placement").values[at];
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

  private nearness(like: Like, at: number, steps: number): Nearness {
    const number = this.store.column("placement").values[at];
    this.likeness ??= new Likeness(like.placement, like.turn);
    const twin = this.likeness.nearest(number);
    const differs = twin.moved.map(
      ({ piece, from, to }) => `${kindNameOf(like.material, piece)} ${squareName(from)}→${squareName(to)}`,
    );
    return {
      steps,
      differs: twin.otherTurn ? [...differs, "the other side to move"] : differs,
      relations: this.relations(at),
    };
  }
}

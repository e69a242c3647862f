// A question put to every placement of a table, pair of kings by pair of kings.
//
// Most conditions depend on few pieces. So the parts of a question that must all be met are asked as early as they can
// be answered: once for a pair of kings, once for a row of placements that differ by one piece, once for a square of
// that piece, and only then, of what is left, for a placement; those that need lines or legal moves come last. Where such a
// part compares one fact with a number, the compiled kernel asks it of a whole row at once.

import { MoveList, Movement } from "../../chess/moves.js";
import { type Placement, placementNumber } from "../../chess/placement.js";
import type { Material } from "../../chess/material.js";
import type { Square } from "../../chess/units.js";
import { SCORES, VERDICTS, scoreOf } from "../../chess/verdict.js";
import { NO_FACT, geometryIndex } from "../../geometry/facts.js";
import { Likeness } from "../../geometry/likeness.js";
import { PairFacts, type ValueRange } from "../../geometry/pairs.js";
import { type PackedValue, type Tables, unpack } from "../../tablebase/tables.js";
import { SWEPT_ILLEGAL, SWEPT_LOST, movesOf, verdictPlace } from "../../tablebase/values.js";
import { type Like, type Question, conditionsOf } from "../language/ast.js";
import { factsIn, inOrder, isInCheck, isMateThreat, rangeOf } from "./placement-conditions.js";
import { type FactReader, isMet, meets } from "./predicate.js";
import { isZugzwang } from "../../tablebase/zugzwang.js";
import { type Fact, type Stored, isChoiceFact } from "../language/vocabulary.js";

/** What a condition must know, the dearest last. */
const PAIR = 0;
const ROW = 1;
const COLUMN = 2;
const PIECES = 3;
/** Whether there is a check, which whoever asks may know. */
const CHECK = 4;
const VALUE = 5;
/** Lines, in a comparison that can be asked of a whole row. */
const FILTERS = 6;
const LINES = 7;
/** Lines and how the placement comes out together. */
const VALUED_LINES = 8;
const CHOICES = 9;

/** Score of a verdict by its place. */
const SCORE_AT = VERDICTS.map((verdict) => SCORES[verdict]);

/** Tells which placements of a sweep a question fits. One pair of kings is looked at at a time. */
export class PlacementTest {
  /** Conditions made into functions, since millions of placements are put to each. */
  private readonly stages: (() => boolean)[][] = Array.from({ length: CHOICES + 1 }, () => []);
  /** The same as those of FILTERS, by the number of the fact. */
  private readonly filters: (ValueRange & { readonly fact: number })[] = [];
  private readonly read: FactReader;
  /** The same from the other edge, for what is denied. */
  private readonly readOther: FactReader;
  private readonly likenesses = new Map<Like, Likeness>();
  private readonly movement: Movement;
  private readonly list = new MoveList();
  private facts: PairFacts | undefined;
  private other: PairFacts | undefined;
  private squares: Square[] = [];
  private attackerToMove = true;
  /** Whether the side to move is in check, and would be mated at once if it passed: 1 or 0; undefined where it is not known. */
  private inCheck: number | undefined;
  private mateThreat: number | undefined;
  /** Of the placement at hand. */
  private verdict = 0;
  private mate = 0;
  private keeping = -1;

  /**
   * `column` is the index in a placement's squares of the piece by whose square the placements of a row differ. The
   * tables are needed where the question asks for moves to conversion or for what single moves do.
   */
  constructor(
    question: Question,
    material: Material,
    column: number,
    private readonly tables: () => Tables,
  ) {
    this.movement = new Movement(material);
    const stageOf = (fact: Fact | "like"): number => {
      if (fact === "like") return LINES;
      if (isChoiceFact(fact)) return CHOICES;
      const n = geometryIndex(fact.name);
      if (n < 0) return fact.name === "dtc" ? CHOICES : VALUE;
      if (isInCheck(fact)) return CHECK;
      if (isMateThreat(fact)) return VALUE;
      const piece = PairFacts.pieceOf(material, n);
      if (piece === PairFacts.KINGS) return PAIR;
      if (piece === PairFacts.COMPUTED) return LINES;
      return piece === column ? COLUMN : ROW;
    };
    for (const part of inOrder(conditionsOf(question))) {
      const stages = new Set(factsIn(part).map(stageOf));
      stages.delete(PAIR);
      const dearest = stages.size === 0 ? PAIR : Math.max(...stages);
      let stage = dearest === LINES && stages.has(VALUE) ? VALUED_LINES : dearest;
      // on a row's pieces and the column's together
      if (stages.has(ROW) && stage === COLUMN) stage = PIECES;
      // on pieces and whether there is a check
      if (stage === CHECK && stages.size > 1) stage = VALUE;
      const range = stage === LINES ? rangeOf(part) : undefined;
      if (range) {
        stage = FILTERS;
        this.filters.push({ ...range, fact: geometryIndex(range.fact.name) });
      }
      this.stages[stage].push(this.compiled(part, false));
    }
    const steps = (like: Like) => this.steps(like);
    this.read = Object.assign((fact: Fact) => this.value(fact, this.facts!), { steps });
    const readOther: FactReader = Object.assign((fact: Fact) => this.value(fact, this.other!), { steps });
    this.readOther = readOther;
    readOther.other = this.read;
  }

  /**
   * A condition as a function of the placement at hand, seen from one edge or from the other: what `isMet` says of it. What
   * is denied must not be met from either.
   */
  private compiled(node: Question, fromOther: boolean): () => boolean {
    switch (node.kind) {
      case "compare": {
        const value = this.number(node.fact, fromOther);
        const limit = Number(node.value);
        switch (node.operator) {
          case "=":
            return () => value() === limit;
          case "!=":
            return () => {
              const one = value();
              return one === one && one !== limit;
            };
          case "<":
            return () => value() < limit;
          case "<=":
            return () => value() <= limit;
          case ">":
            return () => value() > limit;
          case ">=":
            return () => value() >= limit;
          default:
            throw new Error(`a placement has no text: ${node.fact.name}`);
        }
      }
      case "range": {
        const value = this.number(node.fact, fromOther);
        const { from, to } = node;
        return () => {
          const one = value();
          return one >= from && one <= to;
        };
      }
      case "set-up":
        return this.compiled(node.means, fromOther);
      case "not": {
        const here = this.compiled(node.part, fromOther);
        const there = this.compiled(node.part, !fromOther);
        return () => !here() && (this.other === undefined || !there());
      }
      case "and":
      case "or": {
        const parts = node.parts.map((part) => this.compiled(part, fromOther));
        const wanted = node.kind === "or";
        return () => {
          for (let n = 0; n < parts.length; ++n) if (parts[n]() === wanted) return wanted;
          return !wanted;
        };
      }
      default:
        return () => isMet(node, fromOther ? this.readOther : this.read);
    }
  }

  /** A fact of the placement at hand as a function; NaN where it is unknown, which no comparison meets. */
  private number(fact: Fact, fromOther: boolean): () => number {
    const n = geometryIndex(fact.name);
    const facts = fromOther ? () => this.other! : () => this.facts!;
    if (isInCheck(fact)) return () => this.inCheck ?? this.facts!.get(n, this.squares, this.attackerToMove);
    if (isMateThreat(fact))
      return () => this.mateThreat ?? this.facts!.get(n, this.squares, this.attackerToMove);
    if (n < 0)
      return () => {
        const value = this.value(fact, facts());
        return value === null ? NaN : Number(value);
      };
    return () => {
      const value = facts().get(n, this.squares, this.attackerToMove);
      return value === NO_FACT ? NaN : value;
    };
  }

  private meets(stage: number): boolean {
    const parts = this.stages[stage];
    for (let n = 0; n < parts.length; ++n) if (!parts[n]()) return false;
    return true;
  }

  private value(fact: Fact, facts: PairFacts): Stored | null {
    const n = geometryIndex(fact.name);
    if (n >= 0) {
      if (this.inCheck !== undefined && isInCheck(fact)) return this.inCheck;
      if (this.mateThreat !== undefined && isMateThreat(fact)) return this.mateThreat;
      const value = facts.get(n, this.squares, this.attackerToMove);
      return value === NO_FACT ? null : value;
    }
    switch (fact.name) {
      case "to-move":
        return this.attackerToMove ? 1 : 0;
      case "verdict":
        return this.verdict;
      case "dtm":
        return this.verdict === 0 ? null : this.mate;
      case "dtc":
        return unpack(this.probe()).dtc;
      default:
        return this.choice(fact);
    }
  }

  private probe(): PackedValue {
    return this.tables().probe(this.squares, this.attackerToMove);
  }

  private choice({ name }: Fact): number | null {
    if (name === "zugzwang" || name === "reciprocal-zugzwang") return this.zugzwang(name);
    if (this.keeping < 0) {
      this.keeping = 0;
      this.movement.legalMoves(this.squares, this.attackerToMove, this.list);
      for (let n = 0; n < this.list.count; ++n) {
        const { piece, to } = this.list;
        if (this.tables().verdictAfter(this.squares, piece[n], to[n], this.attackerToMove) === this.verdict)
          ++this.keeping;
      }
    }
    const legal = this.list.count;
    switch (name) {
      case "legal":
        return legal;
      case "keeping":
        return this.keeping;
      case "only-move":
        return this.keeping === 1 ? 1 : 0;
      default:
        return legal === 0 ? null : (legal - this.keeping) / legal;
    }
  }

  /** Whether having to move costs something; never where a side that is in check would have to pass. */
  private zugzwang(which: "zugzwang" | "reciprocal-zugzwang"): number {
    const inCheck =
      this.inCheck ?? this.facts!.get(geometryIndex("in-check"), this.squares, this.attackerToMove);
    if (inCheck === 1) return 0;
    const score = scoreOf(this.tables().probe(this.squares, !this.attackerToMove));
    return Number(isZugzwang(which, this.verdict, score, this.attackerToMove));
  }

  private steps(like: Like): number {
    let likeness = this.likenesses.get(like);
    if (!likeness) this.likenesses.set(like, (likeness = new Likeness(like.placement, like.turn)));
    return likeness.of(
      placementNumber({ squares: this.squares, attackerToMove: this.attackerToMove } satisfies Placement),
    );
  }

  /**
   * Begins a pair of kings; `squares` will be filled in for each placement. False if none of its placements fits. `other`
   * are the facts from the other edge, where the defender's king is as near to two.
   */
  pair(facts: PairFacts, squares: Square[], other?: PairFacts): boolean {
    this.facts = facts;
    this.other = other;
    this.read.other = other && this.readOther;
    this.squares = squares;
    return this.meets(PAIR);
  }

  /** Whether placements with these row's pieces may fit, whatever the square of the last. */
  row(): boolean {
    return this.facts!.turnsByPieces || this.meets(ROW);
  }

  /** Whether placements with this square of the column's piece may fit, whatever the others. */
  column(): boolean {
    return this.facts!.turnsByPieces || this.meets(COLUMN);
  }

  /** Whether the placement at hand, which fits, meets another question; `value` and `otherValue` as in `values`. */
  meetsAt(question: Question, attackerToMove: boolean, value: number, otherValue: number): boolean {
    this.comesOut(attackerToMove, value, otherValue);
    return meets(question, this.read);
  }

  /** Whether every placement of the pair fits whose row and column may, so that it need not be asked. */
  get settled(): boolean {
    if (this.facts!.turnsByPieces && this.stages[ROW].length + this.stages[COLUMN].length > 0) return false;
    return this.stages.slice(PIECES).every((stage) => stage.length === 0);
  }

  /** Whether `pieces`, or `values`, could say no: else they need not be asked. */
  get asksPieces(): boolean {
    return this.facts!.turnsByPieces || this.stages[PIECES].length > 0;
  }
  get asksValues(): boolean {
    return this.stages[VALUE].length > 0;
  }

  /** Whether a placement may fit whose row and column may, before it is asked whose move it is. */
  pieces(): boolean {
    return (!this.facts!.turnsByPieces || (this.meets(ROW) && this.meets(COLUMN))) && this.meets(PIECES);
  }

  private comesOut(attackerToMove: boolean, value: number, otherValue: number | undefined): void {
    this.attackerToMove = attackerToMove;
    this.verdict = SCORE_AT[verdictPlace(value)];
    this.mate = movesOf(value);
    this.keeping = -1;
    this.inCheck = undefined;
    this.mateThreat = undefined;
    if (otherValue === undefined) return;
    // where nobody else could be to move, somebody is in check
    this.inCheck = otherValue === SWEPT_ILLEGAL ? 1 : 0;
    this.mateThreat = otherValue === (attackerToMove ? SWEPT_LOST : 1) + 1 ? 1 : 0;
  }

  /** Whether placements may fit with a side to move that is in check or not, whatever the pieces. */
  check(attackerToMove: boolean, inCheck: boolean): boolean {
    this.attackerToMove = attackerToMove;
    this.inCheck = Number(inCheck);
    return this.meets(CHECK);
  }

  /**
   * Whether a placement may fit of which `pieces` and `check` have said so, by its swept values with the side to move and with
   * the other.
   */
  values(attackerToMove: boolean, value: number, otherValue: number): boolean {
    this.comesOut(attackerToMove, value, otherValue);
    return this.meets(VALUE);
  }

  /**
   * Takes from `row` what cannot fit of a row: a bit for each square of its piece, `column` in the squares of a placement, the
   * low 32 first. All that are set are of legal placements with the side to move.
   */
  filter(row: Uint32Array, column: number, attackerToMove: boolean): void {
    const { filters, facts } = this;
    if (!facts!.canFilter) return;
    for (let n = 0; n < filters.length && (row[0] | row[1]) !== 0; ++n)
      facts!.filter(filters[n].fact, filters[n], this.squares, column, attackerToMove, row);
  }

  /** Whether a placement fits of which `pieces`, `check`, `values` and `filter` have said that it may. */
  rest(attackerToMove: boolean, value: number, otherValue: number): boolean {
    this.comesOut(attackerToMove, value, otherValue);
    return (this.facts!.canFilter || this.meets(FILTERS)) && this.dearest();
  }
  private dearest(): boolean {
    return this.meets(LINES) && this.meets(VALUED_LINES) && this.meets(CHOICES);
  }

  /** Whether a placement may fit of which `pieces` has said so, with a side to move, however it comes out. */
  lines(attackerToMove: boolean): boolean {
    this.attackerToMove = attackerToMove;
    this.inCheck = undefined;
    return this.meets(CHECK) && this.meets(FILTERS) && this.meets(LINES);
  }

  /** Whether a placement with a swept value fits, of which `lines` has said that it may. */
  fits(attackerToMove: boolean, value: number): boolean {
    this.comesOut(attackerToMove, value, undefined);
    return this.meets(VALUE) && this.dearest();
  }
}

// A question put to every placement of a table, pair of kings by pair of kings.
//
// Most conditions depend on few pieces. So the parts of a question that must all be met are asked as early as they can
// be answered: once for a pair of kings, once for a row of placements that differ by one piece, once for a square of
// that piece, and only then, of what is left, for a placement; those that need lines or legal moves come last.

import { MoveList, Movement } from "../../chess/moves.js";
import { type Placement, placementNumber } from "../../chess/placement.js";
import type { Material } from "../../chess/material.js";
import type { Square } from "../../chess/units.js";
import { scoreOf } from "../../chess/verdict.js";
import { NO_FACT, geometryIndex } from "../../geometry/facts.js";
import { Likeness } from "../../geometry/likeness.js";
import { PairFacts } from "../../geometry/pairs.js";
import { type PackedValue, type Tables, unpack } from "../../tablebase/tables.js";
import { type Like, type Question, conditionsOf, leavesOf } from "../language/ast.js";
import { type FactReader, isMet, meets } from "./predicate.js";
import { isZugzwang } from "../../tablebase/zugzwang.js";
import { type Fact, type Stored, isChoiceFact, isPlacementFact } from "../language/vocabulary.js";

/** What a condition must know, the dearest last. */
const PAIR = 0;
const ROW = 1;
const COLUMN = 2;
const PIECES = 3;
const VALUE = 4;
const LINES = 5;
/** Lines and how the placement comes out together. */
const VALUED_LINES = 6;
const CHOICES = 7;

const isOfPlacements = (fact: Fact) => isPlacementFact(fact) || isChoiceFact(fact);

/** Why a question cannot be put to placements: the part of it that is about games. */
export const aboutGames = (node: Question): Question | undefined =>
  leavesOf(node).find((leaf) =>
    leaf.kind === "compare" || leaf.kind === "range" || leaf.kind === "facts"
      ? !isOfPlacements(leaf.fact) || (leaf.kind === "facts" && !isOfPlacements(leaf.other))
      : leaf.kind !== "set-up" && leaf.kind !== "like",
  );

/** Every fact that a condition asks for; `like` asks for all pieces. */
const factsIn = (node: Question): (Fact | "like")[] =>
  leavesOf(node).flatMap((leaf) => {
    if (leaf.kind === "set-up") return factsIn(leaf.means);
    if (leaf.kind === "facts") return [leaf.fact, leaf.other];
    return leaf.kind === "compare" || leaf.kind === "range" ? [leaf.fact] : ["like"];
  });

/** Whether a question asks how placements come out: for the verdict, for moves, or for what single moves do. */
export const asksForValues = (node: Question): boolean =>
  factsIn(node).some((fact) => fact !== "like" && fact.name !== "to-move" && geometryIndex(fact.name) < 0);

const isInCheck = ({ name }: Fact): boolean => name === "in-check";

/** Tells which placements of a sweep a question fits. One pair of kings is looked at at a time. */
export class PlacementTest {
  /** Conditions made into functions, since millions of placements are put to each. */
  private readonly stages: (() => boolean)[][] = Array.from({ length: CHOICES + 1 }, () => []);
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
  /** Whether the side to move is in check: 1 or 0, where whoever asks knows; else undefined. */
  private inCheck: number | undefined;
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
      const piece = PairFacts.pieceOf(material, n);
      if (piece === PairFacts.KINGS) return PAIR;
      if (piece === PairFacts.COMPUTED) return LINES;
      return piece === column ? COLUMN : ROW;
    };
    // whether there is a check is often known
    const parts = conditionsOf(question);
    const ofCheck = parts.filter((part) => factsIn(part).every((fact) => fact !== "like" && isInCheck(fact)));
    for (const part of new Set([...ofCheck, ...parts])) {
      const stages = new Set(factsIn(part).map(stageOf));
      stages.delete(PAIR);
      const dearest = stages.size === 0 ? PAIR : Math.max(...stages);
      const stage = dearest === LINES && stages.has(VALUE) ? VALUED_LINES : dearest;
      // on a row's pieces and the column's together
      this.stages[stages.has(ROW) && stage === COLUMN ? PIECES : stage].push(this.compiled(part, false));
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

  /** Whether the placement at hand, which fits, meets another question, with a side to move, in check or not. */
  meetsAt(question: Question, attackerToMove: boolean, inCheck: boolean): boolean {
    this.attackerToMove = attackerToMove;
    this.inCheck = inCheck ? 1 : 0;
    return meets(question, this.read);
  }

  /** Whether every placement of the pair fits whose row and column may, so that it need not be asked. */
  get settled(): boolean {
    if (this.facts!.turnsByPieces && this.stages[ROW].length + this.stages[COLUMN].length > 0) return false;
    return [PIECES, VALUE, LINES, VALUED_LINES, CHOICES].every((stage) => this.stages[stage].length === 0);
  }

  /** Whether a placement may fit whose row and column may, before it is asked whose move it is. */
  pieces(): boolean {
    return (!this.facts!.turnsByPieces || (this.meets(ROW) && this.meets(COLUMN))) && this.meets(PIECES);
  }

  /** Whether a placement may fit of which `pieces` has said so, with a side to move, however it comes out. */
  lines(attackerToMove: boolean): boolean {
    this.attackerToMove = attackerToMove;
    this.inCheck = undefined;
    return this.meets(LINES);
  }

  /** Whether the placement fits; `pieces` has said that it may. `inCheck`: whether the side to move is, where that is known. */
  fits(attackerToMove: boolean, verdict: number, mate: number, inCheck?: boolean): boolean {
    this.attackerToMove = attackerToMove;
    this.inCheck = inCheck === undefined ? undefined : inCheck ? 1 : 0;
    this.verdict = verdict;
    this.mate = mate;
    this.keeping = -1;
    return this.meets(VALUE) && this.meets(LINES) && this.meets(VALUED_LINES) && this.meets(CHOICES);
  }
}

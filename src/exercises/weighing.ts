// Candidates weighed: whether one is an exercise for a task at all and why not, how hard it should be, and what group it
// belongs to.

import type { Material } from "../chess/material.js";
import { MoveList, Movement, OFF_BOARD } from "../chess/moves.js";
import { DEFENDER_KING, placementNumber } from "../chess/placement.js";
import { fileOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Score, scoreOf } from "../chess/verdict.js";
import { halfMovesFor } from "../endings/fifty-moves.js";
import { Geometer, geometryIndex } from "../geometry/facts.js";
import { frameOf } from "../geometry/frame.js";
import { kindBit } from "../geometry/move-kinds.js";
import { placementReader } from "../position/probe.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type PackedValue, type Tables, unpack } from "../tablebase/tables.js";
import type { Candidate } from "./pool.js";
import { expectedFailure, gradeOf } from "./difficulty.js";
import type { ExercisesAsked } from "./exercise.js";
import type { Refusal } from "./refusals.js";

/** A candidate, seen in its frame, with what is needed to choose among several. */
export interface Weighed extends Candidate {
  /** Number of the placement. */
  readonly key: number;
  readonly verdict: Score;
  /** Moves that keep the verdict. */
  readonly keeping: number;
  /** The move that keeps it, from one square to another; undefined where there are several, or a verdict is asked for. */
  readonly answer: readonly [from: Square, to: Square] | undefined;
  /** Share of players expected to fail by the model, 0 to 1. */
  readonly expected: number;
  /** Candidates of one stratum show much the same: set-up, file of the king, turn, verdict, grade. */
  readonly stratum: string;
}

/** Where fewer moves fail, or tempt, there is no choice to make. */
const LEAST_FAILING = 2;
/** Answers where any few will do: at most so many, and so small a part of the legal moves. */
const MOST_ANSWERS = 3;
const ANSWERS_PART = 1 / 4;

const CHECK = kindBit("check");
const FREE_PIECE = geometryIndex("free-piece");

/** Weighs candidates of one material. */
export class Weigher {
  private readonly movement: Movement;
  private readonly geometer: Geometer;
  private readonly list = new MoveList();
  private readonly replies = new MoveList();
  private readonly backs = new MoveList();

  constructor(
    private readonly material: Material,
    private readonly tables: Tables,
    private readonly catalogue: Catalogue,
  ) {
    this.movement = new Movement(material);
    this.geometer = new Geometer(material);
  }

  /** Whether the side that is not to move is in check. */
  isIllegal(squares: readonly Square[], attackerToMove: boolean): boolean {
    return this.movement.inCheck(squares, attackerToMove ? 1 : 0);
  }

  /** The value of a placement, and the moves that keep its verdict as places in `list`, which is filled with the legal ones. */
  private keeping(
    squares: number[],
    attackerToMove: boolean,
    list: MoveList,
  ): { readonly packed: PackedValue; readonly kept: number[] } {
    this.movement.legalMoves(squares, attackerToMove, list);
    const packed = this.tables.probeMoves(squares, list, attackerToMove);
    const { verdicts } = this.tables.moveValues;
    const score = scoreOf(packed);
    const kept: number[] = [];
    for (let n = 0; n < list.count; ++n) if (verdicts[n] === score) kept.push(n);
    return { packed, kept };
  }

  /**
   * Weighs a candidate that stands in its frame; says why where it is no exercise. `strict`: what everybody sees is none
   * either; a position that somebody has picked, or that stands beside one that it contrasts with, may be easy.
   */
  weigh(
    candidate: Candidate,
    { task, answers }: Pick<ExercisesAsked, "task" | "answers">,
    strict = true,
  ): Weighed | Refusal {
    const { placement } = candidate;
    const squares = [...placement.squares];
    const { attackerToMove } = placement;
    const { list } = this;
    const { packed, kept } = this.keeping(squares, attackerToMove, list);
    const verdict = scoreOf(packed);
    const legal = list.count;
    if (legal === 0) return "no move";
    if (task === "judge" ? verdict < 0 : verdict === (attackerToMove ? -1 : 1)) return "already lost";
    const refusal =
      task === "judge"
        ? this.refusedToJudge(squares, attackerToMove, verdict, strict && kept.length === legal)
        : this.refused(squares, attackerToMove, packed, kept, strict ? answers : undefined);
    if (refusal) return refusal;
    const value = unpack(packed);
    const kindOf = this.geometer.kindsOfMoves(placement);
    const checks = kept.length > 0 && kept.every((n) => kindOf(list.piece[n], list.to[n]) & CHECK);
    // everybody looks at the checks first, and this one ends it
    if (strict && task !== "judge" && checks && value.dtm === 2) return "mate by a check";
    const winsIn = verdict === (attackerToMove ? 1 : -1) ? value.dtc : null;
    const expected = expectedFailure(legal, kept.length, checks, winsIn);
    const read = placementReader(this.geometer, placement, value);
    const setUp = this.catalogue.naming(read, this.material)[0] ?? "";
    const stratum = [setUp, fileOf(squares[DEFENDER_KING]), attackerToMove, verdict, gradeOf(expected)].join(
      "|",
    );
    const key = placementNumber(placement);
    const answer: Weighed["answer"] =
      kept.length === 1 && task !== "judge" ? [squares[list.piece[kept[0]]], list.to[kept[0]]] : undefined;
    return { ...candidate, key, verdict, keeping: kept.length, answer, expected, stratum };
  }

  /** Why a position is none in which a move is to be found; `answers` undefined for one that somebody has picked. */
  private refused(
    squares: number[],
    attackerToMove: boolean,
    packed: PackedValue,
    kept: readonly number[],
    answers: number | null | undefined,
  ): Refusal | undefined {
    const { list } = this;
    const legal = list.count;
    if (kept.length === legal) return "every move keeps it";
    if (answers === undefined) return undefined;
    if (answers !== null && kept.length !== answers) return "another number of answers";
    if (answers === null && kept.length > Math.min(MOST_ANSWERS, Math.max(1, legal * ANSWERS_PART)))
      return "too many answers";
    if (legal - kept.length < LEAST_FAILING) return "hardly a choice";
    const { dtm, dtc } = unpack(packed);
    if (dtm === 1) return "mate in one";
    if (dtc !== null && halfMovesFor(dtc, true) > 100) return "beyond fifty moves";
    const moves = Array.from({ length: legal }, (_, n) => ({ piece: list.piece[n], to: list.to[n] }));
    for (const n of kept)
      if (list.captured[n] >= 0 && !this.isStalemateTrick(squares, moves[n], attackerToMove))
        return "a piece is simply taken";
    let tempting = 0;
    for (let n = 0; n < legal; ++n) {
      if (kept.includes(n)) continue;
      const after = this.tables.probeAfter(squares, moves[n].piece, moves[n].to, attackerToMove);
      const lost = unpack(after);
      if (lost.dtc !== null && halfMovesFor(lost.dtc, true) > 100) return "beyond fifty moves";
      // a capture is looked at, unless it only gives more for less
      const tempts =
        (list.captured[n] >= 0 && !this.givesMore(moves[n].piece, list.captured[n])) ||
        (lost.dtc === null ? !this.givesAway(squares, moves[n], attackerToMove) : lost.dtc > 1);
      if (tempts) ++tempting;
    }
    return tempting < LEAST_FAILING ? "nothing tempts" : undefined;
  }

  /** Whether a capture can only be answered by captures that give stalemate. */
  private isStalemateTrick(squares: number[], move: Moved, attackerToMove: boolean): boolean {
    return this.afterMove(squares, move, (next) => {
      const { replies, backs } = this;
      this.movement.legalMoves(next, !attackerToMove, replies);
      let back = 0;
      const answers = Array.from({ length: replies.count }, (_, n) => ({
        piece: replies.piece[n],
        to: replies.to[n],
      }));
      for (const answer of answers) {
        if (answer.to !== move.to) continue;
        ++back;
        const stalemates = this.afterMove(next, answer, (end) => {
          this.movement.legalMoves(end, attackerToMove, backs);
          return backs.count === 0 && !this.movement.inCheck(end, attackerToMove ? 0 : 1);
        });
        if (!stalemates) return false;
      }
      return back > 0;
    });
  }

  /** Whether the other side can take a piece at once and nothing is lost by it. */
  private givesAway(squares: number[], move: Moved, attackerToMove: boolean): boolean {
    return this.afterMove(squares, move, (next) => {
      const { replies } = this;
      this.movement.legalMoves(next, !attackerToMove, replies);
      if (replies.count === 0) return true;
      for (let n = 0; n < replies.count; ++n) {
        if (replies.captured[n] < 0) continue;
        const verdict = this.tables.verdictAfter(next, replies.piece[n], replies.to[n], !attackerToMove);
        if (verdict * (attackerToMove ? 1 : -1) <= 0) return true;
      }
      return false;
    });
  }

  /** The squares after a move, a piece that is taken off the board. */
  private afterMove<T>(squares: number[], { piece, to }: Moved, look: (next: number[]) => T): T {
    const next = squares.map((square, n) => (n === piece ? to : square === to ? OFF_BOARD : square));
    return look(next);
  }

  /** Whether a piece is worth more than the one that it takes; a king risks nothing. */
  private givesMore(piece: number, taken: number): boolean {
    const [one, other] = [this.movement.kindOf(piece), this.movement.kindOf(taken)];
    return one !== undefined && other !== undefined && one < other;
  }

  /** Why a position is none to judge: something can be taken at once, it is check, or nobody could be in doubt. */
  private refusedToJudge(
    squares: number[],
    attackerToMove: boolean,
    verdict: Score,
    everyMoveKeeps: boolean,
  ): Refusal | undefined {
    if (this.movement.inCheck(squares, attackerToMove ? 0 : 1)) return "in check";
    if (this.geometer.fact(FREE_PIECE, { squares, attackerToMove }) > 0) return "a piece is simply taken";
    const value = unpack(this.tables.probe(squares, attackerToMove));
    if (value.dtm === 1) return "mate in one";
    if (value.dtc !== null && value.dtc <= 2) return "a piece is simply taken";
    if (value.dtc !== null && halfMovesFor(value.dtc, verdict === (attackerToMove ? 1 : -1)) > 100)
      return "beyond fifty moves";
    // it takes judgement where a move or the turn could change the verdict
    const other = scoreOf(this.tables.probe(squares, !attackerToMove));
    return everyMoveKeeps && other === verdict ? "nothing tempts" : undefined;
  }

  /** Frames, by number, that a placement comes to when each side makes a waiting move: one that keeps the verdict and takes nothing. */
  afterWaiting({ placement }: Weighed): Set<number> {
    const { list, replies } = this;
    const { attackerToMove } = placement;
    const squares = [...placement.squares];
    const found = new Set<number>();
    const quiet = this.keeping(squares, attackerToMove, list)
      .kept.filter((n) => list.captured[n] < 0)
      .map((n) => [list.piece[n], list.to[n]] as const);
    for (const [piece, to] of quiet) {
      const from = squares[piece];
      squares[piece] = to;
      for (const n of this.keeping(squares, !attackerToMove, replies).kept) {
        if (replies.captured[n] >= 0) continue;
        const back = squares[replies.piece[n]];
        squares[replies.piece[n]] = replies.to[n];
        found.add(placementNumber(frameOf({ squares, attackerToMove }, this.material)));
        squares[replies.piece[n]] = back;
      }
      squares[piece] = from;
    }
    return found;
  }
}

interface Moved {
  readonly piece: number;
  readonly to: number;
}

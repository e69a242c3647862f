// Candidates weighed: whether one is an exercise for a task at all, how hard it should be, and what group it belongs to.

import type { Material } from "../chess/material.js";
import { MoveList, Movement } from "../chess/moves.js";
import { DEFENDER_KING, placementNumber } from "../chess/placement.js";
import { fileOf } from "../chess/squares.js";
import { type Score, scoreOf } from "../chess/verdict.js";
import { Geometer } from "../geometry/facts.js";
import { frameOf } from "../geometry/frame.js";
import { kindBit } from "../geometry/move-kinds.js";
import { placementReader } from "../position/probe.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type Tables, unpack } from "../tablebase/tables.js";
import type { Candidate } from "./candidates.js";
import { expectedFailure, gradeOf } from "./difficulty.js";
import type { ExercisesAsked } from "./exercise.js";

/** A candidate, seen in its frame, with what is needed to choose among several. */
export interface Weighed extends Candidate {
  /** Number of the placement. */
  readonly key: number;
  readonly verdict: Score;
  /** Share of players expected to fail by the model, 0 to 1. */
  readonly expected: number;
  /** Candidates of one stratum show much the same: set-up, file of the king, turn, verdict, grade. */
  readonly stratum: string;
}

/** Where fewer moves fail there is no choice to make. */
const LEAST_FAILING = 2;

const CHECK = kindBit("check");

/** Weighs candidates of one material. */
export class Weigher {
  private readonly movement: Movement;
  private readonly geometer: Geometer;
  private readonly list = new MoveList();
  private readonly replies = new MoveList();

  constructor(
    private readonly material: Material,
    private readonly tables: Tables,
    private readonly catalogue: Catalogue,
  ) {
    this.movement = new Movement(material);
    this.geometer = new Geometer(material);
  }

  /** Moves of a placement that keep its verdict, as places in `list`, which is filled with the legal moves. */
  private keeping(squares: number[], attackerToMove: boolean, score: Score, list: MoveList): number[] {
    this.movement.legalMoves(squares, attackerToMove, list);
    const kept: number[] = [];
    for (let n = 0; n < list.count; ++n)
      if (this.tables.verdictAfter(squares, list.piece[n], list.to[n], attackerToMove) === score)
        kept.push(n);
    return kept;
  }

  /**
   * Weighs a candidate that stands in its frame. Undefined where it is no exercise: no move, another number of
   * answers, hardly a choice, or, where the verdict is asked for, one that neither a move nor the turn can change.
   */
  weigh(
    candidate: Candidate,
    { task, answers }: Pick<ExercisesAsked, "task" | "answers">,
  ): Weighed | undefined {
    const { placement } = candidate;
    const squares = [...placement.squares];
    const { attackerToMove } = placement;
    const packed = this.tables.probe(squares, attackerToMove);
    const verdict = scoreOf(packed);
    const value = unpack(packed);
    const { list } = this;
    const kept = this.keeping(squares, attackerToMove, verdict, list);
    const legal = list.count;
    if (legal === 0) return undefined;
    const enough = answers === null ? kept.length < legal : legal - kept.length >= LEAST_FAILING;
    if (task !== "judge" && !(enough && (answers === null || kept.length === answers))) return undefined;
    if (task === "judge" && kept.length === legal && !this.turnMatters(squares, attackerToMove, verdict))
      return undefined;
    const kindOf = this.geometer.kindsOfMoves(placement);
    const checks = kept.length > 0 && kept.every((n) => kindOf(list.piece[n], list.to[n]) & CHECK);
    const winsIn = verdict === (attackerToMove ? 1 : -1) ? value.dtc : null;
    const expected = expectedFailure(legal, kept.length, checks, winsIn);
    const read = placementReader(this.geometer, placement, value);
    const setUp = this.catalogue.naming(read, this.material)[0] ?? "";
    const stratum = [setUp, fileOf(squares[DEFENDER_KING]), attackerToMove, verdict, gradeOf(expected)].join(
      "|",
    );
    return { ...candidate, key: placementNumber(placement), verdict, expected, stratum };
  }

  /** Whether the verdict would be another with the other side to move, so that it takes judgement to tell. */
  private turnMatters(squares: number[], attackerToMove: boolean, verdict: Score): boolean {
    if (this.movement.inCheck(squares, attackerToMove ? 0 : 1)) return false;
    return scoreOf(this.tables.probe(squares, !attackerToMove)) !== verdict;
  }

  /** Frames, by number, that a placement comes to when each side makes a waiting move: one that keeps the verdict and takes nothing. */
  afterWaiting({ placement, verdict }: Weighed): Set<number> {
    const { list, replies } = this;
    const { attackerToMove } = placement;
    const squares = [...placement.squares];
    const found = new Set<number>();
    const quiet = this.keeping(squares, attackerToMove, verdict, list)
      .filter((n) => list.captured[n] < 0)
      .map((n) => [list.piece[n], list.to[n]] as const);
    for (const [piece, to] of quiet) {
      const from = squares[piece];
      squares[piece] = to;
      for (const n of this.keeping(squares, !attackerToMove, verdict, replies)) {
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

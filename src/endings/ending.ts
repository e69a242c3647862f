// An ending: one stay in the target with the exact verdict of each position, the errors made, and how it ended.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";

import { type Kind, KINDS, type Material } from "../chess/material.js";
import { MoveList, Movement } from "../chess/moves.js";
import { FIRST_MAN, firstDefender, placementNumber } from "../chess/placement.js";
import type { Moves, Ply } from "../chess/units.js";
import { Geometer } from "../geometry/facts.js";
import type { Result } from "../pgn/movetext.js";
import { type PackedValue, type Tables, unpack } from "../solver/tables.js";
import type { Stay, StayPosition } from "./stays.js";

/** For the attacker: 1 won, 0 drawn, -1 lost. */
export type Score = 1 | 0 | -1;
export const scoreOf = (value: PackedValue): Score => (value > 0 ? 1 : value < 0 ? -1 : 0);

/** One position of an ending. Values are null where a king could still castle (outside the tables). */
export interface PositionRecord {
  readonly ply: Ply;
  readonly placement: number;
  readonly attackerToMove: boolean;
  readonly halfmoves: number;
  readonly fullmove: number;
  readonly verdict: Score | null;
  readonly dtm: Moves | null;
  readonly dtc: Moves | null;
  /** Legal moves, and those of them that keep the verdict. */
  readonly legal: number;
  readonly keeping: number | null;
  readonly san: string | null;
  readonly clock: number | null;
  /** Half-points the move played gave away: 0, 1 or 2; null without a move. */
  readonly error: number | null;
  /** Won or lost on paper, but the conversion outlasts the fifty-move count. */
  readonly beyondFifty: boolean;
  /** In the order of `GEOMETRY`. */
  readonly facts: readonly (number | null)[];
}

export const OUTCOMES = ["held", "lost", "open"] as const;
export type Outcome = (typeof OUTCOMES)[number];

export const ENDED_BY = [
  "mate",
  "stalemate",
  "capture",
  "agreed",
  "fifty moves",
  "repetition",
  "resignation",
  "time",
  "cut off",
] as const;
export type EndedBy = (typeof ENDED_BY)[number];

export interface EndingRecord {
  readonly attacker: Color;
  readonly firstPly: Ply;
  readonly lastPly: Ply;
  readonly positions: readonly PositionRecord[];
  /** Shorter than two half-moves after it arises (Müller & Lamprecht 2001 count from two on). */
  readonly passing: boolean;
  readonly entryVerdict: Score | null;
  readonly finalVerdict: Score | null;
  readonly outcome: Outcome;
  readonly endedBy: EndedBy;
  /** The man whose capture ended it: "attacker's bishop". */
  readonly captured: string | null;
  /** The result is not what the final verdict says; kept and marked, never corrected. */
  readonly contradicts: boolean;
  readonly attackerErrors: readonly [half: number, full: number];
  readonly defenderErrors: readonly [half: number, full: number];
}

/** What of the whole game an ending needs to know. */
export interface GameEnd {
  readonly result: Result;
  readonly termination: string | undefined;
  /** The position after the last move read, and its ply. */
  readonly position: Chess;
  readonly ply: Ply;
  /** The game could not be read to its end. */
  readonly stopped: boolean;
}

/** The half-moves a conversion in `dtc` moves of the winner takes. */
export const halfMovesFor = (dtc: Moves, winnerToMove: boolean): number => 2 * dtc - (winnerToMove ? 1 : 0);

/**
 * FIDE Laws 2023, 9.3: a draw may be claimed after fifty moves by each side without capture or pawn move. True
 * if the win would come later than that; whether a claim stands is the arbiter's to decide.
 */
export function isBeyondFifty(
  score: Score,
  dtc: Moves | null,
  attackerToMove: boolean,
  halfmoves: number,
): boolean {
  if (score === 0 || dtc === null || dtc === 0) return false;
  return halfMovesFor(dtc, attackerToMove === score > 0) > 100 - halfmoves;
}

/** Turns stays into endings, with the tables of one material. */
export class Classifier {
  private readonly movement: Movement;
  private readonly geometer: Geometer;
  private readonly list = new MoveList();

  constructor(
    readonly material: Material,
    private readonly tables: Tables,
  ) {
    this.movement = new Movement(material);
    this.geometer = new Geometer(material);
  }

  private position(at: StayPosition, ply: Ply): PositionRecord {
    const { squares, attackerToMove, halfmoves } = at;
    const { list } = this;
    this.movement.legalMoves(squares, attackerToMove, list);
    const placement = { squares, attackerToMove };
    const shared = {
      ply,
      placement: placementNumber(placement),
      attackerToMove,
      halfmoves,
      fullmove: at.fullmove,
      legal: list.count,
      san: at.move?.san ?? null,
      clock: at.clock,
      facts: this.geometer.facts(placement),
    };
    if (at.castling) {
      return {
        ...shared,
        verdict: null,
        dtm: null,
        dtc: null,
        keeping: null,
        error: null,
        beyondFifty: false,
      };
    }
    const packed = this.tables.probe(squares, attackerToMove);
    const score = scoreOf(packed);
    const { dtm, dtc } = unpack(packed);
    let keeping = 0;
    let error: number | null = null;
    for (let n = 0; n < list.count; ++n) {
      const man = list.man[n];
      const after = this.tables.verdictAfter(squares, man, list.to[n], attackerToMove);
      if (after === score) ++keeping;
      if (at.move && squares[man] === at.move.from && list.to[n] === at.move.to)
        error = Math.abs(after - score);
    }
    const beyondFifty = isBeyondFifty(score, dtc, attackerToMove, halfmoves);
    return { ...shared, verdict: score, dtm, dtc, keeping, error, beyondFifty };
  }

  /** The ending that a stay was. */
  ending(stay: Stay, end: GameEnd): EndingRecord {
    const positions = stay.positions.map((at, n) => this.position(at, stay.firstPly + n));
    const last = positions[positions.length - 1];
    const endsGame = last.ply === end.ply;
    const outcome = outcomeOf(end.result, stay.attacker);
    const captured = endsGame ? null : this.capturedBy(stay.positions[positions.length - 1]);
    const errors = (attacker: boolean) => {
      const of = (size: number) =>
        positions.filter((p) => p.attackerToMove === attacker && p.error === size).length;
      return [of(1), of(2)] as const;
    };
    return {
      attacker: stay.attacker,
      firstPly: stay.firstPly,
      lastPly: last.ply,
      positions,
      passing: positions.length - (endsGame ? 1 : 0) < 2,
      entryVerdict: positions[0].verdict,
      finalVerdict: last.verdict,
      outcome,
      endedBy: endsGame ? howEnded(positions, end) : "capture",
      captured,
      contradicts:
        endsGame && !end.stopped && last.verdict !== null && contradicts(end, stay.attacker, last.verdict),
      attackerErrors: errors(true),
      defenderErrors: errors(false),
    };
  }

  private capturedBy(at: StayPosition): string | null {
    const n = at.move ? at.squares.indexOf(at.move.to) : -1;
    if (n < FIRST_MAN) return null;
    const men: readonly Kind[] = [...this.material.attacker, ...this.material.defender];
    return `${n < firstDefender(this.material) ? "attacker" : "defender"}'s ${KINDS[men[n - FIRST_MAN]]}`;
  }
}

function outcomeOf(result: Result, attacker: Color): Outcome {
  if (result === "*") return "open";
  return result === (attacker === "white" ? "1-0" : "0-1") ? "lost" : "held";
}

function contradicts({ result }: GameEnd, attacker: Color, verdict: Score): boolean {
  if (result === "*") return false;
  const score = result === "1/2-1/2" ? 0 : (result === "1-0") === (attacker === "white") ? 1 : -1;
  return score !== verdict;
}

/** How a game that ended in the ending came to its end. */
function howEnded(positions: readonly PositionRecord[], end: GameEnd): EndedBy {
  if (end.stopped) return "cut off";
  if (end.position.isCheckmate()) return "mate";
  if (end.position.isStalemate()) return "stalemate";
  if (end.result === "*") return "cut off";
  if (/\btime\b|forfeit/i.test(end.termination ?? "")) return "time";
  if (end.result !== "1/2-1/2") return "resignation";
  const last = positions[positions.length - 1];
  // only men of the ending have moved since it began, so that repetitions of its positions lie within it
  if (positions.filter((p) => p.placement === last.placement).length >= 3) return "repetition";
  return last.halfmoves >= 100 ? "fifty moves" : "agreed";
}

// An ending: one span in the target with the exact verdict of each position, the errors made, and how it ended.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";

import { KINDS, type Material } from "../chess/material.js";
import { MoveList, Movement } from "../chess/moves.js";
import { FIRST_PIECE, placementNumber } from "../chess/placement.js";
import { parseSan, quietSanCode } from "../chess/san.js";
import type { Ply, Square } from "../chess/units.js";
import { type Score, scoreOf } from "../chess/verdict.js";
import { Geometer } from "../geometry/facts.js";
import type { KindSet } from "../geometry/move-kinds.js";
import type { Result } from "../pgn/game/movetext.js";
import { type Tables, UNTOLD, unpack } from "../tablebase/tables.js";
import {
  ATTACKER_TO_MOVE,
  BEYOND_FIFTY,
  IN_CHECK,
  OTHER_TURN,
  CLOCK,
  CLOCK_BEFORE,
  DTC,
  DTM,
  ERROR,
  FIFTY_ERROR,
  FIFTY_KEEPING,
  HOLDING,
  KEEPING,
  KIND,
  LEGAL,
  NEEDED,
  PLACEMENT,
  POSSIBLE,
  PositionColumns,
  SAN,
  SPENT,
  VERDICT,
} from "./position-columns.js";
import { CLAIMED_FROM, isBeyondFifty, movesInTime } from "./fifty-moves.js";
import type { Span, SpanPosition } from "./spans.js";

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
  readonly positions: number;
  /** Bytes of the positions' `PositionColumns`. */
  readonly columns: Uint8Array<ArrayBuffer>;
  /** Half-moves since the last capture or pawn move, and the move's number, of the first position. */
  readonly firstHalfmoves: number;
  readonly firstFullmove: number;
  /** Shorter than two half-moves after it arises (Müller & Lamprecht 2001 count from two on). */
  readonly passing: boolean;
  readonly entryVerdict: Score | null;
  readonly finalVerdict: Score | null;
  readonly outcome: Outcome;
  readonly endedBy: EndedBy;
  /** The piece whose capture ended it: "attacker's bishop". */
  readonly captured: string | null;
  /** The result is not what the final verdict says; kept and marked, never corrected. */
  readonly contradicts: boolean;
  /** Milliseconds left on each clock after that side's first move with a clock time in the ending; null without one. */
  readonly attackerClock: number | null;
  readonly defenderClock: number | null;
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

/** The longest time that is stored, since 31 bits hold no more milliseconds: 24 days; longer ones are as long as this. */
const LONGEST = 2 ** 31 - 1;
const milliseconds = (seconds: number | null): number | null =>
  seconds === null ? null : Math.min(Math.round(seconds * 1000), LONGEST);

/** Turns spans into endings, with the tables of one material. */
export class Classifier {
  private readonly movement: Movement;
  private readonly geometer: Geometer;
  private readonly list = new MoveList();
  private readonly replies = new MoveList();
  private readonly kinds = new Int32Array(128);

  constructor(
    readonly material: Material,
    private readonly tables: Tables,
  ) {
    this.movement = new Movement(material);
    this.geometer = new Geometer(material);
  }

  /** Fills in position `n`. */
  private position(at: SpanPosition, positions: PositionColumns, n: number): void {
    const { squares, attackerToMove } = at;
    const { list, kinds } = this;
    const placement = { squares, attackerToMove };
    const other = at.castling ? undefined : this.tables.verdict(squares, !attackerToMove);
    // whoever could not win if it were to move threatens no mate
    const mayThreaten = other === undefined || other === (attackerToMove ? -1 : 1);
    positions.setFacts(n, this.geometer.everything(placement, list, kinds, mayThreaten));
    let played = -1;
    let possible: KindSet = 0;
    for (let m = 0; m < list.count; ++m) {
      possible |= kinds[m];
      if (at.move && squares[list.piece[m]] === at.move.from && list.to[m] === at.move.to) played = m;
    }
    positions.set(PLACEMENT, n, placementNumber(placement));
    positions.set(ATTACKER_TO_MOVE, n, attackerToMove ? 1 : 0);
    positions.set(LEGAL, n, list.count);
    positions.set(POSSIBLE, n, possible);
    positions.set(CLOCK, n, milliseconds(at.clock));
    positions.set(CLOCK_BEFORE, n, milliseconds(at.clockBefore));
    positions.set(SPENT, n, milliseconds(at.spent));
    if (played >= 0) positions.set(KIND, n, kinds[played]);
    if (at.move?.san) positions.set(SAN, n, parseSan(at.move.san)!);
    else if (at.move)
      positions.set(SAN, n, quietSanCode(this.movement, squares, attackerToMove, list, played, this.replies));
    positions.set(BEYOND_FIFTY, n, 0);
    if (other !== undefined) this.values(at, positions, n, played, other);
  }

  /** Fills in what the tables say of a position, and of its moves; `other` is the verdict with the other side to move. */
  private values(
    { squares, attackerToMove, halfmoves }: SpanPosition,
    positions: PositionColumns,
    n: number,
    played: number,
    other: Score,
  ): void {
    const { list, kinds } = this;
    const packed = this.tables.probeMoves(squares, list, attackerToMove);
    const { verdicts } = this.tables.moveValues;
    const score = scoreOf(packed);
    const { dtm, dtc } = unpack(packed);
    const beyond = isBeyondFifty(score, dtc, attackerToMove, halfmoves);
    /** What the position is worth under the fifty-move rule. */
    const fifty = beyond ? 0 : score;
    let fiftyKeeping = 0;
    let keeping = 0;
    let holding: KindSet = 0;
    let needed: KindSet = ~0;
    // whoever is lost loses by every move, none of which lasts longer than the best
    const isLost = score !== 0 && score > 0 !== attackerToMove && !beyond;
    for (let m = 0; m < list.count; ++m) {
      const after = verdicts[m] as Score;
      const fiftyAfter = isLost ? fifty : this.fiftyAfter(squares, m, after, attackerToMove, halfmoves);
      if (fiftyAfter === fifty) ++fiftyKeeping;
      if (m === played) {
        positions.set(ERROR, n, Math.abs(after - score));
        positions.set(FIFTY_ERROR, n, Math.abs(fiftyAfter - fifty));
      }
      if (after !== score) continue;
      ++keeping;
      holding |= kinds[m];
      needed &= kinds[m];
    }
    positions.set(VERDICT, n, score);
    // whoever is in check cannot pass
    if (positions.get(IN_CHECK, n) === 0) positions.set(OTHER_TURN, n, other);
    positions.set(DTM, n, dtm);
    positions.set(DTC, n, dtc);
    positions.set(KEEPING, n, keeping);
    positions.set(HOLDING, n, holding);
    positions.set(NEEDED, n, keeping > 0 ? needed : 0);
    positions.set(BEYOND_FIFTY, n, beyond ? 1 : 0);
    positions.set(FIFTY_KEEPING, n, fiftyKeeping);
  }

  /** What is left under the fifty-move rule of the verdict `after` move `m` of the list. */
  private fiftyAfter(
    squares: Square[],
    m: number,
    after: Score,
    attackerToMove: boolean,
    halfmoves: number,
  ): Score {
    const { list, tables } = this;
    // after a capture the count begins anew
    if (after === 0 || list.captured[m] >= 0) return after;
    const inTime = movesInTime(halfmoves + 1, after > 0 !== attackerToMove);
    const conversion = tables.moveValues.conversions[m];
    if (conversion !== UNTOLD) return conversion <= inTime ? after : 0;
    return tables.verdictAfterWithin(squares, list.piece[m], list.to[m], attackerToMove, inTime);
  }

  /** The ending that a span was. */
  ending(span: Span, end: GameEnd): EndingRecord {
    const count = span.positions.length;
    const positions = PositionColumns.empty(count);
    span.positions.forEach((at, n) => this.position(at, positions, n));
    const lastPly = span.firstPly + count - 1;
    const endsGame = lastPly === end.ply;
    const outcome = outcomeOf(end.result, span.attacker);
    const captured = endsGame ? null : this.capturedBy(span.positions[count - 1]);
    const errors = (attacker: number) => {
      const turns = positions.column(ATTACKER_TO_MOVE);
      const of = (size: number) =>
        positions.column(ERROR).filter((error, n) => error === size && turns[n] === attacker).length;
      return [of(1), of(2)] as const;
    };
    const clock = (attacker: number) => {
      const turns = positions.column(ATTACKER_TO_MOVE);
      for (let n = 0; n < count; ++n) {
        const left = turns[n] === attacker ? positions.get(CLOCK, n) : null;
        if (left !== null) return left;
      }
      return null;
    };
    const finalVerdict = positions.get(VERDICT, count - 1) as Score | null;
    return {
      attacker: span.attacker,
      firstPly: span.firstPly,
      lastPly,
      positions: count,
      columns: positions.bytes,
      firstHalfmoves: span.positions[0].halfmoves,
      firstFullmove: span.positions[0].fullmove,
      passing: count - (endsGame ? 1 : 0) < 2,
      entryVerdict: positions.get(VERDICT, 0) as Score | null,
      finalVerdict,
      outcome,
      endedBy: endsGame ? howEnded(positions, span.positions[count - 1].halfmoves, end) : "capture",
      captured,
      contradicts:
        endsGame && !end.stopped && finalVerdict !== null && contradicts(end, span.attacker, finalVerdict),
      attackerClock: clock(1),
      defenderClock: clock(0),
      attackerErrors: errors(1),
      defenderErrors: errors(0),
    };
  }

  private capturedBy(at: SpanPosition): string | null {
    const n = at.move ? at.squares.indexOf(at.move.to) : -1;
    if (n < FIRST_PIECE) return null;
    const { movement } = this;
    return `${movement.sideOf(n) === 0 ? "attacker" : "defender"}'s ${KINDS[movement.kindOf(n)!]}`;
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
function howEnded(positions: PositionColumns, halfmoves: number, end: GameEnd): EndedBy {
  if (end.stopped) return "cut off";
  if (end.position.isCheckmate()) return "mate";
  if (end.position.isStalemate()) return "stalemate";
  if (end.result === "*") return "cut off";
  if (/\btime\b|forfeit/i.test(end.termination ?? "")) return "time";
  if (end.result !== "1/2-1/2") return "resignation";
  const placements = positions.column(PLACEMENT);
  const last = placements[positions.count - 1];
  // only pieces of the ending have moved since it began, so that repetitions of its positions lie within it
  if (placements.filter((placement) => placement === last).length >= 3) return "repetition";
  return halfmoves >= CLAIMED_FROM ? "fifty moves" : "agreed";
}

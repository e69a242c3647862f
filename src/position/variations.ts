// Variations from the tables: how a move is answered, up to where the result is plain.

import { type Color, opposite } from "chessops";
import type { Chess } from "chessops/chess";
import { makeBoardFen } from "chessops/fen";

import type { Square } from "../chess/units.js";
import type { Verdict } from "../chess/verdict.js";
import { halfMovesFor } from "../endings/fifty-moves.js";
import type { Value } from "../tablebase/tables.js";
import { isPlain } from "./plain.js";
import { type ProbedMove, type Valuer, valuesFor } from "./valued.js";
import { materialInWords, numberWord } from "./wording.js";

/** Equal for the same pieces on the same squares and the same side to move (no castling and no pawns here; FIDE Laws 9.2.3). */
export const positionKey = (position: Chess): string => `${makeBoardFen(position.board)} ${position.turn}`;

/** Half-moves of the variation that shows why a move fails. */
const REFUTATION = 7;
/** Half-moves of a solution: a win that takes longer is cut short, and its distance given. */
const SOLUTION = 15;
/** What an exchange that has begun may add to either. */
const EXCHANGE = 4;

/** Moves, the first of which answers the move that is shown, and what they end with in words. */
export interface Variation {
  readonly line: readonly string[];
  readonly end: string;
}

/** The variation after a move that keeps the verdict: its side goes on finding moves against the best resistance. */
export const solutionAfter = (valuer: Valuer, start: Chess, first: ProbedMove, attacker: Color): Variation =>
  variationAfter(valuer, start, first, attacker, start.turn, SOLUTION);

/** The variation after a move that gives something away: the other side shows why. */
export const refutationOf = (valuer: Valuer, start: Chess, first: ProbedMove, attacker: Color): Variation =>
  variationAfter(valuer, start, first, attacker, opposite(start.turn), REFUTATION);

/** "White wins", or "drawn", for values of the attacker's. */
export const winnerInWords = (verdict: Verdict, attacker: Color): string =>
  verdict === "drawn"
    ? "drawn"
    : `${(verdict === "won") === (attacker === "white") ? "White" : "Black"} wins`;

/** What a position comes to: "a draw", "White wins, mate in 12". */
export const outcomeInWords = ({ verdict, dtm }: Pick<Value, "verdict" | "dtm">, attacker: Color): string =>
  verdict === "drawn" ? "a draw" : `${winnerInWords(verdict, attacker)}, mate in ${dtm}`;

/** "drawn", or "White mates in 7", or "White wins on paper …" where fifty moves would pass first. */
function endInWords({ verdict, dtm, dtc }: Value, attacker: Color, toMove: Color): string {
  if (verdict === "drawn") return "drawn";
  const winner = (verdict === "won") === (attacker === "white") ? "white" : "black";
  const name = winner === "white" ? "White" : "Black";
  if (dtm === 0) return "mate";
  const mates = `${name} mates in ${dtm}`;
  return halfMovesFor(dtc!, winner === toMove) > 100 ? `${mates}, though not within fifty moves` : mates;
}

/** "Black holds with any of three moves": a draw is plain where its side has a choice. */
const choiceInWords = (side: Color, moves: number): string =>
  `${side === "white" ? "White" : "Black"} holds with ${moves === 2 ? "either of two" : `any of ${numberWord(moves)}`} moves`;

/** The variation after a move: `finder` is the side for which it comes out well, `most` its half-moves. */
function variationAfter(
  valuer: Valuer,
  start: Chess,
  first: ProbedMove,
  attacker: Color,
  finder: Color,
  most: number,
): Variation {
  const position = start.clone();
  const line: string[] = [];
  const seen = new Set<string>();
  const play = (move: ProbedMove): string | undefined => {
    // a capture settles it, except that of the tempting move itself, which needs an answer
    const captures = position.board.occupied.has(move.to) && (move !== first || start.turn === finder);
    position.play({ from: move.from, to: move.to });
    if (position.isCheckmate()) return "mate";
    if (position.isStalemate()) return "stalemate";
    if (position.board.occupied.size() === 2) return "only the kings are left, drawn";
    const key = positionKey(position);
    if (seen.has(key)) return `the position repeats, ${first.verdict}`;
    seen.add(key);
    if (!captures) return undefined;
    const { value, moves, name } = valuesFor(valuer, position, attacker);
    // in the middle of an exchange nothing is settled, nor where the men alone do not tell the result
    const keeping = moves.filter(({ verdict }) => verdict === value.verdict);
    const exchanges = keeping.some(({ to }) => to === move.to);
    const mustTake = keeping.every(({ to }) => position.board.occupied.has(to));
    if (exchanges || mustTake || !isPlain(position, value.verdict)) return undefined;
    return `${materialInWords(name)}, ${winnerInWords(value.verdict, attacker)}`;
  };
  let end = play(first);
  /** Where a piece has just been taken, which may be taken back. */
  let taken: Square | undefined;
  let unsettled = false;
  while (end === undefined && line.length < most + (unsettled ? EXCHANGE : 0)) {
    const { moves } = valuesFor(valuer, position, attacker);
    const keeping = moves.filter((move) => move.verdict === first.verdict);
    const profits = position.turn === finder;
    // of a draw, the side that was to lose needs no more than a choice of moves
    if (first.verdict === "drawn" && profits && line.length > 0 && keeping.length > 1 && !unsettled)
      return { line, end: choiceInWords(position.turn, keeping.length) };
    const next =
      keeping.find(({ to }) => to === taken) ??
      (first.verdict === "drawn" && !profits ? mostTesting(valuer, position, keeping, attacker) : keeping[0]);
    line.push(next.san);
    taken = position.board.occupied.has(next.to) ? next.to : undefined;
    if (taken !== undefined) unsettled = true;
    end = play(next);
  }
  return {
    line,
    end: end ?? endInWords(valuesFor(valuer, position, attacker).value, attacker, position.turn),
  };
}

/** Of moves that cannot win any more, the one with the fewest answers that hold; it gives nothing away if another does not. */
export function mostTesting(
  valuer: Valuer,
  position: Chess,
  moves: readonly ProbedMove[],
  attacker: Color,
): ProbedMove {
  // a piece that cannot be taken for stalemate: the capture shows it
  const stalemates = moves.find(({ from, to }) => {
    const after = position.clone();
    after.play({ from, to });
    return position.board.occupied.has(to) && after.isStalemate();
  });
  if (stalemates) return stalemates;
  const tested = moves.map((move) => {
    const after = position.clone();
    after.play({ from: move.from, to: move.to });
    if (after.board.occupied.size() === 2) return { move, hold: Infinity, fail: 0, gives: true };
    const answers = valuesFor(valuer, after, attacker).moves;
    const holding = answers.filter(({ verdict }) => verdict === move.verdict);
    const gives =
      position.board.occupied.has(move.to) || holding.some(({ to }) => after.board.occupied.has(to));
    return { move, hold: holding.length || Infinity, fail: answers.length - holding.length, gives };
  });
  const firm = tested.filter(({ gives }) => !gives);
  return (firm.length > 0 ? firm : tested).reduce((best, one) =>
    one.hold < best.hold || (one.hold === best.hold && one.fail > best.fail) ? one : best,
  ).move;
}

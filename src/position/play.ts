// A game played against the tables: each move with what it did to the result, and whether the game is over or a draw
// can be claimed (FIDE Laws of Chess 2023, articles 5.2, 9.2, 9.3 and 9.6).

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";
import { makeFen } from "chessops/fen";
import { makeUci } from "chessops/util";

import { readFen } from "../chess/fen.js";
import type { Ply } from "../chess/units.js";
import { SCORES } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import type { Value } from "../tablebase/tables.js";
import type { Prober } from "./probe.js";
import { type ProbedMove, valuesFor } from "./valued.js";
import { type Variation, positionKey, refutationOf } from "./variations.js";

/** One move that was played, with values for the attacker of the first position. */
export interface PlayedMove {
  readonly san: string;
  readonly uci: string;
  readonly by: Color;
  /** The position it was played in. */
  readonly fen: string;
  readonly before: Value;
  readonly after: Value;
  /** Half-points given away: 0, 1 or 2. */
  readonly error: 0 | 1 | 2;
  /** Where it gave something away: the moves that would have kept it, and how it is shown to be wrong. */
  readonly instead: readonly string[];
  readonly refutation: Variation | null;
}

/** How a game ended. */
export interface GameEnd {
  readonly result: "1-0" | "0-1" | "1/2-1/2";
  readonly because: string;
}

export interface PlayedGame {
  readonly start: string;
  readonly attacker: Color;
  readonly moves: readonly PlayedMove[];
  readonly fen: string;
  /** For the attacker of the first position; null where only kings are left. */
  readonly value: Value | null;
  readonly legal: readonly { readonly san: string; readonly uci: string }[];
  readonly end: GameEnd | null;
  /** A draw that the side to move could claim; the arbiter decides. */
  readonly claim: string | null;
}

function endOf(position: Chess, times: number): GameEnd | null {
  if (position.isCheckmate())
    return { result: position.turn === "white" ? "0-1" : "1-0", because: "checkmate" };
  const drawn = (because: string): GameEnd => ({ result: "1/2-1/2", because });
  if (position.isStalemate()) return drawn("stalemate");
  if (position.isInsufficientMaterial()) return drawn("neither side can mate (FIDE Laws 5.2.2)");
  if (times >= 5) return drawn("the position occurred for the fifth time (FIDE Laws 9.6.1)");
  if (position.halfmoves >= 150) return drawn("seventy-five moves without a capture (FIDE Laws 9.6.2)");
  return null;
}

function claimIn(position: Chess, times: number): string | null {
  if (times >= 3)
    return "The position has occurred for the third time: a draw can be claimed (FIDE Laws 9.2; the arbiter decides).";
  if (position.halfmoves >= 100)
    return "Fifty moves without a capture: a draw can be claimed (FIDE Laws 9.3; the arbiter decides).";
  return null;
}

/** A game being played. */
export class Playing {
  readonly position: Chess;
  readonly attacker: Color;
  readonly moves: PlayedMove[] = [];
  /** How often each position has stood. */
  readonly stood = new Map<string, number>();
  private readonly start: string;

  /** Throws `bad-fen`, `outside-tables`, `tables-missing`. */
  constructor(
    private readonly prober: Prober,
    start: string,
  ) {
    this.position = readFen(start);
    this.start = makeFen(this.position.toSetup());
    this.attacker = prober.values(this.position).placed.attacker;
    this.stand();
  }

  private stand(): number {
    const key = positionKey(this.position);
    const times = (this.stood.get(key) ?? 0) + 1;
    this.stood.set(key, times);
    return times;
  }

  private get times(): number {
    return this.stood.get(positionKey(this.position))!;
  }

  get end(): GameEnd | null {
    return endOf(this.position, this.times);
  }

  /** The value of the position and its moves, for the attacker of the first. */
  values(): { value: Value; moves: ProbedMove[] } {
    return valuesFor(this.prober, this.position, this.attacker);
  }

  /** Plays a move given in coordinates. Throws `no-such-move`. */
  play(uci: string): void {
    const { position, prober, attacker } = this;
    const fen = makeFen(position.toSetup());
    const refuse = (cause: string) => new LongsideError("no-such-move", { move: uci, fen, cause });
    const { end } = this;
    if (end) throw refuse(`the game is over: ${end.because}`);
    const { value, moves } = this.values();
    const move = moves.find((one) => makeUci(one) === uci);
    if (!move) throw refuse("it is not legal there");
    const by = position.turn;
    const error = Math.abs(SCORES[value.verdict] - SCORES[move.verdict]) as 0 | 1 | 2;
    const { san, verdict, dtm, dtc } = move;
    this.moves.push({
      san,
      uci,
      by,
      fen,
      before: { verdict: value.verdict, dtm: value.dtm, dtc: value.dtc },
      after: { verdict, dtm, dtc },
      error,
      instead: error === 0 ? [] : moves.filter((one) => one.verdict === value.verdict).map((one) => one.san),
      refutation: error === 0 ? null : refutationOf(prober, position, move, attacker),
    });
    position.play({ from: move.from, to: move.to });
    this.stand();
  }

  /** The game so far. */
  game(): PlayedGame {
    const { start, attacker, moves, position, end } = this;
    const valued = position.board.occupied.size() > 2 ? this.values() : undefined;
    return {
      start,
      attacker,
      moves,
      fen: makeFen(position.toSetup()),
      value: valued ? { verdict: valued.value.verdict, dtm: valued.value.dtm, dtc: valued.value.dtc } : null,
      legal:
        end || !valued ? [] : valued.moves.map(({ san, from, to }) => ({ san, uci: makeUci({ from, to }) })),
      end,
      claim: end ? null : claimIn(position, this.times),
    };
  }

  /** How often the position after a move has stood before. */
  stoodAfter({ from, to }: Pick<ProbedMove, "from" | "to">): number {
    const after = this.position.clone();
    after.play({ from, to });
    return this.stood.get(positionKey(after)) ?? 0;
  }

  /** Number of half-moves played. */
  get plies(): Ply {
    return this.moves.length;
  }
}

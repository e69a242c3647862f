// An opponent to play against: the table's best move, or a move as people played in the same and similar positions.

import { makeUci } from "chessops/util";

import { kindBit } from "../geometry/move-kinds.js";
import { placementOf } from "../chess/fen.js";
import { type Placement, placementAt, placementNumber } from "../chess/placement.js";
import { placementHash } from "../chess/random.js";
import { imageOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { Likeness } from "../geometry/likeness.js";
import type { Connection } from "../store/connection.js";
import { targetOf } from "../store/database.js";
import { columnStoreOf } from "../store/column-store.js";
import { kindsOf } from "../position/explain.js";
import { temptation } from "../position/temptation.js";
import type { Playing } from "../position/play.js";
import type { Prober } from "../position/probe.js";
import type { ProbedMove } from "../position/valued.js";
import { mostTesting } from "../position/variations.js";
import { expectedFailure } from "./difficulty.js";

/**
 * The two sorts of opponent: the table wins in the fewest moves, resists the longest, and sets problems while it is
 * drawn; people move as they did in the games, errors included.
 */
export const OPPONENTS = ["table", "people"] as const;
export type OpponentName = (typeof OPPONENTS)[number];

/** Positions with at most this many king's steps between them are similar; each step counts for that much less. */
const SIMILAR_STEPS = 2;
const PER_STEP = 1 / 3;
/** Moves of people that the expectation counts for: with few games it decides, with many they do. */
const EXPECTATION_MOVES = 4;

/** The table's move: of moves as good, one that leads to a position that has not stood before, while it is drawn. */
export function bestMove(playing: Playing, prober: Prober): ProbedMove {
  const { value, moves } = playing.values();
  if (value.verdict !== "drawn") return moves[0];
  const keeping = moves.filter(({ verdict }) => verdict === "drawn");
  const fewest = Math.min(...keeping.map((move) => playing.stoodAfter(move)));
  const fresh = keeping.filter((move) => playing.stoodAfter(move) === fewest);
  return mostTesting(prober, playing.position, fresh, playing.attacker);
}

/** A move by the squares it goes between, and how much it weighs. */
interface Weighted {
  readonly from: Square;
  readonly to: Square;
  readonly weight: number;
}

/** Moves that were played in a placement or a similar one, turned to stand as it does. */
export function movesOfPeople(db: Connection, placement: Placement): Weighted[] {
  const { men } = targetOf(db);
  const likeness = new Likeness(placement, true);
  const turn = placementNumber(placement) >>> (6 * men);
  const found: Weighted[] = [];
  for (const slice of columnStoreOf(db).slices()) {
    const { values: numbers } = slice.column("placement");
    for (let ending = 0; ending < slice.endings; ++ending) {
      // the last position has no move that leads to another in the ending
      for (let p = slice.starts[ending]; p < slice.starts[ending + 1] - 1; ++p) {
        const number = numbers[p];
        if (number >>> (6 * men) !== turn) continue;
        const steps = likeness.of(number, SIMILAR_STEPS);
        if (steps > SIMILAR_STEPS) continue;
        const symmetry = likeness.towards(number);
        const [before, after] = [number, numbers[p + 1]].map((one) =>
          placementAt(one, men).squares.map((square) => imageOf(symmetry, square)),
        );
        const piece = before.findIndex((square, n) => square !== after[n]);
        if (piece >= 0)
          found.push({ from: placement.squares[piece], to: after[piece], weight: PER_STEP ** steps });
      }
    }
  }
  return found;
}

/**
 * Chances of each legal move with people: the expected share of failures (see `expectedFailure`), spread over what
 * tempts, and what was played in the database where there is one of this material.
 */
export function chancesOfPeople(
  playing: Playing,
  prober: Prober,
  db: Connection | undefined,
): { readonly move: ProbedMove; readonly chance: number }[] {
  const { position } = playing;
  const valued = prober.values(position);
  const { value, moves } = playing.values();
  const kinds = kindsOf(valued, prober.geometerFor(valued.placed));
  const tempts = valued.moves.map((move) => 2 ** (temptation(position, move, kinds.get(move) ?? 0) / 2));
  const keeps = moves.map(({ verdict }) => verdict === value.verdict);
  const total = (kept: boolean) => tempts.reduce((sum, one, n) => sum + (keeps[n] === kept ? one : 0), 0);
  const keeping = keeps.filter((one) => one).length;
  const winner = value.verdict === (position.turn === playing.attacker ? "won" : "lost");
  const checks = valued.moves.every(
    (move, n) => !keeps[n] || ((kinds.get(move) ?? 0) & kindBit("check")) !== 0,
  );
  const fails =
    keeping === moves.length ? 0 : expectedFailure(moves.length, keeping, checks, winner ? value.dtc : null);
  const weights = moves.map((_, n) =>
    keeps[n]
      ? (EXPECTATION_MOVES * (1 - fails) * tempts[n]) / total(true)
      : (EXPECTATION_MOVES * fails * tempts[n]) / total(false),
  );
  if (db && targetOf(db).id === valued.placed.material.id) {
    for (const { from, to, weight } of movesOfPeople(db, valued.placed)) {
      const n = moves.findIndex((move) => move.from === from && move.to === to);
      if (n >= 0) weights[n] += weight;
    }
  }
  const all = weights.reduce((a, b) => a + b);
  return moves.map((move, n) => ({ move, chance: weights[n] / all }));
}

/** A move drawn at random by the chances: the same for the same seed, position and number of moves played. */
function atRandom(playing: Playing, prober: Prober, db: Connection | undefined, seed: number): ProbedMove {
  const chances = chancesOfPeople(playing, prober, db);
  const { squares, attackerToMove } = placementOf(playing.position);
  const hash = placementHash([...squares, playing.plies % 64], attackerToMove, seed);
  let left = hash / 2 ** 32;
  for (const { move, chance } of chances) {
    left -= chance;
    if (left < 0) return move;
  }
  return chances.at(-1)!.move;
}

/** The opponent's move, in coordinates. */
export function replyOf(
  playing: Playing,
  prober: Prober,
  opponent: OpponentName,
  { db, seed }: { readonly db: Connection | undefined; readonly seed: number },
): string {
  return makeUci(opponent === "table" ? bestMove(playing, prober) : atRandom(playing, prober, db, seed));
}

// One ending in full: the game it stands in, and every position with its verdict and what the move did to it.

import type { GameRecord } from "../../endings/game-reader.js";
import { LongsideError } from "../../errors.js";
import type { Connection } from "../../store/connection.js";
import { targetOf } from "../../store/database.js";
import { unpackMoves } from "../../store/packing.js";
import { type EndingAnswer, EndingReader, type PositionAnswer } from "./rows.js";

/** What of a game is shown beside its ending. */
export type GameText = Pick<
  GameRecord,
  | "white"
  | "black"
  | "whiteRating"
  | "blackRating"
  | "event"
  | "site"
  | "date"
  | "round"
  | "fischerRandom"
  | "start"
  | "moves"
> & { readonly result: string };

export interface FullEnding {
  readonly ending: EndingAnswer;
  readonly positions: readonly PositionAnswer[];
  readonly game: GameText;
}

/** Reads an ending by its number. Throws `no-such-ending`. */
export function readEnding(db: Connection, id: number): FullEnding {
  const ending = new EndingReader(db, targetOf(db)).read(id);
  if (!ending) throw new LongsideError("no-such-ending", { id });
  const game = db
    .prepare(
      `SELECT g.white, g.black, g.white_rating AS whiteRating, g.black_rating AS blackRating, g.event, g.site, g.date,
         g.round, g.result, g.fischer_random AS fischerRandom, g.start, g.moves
       FROM games g JOIN endings e ON e.game_id = g.id WHERE e.id = ?`,
    )
    .get(id) as Omit<GameText, "fischerRandom" | "moves"> & { fischerRandom: number; moves: Buffer };
  return {
    ending: ending.answer(),
    positions: ending.positions(),
    game: { ...game, moves: unpackMoves(game.moves), fischerRandom: game.fischerRandom === 1 },
  };
}

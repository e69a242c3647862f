// One ending in full: the game it stands in, and every position with its verdict and what the move did to it.

import { LongsideError } from "../errors.js";
import type { Connection } from "../index/connection.js";
import { targetOf } from "../index/database.js";
import {
  ENDINGS_FROM,
  ENDING_COLUMNS,
  type EndingAnswer,
  EndingReader,
  POSITIONS_FROM,
  POSITION_COLUMNS,
  type PositionAnswer,
  type Row,
  positionAnswer,
} from "./rows.js";

export interface GameText {
  readonly white: string | null;
  readonly black: string | null;
  readonly whiteRating: number | null;
  readonly blackRating: number | null;
  readonly event: string | null;
  readonly site: string | null;
  readonly date: string | null;
  readonly round: string | null;
  readonly result: string;
  readonly fischerRandom: boolean;
  readonly start: string | null;
  /** Coordinates, one space between. */
  readonly moves: string;
}

export interface FullEnding {
  readonly ending: EndingAnswer;
  readonly positions: readonly PositionAnswer[];
  readonly game: GameText;
}

/** Reads an ending by its number. Throws `no-such-ending`. */
export function readEnding(db: Connection, id: number): FullEnding {
  const target = targetOf(db);
  const row = db
    .prepare(`SELECT ${ENDING_COLUMNS}, NULL AS look FROM ${ENDINGS_FROM} WHERE e.id = ?`)
    .get(id);
  if (!row) throw new LongsideError("no-such-ending", { id });
  const positions = db
    .prepare(`SELECT ${POSITION_COLUMNS} FROM ${POSITIONS_FROM} WHERE p.ending_id = ? ORDER BY p.ply`)
    .all(id) as Row[];
  const game = db
    .prepare(
      `SELECT g.white, g.black, g.white_rating AS whiteRating, g.black_rating AS blackRating, g.event, g.site, g.date,
         g.round, g.result, g.fischer_random AS fischerRandom, g.start, g.moves
       FROM games g JOIN endings e ON e.game_id = g.id WHERE e.id = ?`,
    )
    .get(id) as Omit<GameText, "fischerRandom"> & { fischerRandom: number };
  return {
    ending: new EndingReader(db, target).answer(row as Row),
    positions: positions.map((one) => positionAnswer(one, target)),
    game: { ...game, fischerRandom: game.fischerRandom === 1 },
  };
}

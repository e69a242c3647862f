// Hurt chunks whose games are still whole: their positions are worked out again by whoever can read the moves. What only the
// file told, the clocks, is taken from what is whole of the chunk.

import { CLOCK, CLOCK_BEFORE, PositionColumns, SPENT } from "../endings/position-columns.js";
import { addLoose, dropChunk } from "./chunk-writing.js";
import { type Chunk, chunksOf, readColumn } from "./chunks.js";
import type { Connection } from "./connection.js";
import { unpackMoves } from "./packing.js";

const CLOCKS = [CLOCK, CLOCK_BEFORE, SPENT];

/** What is stored of a game's moves. */
export interface StoredMoves {
  readonly id: number;
  /** FEN, null for the usual start. */
  readonly start: string | null;
  /** In coordinates. */
  readonly moves: readonly string[];
  readonly result: string;
  readonly fischerRandom: boolean;
}

/** The positions of an ending, by the moves of its game. */
export interface WorkedOut {
  readonly positions: number;
  /** See `PositionColumns`. */
  readonly columns: Uint8Array;
}

/** The clocks of each ending of a chunk, as far as these are whole. */
function clocksOf(
  db: Connection,
  id: number,
): (ending: number, column: number) => ArrayLike<number> | undefined {
  let chunk: Chunk;
  try {
    [chunk] = chunksOf(db, id);
  } catch {
    return () => undefined;
  }
  const columns = new Map(
    CLOCKS.map((column) => {
      try {
        return [column, readColumn(db, chunk, column)] as const;
      } catch {
        return [column, undefined] as const;
      }
    }),
  );
  const starts = new Map<number, readonly [number, number]>();
  let at = 0;
  chunk.ids.forEach((ending, n) => starts.set(ending, [at, (at += chunk.counts[n])]));
  return (ending, column) => {
    const place = starts.get(ending);
    return place && columns.get(column)?.subarray(...place);
  };
}

/**
 * Puts the positions of a hurt chunk's endings, as `workOut` gives them by their first plies, in the place of the chunk, and gives
 * the games of which that could be done; the positions of all others are gone. `workOut` gives nothing for a game that is
 * not to be worked out again.
 */
export function rescue(
  db: Connection,
  chunk: number,
  workOut: (game: StoredMoves) => ReadonlyMap<number, WorkedOut> | undefined,
): Set<number> {
  const { first, last } = db
    .prepare("SELECT first_ending AS first, last_ending AS last FROM chunks WHERE id = ?")
    .get(chunk) as { first: number; last: number };
  const clocks = clocksOf(db, chunk);
  const games = db
    .prepare(
      `SELECT DISTINCT g.id, g.start, g.moves, g.result, g.fischer_random AS fischerRandom FROM games g
       JOIN endings e ON e.game_id = g.id WHERE e.id BETWEEN ? AND ?`,
    )
    .all(first, last) as (Omit<StoredMoves, "moves" | "fischerRandom"> & {
    moves: Buffer;
    fischerRandom: number;
  })[];
  const endings = db.prepare(
    "SELECT id, first_ply AS firstPly, positions FROM endings WHERE game_id = ? AND id BETWEEN ? AND ?",
  );
  const done = new Set<number>();
  db.transaction(() => {
    dropChunk(db, chunk);
    for (const game of games) {
      const moves = unpackMoves(game.moves);
      const read = workOut({
        ...game,
        moves: moves === "" ? [] : moves.split(" "),
        fischerRandom: game.fischerRandom === 1,
      });
      const stored = endings.all(game.id, first, last) as {
        id: number;
        firstPly: number;
        positions: number;
      }[];
      if (!read || stored.some(({ firstPly, positions }) => read.get(firstPly)?.positions !== positions))
        continue;
      for (const { id, firstPly, positions } of stored) {
        // what was worked out may be remembered, and is left as it is
        const columns = PositionColumns.from(new Uint8Array(read.get(firstPly)!.columns));
        for (const column of CLOCKS) {
          const values = clocks(id, column);
          for (let n = 0; values && n < positions; ++n) columns.set(column, n, values[n]);
        }
        addLoose(db, id, columns.bytes);
      }
      done.add(game.id);
    }
  }).immediate();
  return done;
}

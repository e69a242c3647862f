// Positions that are hurt, worked out again from the moves that are stored of their games: for games whose files are no longer
// there.

import { crc32 } from "node:zlib";

import type { Material } from "../chess/material.js";
import { GameReader } from "../endings/game-reader.js";
import { writeGame } from "../pgn/game/write.js";
import type { Connection } from "../store/connection.js";
import { type StoredMoves, rescue } from "../store/rescue.js";
import { Tables } from "../tablebase/tables.js";

/** The endings of a game, by their first plies, as reading its moves gives them. */
function endingsOf(reader: GameReader, { start, moves, result, fischerRandom }: StoredMoves) {
  const pgn = writeGame({
    tags: [["Result", result], ...(fischerRandom ? [["Variant", "Chess960"] as const] : [])],
    start,
    moves,
    result,
    annotations: new Map(),
  });
  const bytes = new Uint8Array(Buffer.from(pgn));
  const text = pgn.indexOf("\n\n") + 2;
  const checksum = crc32(bytes.subarray(text));
  const { found } = reader.read({
    games: [{ game: 1, part: 1, byte: 0, start: 0, text, end: bytes.length, checksum }],
    bytes,
    names: null,
  });
  return new Map(found.flatMap(({ endings }) => endings.map((one) => [one.firstPly, one] as const)));
}

/**
 * Works the positions of a hurt chunk out again where `wanted` says so of a game, puts them in the place of the chunk, and gives
 * the games of which that could be done; the positions of all others are gone. `folder` holds the tables.
 */
export function workOutAgain(
  db: Connection,
  target: Material,
  folder: string,
  chunk: number,
  wanted: (game: number) => boolean,
): Set<number> {
  const tables = new Tables(target, folder);
  try {
    const reader = new GameReader(target, tables);
    return rescue(db, chunk, (game) => (wanted(game.id) ? endingsOf(reader, game) : undefined));
  } finally {
    tables.close();
  }
}

// A collection of positions and games made into something: an outline for a lesson, or games in PGN.

import type { Connection } from "../store/connection.js";
import { LongsideError } from "../errors.js";
import { positionAsGame, writeGame } from "../pgn/game/write.js";
import type { Prober } from "../position/probe.js";
import { sentence, valueInWords } from "../position/wording.js";
import { readEnding } from "../query/engine/show.js";
import { annotatedGame } from "./annotated-game.js";
import { block } from "./lesson/outline.js";

/** An item of a collection: a position, or an ending with the ply to look at; either with a note of the teacher's. */
export interface Collected {
  /** A position's; the ending's at the ply where it is left out. */
  readonly fen?: string;
  readonly ending?: number;
  readonly ply?: number;
  readonly note?: string;
}

/** An outline that shows everything in order, the positions once more as exercises at the end. */
export function collectionOutline(title: string, items: readonly Collected[]): string {
  const parts = [`# ${title}`];
  items.forEach(({ fen, ending, ply, note }, n) => {
    parts.push(`## ${n + 1}. ${fen === undefined ? "A game" : "A position"}`);
    if (note) parts.push(sentence(note));
    parts.push(fen === undefined ? block("game", { ending, ply }) : block("board", { fen }));
  });
  const fens = items.flatMap(({ fen }) => fen ?? []);
  if (fens.length > 0) parts.push("## Exercises", block("exercises", { fens }));
  return `${parts.join("\n\n")}\n`;
}

/** A position as a game without moves, with its explanation as a comment. */
function positionGame(fen: string, note: string | undefined, title: string, round: number, prober: Prober) {
  const probe = prober.probe(fen);
  const said = [note && sentence(note), ...probe.explanation.sentences].filter((part) => part);
  const comment = said.length > 0 ? said.join(" ") : sentence(valueInWords(probe));
  return positionAsGame(probe.fen, { title, round, comment });
}

/** Everything as PGN, in order: whole games with comments on the verdict, positions with their explanation. */
export function collectionPgn(
  title: string,
  items: readonly Collected[],
  means: { readonly db: Connection | undefined; readonly prober: Prober },
): string {
  return items
    .map(({ fen, ending, note }, n) => {
      if (fen !== undefined) return writeGame(positionGame(fen, note, title, n + 1, means.prober));
      if (!means.db) throw new LongsideError("no-such-ending", { id: ending ?? "?" });
      const game = annotatedGame(readEnding(means.db, ending ?? 0));
      return writeGame(note ? { ...game, comment: sentence(note) } : game);
    })
    .join("");
}

// Calls that play: a game against the table or against what people did, judged move by move.

import { valueInWords } from "../../position/wording.js";
import { replyOf } from "../../exercises/opponent.js";
import { Playing } from "../../position/play.js";
import type { Input } from "../api.js";
import type { Workspace } from "../../app/workspace.js";

/** A game as far as it has come, with the opponent's answer if one is asked for. */
export function play(workspace: Workspace, { start, moves, opponent, seed }: Input<"play">) {
  const playing = new Playing(workspace.prober, start);
  for (const uci of moves) playing.play(uci);
  if (opponent !== undefined && !playing.end) {
    // nobody claims a draw: the game goes on until it must end
    playing.play(replyOf(playing, workspace.prober, opponent, { db: workspace.dbIfAny(), seed }));
  }
  const game = playing.game();
  return {
    ...game,
    said: game.value && valueInWords(game.value),
    moves: game.moves.map((move) => ({ ...move, said: valueInWords(move.after) })),
  };
}

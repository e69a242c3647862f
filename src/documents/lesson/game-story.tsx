// One game of a lesson: the position to look at, what was played from there, and every error.

import { fenFields } from "../../chess/fen-text.js";
import { moveNumber, numbered } from "../../chess/move-numbers.js";
import type { Ply } from "../../chess/units.js";
import { playersText } from "../../pgn/game/players.js";
import { counted, endedInWords, errorInWords, valueInWords } from "../../position/wording.js";
import type { PositionAnswer } from "../../query/engine/rows.js";
import type { FullEnding } from "../../query/engine/show.js";
import { arrowBetween, diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";

/** An ending, and the ply of the position to look at. */
export interface EndingAt {
  readonly full: FullEnding;
  readonly ply: Ply;
}

/** "84. Rb4": the move made in a position. */
export const moveText = ({ fen, move }: Pick<PositionAnswer, "fen" | "move">): string =>
  `${moveNumber(fen)} ${move}`;

/** Errors listed of one game, and half-moves shown from the position to look at. */
const MOST_ERRORS = 6;
const MOVES_SHOWN = 12;

/** The moves from a position on, errors marked. */
function playedFrom(positions: readonly PositionAnswer[], at: number): string {
  const moves = positions.slice(at, at + MOVES_SHOWN).flatMap(({ move, error }) => {
    if (move === null) return [];
    return [error !== null && error !== "none" ? `${move}?` : move];
  });
  const { turn, fullmove } = fenFields(positions[at].fen);
  return numbered(turn, fullmove, moves).join(" ") + (at + MOVES_SHOWN < positions.length ? " …" : "");
}

/** The errors of a game in sentences. */
function errorsText(positions: readonly PositionAnswer[]): string {
  const errors = positions.flatMap((position, n) => {
    const said = errorInWords(position, positions[n + 1]);
    return said ? [`${moveText(position)}? ${said}.`] : [];
  });
  if (errors.length === 0) return "Neither side gives anything away.";
  const more = errors.length - MOST_ERRORS;
  return [...errors.slice(0, MOST_ERRORS), ...(more > 0 ? [`And ${counted(more, "more error")}.`] : [])].join(
    " ",
  );
}

export const GameStory = ({ full: { ending, positions, game }, ply }: EndingAt) => {
  const at = positions.findIndex((position) => position.ply === ply);
  const look = positions[at];
  const title = playersText(game);
  const where = [game.event, game.date].filter((part) => part !== null && part !== undefined).join(", ");
  const caption = `${look.move === null ? "the last position" : moveText(look)}: ${valueInWords(look)}`;
  const diagram = {
    fen: look.fen,
    turn: true,
    arrows: arrowBetween(look.fen, positions[at + 1]?.fen),
    caption: [caption],
  };
  return (
    <div class="game">
      <h4>
        {title}
        {where && <>, {where}</>}
      </h4>
      <Figure name="board" svg={diagramsSvg([diagram], 1, title)} />
      <p>{playedFrom(positions, at)}</p>
      <p>
        The ending begins with move {fenFields(positions[0].fen).fullmove}: {valueInWords(positions[0])}.{" "}
        {errorsText(positions)} It ended with move {fenFields(positions.at(-1)!.fen).fullmove}:{" "}
        {endedInWords(ending)};{" "}
        {ending.outcome === "open" ? "the game has no result" : `the defender ${ending.outcome}`}.
      </p>
    </div>
  );
};

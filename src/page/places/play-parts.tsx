// The parts of a played game: its board, the status, moves that gave something away, the exercise, the score sheet.

import { useState } from "preact/hooks";

import { parseSquare, squareName } from "../../chess/squares.js";
import { withEnd } from "../../position/wording.js";
import { Board } from "../board.js";
import { changeStored, useStored } from "../browser-storage.js";
import { type Colour, type Square, colourName, colourOf } from "../fen.js";
import { Choice, Folded, Sign, capital, resultText } from "../parts.js";
import { ENOUGH, forSide, valueFor } from "../play-judgement.js";
import type { Settings } from "../stored.js";
import type { Game, Play } from "../use-played-game.js";

interface Props {
  readonly play: Play;
}

/** Moves that are named of those that would have kept the result. */
const NAMED = 8;

/** The exercise that is played, if one is. */
export const Exercise = ({ play: { exercise, number } }: Props) => {
  const { session } = useStored();
  if (!exercise || !session) return null;
  const { said, grade } = exercise;
  return (
    <>
      <h1>{said}</h1>
      <p class="when">
        Exercise {number + 1} of {session.exercises.length}{" "}
        {grade !== null && <span aria-label={`grade ${grade} of 5`}>{"★".repeat(grade)}</span>}
      </p>
    </>
  );
};

/** When an exercise is won; and, for who asks, how hard it is and where it is from, since that tells something of the answer. */
export const AboutExercise = ({ play: { exercise } }: Props) =>
  exercise ? (
    <>
      <p class="small">
        It is won when you have found {ENOUGH} moves that keep the result, or when the game ends with it. It
        counts once, and stays counted, whatever is taken back.
      </p>
      {exercise.about !== "" && (
        <Folded title="How hard it is, and where it is from">
          {() => <p class="small">{capital(exercise.about)}</p>}
        </Folded>
      )}
    </>
  ) : null;

export const PlayBoard = ({ play: { game, you, side, yourTurn, moves, to } }: Props) => {
  const { fen, legal } = game;
  const [picked, setPicked] = useState<Square>();
  const marks = new Map(
    legal
      .filter(({ uci }) => picked !== undefined && uci.startsWith(squareName(picked)))
      .map(({ uci }) => [parseSquare(uci.slice(2, 4))!, { ring: true }] as const),
  );
  const arrows = game.moves.slice(-1).map(({ uci }) => ({
    from: parseSquare(uci.slice(0, 2))!,
    to: parseSquare(uci.slice(2, 4))!,
  }));
  const move = (from: Square, target: Square | null) => {
    if (target === null || !yourTurn) return;
    const uci = squareName(from) + squareName(target);
    if (legal.some((one) => one.uci === uci)) to({ moves: [...moves, uci] }, "push");
  };
  return (
    <Board
      fen={fen}
      below={you}
      label={`You play ${colourName(you)}, the ${side}`}
      marks={marks}
      arrows={arrows}
      saidOf={(square) => (marks.has(square) ? "can be reached" : undefined)}
      movable={(_, letter) => yourTurn && colourOf(letter) === you}
      onMove={move}
      onPick={setPicked}
    />
  );
};

/** Whose turn it is, or how the game ended; of an exercise also the moves found. */
export const Status = ({ play: { game, yourTurn, exercise, state } }: Props) => {
  const last = game.moves.at(-1);
  return (
    <p class="verdict" role="status">
      {game.end
        ? `The game is over: ${resultText(game.end.result)}, ${game.end.because}.`
        : yourTurn
          ? `Your move${last ? `, after ${last.san}` : ""}.`
          : "The other side thinks …"}
      {exercise && ` ${Math.min(state.found, ENOUGH)} of ${ENOUGH} found.`}
    </p>
  );
};

/** A move that gave something away, how that is shown, and what would have kept the result. */
const ErrorMade = ({
  move,
  attacker,
  isOwn,
}: {
  move: Game["moves"][number];
  attacker: Colour;
  isOwn: boolean;
}) => {
  const byAttacker = move.by === attacker;
  const line = move.refutation;
  const readerAttacks = byAttacker === isOwn;
  const { verdict } = move.after;
  const forReader = readerAttacks
    ? verdict
    : ({ won: "lost", drawn: "drawn", lost: "won" } as const)[verdict];
  return (
    <p class={isOwn ? "error-message" : "note"} role={isOwn ? "alert" : "status"}>
      <b>
        {isOwn ? "The result has changed" : "Your opponent slips"}: {move.san} turns{" "}
        {forSide(move.before.verdict, byAttacker)} into {forSide(move.after.verdict, byAttacker)}.
      </b>{" "}
      Now it is <Sign verdict={forReader}>{valueFor(move.said, readerAttacks)}</Sign> for you.{" "}
      {line && (
        <>
          {line.line.length > 0
            ? `It is shown by ${withEnd(line.line.join(" "), line.end)}.`
            : `${line.end}.`}{" "}
        </>
      )}
      {move.instead.length > 0 && isOwn && (
        <>
          {move.instead.length === 1 ? "Only " : ""}
          {move.instead.slice(0, NAMED).join(", ")}
          {move.instead.length > NAMED ? " …" : ""} kept it.
        </>
      )}
    </p>
  );
};

export const ErrorsMade = ({ play: { game, you, told } }: Props) => (
  <>
    {told.errors.map((move) => (
      <ErrorMade
        key={`${move.fen} ${move.uci}`}
        move={move}
        attacker={game.attacker}
        isOwn={move.by === you}
      />
    ))}
  </>
);

/** That an exercise is won or lost. */
export const TryOutcome = ({ play: { isTried, state, counted, isHelped } }: Props) => {
  if (!isTried) return null;
  if (state.outcome === "lost")
    return (
      <p class="done lost-exercise" role="alert">
        This exercise is lost{state.isShort && ": what was won has ended in less"}. Look at why, then try it
        again.
      </p>
    );
  return (
    <p class="done" role="alert">
      {counted === "lost"
        ? "Kept now, but this try was lost before. Try it again."
        : isHelped
          ? "Won: you kept the result, with help, which does not count. Try it again without."
          : "Won: you kept the result."}
    </p>
  );
};

const changeSettings = (change: Partial<Settings>) =>
  changeStored(({ settings }) => ({ settings: { ...settings, ...change } }));

export const PlaySettings = ({ play: { opponent, to } }: Props) => {
  const { settings } = useStored();
  return (
    <>
      <Choice
        label="Against"
        value={opponent}
        options={{ table: "the table", people: "people's moves" }}
        onChange={(chosen) => {
          changeSettings({ opponent: chosen });
          to({ opponent: chosen });
        }}
      />
      <Choice
        label="Tell me when the result changes"
        value={settings.tell}
        options={{ "at-once": "at once", asked: "when I ask" }}
        onChange={(tell) => changeSettings({ tell })}
      />
    </>
  );
};

export const ScoreSheet = ({ play: { game, told } }: Props) => (
  <ol class="score moves-played" aria-label="Moves played">
    {game.moves.map(({ fen, san, error }, n) => {
      const [, turn, , , , fullmove] = fen.split(" ");
      return (
        <li key={n}>
          {(turn === "w" || n === 0) && `${fullmove}${turn === "w" ? "." : "..."} `}
          {san}
          {told.tells && ["", "?", "??"][error]}
        </li>
      );
    })}
  </ol>
);

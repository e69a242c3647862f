// Playing: one side against the table or against people's moves, told at once or when asked that the result has changed,
// and why. An exercise of the session is played the same way, and counted.

import { Link, addressOf, wholeAddress } from "../address.js";
import { useStored } from "../browser-storage.js";
import type { CallError } from "../call-error.js";
import { exerciseAddress } from "../exercise-session.js";
import { colourName } from "../fen.js";
import { Collect, Copy, ErrorMessage, useTitle } from "../parts.js";
import { beganAs, forSide } from "../play-judgement.js";
import { type Game, type Play, useGameAddress, useJudgedGame, usePlay } from "../use-played-game.js";
import {
  AboutExercise,
  ErrorsMade,
  Exercise,
  PlayBoard,
  PlaySettings,
  ScoreSheet,
  Status,
  TryOutcome,
} from "./play-parts.js";

/** What can be done with the game or the exercise. */
const Actions = ({ play }: { play: Play }) => {
  const { you, moves, exercise, number, to, game, told, help } = play;
  const { session, settings } = useStored();
  const ownLast = game.moves.findLastIndex(({ by }) => by === you);
  // people play another game then, and an exercise counts anew
  const again = () => to({ moves: [], seed: Math.floor(Math.random() * 1e6) + 1000, isHelped: false });
  return (
    <div class="buttons">
      {play.isTried && (
        <button type="button" class="main" onClick={again}>
          Try it again
        </button>
      )}
      {exercise && number + 1 < session!.exercises.length && (
        <Link class="button" to={exerciseAddress(session!.exercises, number + 1)}>
          Next exercise
        </Link>
      )}
      {exercise && (
        <Link class="button" to="/practise">
          All exercises
        </Link>
      )}
      <button type="button" disabled={ownLast < 0} onClick={() => to({ moves: moves.slice(0, ownLast) })}>
        Take back
      </button>
      {!exercise && settings.tell === "asked" && (
        <button type="button" disabled={game.moves.length === 0} onClick={told.ask}>
          Has the result changed?
        </button>
      )}
      <button type="button" disabled={!play.yourTurn} onClick={help.ask}>
        {help.isHint ? "Hint" : "Help"}
      </button>
      {!exercise && (
        <button type="button" onClick={again}>
          From the beginning
        </button>
      )}
    </div>
  );
};

/** How the game stands, what has gone wrong, and what help says. */
const Judgement = ({ play }: { play: Play }) => {
  const { you, side, game, told, help } = play;
  return (
    <>
      <p>
        You play {colourName(you)}, the {side}; at the beginning it is{" "}
        {forSide(beganAs(game), side === "attacker")} for you.
      </p>
      <Status play={play} />
      <ErrorsMade play={play} />
      <TryOutcome play={play} />
      {game.claim && <p class="note">{game.claim}</p>}
      {help.text !== undefined && (
        <p class="note" role="status">
          {help.text}
        </p>
      )}
      <Actions play={play} />
      {told.isAsked && told.errors.length === 0 && (
        <p class="note" role="status">
          No move has changed the result{game.said && `: it is ${game.said} for the attacker`}.
        </p>
      )}
    </>
  );
};

interface PlayedGameProps {
  readonly address: ReturnType<typeof useGameAddress>;
  readonly game: Game;
  readonly isCurrent: boolean;
  readonly error: CallError | undefined;
}

const PlayedGame = ({ address, game, isCurrent, error }: PlayedGameProps) => {
  const play = usePlay(address, game, isCurrent);
  const { exercise, to, help } = play;
  return (
    <>
      {exercise ? <Exercise play={play} /> : <h1>Play</h1>}
      <div class="position-view">
        <div class="board-side">
          <PlayBoard play={play} />
        </div>
        <div class="words-side">
          <ErrorMessage error={error ?? help.error} />
          {error && (
            <button type="button" onClick={() => to({ moves: game.moves.map(({ uci }) => uci) })}>
              Back to the last position
            </button>
          )}
          <Judgement play={play} />
          {!exercise && <PlaySettings play={play} />}
          <AboutExercise play={play} />
          {game.moves.length > 0 && (
            <>
              <h2>The moves</h2>
              <ScoreSheet play={play} />
            </>
          )}
          <div class="buttons">
            {/* the board tells the answer: not before the exercise is over */}
            {(!exercise || play.isTried) && (
              <Link class="button" to={addressOf("/board", { fen: game.fen })}>
                Look at this position
              </Link>
            )}
            <Collect item={{ title: "from a game I played", fen: game.fen, shown: game.fen }} />
            <Copy text={wholeAddress()}>Copy the address</Copy>
          </div>
        </div>
      </div>
    </>
  );
};

export const PlayPlace = () => {
  const address = useGameAddress();
  const { start, exercise, number, to } = address;
  const { game, isCurrent, error } = useJudgedGame(address, (moves) => to({ moves }));
  useTitle(exercise ? `Exercise ${number + 1}` : "Play");
  if (game) return <PlayedGame address={address} game={game} isCurrent={isCurrent} error={error} />;
  return (
    <>
      <h1>Play</h1>
      {start === "" ? (
        <p class="note">
          Choose a position on the <Link to="/board">board</Link> to play it.
        </p>
      ) : error ? (
        <ErrorMessage error={error} />
      ) : (
        <p role="status">Setting up …</p>
      )}
    </>
  );
};

// Playing: one side against the table or against people's moves, told at once or when asked that the result has changed,
// and why. An exercise of the session is played the same way, and counted.

import { useEffect, useMemo, useState } from "preact/hooks";

import type { Color } from "chessops";

import { parseSquare, squareName } from "../../chess/squares.js";
import type { Square } from "../../chess/units.js";
import type { Mark } from "../../documents/diagram.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { Board, samePosition } from "../board.js";
import { type AnswerTo, Fault, type Going, call } from "../calls.js";
import { type Kept, keep, useKept } from "../browser-storage.js";
import { Choice, Copy, Gather, Sign, Told, useTitle } from "../parts.js";
import { ENOUGH, count, exerciseAddress, turnOf } from "../exercise-session.js";

type Game = AnswerTo<"play">;
type Played = Game["moves"][number];

const other = (colour: Color): Color => (colour === "white" ? "black" : "white");

/** What the result would be for one side, in words. */
const forSide = (verdict: "won" | "drawn" | "lost", attacker: boolean) =>
  verdict === "drawn" ? "a draw" : (verdict === "won") === attacker ? "a win" : "a loss";

/** A move that gave something away, and how it is shown. */
const Why = ({ move, attacker, own }: { move: Played; attacker: Color; own: boolean }) => {
  const side = move.by === attacker;
  const line = move.refutation;
  return (
    <p class={own ? "fault" : "note"} role={own ? "alert" : "status"}>
      <b>
        {own ? "The result has changed" : "Your opponent slips"}: {move.san} turns{" "}
        {forSide(move.before.verdict, side)} into {forSide(move.after.verdict, side)}.
      </b>{" "}
      Now <Sign verdict={move.after.verdict}>{move.said}</Sign> (for the attacker).{" "}
      {line && (
        <>
          {line.line.length > 0 && <>It is shown by {line.line.join(" ")}: </>}
          {line.end}.{" "}
        </>
      )}
      {move.instead.length > 0 && own && (
        <>
          {move.instead.length === 1 ? "Only " : ""}
          {move.instead.slice(0, 8).join(", ")}
          {move.instead.length > 8 ? " …" : ""} kept it.
        </>
      )}
    </p>
  );
};

/** How good a result is for a colour: 1, 0 or -1. */
const worth = (result: "1-0" | "0-1" | "1/2-1/2", colour: Color): number =>
  result === "1/2-1/2" ? 0 : (result === "1-0") === (colour === "white") ? 1 : -1;

const Exercise = ({ exercises, n }: { exercises: readonly Kept[]; n: number }) => {
  const { said, about, grade } = exercises[n];
  return (
    <p>
      <b>
        Exercise {n + 1} of {exercises.length}. {said}
      </b>{" "}
      {grade !== null && <span aria-label={`grade ${grade} of 5`}>{"★".repeat(grade)}</span>}{" "}
      <span class="small">
        {about} It is won when you have found {ENOUGH} moves that keep the result, or the game is over with
        it.
      </span>
    </p>
  );
};

export const PlayPlace = ({ going }: { going: Going }) => {
  const { query } = useAddress();
  const { ways, session } = useKept();
  const exercises = session?.exercises ?? [];
  const number = query.exercise === undefined ? undefined : Number(query.exercise);
  // an address that was sent on is played without anybody's session
  const own = number === undefined ? undefined : exercises[number];
  const exercise = own && (query.fen === undefined || query.fen === own.fen) ? own : undefined;
  const start = exercise?.fen ?? query.fen ?? "";
  const you: Color = exercise ? turnOf(start) : query.you === "white" ? "white" : "black";
  const moves = useMemo(() => (query.moves ?? "").split(",").filter((move) => move !== ""), [query.moves]);
  const [game, setGame] = useState<Game>();
  const [fault, setFault] = useState<Fault>();
  const [picked, setPicked] = useState<Square>();
  const [revealed, setRevealed] = useState<number>();
  const [hint, setHint] = useState<readonly string[]>();
  useTitle(exercise ? `Exercise ${number! + 1}` : "Play");

  const { helped } = query;
  const seed = query.seed ?? "1";
  // exercises are played against the table, so that they are the same for everybody
  const opponent = exercise
    ? "table"
    : query.with === "people" || query.with === "table"
      ? query.with
      : ways.opponent;
  const to = (
    next: readonly string[],
    more: Record<string, string | number | undefined> = {},
    how: "push" | "replace" = "replace",
  ) =>
    go(
      addressOf("/play", {
        fen: start,
        you,
        exercise: exercise && number,
        moves: next.join(","),
        seed,
        // a try that has been helped stays so, whatever is taken back
        helped,
        with: exercise ? undefined : opponent,
        ...more,
      }),
      how,
    );
  /** Another game: people play another one. */
  const again = () => to([], { seed: Math.floor(Math.random() * 1e6) + 1000, helped: undefined });
  // the game as the address has it; where the opponent is to move, with an answer
  useEffect(() => {
    const leaving = new AbortController();
    setHint(undefined);
    const turn = moves.length % 2 === 0 ? turnOf(start) : other(turnOf(start));
    const answers = turn === you ? undefined : opponent;
    const input = { start, moves: [...moves], opponent: answers, seed: Number(seed) || 1 };
    call("play", input, leaving.signal).then(
      (answer) => {
        setFault(undefined);
        setGame(answer);
        if (answer.moves.length > moves.length) to(answer.moves.map(({ uci }) => uci));
      },
      (thrown: unknown) => {
        if (leaving.signal.aborted) return;
        if (!(thrown instanceof Fault)) throw thrown;
        setFault(thrown);
      },
    );
    return () => leaving.abort();
  }, [start, query.moves, opponent, going.turns]);

  const made = game?.moves.filter(({ by }) => by === you) ?? [];
  const firstError = game?.moves.findIndex(({ by, error }) => by === you && error > 0) ?? -1;
  const kept = made.filter(({ error }) => error === 0).length;
  const over = game !== undefined && game.end !== null;
  // what is shown may be of the address before
  const isNow = game !== undefined && game.moves.map(({ uci }) => uci).join(",") === (query.moves ?? "");
  const began = game?.moves[0]?.before.verdict ?? game?.value?.verdict ?? "drawn";
  const wanted = began === "drawn" ? 0 : (began === "won") === (you === game?.attacker) ? 1 : -1;
  // a win that ends in a draw by repetition was not kept, though no move gave it away
  const isShort = over && worth(game.end!.result, you) < wanted;
  const isLost = exercise !== undefined && (firstError >= 0 || isShort);
  const isDone = exercise !== undefined && !isLost && (kept >= ENOUGH || over);
  /** How this try was counted: that stands, whatever is taken back. */
  const settled = exercise?.counted === seed ? exercise.last : null;
  // one try counts once
  useEffect(() => {
    if (!exercise || !isNow || moves.length === 0 || settled !== null || !(isDone || isLost)) return;
    if (isDone && helped !== undefined) return;
    count(start, isDone ? "won" : "lost", seed);
  }, [isDone, isLost, isNow, start, query.moves, settled]);

  const shown = start !== "" && game && samePosition(game.start, start);
  if (!shown)
    return (
      <>
        <h1>Play</h1>
        {start === "" ? (
          <p class="note">
            Choose a position on the <Link to="/board">board</Link> to play it.
          </p>
        ) : fault ? (
          <Told fault={fault} />
        ) : (
          <p role="status">Setting up …</p>
        )}
      </>
    );

  const yourTurn = !over && isNow && turnOf(game.fen) === you;
  const marks = new Map<Square, Mark>(
    game.legal
      .filter(({ uci }) => picked !== undefined && uci.startsWith(squareName(picked)))
      .map(({ uci }) => [parseSquare(uci.slice(2, 4))!, { ring: true }]),
  );
  const last = game.moves.at(-1);
  const arrows = last
    ? [{ from: parseSquare(last.uci.slice(0, 2))!, to: parseSquare(last.uci.slice(2, 4))! }]
    : [];
  const tells = ways.tell === "at-once" || exercise !== undefined || revealed === game.moves.length || over;
  // what is told stays until the next move of one's own
  const since = Math.max(0, game.moves.length - (yourTurn ? 2 : 1));
  const recent = tells
    ? game.moves.slice(revealed === game.moves.length || over ? 0 : since).filter(({ error }) => error > 0)
    : [];
  const move = (from: Square, square: Square | null) => {
    if (square === null) return;
    const uci = squareName(from) + squareName(square);
    if (yourTurn && game.legal.some((one) => one.uci === uci)) to([...moves, uci], {}, "push");
  };
  const back = () => {
    // to before one's own last move
    let n = game.moves.length - 1;
    while (n >= 0 && game.moves[n].by !== you) --n;
    to(moves.slice(0, Math.max(0, n)));
  };
  const help = () => {
    if (exercise) to(moves, { helped: 1 });
    return call("position", { fen: game.fen }).then(
      (position) =>
        setHint(position.moves.filter(({ verdict }) => verdict === position.verdict).map(({ san }) => san)),
      (thrown: unknown) => thrown instanceof Fault && setFault(thrown),
    );
  };
  const side = you === game.attacker ? "attacker" : "defender";
  const goal = forSide(began, side === "attacker");
  return (
    <>
      <h1>{exercise ? "Exercise" : "Play"}</h1>
      {exercise && <Exercise exercises={exercises} n={number!} />}
      <div class="look">
        <div class="board-side">
          <Board
            fen={game.fen}
            below={you}
            label={`You play ${you === "white" ? "White" : "Black"}, the ${side}`}
            marks={marks}
            arrows={arrows}
            saidOf={(square) => (marks.has(square) ? "can be reached" : undefined)}
            movable={(_, letter) => yourTurn && (letter === letter.toUpperCase()) === (you === "white")}
            onMove={move}
            onPick={setPicked}
          />
        </div>
        <div class="words-side">
          {fault && (
            <>
              <Told fault={fault} />
              <button type="button" onClick={() => to(game.moves.map(({ uci }) => uci))}>
                Back to the last position
              </button>
            </>
          )}
          <p>
            You play {you === "white" ? "White" : "Black"}, the {side}; at the beginning it is {goal} for you.
          </p>
          <p class="verdict" role="status">
            {over ? (
              <>
                The game is over: {game.end!.result.replaceAll("1/2", "½")}, {game.end!.because}.
              </>
            ) : yourTurn ? (
              <>Your move{last ? `, after ${last.san}` : ""}.</>
            ) : (
              "The other side thinks …"
            )}
            {exercise && (
              <>
                {" "}
                {Math.min(kept, ENOUGH)} of {ENOUGH} found.
              </>
            )}
          </p>
          {recent.map((one) => (
            <Why key={`${one.fen} ${one.uci}`} move={one} attacker={game.attacker} own={one.by === you} />
          ))}
          {isLost && (
            <p class="done lost-exercise" role="alert">
              This exercise is lost{isShort && firstError < 0 ? ": what was won has ended in less" : ""}.
              PositionView at why, then try it again.
            </p>
          )}
          {isDone && (
            <p class="done" role="alert">
              {settled === "lost"
                ? "Kept now, but this try was lost before. Try it again."
                : helped === undefined
                  ? "Won: you kept the result."
                  : "Won: you kept the result, with help, which does not count. Try it again without."}
            </p>
          )}
          {game.claim && <p class="note">{game.claim}</p>}
          {hint && (
            <p class="note" role="status">
              {hint.length === game.legal.length
                ? "Every move keeps the result."
                : `These keep the result: ${hint.join(", ")}.`}
            </p>
          )}
          <div class="buttons">
            {(isLost || isDone) && (
              <button type="button" class="main" onClick={again}>
                Try it again
              </button>
            )}
            {exercise && number! + 1 < exercises.length && (
              <Link class="button" to={exerciseAddress(exercises, number! + 1)}>
                Next exercise
              </Link>
            )}
            {exercise && (
              <Link class="button" to="/practise">
                All exercises
              </Link>
            )}
            <button type="button" disabled={made.length === 0} onClick={back}>
              Take back
            </button>
            {!exercise && ways.tell === "asked" && (
              <button
                type="button"
                disabled={game.moves.length === 0}
                onClick={() => setRevealed(game.moves.length)}
              >
                Has the result changed?
              </button>
            )}
            <button type="button" disabled={!yourTurn} onClick={() => void help()}>
              Help
            </button>
            {!exercise && (
              <button type="button" onClick={again}>
                From the beginning
              </button>
            )}
          </div>
          {revealed === game.moves.length && recent.length === 0 && (
            <p class="note" role="status">
              Nobody has given anything away{game.said ? <>: it is {game.said} for the attacker</> : ""}.
            </p>
          )}
          {!exercise && (
            <Choice
              label="Against"
              value={opponent}
              options={[
                ["table", "the table"],
                ["people", "people's moves"],
              ]}
              onChange={(chosen) => {
                keep((before) => ({ ways: { ...before.ways, opponent: chosen } }));
                to(moves, { with: chosen });
              }}
            />
          )}
          {!exercise && (
            <Choice
              label="Changes of the result are told"
              value={ways.tell}
              options={[
                ["at-once", "at once"],
                ["asked", "when I ask"],
              ]}
              onChange={(tell) => keep((before) => ({ ways: { ...before.ways, tell } }))}
            />
          )}
          <h2>The moves</h2>
          <ol class="score" aria-label="Moves played">
            {game.moves.map((one, n) => {
              const [, turn, , , , fullmove] = one.fen.split(" ");
              return (
                <li key={n}>
                  {(turn === "w" || n === 0) && `${fullmove}${turn === "w" ? "." : "..."} `}
                  {one.san}
                  {tells && one.error > 0 ? (one.error === 2 ? "??" : "?") : ""}
                </li>
              );
            })}
          </ol>
          <div class="buttons">
            {/* the board tells the answer: not before the exercise is over */}
            {(!exercise || isLost || isDone) && (
              <Link class="button" to={addressOf("/board", { fen: game.fen })}>
                PositionView at this position
              </Link>
            )}
            <Gather item={{ title: "from a game I played", fen: game.fen, shown: game.fen }} />
            <Copy text={location.href}>Copy the address</Copy>
          </div>
        </div>
      </div>
    </>
  );
};

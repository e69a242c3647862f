// The free board: any position, set up by dragging pieces about, moved on by legal moves, looked at from all sides.

import { useEffect, useState } from "preact/hooks";

import { parseSquare, squareName } from "../../chess/squares.js";
import { otherTurn } from "../../chess/fen-text.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { Board } from "../board.js";
import { useStored } from "../browser-storage.js";
import { CallError } from "../call-error.js";
import { useAnswer } from "../call-hooks.js";
import { type Square, changed, colourName, pieceName, tidyFen, turnOf } from "../fen.js";
import { Choice, ErrorMessage, Sign, TextField, TurnBoard, useTitle } from "../parts.js";
import { PositionView } from "../position-view.js";
import { screenPiece } from "../screen-board.js";

/** A position to begin with: the second-rank defence, as in the catalogue. */
const FIRST = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";

/** How long a hand rests before faults of a position that is set up are told, in milliseconds. */
const REST = 900;

/** What a click on a square does: moves what stands there, empties it, or puts a piece there. */
type InHand = "move" | "empty" | (typeof RACK)[number];
const RACK = ["K", "R", "B", "N", "Q", "k", "r", "b", "n", "q"] as const;

/** The pieces that can be put on the board: dragged there, or taken in hand and put down by a click or a key. */
const Rack = ({
  inHand,
  onChoose,
  onDrop,
}: {
  inHand: InHand;
  onChoose: (what: InHand) => void;
  onDrop: (letter: string, square: Square) => void;
}) => {
  const drop = (letter: string, { clientX, clientY }: PointerEvent) => {
    const name = document.elementFromPoint(clientX, clientY)?.getAttribute("data-square");
    if (name) onDrop(letter, parseSquare(name)!);
  };
  return (
    <div class="rack" role="group" aria-label="In hand">
      {RACK.map((letter) => (
        <button
          key={letter}
          type="button"
          aria-pressed={inHand === letter}
          aria-label={pieceName(letter)}
          onClick={() => onChoose(inHand === letter ? "move" : letter)}
          onPointerDown={(event) => event.currentTarget.setPointerCapture(event.pointerId)}
          onPointerUp={(event) => drop(letter, event)}
        >
          <svg
            viewBox="0 0 100 100"
            aria-hidden="true"
            dangerouslySetInnerHTML={{ __html: screenPiece(letter) }}
          />
        </button>
      ))}
      <button type="button" class="quiet" aria-pressed={inHand === "move"} onClick={() => onChoose("move")}>
        Move pieces
      </button>
      <button type="button" class="quiet" aria-pressed={inHand === "empty"} onClick={() => onChoose("empty")}>
        Take off
      </button>
    </div>
  );
};

/** A board on which any piece may stand anywhere. */
const SetUpBoard = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const { below } = useStored().settings;
  const [inHand, setInHand] = useState<InHand>("move");
  const [said, say] = useState("");
  const put = (square: Square, letter: string) => {
    const name = squareName(square);
    say(letter === "empty" ? `${name} is empty` : `${pieceName(letter)} on ${name}`);
    onFen(
      changed(fen, (pieces) => {
        if (letter === "empty" || pieces.get(square) === letter) pieces.delete(square);
        else pieces.set(square, letter);
      }),
    );
  };
  const drag = (from: Square, to: Square | null) =>
    onFen(
      changed(fen, (pieces) => {
        const letter = pieces.get(from)!;
        pieces.delete(from);
        if (to !== null) pieces.set(to, letter);
      }),
    );
  return (
    <div class="board-side">
      <Board
        fen={fen}
        below={below}
        label="Setting up"
        movable={() => inHand === "move"}
        onMove={drag}
        onSquare={(square) => inHand !== "move" && put(square, inHand)}
      />
      <Rack inHand={inHand} onChoose={setInHand} onDrop={(letter, square) => put(square, letter)} />
      <div class="actions">
        <button type="button" class="quiet" onClick={() => onFen(otherTurn(fen))}>
          The other side to move
        </button>
        <button type="button" class="quiet" onClick={() => onFen(changed(fen, (pieces) => pieces.clear()))}>
          Empty the board
        </button>
        <TurnBoard />
      </div>
      <p role="status" class="small">
        {said}
      </p>
    </div>
  );
};

/** A set-up of the catalogue: its picture in words, what is known of it, and what to do with it. */
const SetUp = ({ name }: { name: string }) => {
  const { answer, isCurrent } = useAnswer("example", { setUp: name });
  if (!answer || !isCurrent) return null;
  const { fen, defender } = answer;
  return (
    <div class="note" role="status">
      <p>
        <b>{answer.name}.</b> {answer.picture}
      </p>
      <p>
        {answer.known} <span class="small">({answer.source})</span>
      </p>
      <div class="buttons">
        {fen !== null && (
          <>
            <Link class="button" to={addressOf("/board", { fen })}>
              Put it on the board
            </Link>
            <Link class="button" to={addressOf("/play", { fen, you: defender ?? undefined })}>
              Play the defender
            </Link>
          </>
        )}
        <Link class="button" to={addressOf("/ask", { q: name })}>
          Games with it
        </Link>
        <Link class="button" to={addressOf("/practise", { q: name })}>
          Practise it
        </Link>
      </div>
    </div>
  );
};

/** Every set-up of the catalogue, to begin from. */
const SetUps = () => {
  const { answer } = useAnswer("words", {});
  const [chosen, setChosen] = useState<string>();
  return (
    <>
      <ul class="examples">
        {answer?.setUps.map(({ name }) => (
          <li key={name}>
            <button
              type="button"
              class="plain"
              aria-expanded={name === chosen}
              onClick={() => setChosen(name)}
            >
              {name}
            </button>
          </li>
        ))}
      </ul>
      {chosen !== undefined && <SetUp name={chosen} />}
    </>
  );
};

/** The position as text, to be typed or pasted. */
const FenForm = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const [typed, setTyped] = useState<string>();
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        if (typed !== undefined) onFen(typed.trim());
        setTyped(undefined);
      }}
    >
      <TextField label="Position as FEN" value={typed ?? fen} spellcheck={false} onInput={setTyped} />
      <button>Show</button>
    </form>
  );
};

/** Whether the input has stayed the same for a while. */
function useRested(input: string): boolean {
  const [rested, setRested] = useState("");
  useEffect(() => {
    const timer = setTimeout(() => setRested(input), REST);
    return () => clearTimeout(timer);
  }, [input]);
  return rested === input;
}

/** What is wrong with a position that is set up by hand: nobody has typed a FEN, and none is spoken of. */
const faultOf = (error: CallError | undefined) =>
  error?.code === "bad-fen"
    ? new CallError(
        error.code,
        String(error.values.cause),
        "the verdict is here as soon as that is put right",
      )
    : error;

/** Setting up: the verdict lives while one does; what is wrong with the position is told when one stops. */
const SettingUp = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const { answer, error, isCurrent } = useAnswer("position", { fen });
  const rested = useRested(fen);
  const position = isCurrent && !error ? answer : undefined;
  return (
    <div class="position-view">
      <SetUpBoard fen={fen} onFen={onFen} />
      <div class="words-side">
        <div class="of-position">
          {position && (
            <>
              <p class="played" role="status">
                <Sign verdict={position.verdict}>{position.value}</Sign>
              </p>
              <p class="verdict">
                The {position.sideToMove} ({colourName(turnOf(fen))}) to move
                {position.setUps.length > 0 && `: ${position.setUpsSaid.join(", ")}`}
              </p>
              <p>
                <Link class="main" to={addressOf("/board", { fen })}>
                  Look at it
                </Link>
              </p>
            </>
          )}
          {rested && isCurrent && <ErrorMessage error={faultOf(error)} />}
        </div>
      </div>
    </div>
  );
};

export const BoardPlace = () => {
  const { query } = useAddress();
  const fen = tidyFen(query.fen ?? FIRST);
  const isSettingUp = query.way === "set-up";
  useTitle("Board");
  const to = (next: string) => go(addressOf("/board", { fen: next, way: query.way }));
  return (
    <>
      <h1 class="hidden">Board</h1>
      <div class="board-for">
        <Choice
          label="Board for"
          value={isSettingUp ? "set-up" : "look"}
          options={{ look: "looking", "set-up": "setting up" }}
          onChange={(way) =>
            go(addressOf("/board", { fen, way: way === "set-up" ? way : undefined }), "replace")
          }
        />
      </div>
      {isSettingUp ? (
        <SettingUp fen={fen} onFen={to} />
      ) : (
        <PositionView fen={fen} title="Position" onMove={to} onFen={to} />
      )}
      <FenForm fen={fen} onFen={to} />
      <h2>Set-ups</h2>
      <SetUps />
    </>
  );
};

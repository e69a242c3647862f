// The free board: any position, set up by dragging pieces about, moved on by legal moves, looked at from all sides.

import { useState } from "preact/hooks";

import { squareName } from "../../chess/squares.js";
import { otherTurn } from "../../chess/fen-text.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { Board } from "../board.js";
import { useStored } from "../browser-storage.js";
import { useAnswer } from "../call-hooks.js";
import { type Square, changed, pieceName, tidyFen } from "../fen.js";
import { Choice, ErrorMessage, TextField, TurnBoard, useTitle } from "../parts.js";
import { PositionView } from "../position-view.js";

/** A position to begin with: the second-rank defence, as in the catalogue. */
const FIRST = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";

/** What a click on a square puts there; "move" puts nothing: pieces are dragged. */
const IN_HAND: Readonly<Record<string, string>> = {
  move: "nothing: drag pieces about, or off the board to remove them",
  empty: "no piece: empties a square",
  ...Object.fromEntries([..."KQRBNkqrbn"].map((letter) => [letter, pieceName(letter)])),
};

/** A board on which any piece may stand anywhere. */
const SetUpBoard = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const { below } = useStored().settings;
  const [inHand, setInHand] = useState("move");
  const [said, say] = useState("");
  const put = (square: Square) => {
    const name = squareName(square);
    say(inHand === "empty" ? `${name} is empty` : `${pieceName(inHand)} on ${name}`);
    onFen(
      changed(fen, (pieces) => {
        if (inHand === "empty" || pieces.get(square) === inHand) pieces.delete(square);
        else pieces.set(square, inHand);
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
        onSquare={(square) => inHand !== "move" && put(square)}
      />
      <Choice label="In hand" value={inHand} options={IN_HAND} onChange={setInHand} />
      <div class="buttons">
        <button type="button" onClick={() => onFen(otherTurn(fen))}>
          The other side to move
        </button>
        <button type="button" onClick={() => onFen(changed(fen, (pieces) => pieces.clear()))}>
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

/** Setting up, with what is wrong with the position, or the way to look at it. */
const SettingUp = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const { error } = useAnswer("position", { fen });
  return (
    <div class="position-view">
      <SetUpBoard fen={fen} onFen={onFen} />
      <div class="words-side">
        {error ? (
          <ErrorMessage error={error} />
        ) : (
          <p>
            <Link class="button main" to={addressOf("/board", { fen })}>
              Look at it
            </Link>
          </p>
        )}
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
      <h1>Board</h1>
      <Choice
        label="Board for"
        value={isSettingUp ? "set-up" : "look"}
        options={{ look: "looking", "set-up": "setting up" }}
        onChange={(way) =>
          go(addressOf("/board", { fen, way: way === "set-up" ? way : undefined }), "replace")
        }
      />
      <FenForm fen={fen} onFen={to} />
      {isSettingUp ? (
        <SettingUp fen={fen} onFen={to} />
      ) : (
        <PositionView fen={fen} title="Position" onMove={to} onFen={to} />
      )}
      <h2>Set-ups</h2>
      <SetUps />
    </>
  );
};

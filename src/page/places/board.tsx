// The free board: any position, set up by dragging pieces about, moved on by legal moves, looked at from all sides.

import { useState } from "preact/hooks";

import { squareName } from "../../chess/squares.js";
import type { Square } from "../../chess/units.js";
import { otherTurn } from "../../chess/fen.js";
import { Link, addressOf, go, useAddress } from "../address.js";
import { Board, changed, pieceName, tidyFen } from "../board.js";
import { type Going, useAnswer } from "../calls.js";
import { useKept } from "../browser-storage.js";
import { PositionView } from "../position-view.js";
import { Choice, Told, TurnBoard, useTitle } from "../parts.js";

/** A position to begin with: the second-rank defence, as in the catalogue. */
const FIRST = "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1";
const PIECES = ["K", "Q", "R", "B", "N", "k", "q", "r", "b", "n"];

/** Pieces at hand to be put on the board. */
const SetUp = ({ fen, onFen }: { fen: string; onFen: (fen: string) => void }) => {
  const { ways } = useKept();
  const [piece, setPiece] = useState<string>();
  const [said, say] = useState("");
  const put = (square: Square, letter: string | undefined) => {
    say(letter ? `${pieceName(letter)} on ${squareName(square)}` : `${squareName(square)} is empty`);
    onFen(
      changed(fen, (pieces) => {
        if (letter === undefined || pieces.get(square) === letter) pieces.delete(square);
        else pieces.set(square, letter);
      }),
    );
  };
  return (
    <div class="board-side">
      <Board
        fen={fen}
        below={ways.below}
        label="Setting up"
        movable={() => piece === undefined}
        onMove={(from, to) =>
          onFen(
            changed(fen, (pieces) => {
              const letter = pieces.get(from)!;
              pieces.delete(from);
              if (to !== null) pieces.set(to, letter);
            }),
          )
        }
        onSquare={(square) => piece !== undefined && put(square, piece === "" ? undefined : piece)}
      />
      <Choice
        label="In hand"
        value={piece ?? "none"}
        options={[
          ["none", "nothing: drag pieces about, off the board to take them away"],
          ["", "nobody: empties a square"],
          ...PIECES.map((one) => [one, pieceName(one)] as const),
        ]}
        onChange={(value) => setPiece(value === "none" ? undefined : value)}
      />
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

/** Every set-up of the catalogue, to begin from. */
const SetUps = () => {
  const { answer } = useAnswer("words", {});
  const [name, setName] = useState("");
  const { answer: example } = useAnswer("example", name === "" ? undefined : { setUp: name });
  return (
    <>
      <ul class="examples">
        {answer?.setUps.map((one) => (
          <li key={one.name}>
            <button
              type="button"
              class="plain"
              aria-expanded={one.name === name}
              onClick={() => setName(one.name)}
            >
              {one.name}
            </button>
          </li>
        ))}
      </ul>
      {example && example.name === name && (
        <div class="note" role="status">
          <p>
            <b>{example.name}.</b> {example.picture}
          </p>
          <p>
            {example.known} <span class="small">({example.source})</span>
          </p>
          <div class="buttons">
            {example.fen !== null && (
              <Link class="button" to={addressOf("/board", { fen: example.fen })}>
                Put it on the board
              </Link>
            )}
            {example.fen !== null && (
              <Link
                class="button"
                to={addressOf("/play", { fen: example.fen, you: example.defender ?? undefined })}
              >
                Play the defender
              </Link>
            )}
            <Link class="button" to={addressOf("/ask", { q: name })}>
              Games with it
            </Link>
            <Link class="button" to={addressOf("/practise", { q: name })}>
              Practise it
            </Link>
          </div>
        </div>
      )}
    </>
  );
};

export const BoardPlace = ({ going }: { going: Going }) => {
  const { query } = useAddress();
  const fen = tidyFen(query.fen ?? FIRST);
  const free = query.way === "set-up";
  const [typed, setTyped] = useState<string>();
  const { fault } = useAnswer("position", free ? { fen } : undefined, going.turns);
  useTitle("Board");
  const to = (next: string) => go(addressOf("/board", { fen: next, way: query.way }));
  return (
    <>
      <h1>Board</h1>
      <Choice
        label="Board for"
        value={free ? "set-up" : "look"}
        options={[
          ["look", "looking"],
          ["set-up", "setting up"],
        ]}
        onChange={(way) =>
          go(addressOf("/board", { fen, way: way === "set-up" ? way : undefined }), "replace")
        }
      />
      <form
        class="form"
        onSubmit={(event) => {
          event.preventDefault();
          if (typed !== undefined) to(typed.trim());
          setTyped(undefined);
        }}
      >
        <label class="grow">
          Position as FEN
          <input
            type="text"
            value={typed ?? fen}
            spellcheck={false}
            onInput={(event) => setTyped(event.currentTarget.value)}
          />
        </label>
        <button>Show</button>
      </form>
      {free ? (
        <div class="look">
          <SetUp fen={fen} onFen={to} />
          <div class="words-side">
            {fault ? (
              <Told fault={fault} />
            ) : (
              <p>
                <Link class="button main" to={addressOf("/board", { fen })}>
                  PositionView at it
                </Link>
              </p>
            )}
          </div>
        </div>
      ) : (
        <PositionView
          fen={fen}
          title="Position"
          turns={going.turns}
          onMove={(_, next) => to(next)}
          onFen={to}
        />
      )}
      <h2>Set-ups</h2>
      <SetUps />
    </>
  );
};

// The view of one position: the board with what each move does or the map for a piece, and beside it the value in words,
// what can be done with the position, and its details.

import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";

import { parseSquare, squareName } from "../chess/squares.js";
import { type Arrow, type Mark } from "../documents/diagram.js";
import { otherTurn } from "../chess/fen-text.js";
import { Link, addressOf, go } from "./address.js";
import { Board } from "./board.js";
import { useStored } from "./browser-storage.js";
import { useAnswer, useTask } from "./call-hooks.js";
import { type AnswerTo, call } from "./calls.js";
import { type Square, colourName, colourOf, otherColour, turnOf } from "./fen.js";
import { Choice, Collect, Copy, ErrorMessage, Sign, TurnBoard, save } from "./parts.js";
import { PositionDetails } from "./position-details.js";

type Position = AnswerTo<"position">;

export interface PositionViewProps {
  readonly fen: string;
  readonly title: string;
  readonly arrows?: readonly Arrow[];
  /** Where the position comes from, for the collection. */
  readonly ending?: number;
  readonly ply?: number;
  /** Called with the FEN after a legal move that has been made on the board. */
  readonly onMove: (fen: string) => void;
  /** Called with any position that was set up; where it is left out nothing can be. */
  readonly onFen?: (fen: string) => void;
  readonly onSweep?: (way: 1 | -1) => void;
  /** What stands below the board. */
  readonly below?: ComponentChildren;
  readonly children?: ComponentChildren;
}

/** What is told of a square: by its mark, and in words. */
interface ToldSquare {
  readonly mark: Mark;
  readonly said: string;
}

/** Squares that a piece can move to: with what it does to the verdict, or only that it can. */
const reached = (position: Position, picked: Square, withVerdicts: boolean): [Square, ToldSquare][] =>
  position.moves
    .filter(({ uci }) => uci.startsWith(squareName(picked)))
    .map(({ uci, verdict, value }) => [
      parseSquare(uci.slice(2, 4))!,
      withVerdicts ? { mark: { verdict }, said: value } : { mark: { ring: true }, said: "can be reached" },
    ]);

/** What pointing at a piece shows, its moves or its map, and what is told of the squares by that. */
function usePointing(fen: string, position: Position | undefined) {
  const [shows, setShows] = useState<"moves" | "map">("moves");
  const [withVerdicts, setWithVerdicts] = useState(true);
  /** The square of the piece whose map is shown. */
  const [mapped, setMapped] = useState<string>();
  const [picked, setPicked] = useState<Square>();
  const asked = shows === "map" && mapped !== undefined ? { fen, piece: mapped } : undefined;
  const { answer, error } = useAnswer("map", asked);
  const map = { answer: asked && answer, error };
  useEffect(() => setMapped(undefined), [fen]);
  const squares = useMemo(() => {
    if (map.answer)
      return new Map(
        map.answer.squares.map(({ square, verdict, value }) => [
          parseSquare(square)!,
          { mark: { verdict }, said: value },
        ]),
      );
    return new Map(position && picked !== undefined ? reached(position, picked, withVerdicts) : []);
  }, [map.answer, position, picked, withVerdicts]);
  const marks = useMemo(() => new Map([...squares].map(([square, { mark }]) => [square, mark])), [squares]);
  const choices = { shows, setShows, withVerdicts, setWithVerdicts, map };
  return { ...choices, mapped, setMapped, setPicked, squares, marks };
}

/** The choice of what pointing shows, and what the map says. */
const PointingChoice = ({
  shows,
  setShows,
  withVerdicts,
  setWithVerdicts,
  map: { answer, error },
}: Pick<
  ReturnType<typeof usePointing>,
  "shows" | "setShows" | "withVerdicts" | "setWithVerdicts" | "map"
>) => (
  <>
    <div class="buttons">
      <TurnBoard />
      <Choice
        label="Point at a piece for"
        value={shows}
        options={{ moves: "its moves", map: "its map" }}
        onChange={setShows}
      />
      {shows === "moves" && (
        <label>
          <input
            type="checkbox"
            checked={withVerdicts}
            onChange={(event) => setWithVerdicts(event.currentTarget.checked)}
          />{" "}
          with verdicts
        </label>
      )}
    </div>
    {shows === "map" && (
      <p role="status">
        {answer
          ? `${answer.title}: won on ${answer.counts.won}, drawn on ${answer.counts.drawn}, lost on ${answer.counts.lost} squares.`
          : "Point at a piece: the signs tell what the position would be with it on each other square: + won for the attacker, = drawn, − lost; no sign where it cannot stand."}
        <ErrorMessage error={error} />
      </p>
    )}
  </>
);

/** Builds tables that are missing. */
const MissingTables = ({ material }: { material: string }) => {
  const task = useTask();
  return (
    <p>
      <button type="button" disabled={task.busy} onClick={() => task.run(() => call("tables", { material }))}>
        Build the tables of {material}
      </button>{" "}
      It takes from a second to some ten seconds, once.
      <ErrorMessage error={task.error} />
    </p>
  );
};

const Fifty = ({ position }: { position: Position }) =>
  position.beyondFifty ? (
    <p class="note">
      Won on paper, but it takes {position.conversionHalfMoves} half-moves to a mate or a capture, and{" "}
      {position.halfmoves} have been made: a draw could be claimed first with move {position.claimMove} (FIDE
      Laws 9.3; the arbiter decides).
    </p>
  ) : null;

/** What can be done with a position. */
const Actions = ({ position, view }: { position: Position; view: PositionViewProps }) => {
  const { fen, title, ending, ply, onFen } = view;
  const { attacker } = position;
  const name = `${position.setUps[0] ?? title}, ${colourName(turnOf(fen))} to move`;
  const onBoard = (to: string) => go(addressOf("/board", { fen: to }));
  const like = `like ${fen.split(" ").slice(0, 2).join(" ")}`;
  return (
    <div class="buttons">
      <Collect item={{ title: name, fen: position.fen, ending, ply, shown: position.fen }} />
      {(position.legal > 0 ? (["defender", "attacker"] as const) : []).map((side) => (
        <Link
          key={side}
          class="button"
          to={addressOf("/play", { fen, you: side === "attacker" ? attacker : otherColour(attacker) })}
        >
          Play the {side}
        </Link>
      ))}
      {!onFen && (
        <Link class="button" to={addressOf("/board", { fen })}>
          What if …
        </Link>
      )}
      <button type="button" onClick={() => (onFen ?? onBoard)(otherTurn(fen))}>
        The other side to move
      </button>
      <Link class="button" to={addressOf("/ask", { q: like, each: "position" })}>
        Similar positions in games
      </Link>
    </div>
  );
};

/** The position to take along, as text or as a picture. */
const Export = ({ fen }: { fen: string }) => {
  const { below } = useStored().settings;
  const task = useTask();
  const draw = (as: "svg" | "png") =>
    task.run(async () => save((await call("drawing", { fen, below, as })).made));
  return (
    <>
      <div class="buttons">
        <Copy text={fen}>Copy FEN</Copy>
        <button type="button" onClick={() => draw("svg")}>
          Diagram as SVG
        </button>
        <button type="button" onClick={() => draw("png")}>
          as PNG
        </button>
      </div>
      <ErrorMessage error={task.error} />
    </>
  );
};

export const PositionView = (props: PositionViewProps) => {
  const { fen, title, onMove } = props;
  const { below } = useStored().settings;
  const { answer, error, isCurrent } = useAnswer("position", { fen });
  const position = isCurrent ? answer : undefined;
  const pointing = usePointing(fen, position);
  const { shows, mapped, squares } = pointing;
  const turn = turnOf(fen);
  const onBoard = (from: Square, to: Square | null) => {
    const move = to !== null && position?.moves.find(({ uci }) => uci === squareName(from) + squareName(to));
    if (move) onMove(move.fen);
  };
  return (
    <div class="position-view">
      <div class="board-side">
        <Board
          fen={fen}
          below={below}
          label={title}
          marks={pointing.marks}
          framed={mapped === undefined ? undefined : parseSquare(mapped)}
          arrows={shows === "moves" ? props.arrows : undefined}
          saidOf={(square) => squares.get(square)?.said}
          movable={(_, letter) => shows === "moves" && colourOf(letter) === turn}
          onMove={onBoard}
          onPick={pointing.setPicked}
          onSweep={props.onSweep}
          onSquare={(square) => shows === "map" && pointing.setMapped(squareName(square))}
        />
        {props.below}
        <PointingChoice {...pointing} />
      </div>
      <div class="words-side">
        {props.children}
        {error?.code === "tables-missing" ? (
          <MissingTables material={String(error.values.material)} />
        ) : (
          <ErrorMessage error={error} />
        )}
        {position && (
          <>
            <p class="verdict" role="status">
              <Sign verdict={position.verdict}>{position.value}</Sign>, the {position.sideToMove} (
              {colourName(turn)}) to move
              {position.setUps.length > 0 && `: ${position.setUps.join(", ")}`}
            </p>
            {position.explanation.sentences.slice(1).map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
            <Fifty position={position} />
            <Actions position={position} view={props} />
            <PositionDetails position={position} fen={fen} onMove={onMove} />
          </>
        )}
        <Export fen={fen} />
      </div>
    </div>
  );
};

// The view of one position: the board with what each move does or the map for a piece, and beside it the value in words,
// what can be done with the position, and its details.

import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";

import { parseSquare, squareName } from "../chess/squares.js";
import { otherTurn } from "../chess/fen-text.js";
import { Link, addressOf, go } from "./address.js";
import { Board } from "./board.js";
import { useStored } from "./browser-storage.js";
import { useAnswer, useTask } from "./call-hooks.js";
import { type AnswerTo, type Verdict, call } from "./calls.js";
import { type Square, colourName, colourOf, otherColour, turnOf } from "./fen.js";
import { Choice, Collect, Copy, ErrorMessage, Sign, TurnBoard, capital, save } from "./parts.js";
import { signFor, valueFor } from "./play-judgement.js";
import { PositionDetails } from "./position-details.js";
import type { Arrow, ScreenMark } from "./screen-board.js";

type Position = AnswerTo<"position">;

export interface PositionViewProps {
  readonly fen: string;
  readonly title: string;
  /** The move that is spoken of. */
  readonly arrows?: readonly Arrow[];
  /** Whether the side to move is in check, where that is known before the position is. */
  readonly inCheck?: boolean;
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
  /** The moves of the game, beside the board. */
  readonly score?: ComponentChildren;
  readonly children?: ComponentChildren;
}

/** What is told of a square: by its mark, and in words. */
interface ToldSquare {
  readonly mark: ScreenMark;
  readonly said: string;
}

/** Squares that a piece can move to: with what it does to the verdict, or only that it can. */
const reached = (position: Position, picked: Square, withVerdicts: boolean): [Square, ToldSquare][] =>
  position.moves
    .filter(({ uci }) => uci.startsWith(squareName(picked)))
    .map(({ uci, verdict, value }) => [
      parseSquare(uci.slice(2, 4))!,
      withVerdicts
        ? told(verdict, value, position.sideToMove === "attacker")
        : { mark: { ring: true }, said: "can be reached" },
    ]);

/** A verdict on a square, from the side that moves. */
const told = (verdict: Verdict | null, value: string, isAttacker: boolean): ToldSquare => ({
  mark: verdict ? { verdict, sign: signFor(verdict, isAttacker) } : { ring: true },
  said: valueFor(value, isAttacker),
});

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
          told(verdict, value, position?.sideToMove === "attacker"),
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
    <div class="buttons pointing">
      <Choice
        label="Point at a piece for"
        value={shows}
        options={{ moves: "its moves", map: "where it could stand" }}
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
    <div class="buttons pointing">
      <span class="small">+ wins, = draws, − loses for the side that moves</span>
      <TurnBoard />
    </div>
    {shows === "map" && (
      <p role="status">
        {answer
          ? `${capital(answer.title)}: the attacker wins with it on ${answer.counts.won} squares, ${answer.counts.drawn} are drawn, the defender wins on ${answer.counts.lost}.`
          : "Point at a piece to see what each other square would be for it; no sign where it cannot stand."}
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

/** What can be done with a position; one thing first, the rest as quiet links. */
const Actions = ({ position, view }: { position: Position; view: PositionViewProps }) => {
  const { fen, title, ending, ply, onFen } = view;
  const { attacker } = position;
  const name = `${position.setUps[0] ?? title}, ${colourName(turnOf(fen))} to move`;
  const onBoard = (to: string) => go(addressOf("/board", { fen: to }));
  const like = `like ${fen.split(" ").slice(0, 2).join(" ")}`;
  const other = position.sideToMove === "attacker" ? "defender" : "attacker";
  const play = (side: "attacker" | "defender") =>
    addressOf("/play", { fen, you: side === "attacker" ? attacker : otherColour(attacker) });
  return (
    <div class="actions">
      {position.legal > 0 && (
        <Link class="main" to={play(position.sideToMove)}>
          Play the {position.sideToMove}
        </Link>
      )}
      {position.legal > 0 && (
        <Link class="quiet" to={play(other)}>
          Play the {other}
        </Link>
      )}
      <Collect item={{ title: name, fen: position.fen, ending, ply, shown: position.fen }} />
      {!onFen && (
        <Link class="quiet" to={addressOf("/board", { fen })}>
          What if …
        </Link>
      )}
      <Link class="quiet" to={addressOf("/ask", { q: like, each: "position" })}>
        Similar positions in games
      </Link>
      <button type="button" class="quiet" onClick={() => (onFen ?? onBoard)(otherTurn(fen))}>
        The other side to move
      </button>
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
      <div class="actions">
        <Copy text={fen}>Copy FEN</Copy>
        <button type="button" class="quiet" onClick={() => draw("svg")}>
          Diagram as SVG
        </button>
        <button type="button" class="quiet" onClick={() => draw("png")}>
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
  // what is shown of the position before stays, dimmed, until that of this one is there; moves are made with this one's
  const position = isCurrent ? answer : undefined;
  const shown = error && isCurrent ? undefined : answer;
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
          inCheck={props.inCheck ?? position?.inCheck}
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
        {shown && (
          <div class={position ? "of-position" : "of-position stale"} aria-busy={!position}>
            <p class="verdict" role="status">
              <Sign verdict={shown.verdict}>{shown.value}</Sign>, the {shown.sideToMove} (
              {colourName(turnOf(shown.fen))}) to move
              {shown.setUps.length > 0 && `: ${shown.setUps.join(", ")}`}
            </p>
            <div class="explanation">
              {shown.explanation.sentences.slice(1).map((sentence) => (
                <p key={sentence}>{sentence}</p>
              ))}
              <Fifty position={shown} />
            </div>
          </div>
        )}
        {!shown && !error && <div class="of-position" />}
        {props.score}
        {!shown && !error && <div class="doings-to-come" />}
        {shown && (
          <>
            <Actions position={shown} view={props} />
            <PositionDetails position={shown} fen={fen} onMove={onMove} />
          </>
        )}
        {/* nothing stands below what is still to come */}
        {(shown ?? error) && <Export fen={fen} />}
      </div>
    </div>
  );
};

// Looking at one position: the board, its value in words, what each move does, the map for a piece, the strip of slides,
// every fact, and what can be done with it.

import type { ComponentChildren } from "preact";
import { useEffect, useMemo, useState } from "preact/hooks";

import { parseSquare, squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { otherTurn } from "../chess/fen.js";
import type { Arrow, Mark } from "../documents/diagram.js";
import { Link, addressOf, go } from "./address.js";
import { Board, SmallBoard, samePosition } from "./board.js";
import { type AnswerTo, call, useAnswer, useTask } from "./calls.js";
import { useKept } from "./browser-storage.js";
import { Choice, Copy, Folded, Gather, Sign, Told, TurnBoard, save } from "./parts.js";

type Position = AnswerTo<"position">;

/** What pointing at a piece shows. */
type Way = "moves" | "map";

export interface LookProps {
  readonly fen: string;
  readonly title: string;
  readonly arrows?: readonly Arrow[];
  /** Where the position comes from, for the tray. */
  readonly ending?: number;
  readonly ply?: number;
  /** Called when a legal move has been made on the board. */
  readonly onMove: (uci: string, fen: string) => void;
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

/** Squares that a piece can go to: with what it does to the verdict, or only that he can. */
const reached = (position: Position, picked: Square, told: boolean): [Square, ToldSquare][] =>
  position.moves
    .filter(({ uci }) => uci.startsWith(squareName(picked)))
    .map(({ uci, verdict, value }) => [
      parseSquare(uci.slice(2, 4))!,
      told ? { mark: { verdict }, said: value } : { mark: { ring: true }, said: "can be reached" },
    ]);

/** The FEN after a legal move. */
const after = async (fen: string, uci: string): Promise<string> =>
  (await call("play", { start: fen, moves: [uci], seed: 0 })).fen;

const MovesTable = ({ position, onMove }: { position: Position; onMove: (uci: string) => void }) => (
  <div class="wide" tabIndex={0} role="region" aria-label="Every legal move">
    <table>
      <thead>
        <tr>
          <th scope="col">move</th>
          <th scope="col">what it leads to</th>
        </tr>
      </thead>
      <tbody>
        {position.moves.map((move) => (
          <tr key={move.uci}>
            <th scope="row">
              <button type="button" class="plain" onClick={() => onMove(move.uci)}>
                {move.san}
              </button>
            </th>
            <td>
              <Sign verdict={move.verdict}>{move.value}</Sign>
              {move.verdict === position.verdict ? "" : " – changes the result"}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);

const Slides = ({ fen }: { fen: string }) => {
  const { answer, fault } = useAnswer("slides", { fen });
  if (fault) return <Told fault={fault} />;
  return (
    <ol class="slides" aria-label="The formation moved along the edge">
      {answer?.slides.map((slide) => (
        <li key={slide.title} aria-current={slide.files === 0 && slide.ranks === 0 ? "true" : undefined}>
          <Link to={addressOf("/board", { fen: slide.fen })}>
            <SmallBoard fen={slide.fen} />
            <b>{slide.title}</b>
          </Link>
          {(["attackerToMove", "defenderToMove"] as const).map((turn) => {
            const value = slide[turn];
            return (
              <p key={turn}>
                {turn === "attackerToMove" ? "attacker" : "defender"} to move:{" "}
                {value ? <Sign verdict={value.verdict}>{value.value}</Sign> : "not legal"}
              </p>
            );
          })}
          {slide.changes.length > 0 && (
            <p class="small">
              {slide.changes
                .slice(0, 4)
                .map(({ fact, from, to }) => `${fact}: ${from ?? "none"} → ${to ?? "none"}`)
                .join("; ")}
            </p>
          )}
        </li>
      ))}
    </ol>
  );
};

const shown = (value: number | string | boolean | null) =>
  value === null ? "none" : typeof value === "boolean" ? (value ? "yes" : "no") : String(value);

const Facts = ({ position }: { position: Position }) => {
  const { answer } = useAnswer("words", {});
  const meanings = new Map(
    answer?.words.filter(({ sort }) => sort === "fact").map(({ say, meaning }) => [say, meaning]),
  );
  return (
    <dl class="facts">
      {Object.entries(position.facts).map(([name, value]) => (
        <div key={name}>
          <dt>{name}</dt>
          <dd>
            <b>{shown(value)}</b> <span class="small">{meanings.get(name)}</span>
          </dd>
        </div>
      ))}
    </dl>
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

/** Builds tables that are wanting. */
const Missing = ({ material }: { material: string }) => {
  const task = useTask();
  return (
    <p>
      <button
        type="button"
        disabled={task.busy}
        onClick={() => task.run(async () => void (await call("tables", { material })))}
      >
        Build the tables of {material}
      </button>{" "}
      It takes from a second to some ten seconds, once.
      <Told fault={task.fault} />
    </p>
  );
};

export const PositionView = (props: LookProps & { turns: number }) => {
  const { fen, title, ending, ply, onMove, onFen, turns } = props;
  const { ways } = useKept();
  const { answer, fault } = useAnswer("position", { fen }, turns);
  const [way, setWay] = useState<Way>("moves");
  const [told, setTold] = useState(true);
  const [piece, setPiece] = useState<string>();
  const [picked, setPicked] = useState<Square>();
  const task = useTask();
  // the answer before stays until the next one comes: it must not be taken for it
  const position = answer && samePosition(answer.fen, fen) ? answer : undefined;
  const map = useAnswer("map", way === "map" && piece !== undefined ? { fen, piece } : undefined);
  const mapped = way === "map" ? map.answer : undefined;
  useEffect(() => setPiece(undefined), [fen]);

  const squares = useMemo(() => {
    if (mapped)
      return new Map(
        mapped.squares.map(({ square, verdict, value }) => [
          parseSquare(square)!,
          { mark: { verdict }, said: value },
        ]),
      );
    return new Map(position && picked !== undefined ? reached(position, picked, told) : []);
  }, [mapped, position, picked, told]);
  const marks = useMemo(() => new Map([...squares].map(([square, { mark }]) => [square, mark])), [squares]);

  const white = fen.split(" ")[1] === "w";
  const play = (uci: string) => task.run(async () => onMove(uci, await after(fen, uci)));
  const onBoard = (from: Square, to: Square | null) => {
    if (to === null) return;
    const uci = squareName(from) + squareName(to);
    if (position?.moves.some((move) => move.uci === uci)) play(uci);
  };
  const draw = (as: "svg" | "png") =>
    task.run(async () => save((await call("drawing", { fen, below: ways.below, as })).made));
  const missing = fault?.code === "tables-missing" ? /for (.+) have/.exec(fault.message)?.[1] : undefined;
  const players = (side: "attacker" | "defender") => {
    const attacker = position?.attacker ?? "white";
    return side === "attacker" ? attacker : attacker === "white" ? "black" : "white";
  };
  return (
    <div class="look">
      <div class="board-side">
        <Board
          fen={fen}
          below={ways.below}
          label={title}
          marks={marks}
          framed={piece === undefined ? undefined : parseSquare(piece)}
          arrows={way === "moves" ? props.arrows : undefined}
          saidOf={(square) => squares.get(square)?.said}
          movable={(_, letter) => way === "moves" && (letter === letter.toUpperCase()) === white}
          onMove={onBoard}
          onPick={setPicked}
          onSweep={props.onSweep}
          onSquare={(square) => way === "map" && setPiece(squareName(square))}
        />
        {props.below}
        <div class="buttons">
          <TurnBoard />
          <Choice
            label="Point at a piece for"
            value={way}
            options={[
              ["moves", "his moves"],
              ["map", "his map"],
            ]}
            onChange={setWay}
          />
          {way === "moves" && (
            <label>
              <input
                type="checkbox"
                checked={told}
                onChange={(event) => setTold(event.currentTarget.checked)}
              />{" "}
              with verdicts
            </label>
          )}
        </div>
        {way === "map" && (
          <p role="status">
            {mapped
              ? `${mapped.title}: won on ${mapped.counts.won}, drawn on ${mapped.counts.drawn}, lost on ${mapped.counts.lost} squares.`
              : "Point at a piece: the signs tell what the position would be with him on each other square: + won for the attacker, = drawn, − lost; none where he cannot stand."}
            <Told fault={map.fault} />
          </p>
        )}
      </div>
      <div class="words-side">
        {props.children}
        {missing === undefined ? <Told fault={fault} /> : <Missing material={missing} />}
        <Told fault={task.fault} />
        {position && (
          <>
            <p class="verdict" role="status">
              <Sign verdict={position.verdict}>{position.value}</Sign>, the {position.sideToMove} (
              {white ? "White" : "Black"}) to move
              {position.setUps.length > 0 && `: ${position.setUps.join(", ")}`}
            </p>
            {position.explanation.sentences.slice(1).map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
            <Fifty position={position} />
            <div class="buttons">
              <Gather
                item={{
                  title: `${position.setUps[0] ?? title}, ${white ? "White" : "Black"} to move`,
                  fen: position.fen,
                  ending,
                  ply,
                  shown: position.fen,
                }}
              />
              {(position.legal > 0 ? (["defender", "attacker"] as const) : []).map((side) => (
                <Link key={side} class="button" to={addressOf("/play", { fen, you: players(side) })}>
                  Play the {side}
                </Link>
              ))}
              {!onFen && (
                <Link class="button" to={addressOf("/board", { fen })}>
                  What if …
                </Link>
              )}
              <button
                type="button"
                onClick={() =>
                  (onFen ?? ((to: string) => go(addressOf("/board", { fen: to }))))(otherTurn(fen))
                }
              >
                The other side to move
              </button>
              <Link
                class="button"
                to={addressOf("/ask", {
                  q: `like ${fen.split(" ").slice(0, 2).join(" ")}`,
                  each: "position",
                })}
              >
                Games with its like
              </Link>
            </div>
            {position.legal > 0 && (
              <Folded
                title={position.legal === 1 ? "The only legal move" : `Each of the ${position.legal} moves`}
              >
                {() => <MovesTable position={position} onMove={play} />}
              </Folded>
            )}
            <Folded title="Moved along the edge">{() => <Slides fen={fen} />}</Folded>
            <Folded title="Every fact of it">{() => <Facts position={position} />}</Folded>
            {position.line.length > 0 && (
              <Folded title="The fastest win against the longest resistance">
                {() => <p class="moves">{position.line.map(({ san }) => san).join(" ")}</p>}
              </Folded>
            )}
          </>
        )}
        <div class="buttons">
          <Copy text={fen}>Copy FEN</Copy>
          <button type="button" onClick={() => draw("svg")}>
            Diagram as SVG
          </button>
          <button type="button" onClick={() => draw("png")}>
            as PNG
          </button>
        </div>
      </div>
    </div>
  );
};

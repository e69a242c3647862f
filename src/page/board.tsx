// The board on the page: its drawing (screen-board.ts), under a grid of squares that can be pointed at, dragged on, and
// gone through with the arrow keys.

import { useMemo } from "preact/hooks";

import { boardInWords } from "../documents/diagram.js";
import { type Colour, without } from "./fen.js";
import {
  type ScreenDiagram,
  manClass,
  manPaths,
  screenBody,
  screenGround,
  screenMen,
  screenOver,
  screenPiece,
  screenSize,
  screenUnder,
} from "./screen-board.js";
import { SquareGrid } from "./square-grid.js";
import { useDragging } from "./use-dragging.js";
import { type BoardProps, usePicking } from "./use-picking.js";

const EIGHT_SQUARES = 800;
const percent = (part: number, whole: number) => `${(100 * part) / whole}%`;

/** A small picture of a position. */
export const SmallBoard = ({
  fen,
  below = "white",
  arrows,
}: Pick<ScreenDiagram, "fen" | "arrows"> & { below?: Colour }) => {
  const diagram = { fen, below, arrows, coordinates: false };
  const { width, height } = screenSize(diagram);
  const drawn = useMemo(() => screenBody(diagram), [fen, below]);
  return (
    <svg
      class="small-board"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={boardInWords(fen)}
      dangerouslySetInnerHTML={{ __html: drawn }}
    />
  );
};

/** Part of a drawing, which the browser is given again only when it has changed. */
const Part = ({ drawn }: { drawn: string }) => <g dangerouslySetInnerHTML={{ __html: drawn }} />;

/** The drawing of a large board: with a step its squares stay, and a piece that moves is moved and not drawn again. */
const BoardDrawing = (diagram: ScreenDiagram) => {
  const { fen, below, marks, arrows, inCheck, framed } = diagram;
  const { width, height } = screenSize(diagram);
  const ground = useMemo(() => screenGround(diagram), [below]);
  const under = useMemo(() => screenUnder(diagram), [fen, below, arrows, inCheck]);
  const men = useMemo(() => screenMen(diagram), [fen, below]);
  const over = useMemo(() => screenOver(diagram), [fen, below, marks, framed]);
  return (
    <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true">
      <Part drawn={ground} />
      <Part drawn={under} />
      {men.map(({ key, letter, transform }) => (
        <g
          key={key}
          class={manClass(letter)}
          transform={transform}
          dangerouslySetInnerHTML={{ __html: manPaths(letter) }}
        />
      ))}
      <Part drawn={over} />
    </svg>
  );
};

export const Board = (props: BoardProps) => {
  const { fen, below, label, marks, arrows, inCheck, onMove, onSquare } = props;
  const picking = usePicking(props);
  const { drag, grid, pointer } = useDragging(props, picking);
  const { left, top, width, height } = screenSize({});
  const area = {
    left: percent(left, width),
    top: percent(top, height),
    width: percent(EIGHT_SQUARES, width),
    height: percent(EIGHT_SQUARES, height),
  };
  return (
    <div class="board" role="group" aria-label={`${label}. ${boardInWords(fen)}`}>
      <BoardDrawing
        fen={drag ? without(fen, drag.from) : fen}
        below={below}
        marks={marks}
        arrows={arrows}
        inCheck={inCheck}
        framed={picking.picked ?? props.framed}
      />
      {(onMove || onSquare) && (
        <SquareGrid
          gridRef={grid}
          area={area}
          below={below}
          label={label}
          saidOf={props.saidOf}
          picking={picking}
          pointer={pointer}
        />
      )}
      {drag && (
        <svg
          class="in-hand"
          viewBox="0 0 100 100"
          aria-hidden="true"
          style={{ left: `${drag.x}px`, top: `${drag.y}px`, width: `${drag.size}px` }}
          dangerouslySetInnerHTML={{ __html: screenPiece(drag.letter) }}
        />
      )}
    </div>
  );
};

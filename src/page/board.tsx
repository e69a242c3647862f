// The board on the page: its drawing (screen-board.ts), under a grid of squares that can be pointed at, dragged on, and
// gone through with the arrow keys.

import { useMemo } from "preact/hooks";

import { boardInWords } from "../documents/diagram.js";
import { type Colour, without } from "./fen.js";
import { type ScreenDiagram, screenBody, screenPiece, screenSize } from "./screen-board.js";
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

export const Board = (props: BoardProps) => {
  const { fen, below, label, marks, arrows, inCheck, onMove, onSquare } = props;
  const picking = usePicking(props);
  const { drag, grid, pointer } = useDragging(props, picking);
  const diagram = { fen, below, marks, arrows, inCheck, framed: picking.picked ?? props.framed };
  const { left, top, width, height } = screenSize({});
  const drawn = useMemo(
    () => screenBody({ ...diagram, fen: drag ? without(fen, drag.from) : fen }),
    [fen, below, marks, arrows, inCheck, diagram.framed, drag?.from],
  );
  const area = {
    left: percent(left, width),
    top: percent(top, height),
    width: percent(EIGHT_SQUARES, width),
    height: percent(EIGHT_SQUARES, height),
  };
  return (
    <div class="board" role="group" aria-label={`${label}. ${boardInWords(fen)}`}>
      <svg
        viewBox={`0 0 ${width} ${height}`}
        aria-hidden="true"
        dangerouslySetInnerHTML={{ __html: drawn }}
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
          dangerouslySetInnerHTML={{ __html: screenPiece(drag.letter, 0, 0) }}
        />
      )}
    </div>
  );
};

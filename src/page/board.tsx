// The board on the page: the same drawing as in print, under a grid of squares that can be pointed at, dragged on, and
// gone through with the arrow keys.

import { useMemo } from "preact/hooks";

import {
  FRAME,
  MARGIN,
  SIDE,
  boardInWords,
  diagramBody,
  diagramSize,
  pieceAt,
} from "../documents/diagram.js";
import { type Colour, without } from "./fen.js";
import { SquareGrid } from "./square-grid.js";
import { useDragging } from "./use-dragging.js";
import { type BoardProps, usePicking } from "./use-picking.js";

let drawings = 0;
/** A name for a drawing that no other on the page has. */
const useDrawingId = (kind: string): string => useMemo(() => `${kind}${drawings++}`, []);
const percent = (part: number, whole: number) => `${(100 * part) / whole}%`;

/** A small picture of a position. */
export const SmallBoard = ({
  fen,
  below = "white",
  marks,
  arrows,
}: Pick<BoardProps, "fen" | "marks" | "arrows"> & { below?: Colour }) => {
  const id = useDrawingId("small");
  const diagram = { fen, below, marks, arrows, turn: true, coordinates: false };
  const { width, height } = diagramSize(diagram);
  return (
    <svg
      class="small-board"
      viewBox={`0 0 ${width} ${height}`}
      role="img"
      aria-label={boardInWords(fen)}
      dangerouslySetInnerHTML={{ __html: diagramBody(diagram, id) }}
    />
  );
};

export const Board = (props: BoardProps) => {
  const { fen, below, label, marks, arrows, onMove, onSquare } = props;
  const id = useDrawingId("board");
  const picking = usePicking(props);
  const { drag, grid, pointer } = useDragging(props, picking);
  const diagram = { fen, below, marks, arrows, framed: picking.picked ?? props.framed, turn: true };
  const { width, height } = diagramSize(diagram);
  const drawn = useMemo(
    () => diagramBody({ ...diagram, fen: drag ? without(fen, drag.from) : fen }, id),
    [fen, below, marks, arrows, diagram.framed, drag?.from],
  );
  const area = {
    left: percent(FRAME + MARGIN, width),
    top: percent(FRAME, height),
    width: percent(8 * SIDE, width),
    height: percent(8 * SIDE, height),
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
          dangerouslySetInnerHTML={{ __html: pieceAt(drag.letter, 0, 0) }}
        />
      )}
    </div>
  );
};

// The board on the page: the same drawing as in print, under a grid of squares that can be pointed at, dragged on, and
// gone through with the arrow keys.

import { useEffect, useMemo, useRef, useState } from "preact/hooks";

import { piecesOn } from "../chess/fen.js";
import { fileOf, rankOf, squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import {
  type Arrow,
  FRAME,
  MARGIN,
  type Mark,
  SIDE,
  boardInWords,
  diagramBody,
  diagramSize,
  pieceAt,
  pieceInWords,
} from "../documents/diagram.js";

export interface BoardProps {
  readonly fen: string;
  readonly below: "white" | "black";
  /** What the board is called by who does not see it. */
  readonly label: string;
  readonly marks?: ReadonlyMap<Square, Mark>;
  readonly framed?: Square;
  readonly arrows?: readonly Arrow[];
  /** More to be said of a square, such as the verdict of a move to it. */
  readonly saidOf?: (square: Square) => string | undefined;
  /** Whether a piece may be picked up. */
  readonly movable?: (square: Square, piece: string) => boolean;
  /** Called with a move made by dragging, or by choosing a piece and then a square; `to` is null off the board. */
  readonly onMove?: (from: Square, to: Square | null) => void;
  /** Called with the piece that has been picked up, and with undefined when he is put down. */
  readonly onPick?: (square: Square | undefined) => void;
  /** Called with a square that was pointed at, where that picks up no piece. */
  readonly onSquare?: (square: Square) => void;
  /** Called when a finger sweeps over the board: 1 to the left, which goes on, -1 to the right. */
  readonly onSweep?: (way: 1 | -1) => void;
}

/** "White king". */
export const pieceName = (letter: string): string =>
  `${letter === letter.toUpperCase() ? "White" : "Black"} ${pieceInWords(letter)}`;

let drawings = 0;
const percent = (part: number, whole: number) => `${(100 * part) / whole}%`;

/** A small picture of a position. */
export const SmallBoard = ({
  fen,
  below = "white",
  marks,
  arrows,
}: Pick<BoardProps, "fen" | "marks" | "arrows"> & { below?: "white" | "black" }) => {
  const id = useMemo(() => `small${drawings++}`, []);
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

interface Drag {
  readonly from: Square;
  readonly letter: string;
  readonly x: number;
  readonly y: number;
  /** Whether the pointer has gone far enough to be dragging. */
  readonly moving: boolean;
}
/** Pixels that a hand may tremble, and that a sweep takes at least. */
const STILL = 6;
const SWEEP = 50;

export const Board = (props: BoardProps) => {
  const { fen, below, label, marks, framed, arrows, saidOf, movable, onMove, onPick, onSquare, onSweep } =
    props;
  const sweep = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const id = useMemo(() => `board${drawings++}`, []);
  const [picked, setPicked] = useState<Square>();
  const [drag, setDrag] = useState<Drag>();
  const [focus, setFocus] = useState<Square>(below === "white" ? 56 : 7);
  const grid = useRef<HTMLDivElement>(null);
  const pieces = useMemo(() => piecesOn(fen), [fen]);
  const can = (square: Square) => pieces.has(square) && (movable?.(square, pieces.get(square)!) ?? false);
  const pick = (square: Square | undefined) => {
    setPicked(square);
    onPick?.(square);
  };
  useEffect(() => pick(undefined), [fen]);

  const diagram = { fen, below, marks, arrows, framed: picked ?? framed, turn: true };
  const { width, height } = diagramSize(diagram);
  const drawn = useMemo(
    () => diagramBody({ ...diagram, fen: drag?.moving ? without(fen, drag.from) : fen }, id),
    [fen, below, marks, arrows, diagram.framed, drag?.moving],
  );

  const choose = (square: Square) => {
    if (picked === square) return pick(undefined);
    if (can(square)) return pick(square);
    if (picked !== undefined) {
      onMove?.(picked, square);
      return pick(undefined);
    }
    onSquare?.(square);
  };
  /** The square under a point of the window; null off the board. */
  const squareAt = (x: number, y: number): Square | null => {
    const box = grid.current!.getBoundingClientRect();
    const [f, r] = [
      Math.floor((8 * (x - box.left)) / box.width),
      Math.floor((8 * (y - box.top)) / box.height),
    ];
    if (f < 0 || f > 7 || r < 0 || r > 7) return null;
    return below === "white" ? (7 - r) * 8 + f : r * 8 + (7 - f);
  };
  const down = (square: Square) => (event: PointerEvent & { currentTarget: HTMLButtonElement }) => {
    if (event.button !== 0 || !can(square)) return;
    event.currentTarget.setPointerCapture(event.pointerId);
    setDrag({ from: square, letter: pieces.get(square)!, x: event.clientX, y: event.clientY, moving: false });
  };
  const moved = (event: PointerEvent) => {
    if (!drag) return;
    const { clientX: x, clientY: y } = event;
    if (!drag.moving && Math.hypot(x - drag.x, y - drag.y) < STILL) return;
    if (!drag.moving) pick(drag.from);
    setDrag({ ...drag, x, y, moving: true });
  };
  const up = (event: PointerEvent) => {
    if (!drag) return;
    const { from, moving } = drag;
    setDrag(undefined);
    if (!moving) return;
    const to = squareAt(event.clientX, event.clientY);
    pick(undefined);
    if (to !== from) onMove?.(from, to);
  };
  const step = (event: KeyboardEvent, square: Square) => {
    const way = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, 1], ArrowDown: [0, -1] }[event.key];
    if (event.key === "Escape") pick(undefined);
    if (!way || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const sign = below === "white" ? 1 : -1;
    const [f, r] = [fileOf(square) + sign * way[0], rankOf(square) + sign * way[1]];
    if (f < 0 || f > 7 || r < 0 || r > 7) return;
    const next = r * 8 + f;
    setFocus(next);
    grid.current!.querySelector<HTMLButtonElement>(`[data-square="${squareName(next)}"]`)!.focus();
  };

  const svg = (
    <svg viewBox={`0 0 ${width} ${height}`} aria-hidden="true" dangerouslySetInnerHTML={{ __html: drawn }} />
  );
  const active = onMove !== undefined || onSquare !== undefined;
  return (
    <div class="board" role="group" aria-label={`${label}. ${boardInWords(fen)}`}>
      {svg}
      {active && (
        <div
          class="squares"
          role="grid"
          aria-label={label}
          ref={grid}
          onPointerDown={({ pointerType, clientX: x, clientY: y }) =>
            (sweep.current = pointerType === "touch" ? { x, y } : undefined)
          }
          onPointerUp={({ clientX, clientY }) => {
            const from = sweep.current;
            sweep.current = undefined;
            if (!from || drag?.moving) return;
            const [right, down] = [clientX - from.x, clientY - from.y];
            if (Math.abs(right) > SWEEP && Math.abs(right) > 2 * Math.abs(down))
              onSweep?.(right < 0 ? 1 : -1);
          }}
          style={{
            left: percent(FRAME + MARGIN, width),
            top: percent(FRAME, height),
            width: percent(8 * SIDE, width),
            height: percent(8 * SIDE, height),
          }}
        >
          {Array.from({ length: 8 }, (_, row) => (
            <div role="row" key={row}>
              {Array.from({ length: 8 }, (_, column) => {
                const square = below === "white" ? (7 - row) * 8 + column : row * 8 + (7 - column);
                const piece = pieces.get(square);
                const more = saidOf?.(square);
                const parts = [
                  squareName(square),
                  piece && pieceName(piece),
                  square === picked && "picked up",
                  more,
                ];
                return (
                  <div role="gridcell" key={square}>
                    <button
                      type="button"
                      data-square={squareName(square)}
                      class={can(square) ? "piece" : undefined}
                      tabIndex={square === focus ? 0 : -1}
                      aria-label={parts.filter((part) => part).join(", ")}
                      aria-pressed={square === picked ? true : undefined}
                      onClick={() => {
                        setFocus(square);
                        choose(square);
                      }}
                      onFocus={() => setFocus(square)}
                      onKeyDown={(event) => step(event, square)}
                      onPointerDown={down(square)}
                      onPointerMove={moved}
                      onPointerUp={up}
                      onPointerCancel={() => setDrag(undefined)}
                    />
                  </div>
                );
              })}
            </div>
          ))}
        </div>
      )}
      {drag?.moving && grid.current && (
        <svg
          class="in-hand"
          viewBox="0 0 100 100"
          aria-hidden="true"
          style={{
            left: `${drag.x}px`,
            top: `${drag.y}px`,
            width: `${grid.current.getBoundingClientRect().width / 8}px`,
          }}
          dangerouslySetInnerHTML={{ __html: pieceAt(drag.letter, 0, 0) }}
        />
      )}
    </div>
  );
};

/** A FEN with other pieces: `change` is given every piece by square. */
export function changed(fen: string, change: (pieces: Map<Square, string>) => void): string {
  const [, ...rest] = fen.split(" ");
  const pieces = piecesOn(fen);
  change(pieces);
  const rows: string[] = [];
  for (let rank = 7; rank >= 0; --rank) {
    let row = "";
    for (let file = 0; file < 8; ++file) row += pieces.get(8 * rank + file) ?? "1";
    rows.push(row.replace(/1+/g, ({ length }) => String(length)));
  }
  return [rows.join("/"), ...rest].join(" ");
}

const without = (fen: string, square: Square) => changed(fen, (pieces) => void pieces.delete(square));

/** A FEN with single blanks and all six fields. */
export function tidyFen(fen: string): string {
  const fields = fen.trim().split(/\s+/);
  return ["", "w", "-", "-", "0", "1"].map((usual, n) => fields[n] ?? usual).join(" ");
}

/** Whether two FENs have the same pieces on the same squares, and the same side to move. */
export const samePosition = (one: string, other: string): boolean =>
  [0, 1].every((n) => tidyFen(one).split(" ")[n] === tidyFen(other).split(" ")[n]);

// Dragging on a board: a piece under the pointer, and a finger that sweeps over the board.

import { useRef, useState } from "preact/hooks";

import { parseSquare } from "../chess/squares.js";
import type { Colour, Square } from "./fen.js";
import type { BoardProps, Picking } from "./use-picking.js";

/** Pixels that a hand may tremble, and that a sweep takes at least. */
const STILL = 6;
const SWEEP = 50;

interface Drag {
  readonly from: Square;
  readonly letter: string;
  readonly x: number;
  readonly y: number;
  /** Pixels of a square's side. */
  readonly size: number;
  /** Whether the pointer has gone far enough to be dragging. */
  readonly moving: boolean;
}

/** The square under a point of the window; null off the board. */
function squareAt(grid: HTMLElement, below: Colour, x: number, y: number): Square | null {
  const { left, top, width, height } = grid.getBoundingClientRect();
  const [file, row] = [Math.floor((8 * (x - left)) / width), Math.floor((8 * (y - top)) / height)];
  if (file < 0 || file > 7 || row < 0 || row > 7) return null;
  return below === "white" ? (7 - row) * 8 + file : row * 8 + (7 - file);
}

/** The square whose button an event is about. */
export function squareOf({ target }: Event): Square | undefined {
  const name = (target as HTMLElement).closest<HTMLElement>("[data-square]")?.dataset.square;
  return name === undefined ? undefined : parseSquare(name);
}

/** The drag under way, if any; handlers for the grid, of which `grid` is to be the element. */
export function useDragging({ below, onMove, onSweep }: BoardProps, { pieces, can, pick }: Picking) {
  const grid = useRef<HTMLDivElement>(null);
  const [drag, setDrag] = useState<Drag>();
  const touched = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  // of the whole grid: handlers of each square would be made anew with every step
  const pointer = {
    onPointerDown: (event: PointerEvent) => {
      const { button, pointerType, pointerId, clientX: x, clientY: y } = event;
      touched.current = pointerType === "touch" ? { x, y } : undefined;
      const from = squareOf(event);
      if (button !== 0 || from === undefined || !can(from)) return;
      (event.target as HTMLElement).setPointerCapture(pointerId);
      const size = grid.current!.getBoundingClientRect().width / 8;
      setDrag({ from, letter: pieces.get(from)!, x, y, size, moving: false });
    },
    onPointerMove: ({ clientX: x, clientY: y }: PointerEvent) => {
      if (!drag) return;
      if (!drag.moving && Math.hypot(x - drag.x, y - drag.y) < STILL) return;
      if (!drag.moving) pick(drag.from);
      setDrag({ ...drag, x, y, moving: true });
    },
    onPointerUp: ({ clientX, clientY }: PointerEvent) => {
      const from = touched.current;
      touched.current = undefined;
      setDrag(undefined);
      if (drag?.moving) {
        const to = squareAt(grid.current!, below, clientX, clientY);
        pick(undefined);
        if (to !== drag.from) onMove?.(drag.from, to);
      } else if (from) {
        const [right, down] = [clientX - from.x, clientY - from.y];
        if (Math.abs(right) > SWEEP && Math.abs(right) > 2 * Math.abs(down)) onSweep?.(right < 0 ? 1 : -1);
      }
    },
    onPointerCancel: () => setDrag(undefined),
  };
  return { drag: drag?.moving ? drag : undefined, grid, pointer };
}

/** Handlers of the pointer, for the whole grid. */
export type Pointer = ReturnType<typeof useDragging>["pointer"];

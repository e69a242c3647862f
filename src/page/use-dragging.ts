// Dragging on a board: a piece under the pointer, and a finger that sweeps over the board.

import { useRef, useState } from "preact/hooks";

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

/** The drag under way, if any; handlers for a square and for the whole grid, of which `grid` is to be the element. */
export function useDragging({ below, onMove, onSweep }: BoardProps, { pieces, can, pick }: Picking) {
  const grid = useRef<HTMLDivElement>(null);
  const [drag, setDrag] = useState<Drag>();
  const touched = useRef<{ readonly x: number; readonly y: number } | undefined>(undefined);
  const square = (from: Square) => ({
    onPointerDown: (event: PointerEvent & { currentTarget: HTMLButtonElement }) => {
      if (event.button !== 0 || !can(from)) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      const { clientX: x, clientY: y } = event;
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
      setDrag(undefined);
      if (!drag?.moving) return;
      const to = squareAt(grid.current!, below, clientX, clientY);
      pick(undefined);
      if (to !== drag.from) onMove?.(drag.from, to);
    },
    onPointerCancel: () => setDrag(undefined),
  });
  const whole = {
    onPointerDown: ({ pointerType, clientX: x, clientY: y }: PointerEvent) =>
      (touched.current = pointerType === "touch" ? { x, y } : undefined),
    onPointerUp: ({ clientX, clientY }: PointerEvent) => {
      const from = touched.current;
      touched.current = undefined;
      if (!from || drag?.moving) return;
      const [right, down] = [clientX - from.x, clientY - from.y];
      if (Math.abs(right) > SWEEP && Math.abs(right) > 2 * Math.abs(down)) onSweep?.(right < 0 ? 1 : -1);
    },
  };
  return { drag: drag?.moving ? drag : undefined, grid, pointer: { square, whole } };
}

/** Handlers of the pointer, for a square and for the whole grid. */
export type Pointer = ReturnType<typeof useDragging>["pointer"];

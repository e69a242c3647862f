// Moving the rows of a list by dragging a handle, with mouse, pen or finger, and by the arrow keys on the handle.

import type { RefObject } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";

/** Pixels from the edge of the window at which it scrolls, and how far at a time. */
const EDGE = 70;
const SCROLL = 14;

/** Where a row would go: before the row of this number, or behind the last. */
function placeUnder(list: HTMLElement, y: number): number {
  const rows = [...list.children];
  const n = rows.findIndex((row) => {
    const { top, height } = row.getBoundingClientRect();
    return y < top + height / 2;
  });
  return n < 0 ? rows.length : n;
}

/** The row that is dragged and the place it would go to; handlers for the handle of each row. */
export function useRowDragging(
  list: RefObject<HTMLElement | null>,
  count: number,
  move: (from: number, to: number) => void,
) {
  const [drag, setDrag] = useState<{ readonly from: number; readonly to: number }>();
  const [moved, setMoved] = useState<number>();
  const scrolling = useRef(0);
  // the row takes its handle with it: the focus goes there too
  useEffect(() => {
    if (moved === undefined) return;
    list.current?.children[moved]?.querySelector<HTMLElement>("[data-handle]")?.focus();
    setMoved(undefined);
  }, [moved]);
  const put = (from: number, to: number) => {
    if (to < 0 || to >= count || to === from) return;
    move(from, to);
    setMoved(to);
  };
  const stop = () => {
    cancelAnimationFrame(scrolling.current);
    scrolling.current = 0;
  };
  useEffect(() => stop, []);
  const handle = (row: number) => ({
    onPointerDown: (event: PointerEvent & { currentTarget: HTMLElement }) => {
      if (event.button !== 0) return;
      // words are not to be marked on the way
      event.preventDefault();
      event.currentTarget.focus({ preventScroll: true });
      event.currentTarget.setPointerCapture(event.pointerId);
      setDrag({ from: row, to: row });
    },
    onPointerMove: ({ clientY }: PointerEvent) => {
      if (!drag) return;
      setDrag({ from: drag.from, to: placeUnder(list.current!, clientY) });
      stop();
      const way = clientY < EDGE ? -SCROLL : clientY > innerHeight - EDGE ? SCROLL : 0;
      const roll = () => {
        scrollBy(0, way);
        scrolling.current = requestAnimationFrame(roll);
      };
      if (way !== 0) roll();
    },
    onPointerUp: () => {
      stop();
      if (!drag) return;
      setDrag(undefined);
      // taken out of its old place first, what comes behind it moves up by one
      put(drag.from, drag.to > drag.from ? drag.to - 1 : drag.to);
    },
    onPointerCancel: () => {
      stop();
      setDrag(undefined);
    },
    onKeyDown: (event: KeyboardEvent) => {
      const way = event.key === "ArrowUp" ? -1 : event.key === "ArrowDown" ? 1 : 0;
      if (way === 0 || event.altKey || event.ctrlKey || event.metaKey) return;
      event.preventDefault();
      put(row, row + way);
    },
  });
  return { drag, handle, put };
}

// The squares of a board as buttons, each with its name, what stands on it and what is said of it.

import type { ComponentChildren, CSSProperties, RefObject } from "preact";
import { useRef, useState } from "preact/hooks";

import { fileOf, rankOf, squareName } from "../chess/squares.js";
import { type Square, pieceName } from "./fen.js";
import { type Pointer, squareOf } from "./use-dragging.js";
import type { BoardProps, Picking } from "./use-picking.js";

interface GridProps extends Pick<BoardProps, "below" | "label" | "saidOf"> {
  readonly gridRef: RefObject<HTMLDivElement | null>;
  readonly area: CSSProperties;
  readonly picking: Picking;
  readonly pointer: Pointer;
}

const EIGHT = [0, 1, 2, 3, 4, 5, 6, 7];
/** Files to the right and ranks up, seen from White. */
const STEPS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

export const SquareGrid = ({ gridRef, area, below, label, saidOf, picking, pointer }: GridProps) => {
  const { pieces, picked, can, pick, choose } = picking;
  const white = below === "white";
  const [focus, setFocus] = useState<Square>(white ? 56 : 7);
  const made = useRef(new Map<Square, { readonly key: string; readonly button: ComponentChildren }>());
  const step = (event: KeyboardEvent, square: Square) => {
    if (event.key === "Escape") pick(undefined);
    const way = STEPS[event.key] as (typeof STEPS)[string] | undefined;
    if (!way || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    event.stopPropagation();
    const sign = white ? 1 : -1;
    const [file, rank] = [fileOf(square) + sign * way[0], rankOf(square) + sign * way[1]];
    if (file < 0 || file > 7 || rank < 0 || rank > 7) return;
    const next = rank * 8 + file;
    setFocus(next);
    gridRef.current!.querySelector<HTMLButtonElement>(`[data-square="${squareName(next)}"]`)!.focus();
  };
  const nameOf = (square: Square) => {
    const piece = pieces.get(square);
    return [squareName(square), piece && pieceName(piece), square === picked && "picked up", saidOf?.(square)]
      .filter((part) => part)
      .join(", ");
  };
  /** A square's button, the one from before where nothing about it has changed: with a step most stay as they are. */
  const buttonOf = (square: Square) => {
    const [name, isFocus, isPicked, isPiece] = [
      nameOf(square),
      square === focus,
      square === picked,
      can(square),
    ];
    const key = [name, isFocus, isPicked, isPiece, white].join();
    const before = made.current.get(square);
    if (before?.key === key) return before.button;
    const button = (
      <button
        type="button"
        data-square={squareName(square)}
        class={isPiece ? "piece" : undefined}
        tabIndex={isFocus ? 0 : -1}
        aria-label={name}
        aria-pressed={isPicked ? true : undefined}
      />
    );
    made.current.set(square, { key, button });
    return button;
  };
  const withSquare = (what: (square: Square) => void) => (event: Event) => {
    const square = squareOf(event);
    if (square !== undefined) what(square);
  };
  return (
    <div
      class="squares"
      role="grid"
      aria-label={label}
      ref={gridRef}
      style={area}
      onClick={withSquare((square) => {
        setFocus(square);
        choose(square);
      })}
      onFocusIn={withSquare(setFocus)}
      onKeyDown={(event) => withSquare((square) => step(event, square))(event)}
      {...pointer}
    >
      {EIGHT.map((row) => (
        <div role="row" key={row}>
          {EIGHT.map((column) => {
            const square = white ? (7 - row) * 8 + column : row * 8 + (7 - column);
            return (
              <div role="gridcell" key={square}>
                {buttonOf(square)}
              </div>
            );
          })}
        </div>
      ))}
    </div>
  );
};

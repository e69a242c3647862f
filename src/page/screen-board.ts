// The drawing of a board for the screen: flat tinted squares, filled pieces with an outline. Its colours are the style
// sheet's, so that light, dark and high contrast each have their own. Print has another drawing, hatched
// (src/documents/diagram.ts).

import { fenFields, piecesOn } from "../chess/fen-text.js";
import { type Arrow, SIDE, escapeXml } from "../documents/diagram.js";
import { FIGURINES } from "../documents/figurines.js";
import type { Verdict } from "./calls.js";
import type { Colour, Square } from "./fen.js";

export type { Arrow } from "../documents/diagram.js";

/** What is drawn on a square beside a piece: what a move to it does for the one who moves, or that it can be reached. */
export interface ScreenMark {
  readonly verdict?: Verdict;
  /** The sign of the verdict, seen from the side that moves. */
  readonly sign?: "+" | "=" | "−";
  readonly ring?: true;
}

export interface ScreenDiagram {
  readonly fen: string;
  readonly below?: Colour;
  readonly marks?: ReadonlyMap<Square, ScreenMark>;
  /** The square of a piece that is spoken of. */
  readonly framed?: Square;
  /** The move that is spoken of: its two squares get a dashed frame. */
  readonly arrows?: readonly Arrow[];
  /** Whether the side to move is in check: its king gets a ring. */
  readonly inCheck?: boolean;
  /** Whether letters and figures stand at the edge. */
  readonly coordinates?: boolean;
}

const BOARD = 8 * SIDE;
/** Units that the frame, the figures at the left, the letters below and the disc at the right take. */
const FRAME = 4;
const LEFT = 52;
const BOTTOM = 56;
const RIGHT = 50;

/** Width, height and corner of the squares. */
export function screenSize({ coordinates = true }: { readonly coordinates?: boolean }) {
  const left = FRAME + (coordinates ? LEFT : 0);
  return {
    left,
    top: FRAME,
    width: left + BOARD + FRAME + RIGHT,
    height: BOARD + 2 * FRAME + (coordinates ? BOTTOM : 0),
  };
}

/** A piece, by the letter of a FEN, on a square whose corner is at (x, y). */
export function screenPiece(letter: string, x: number, y: number): string {
  const figurine = FIGURINES[letter.toUpperCase()];
  const colour = letter === letter.toUpperCase() ? "light" : "dark";
  return (
    `<g class="man ${colour}" transform="translate(${x} ${y})">` +
    `<path class="edge" d="${figurine.body}"/><path class="body" d="${figurine.body}"/><path class="lines" d="${figurine.lines}"/></g>`
  );
}

function markAt({ verdict, sign, ring }: ScreenMark, x: number, y: number): string {
  const [cx, cy] = [x + SIDE / 2, y + SIDE / 2];
  if (ring || verdict === undefined) return `<circle class="reach" cx="${cx}" cy="${cy}" r="16"/>`;
  const bar = (dy: number) => `M${cx - 15} ${cy + dy}H${cx + 15}`;
  const path =
    sign === "+" ? `${bar(0)}M${cx} ${cy - 15}V${cy + 15}` : sign === "=" ? bar(-7) + bar(7) : bar(0);
  return `<g class="mark ${verdict}"><circle cx="${cx}" cy="${cy}" r="31"/><path d="${path}"/></g>`;
}

const frameAt = (name: string, x: number, y: number) =>
  `<rect class="${name}" x="${x + 5}" y="${y + 5}" width="${SIDE - 10}" height="${SIDE - 10}"/>`;

/** The drawing without its root element. */
export function screenBody(diagram: ScreenDiagram): string {
  const { fen, below = "white", marks, framed, arrows = [], coordinates = true } = diagram;
  const { left, top } = screenSize(diagram);
  const white = below === "white";
  const place = (square: Square): readonly [number, number] => {
    const [file, rank] = [square & 7, square >> 3];
    return white
      ? [left + file * SIDE, top + (7 - rank) * SIDE]
      : [left + (7 - file) * SIDE, top + rank * SIDE];
  };
  let dark = "";
  for (let square = 0; square < 64; ++square) {
    if (((square & 7) + (square >> 3)) % 2 === 1) continue;
    const [x, y] = place(square);
    dark += `M${x} ${y}h${SIDE}v${SIDE}h-${SIDE}z`;
  }
  const parts = [
    `<rect class="light-squares" x="${left}" y="${top}" width="${BOARD}" height="${BOARD}"/>`,
    `<path class="dark-squares" d="${dark}"/>`,
    `<rect class="board-edge" x="${left}" y="${top}" width="${BOARD}" height="${BOARD}"/>`,
  ];
  for (let n = 0; coordinates && n < 8; ++n) {
    const [x] = place(n);
    const [, y] = place(8 * n);
    parts.push(
      `<text class="coordinate" x="${x + SIDE / 2}" y="${top + BOARD + 44}" text-anchor="middle">${"abcdefgh"[n]}</text>`,
      `<text class="coordinate" x="${left - 22}" y="${y + SIDE / 2 + 12}" text-anchor="end">${n + 1}</text>`,
    );
  }
  for (const { from, to } of arrows)
    parts.push(frameAt("last-move", ...place(from)), frameAt("last-move", ...place(to)));
  const { turn } = fenFields(fen);
  for (const [square, letter] of piecesOn(fen)) {
    const [x, y] = place(square);
    if (diagram.inCheck && letter === (turn === "white" ? "K" : "k"))
      parts.push(`<circle class="check" cx="${x + SIDE / 2}" cy="${y + SIDE / 2}" r="46"/>`);
    parts.push(screenPiece(letter, x, y));
  }
  for (const [square, mark] of marks ?? []) parts.push(markAt(mark, ...place(square)));
  if (framed !== undefined) parts.push(frameAt("framed", ...place(framed)));
  const atBottom = (turn === "white") === white;
  parts.push(
    `<circle class="turn ${escapeXml(turn)}" cx="${left + BOARD + FRAME + 28}" cy="${atBottom ? top + BOARD - 22 : top + 22}" r="17"/>`,
  );
  return parts.join("");
}

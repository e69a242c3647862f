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

/** The class of a piece, by its letter in a FEN. */
export const manClass = (letter: string): string =>
  `man ${letter === letter.toUpperCase() ? "light" : "dark"}`;

/** The paths of a piece on a square whose corner is at (0, 0). */
export function manPaths(letter: string): string {
  const { body, lines } = FIGURINES[letter.toUpperCase()];
  return `<path class="edge" d="${body}"/><path class="body" d="${body}"/><path class="lines" d="${lines}"/>`;
}

/** A piece that can be drawn alone. */
export const screenPiece = (letter: string): string =>
  `<g class="${manClass(letter)}">${manPaths(letter)}</g>`;

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

/** Where a square's corner is. */
function placesOf(diagram: ScreenDiagram): (square: Square) => readonly [number, number] {
  const { left, top } = screenSize(diagram);
  const isWhiteBelow = diagram.below !== "black";
  return (square) => {
    const [file, rank] = [square & 7, square >> 3];
    return isWhiteBelow
      ? [left + file * SIDE, top + (7 - rank) * SIDE]
      : [left + (7 - file) * SIDE, top + rank * SIDE];
  };
}

/** The squares, with the letters and figures at the edge. */
export function screenGround(diagram: ScreenDiagram): string {
  const { coordinates = true } = diagram;
  const { left, top } = screenSize(diagram);
  const place = placesOf(diagram);
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
  return parts.join("");
}

/** What lies under the pieces: the move that is spoken of, and a check. */
export function screenUnder(diagram: ScreenDiagram): string {
  const place = placesOf(diagram);
  const parts = (diagram.arrows ?? []).flatMap(({ from, to }) => [
    frameAt("last-move", ...place(from)),
    frameAt("last-move", ...place(to)),
  ]);
  if (diagram.inCheck) {
    const king = fenFields(diagram.fen).turn === "white" ? "K" : "k";
    for (const [square, letter] of piecesOn(diagram.fen)) {
      if (letter !== king) continue;
      const [x, y] = place(square);
      parts.push(`<circle class="check" cx="${x + SIDE / 2}" cy="${y + SIDE / 2}" r="46"/>`);
    }
  }
  return parts.join("");
}

/** A piece where it stands. */
export interface ScreenMan {
  /** The same for a piece before and after it has moved, as far as letters tell. */
  readonly key: string;
  readonly letter: string;
  readonly transform: string;
}

/** The pieces, in an order that does not change when one of them moves. */
export function screenMen(diagram: ScreenDiagram): ScreenMan[] {
  const place = placesOf(diagram);
  const seen = new Map<string, number>();
  return [...piecesOn(diagram.fen)]
    .map(([square, letter]) => {
      const number = seen.get(letter) ?? 0;
      seen.set(letter, number + 1);
      return { key: `${letter}${number}`, letter, transform: `translate(${place(square).join(" ")})` };
    })
    .sort((one, other) => (one.key < other.key ? -1 : 1));
}

/** What lies over the pieces: marks, the piece that is spoken of, whose turn it is. */
export function screenOver(diagram: ScreenDiagram): string {
  const { fen, below = "white", marks, framed } = diagram;
  const { left, top } = screenSize(diagram);
  const place = placesOf(diagram);
  const { turn } = fenFields(fen);
  const atBottom = turn === below;
  const parts = [...(marks ?? [])].map(([square, mark]) => markAt(mark, ...place(square)));
  if (framed !== undefined) parts.push(frameAt("framed", ...place(framed)));
  parts.push(
    `<circle class="turn ${escapeXml(turn)}" cx="${left + BOARD + FRAME + 28}" cy="${atBottom ? top + BOARD - 22 : top + 22}" r="17"/>`,
  );
  return parts.join("");
}

/** The whole drawing without its root element. */
export function screenBody(diagram: ScreenDiagram): string {
  const men = screenMen(diagram).map(
    ({ letter, transform }) =>
      `<g class="${manClass(letter)}" transform="${transform}">${manPaths(letter)}</g>`,
  );
  return screenGround(diagram) + screenUnder(diagram) + men.join("") + screenOver(diagram);
}

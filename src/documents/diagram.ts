// The one drawing of a board: black on white like a diagram in an old book, dark squares hatched, as SVG.
//
// A square can be marked with a verdict, by its sign as well as by its colour, so that grey print loses nothing.
// Colours are from Okabe & Ito's palette for all kinds of colour vision ("Color Universal Design", 2008; values from
// memory).

import type { Color } from "chessops";

import { PIECE_NAMES, fenFields, piecesOn } from "../chess/fen-text.js";
import { parseSquare, squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import type { Verdict } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import { FIGURINES } from "./figurines.js";
import { plainText } from "../plain-text.js";

/** What is drawn on a square beside a piece. */
export interface Mark {
  /**
   * Sign and colour of a verdict, or small figures, or a ring that points the square out. A verdict with figures is a ring
   * with these in it: moves to mate, and nothing for a draw.
   */
  readonly verdict?: Verdict;
  readonly text?: string;
  /** The best square of several. */
  readonly best?: true;
  readonly ring?: true;
  /** Grey from 0, white, to 1, the darkest on which figures can be read. */
  readonly shade?: number;
}

export interface Arrow {
  readonly from: Square;
  readonly to: Square;
}

export interface Diagram {
  readonly fen: string;
  readonly below?: Color;
  readonly marks?: ReadonlyMap<Square, Mark>;
  /** The square of a piece that is spoken of: it gets a frame. */
  readonly framed?: Square;
  readonly arrows?: readonly Arrow[];
  /** Whether to show whose move it is, by a disc of that colour at that side's edge. */
  readonly turn?: boolean;
  /** Dark squares without hatching, where squares are shaded. */
  readonly bare?: boolean;
  /** Lines of text under the board. */
  readonly caption?: readonly string[];
  /** Text for a reader who does not see it; the pieces and squares where it is left out. */
  readonly description?: string;
  /** Whether to draw letters and figures at the edge. */
  readonly coordinates?: boolean;
}

/** Side of a square, and what the frame takes, in a diagram's own units. */
export const SIDE = 100;
export const FRAME = 16;
/** What the figures at the left edge take. */
export const MARGIN = 60;
const HATCH = 12.5;
const COLOURS: Readonly<Record<Verdict, string>> = { won: "#d55e00", drawn: "#0072b2", lost: "#009e73" };

/** Text for XML, without the characters that it may not hold (XML 1.0, section 2.2). */
export const escapeXml = (text: string): string =>
  plainText(text).replace(/[&<>"]/g, (c) => ({ "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" })[c]!);

/** "king" for either king's letter. */
export const pieceInWords = (letter: string): string => PIECE_NAMES[letter.toUpperCase()] ?? letter;

/** The arrow of the move between two positions; none where it is not plain from the pieces. */
export function arrowBetween(before: string, after: string | undefined): Arrow[] {
  if (after === undefined) return [];
  const boards = [before, after].map(piecesOn);
  const left = [...boards[0].keys()].filter((square) => !boards[1].has(square));
  const came = [...boards[1]]
    .filter(([square, piece]) => boards[0].get(square) !== piece)
    .map(([square]) => square);
  return left.length === 1 && came.length === 1 ? [{ from: left[0], to: came[0] }] : [];
}

/** A board in words: "White: king d6, rook f7. Black: king d8. White to move." */
export function boardInWords(fen: string): string {
  const pieces = [...piecesOn(fen)];
  const side = (white: boolean) =>
    pieces
      .filter(([, letter]) => (letter === letter.toUpperCase()) === white)
      .map(([square, letter]) => `${pieceInWords(letter)} ${squareName(square)}`)
      .join(", ");
  const turn = fenFields(fen).turn === "black" ? "Black" : "White";
  return `White: ${side(true)}. Black: ${side(false)}. ${turn} to move.`;
}

/** Reads "e2e4 f1-f8". Throws `bad-drawing`. */
export function readArrows(text: string): Arrow[] {
  return words(text).map((word) => {
    const [, from, to] = /^([a-h][1-8])-?([a-h][1-8])$/.exec(word) ?? [];
    if (!from) throw new LongsideError("bad-drawing", { what: word, cause: "an arrow looks like e2e4" });
    return { from: parseSquare(from)!, to: parseSquare(to)! };
  });
}

/** Reads "e4 d5". Throws `bad-drawing`. */
export function readRings(text: string): Map<number, Mark> {
  return new Map(
    words(text).map((word) => {
      const square = parseSquare(word);
      if (square === undefined)
        throw new LongsideError("bad-drawing", { what: word, cause: "a square looks like e4" });
      return [square, { ring: true }];
    }),
  );
}

const words = (text: string) => text.split(/[\s,]+/).filter((word) => word !== "");

/** Lines at 45° over a square whose corner is at (x, y), rising to the right. */
function hatching(x: number, y: number): string {
  let path = "";
  for (let d = HATCH; d < 2 * SIDE; d += HATCH) {
    const from = [Math.max(0, d - SIDE), Math.min(d, SIDE)];
    const to = [Math.min(d, SIDE), Math.max(0, d - SIDE)];
    path += `M${x + from[0]} ${y + from[1]}L${x + to[0]} ${y + to[1]}`;
  }
  return path;
}

/** A piece, by the letter of a FEN, on a square whose corner is at (x, y). */
export function pieceAt(letter: string, x: number, y: number): string {
  const figurine = FIGURINES[letter.toUpperCase()];
  if (!figurine) return "";
  const white = letter === letter.toUpperCase();
  const [fill, stroke, width] = white ? ["#fff", "#000", 3] : ["#000", "#fff", 2.6];
  return (
    `<g transform="translate(${x} ${y})"><path d="M24 84H76V96H24Z" fill="#fff" stroke="none"/>` +
    `<path d="${figurine.body}" fill="#fff" stroke="#fff" stroke-width="10"/>` +
    `<path d="${figurine.body}" fill="${fill}" stroke="#000" stroke-width="4"/>` +
    `<path d="${figurine.lines}" fill="none" stroke="${stroke}" stroke-width="${width}"/></g>`
  );
}

function markAt({ verdict, text, best, ring, shade }: Mark, x: number, y: number): string {
  const [cx, cy] = [x + SIDE / 2, y + SIDE / 2];
  if (verdict !== undefined && text !== undefined) {
    const disc = best ? `<circle cx="${cx}" cy="${cy}" r="20" fill="#000"/>` : "";
    return (
      `<circle cx="${cx}" cy="${cy}" r="34" fill="#fff" stroke="${COLOURS[verdict]}" stroke-width="${verdict === "drawn" ? 8 : 3}"/>` +
      (text === ""
        ? disc
        : `<text x="${cx}" y="${cy + 12}" font-size="36" text-anchor="middle"${best ? ' font-weight="bold"' : ""}>${escapeXml(text)}</text>`)
    );
  }
  if (ring) {
    return (
      `<circle cx="${cx}" cy="${cy}" r="43" fill="none" stroke="#fff" stroke-width="13"/>` +
      `<circle cx="${cx}" cy="${cy}" r="43" fill="none" stroke="#000" stroke-width="6"/>`
    );
  }
  if (shade !== undefined) {
    const grey = Math.round(255 - 130 * Math.min(1, Math.max(0, shade)));
    return (
      `<rect x="${x}" y="${y}" width="${SIDE}" height="${SIDE}" fill="rgb(${grey},${grey},${grey})" stroke="#000" stroke-width="1"/>` +
      `<text x="${cx}" y="${cy + 11}" font-size="32" text-anchor="middle">${escapeXml(text ?? "")}</text>`
    );
  }
  if (verdict === undefined) {
    const size = Math.min(34, 150 / Math.max(4, text?.length ?? 0));
    return (
      `<rect x="${x + 6}" y="${cy - 24}" width="${SIDE - 12}" height="48" fill="#fff"/>` +
      `<text x="${cx}" y="${cy + size / 3}" font-size="${size}" text-anchor="middle">${escapeXml(text ?? "")}</text>`
    );
  }
  const colour = COLOURS[verdict];
  const bar = (dy: number) => `M${cx - 15} ${cy + dy}H${cx + 15}`;
  const sign =
    verdict === "won"
      ? `${bar(0)}M${cx} ${cy - 15}V${cy + 15}`
      : verdict === "drawn"
        ? bar(-7) + bar(7)
        : bar(0);
  return (
    `<circle cx="${cx}" cy="${cy}" r="30" fill="#fff" stroke="${colour}" stroke-width="5"/>` +
    `<path d="${sign}" stroke="${colour}" stroke-width="7" fill="none"/>`
  );
}

/** An arrow from the middle of a square to that of another, black with a white edge, so that it shows on both. */
function arrowPath([x1, y1]: readonly [number, number], [x2, y2]: readonly [number, number]): string {
  const half = SIDE / 2;
  const length = Math.hypot(x2 - x1, y2 - y1);
  if (length === 0) return "";
  const [ux, uy] = [(x2 - x1) / length, (y2 - y1) / length];
  const at = (along: number, across: number) =>
    `${(x1 + half + ux * along - uy * across).toFixed(1)} ${(y1 + half + uy * along + ux * across).toFixed(1)}`;
  const [start, head, tip] = [22, length - 40, length - 4];
  const path = `M${at(start, -7)}L${at(head, -7)}L${at(head, -23)}L${at(tip, 0)}L${at(head, 23)}L${at(head, 7)}L${at(start, 7)}Z`;
  return `<path d="${path}" fill="#000" stroke="#fff" stroke-width="5" paint-order="stroke"/>`;
}

/** Width and height of a diagram in its own units, for placing several beside each other. */
export function diagramSize({ caption = [], coordinates = true, turn = false }: Diagram): {
  width: number;
  height: number;
} {
  return {
    width: 8 * SIDE + 2 * FRAME + (coordinates ? MARGIN : 0) + (turn ? 62 : 0),
    height: 8 * SIDE + 2 * FRAME + (coordinates ? 56 : 0) + caption.length * 52,
  };
}

/** The corner of a square in the drawing. */
type Place = (square: Square) => readonly [number, number];

const BOARD = 8 * SIDE;

const textAt = (x: number, y: number, anchor: string, text: string, size = 42) =>
  `<text x="${x}" y="${y}" font-size="${size}" text-anchor="${anchor}">${escapeXml(text)}</text>`;

/** The empty board with its frame, its corner at (left, top). */
function emptyBoard(place: Place, left: number, top: number, id: string, bare = false): string[] {
  let dark = "";
  let hatch = "";
  for (let square = 0; square < 64; ++square) {
    if (((square & 7) + (square >> 3)) % 2 === 1) continue;
    const [x, y] = place(square);
    dark += `M${x} ${y}h${SIDE}v${SIDE}h-${SIDE}z`;
    hatch += hatching(x, y);
  }
  return [
    `<rect x="${left - 14}" y="${top - 14}" width="${BOARD + 28}" height="${BOARD + 28}" fill="#fff"/>`,
    `<clipPath id="${id}"><path d="${dark}"/></clipPath>`,
    bare ? "" : `<path d="${hatch}" clip-path="url(#${id})" stroke="#000" stroke-width="1.8" fill="none"/>`,
    `<rect x="${left - 1.5}" y="${top - 1.5}" width="${BOARD + 3}" height="${BOARD + 3}" fill="none" stroke="#000" stroke-width="3"/>`,
    `<rect x="${left - 12}" y="${top - 12}" width="${BOARD + 24}" height="${BOARD + 24}" fill="none" stroke="#000" stroke-width="7"/>`,
  ];
}

/** Letters below the board and figures at its left. */
const coordinatesText = (place: Place, left: number, top: number): string[] =>
  Array.from({ length: 8 }, (_, n) => [
    textAt(place(n)[0] + SIDE / 2, top + BOARD + 58, "middle", "abcdefgh"[n]),
    textAt(left - 30, place(8 * n)[1] + SIDE / 2 + 14, "end", String(n + 1)),
  ]).flat();

/** The drawing itself, without the root element, its corner at the origin. */
export function diagramBody(diagram: Diagram, id: string): string {
  const { fen, below = "white", marks, framed, arrows = [], caption = [], coordinates = true } = diagram;
  const left = FRAME + (coordinates ? MARGIN : 0);
  const top = FRAME;
  const place: Place = (square) => {
    const [f, r] = [square & 7, square >> 3];
    return below === "white"
      ? [left + f * SIDE, top + (7 - r) * SIDE]
      : [left + (7 - f) * SIDE, top + r * SIDE];
  };
  const parts = emptyBoard(place, left, top, id, diagram.bare);
  if (coordinates) parts.push(...coordinatesText(place, left, top));
  for (const [square, mark] of marks ?? []) parts.push(markAt(mark, ...place(square)));
  for (const [square, letter] of piecesOn(fen)) parts.push(pieceAt(letter, ...place(square)));
  if (framed !== undefined) {
    const [x, y] = place(framed);
    parts.push(
      `<rect x="${x + 5}" y="${y + 5}" width="${SIDE - 10}" height="${SIDE - 10}" fill="none" stroke="#000" stroke-width="5" stroke-dasharray="14 8"/>`,
    );
  }
  for (const { from, to } of arrows) parts.push(arrowPath(place(from), place(to)));
  if (diagram.turn) {
    const white = fenFields(fen).turn === "white";
    const y = white === (below === "white") ? top + BOARD - 26 : top + 26;
    parts.push(
      `<circle cx="${left + BOARD + 48}" cy="${y}" r="20" fill="${white ? "#fff" : "#000"}" stroke="#000" stroke-width="5"/>`,
    );
  }
  const firstLine = top + BOARD + (coordinates ? 112 : 64);
  caption.forEach((line, n) => {
    const size = Math.min(40, (1.9 * BOARD) / Math.max(20, line.length));
    parts.push(textAt(left + BOARD / 2, firstLine + n * 52, "middle", line, size));
  });
  return `<g stroke-linejoin="round" stroke-linecap="round" font-family="Georgia, 'Times New Roman', serif">${parts.join("")}</g>`;
}

/** Numbers of the drawings made, since several on one page must not share names. */
let drawings = 0;

/** SVG of several diagrams beside each other, in rows of `columns`. */
export function diagramsSvg(
  diagrams: readonly Diagram[],
  columns: number,
  title: string,
  id = `d${drawings++}`,
): string {
  const sizes = diagrams.map(diagramSize);
  const cell = {
    width: Math.max(...sizes.map(({ width }) => width)) + 30,
    height: Math.max(...sizes.map(({ height }) => height)) + 30,
  };
  const rows = Math.ceil(diagrams.length / columns);
  const [width, height] = [cell.width * Math.min(columns, diagrams.length), cell.height * rows];
  const described = diagrams.map(
    ({ description, fen, caption = [] }) => description ?? [...caption, boardInWords(fen)].join(". "),
  );
  // a board by itself says its position to programs; a map, on which a piece stands in many places, has none
  const data =
    diagrams.length === 1 && diagrams[0].framed === undefined
      ? ` data-fen="${escapeXml(diagrams[0].fen)}"`
      : "";
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${Math.round(width / 2)}" height="${Math.round(height / 2)}" role="img" aria-labelledby="${id}-title ${id}-desc"${data}>` +
    `<title id="${id}-title">${escapeXml(title)}</title><desc id="${id}-desc">${escapeXml(described.join(" "))}</desc>` +
    `<rect width="${width}" height="${height}" fill="#fff"/>` +
    diagrams
      .map(
        (diagram, n) =>
          `<g transform="translate(${(n % columns) * cell.width + 15} ${Math.floor(n / columns) * cell.height + 15})">${diagramBody(diagram, `${id}-dark${n}`)}</g>`,
      )
      .join("") +
    "</svg>\n"
  );
}

// Drawings of results: a map, a strip of slides; and the words on them, which the terminal uses as well.

import { boardOf, fenFields, fenOf, piecesOn } from "../chess/fen-text.js";
import { squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { VERDICTS, type VerdictCounts } from "../chess/verdict.js";
import type { CountMap, VerdictMap } from "../position/map.js";
import { type Slid, type Slides, alongEdge } from "../position/slide.js";
import { counted, valueInWords } from "../position/wording.js";
import type { Value } from "../tablebase/tables.js";
import { type Mark, diagramsSvg } from "./diagram.js";

/** The sides to move, with the field that holds the value of each. */
export const TURNS = [
  { turn: "attackerToMove", side: "attacker" },
  { turn: "defenderToMove", side: "defender" },
] as const;

/** "won/drawn" (and lost, where there is any) of a square. */
export const countsText = (counts: VerdictCounts, lost: boolean): string =>
  [counts.won, counts.drawn, ...(lost ? [counts.lost] : [])].join("/");

/** "the rook (e2) elsewhere, attacker to move". */
export function mapTitle(map: VerdictMap | CountMap): string {
  const pieces = "piece" in map ? [map.piece] : map.pieces;
  const names = pieces.map(({ name, square }) => `the ${name} (${squareName(square)})`).join(" and ");
  return `${names} elsewhere, ${map.attackerToMove ? "attacker" : "defender"} to move`;
}

/** A FEN with some squares emptied, for drawing. */
export function withoutPieces(fen: string, squares: readonly Square[]): string {
  const pieces = piecesOn(fen);
  for (const square of squares) pieces.delete(square);
  return fenOf({ ...fenFields(fen), board: boardOf(pieces) });
}

/** A map as SVG. */
export function mapSvg(map: VerdictMap | CountMap): string {
  const pieces = "piece" in map ? [map.piece] : map.pieces;
  const marks = new Map<Square, Mark>();
  const lost = map.counts.lost > 0;
  for (const one of map.squares) {
    if ("value" in one && one.value) marks.set(one.square, { verdict: one.value.verdict });
    if ("counts" in one && one.counts) marks.set(one.square, { text: countsText(one.counts, lost) });
  }
  const title = mapTitle(map);
  const told = VERDICTS.map((verdict) => `${verdict} on ${map.counts[verdict]}`).join(", ");
  const fen = withoutPieces(
    map.fen,
    pieces.map(({ square }) => square),
  );
  return diagramsSvg(
    [{ fen, marks, framed: pieces[0].square, caption: [title], description: `${title}: ${told}.` }],
    1,
    title,
  );
}

/** "2 files left", "1 rank up", "as given". */
export const slideText = ({ files, ranks }: Slid): string => {
  const part = (n: number, noun: string, ways: readonly [string, string]) =>
    n === 0 ? [] : [`${counted(Math.abs(n), noun)} ${n > 0 ? ways[1] : ways[0]}`];
  const parts = [...part(files, "file", ["left", "right"]), ...part(ranks, "rank", ["down", "up"])];
  return parts.join(", ") || "as given";
};

/** The slides along the edge that the defender's king is held at. */
export const edgeStrip = (found: Slides): Slid[] => {
  const along = alongEdge(found.fen);
  return found.slides
    .filter((slid) => slid[along === "files" ? "ranks" : "files"] === 0)
    .sort((a, b) => a[along] - b[along]);
};

const slideValue = (value: Value | null) => (value === null ? "not legal" : valueInWords(value));

/** The strip of slides as SVG. */
export function slidesSvg(found: Slides): string {
  const drawn = edgeStrip(found).map((slid) => ({
    fen: slid.fen,
    caption: [
      slideText(slid),
      ...TURNS.map(({ turn, side }) => `${side} to move: ${slideValue(slid[turn])}`),
    ],
  }));
  return diagramsSvg(drawn, Math.min(4, drawn.length), "A formation moved along the edge");
}

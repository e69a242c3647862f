// Blocks that draw: a board, a map.

import type { Color } from "chessops";
import { renderToString } from "preact-render-to-string";

import { Mapper } from "../../position/map.js";
import { diagramsSvg, readArrows, readRings } from "../diagram.js";
import { mapSvg } from "../drawings.js";
import { Figure } from "../printed-page.js";
import { endingAt } from "./game-blocks.js";
import { type LessonMeans, badBlock, needed } from "./means.js";
import type { Block } from "./outline.js";

/** The position that a block names by its FEN, or by an ending and a ply. */
function fenOf(means: LessonMeans, block: Block): string {
  if (block.values.ending === undefined) return needed(block, "fen");
  const { full, ply } = endingAt(means, block);
  return full.positions.find((one) => one.ply === ply)!.fen;
}

export function boardBlock(means: LessonMeans, block: Block): string {
  const { below, arrows, rings, caption } = block.values;
  if (below !== undefined && below !== "white" && below !== "black")
    throw badBlock(block, `"below" is white or black`);
  const fen = fenOf(means, block);
  // refuses what is not a position of the tables
  means.prober.probe(fen);
  const diagram = {
    fen,
    turn: true,
    below: below as Color | undefined,
    arrows: arrows === undefined ? [] : readArrows(arrows),
    marks: rings === undefined ? undefined : readRings(rings),
  };
  return renderToString(
    <Figure name="board" svg={diagramsSvg([diagram], 1, caption ?? "A position")}>
      {caption}
    </Figure>,
  );
}

export function mapBlock({ prober }: LessonMeans, block: Block): string {
  const mapper = new Mapper(needed(block, "fen"), prober);
  const pieces = mapper.pieces((block.values.piece ?? "defender's rook").split(","));
  const map = pieces.length === 1 ? mapper.map(pieces[0]) : mapper.count(pieces[0], pieces[1]);
  const { won, drawn, lost } = map.counts;
  return renderToString(
    <Figure name="board" svg={mapSvg(map)}>
      Plus: won for the attacker ({won}); two bars: drawn ({drawn}){lost > 0 && <>; one bar: lost ({lost})</>}
      . The frame marks where it stands.
    </Figure>,
  );
}

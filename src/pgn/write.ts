// Writing games as PGN (S. J. Edwards, PGN Specification and Implementation Guide, 1994, export format), with
// comments and annotation glyphs where the caller wants them.

import { Chess } from "chessops/chess";
import { INITIAL_FEN, parseFen } from "chessops/fen";
import { makeSanAndPlay } from "chessops/san";
import { parseUci } from "chessops/util";

import type { Ply } from "../chess/units.js";

export interface Annotation {
  /** Numeric annotation glyphs after the move: 2 poor, 4 very poor, 10 drawish, 18 and 19 decisive … */
  readonly glyphs?: readonly number[];
  readonly comment?: string;
}

export interface WrittenGame {
  readonly tags: readonly (readonly [name: string, value: string])[];
  /** FEN, null for the usual start. */
  readonly start: string | null;
  /** In coordinates. */
  readonly moves: readonly string[];
  readonly result: string;
  /** By the ply of the position whose move they stand behind. */
  readonly annotations: ReadonlyMap<Ply, Annotation>;
}

const WIDTH = 79;

const quoted = (value: string) => `"${value.replace(/(["\\])/g, "\\$1")}"`;
/** A comment may not hold the brace that ends it. */
const braced = (comment: string) => `{${comment.replaceAll("}", ")")}}`;

/** One game in PGN, ending with a blank line. */
export function writeGame(game: WrittenGame): string {
  const position = Chess.fromSetup(parseFen(game.start ?? INITIAL_FEN).unwrap()).unwrap();
  const words: string[] = [];
  let afterComment = true;
  game.moves.forEach((uci, ply) => {
    const number = position.fullmoves;
    const white = position.turn === "white";
    if (white) words.push(`${number}.`);
    else if (afterComment) words.push(`${number}...`);
    words.push(makeSanAndPlay(position, parseUci(uci)!));
    const { glyphs = [], comment } = game.annotations.get(ply) ?? {};
    words.push(...glyphs.map((glyph) => `$${glyph}`));
    if (comment) words.push(...braced(comment).split(" "));
    afterComment = comment !== undefined;
  });
  words.push(game.result);
  const lines: string[] = [];
  let line = "";
  for (const word of words) {
    if (line && line.length + 1 + word.length > WIDTH) {
      lines.push(line);
      line = word;
    } else {
      line = line ? `${line} ${word}` : word;
    }
  }
  lines.push(line);
  const start =
    game.start === null
      ? []
      : ([
          ["SetUp", "1"],
          ["FEN", game.start],
        ] as const);
  const tags = [...game.tags, ...start].map(([name, value]) => `[${name} ${quoted(value)}]`);
  return `${tags.join("\n")}\n\n${lines.join("\n")}\n\n`;
}

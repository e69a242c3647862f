// Writing games as PGN (S. J. Edwards, PGN Specification and Implementation Guide, 1994, export format), with
// comments and annotation glyphs where the caller wants them.

import { Chess } from "chessops/chess";
import { INITIAL_FEN, parseFen } from "chessops/fen";
import { makeSanAndPlay, parseSan } from "chessops/san";
import { parseUci } from "chessops/util";

import type { Ply } from "../../chess/units.js";
import { plainLine } from "../../plain-text.js";

export interface Annotation {
  /** Numeric annotation glyphs after the move: 2 poor, 4 very poor, 10 drawish, 18 and 19 decisive … */
  readonly glyphs?: readonly number[];
  readonly comment?: string;
  /** What could have been played instead of the move, in SAN, each with what is to be said of it. */
  readonly instead?: readonly { readonly moves: readonly string[]; readonly comment: string }[];
}

export interface WrittenGame {
  readonly tags: readonly (readonly [name: string, value: string])[];
  /** FEN, null for the usual start. */
  readonly start: string | null;
  /** In coordinates. */
  readonly moves: readonly string[];
  readonly result: string;
  /** By the ply of the position whose move they follow. */
  readonly annotations: ReadonlyMap<Ply, Annotation>;
  /** Before the first move. */
  readonly comment?: string;
}

/** A position as a game without moves, in a collection of that name; the parts that are not known are "?". */
export const positionAsGame = (
  start: string,
  { title, round, comment, white = "?" }: { title: string; round: number; comment: string; white?: string },
): WrittenGame => ({
  tags: [
    ["Event", title],
    ["Site", "?"],
    ["Date", "????.??.??"],
    ["Round", String(round)],
    ["White", white],
    ["Black", "?"],
    ["Result", "*"],
  ],
  start,
  moves: [],
  result: "*",
  annotations: new Map(),
  comment,
});

const WIDTH = 79;

const quoted = (value: string) => `"${plainLine(value).replace(/(["\\])/g, "\\$1")}"`;
/** A comment may not hold the brace that ends it. */
const braced = (comment: string) => `{${plainLine(comment).replaceAll("}", ")")}}`;

/** The number before a move, where there is one. */
function moveNumber({ fullmoves, turn }: Chess, afterComment: boolean): string[] {
  if (turn === "white") return [`${fullmoves}.`];
  return afterComment ? [`${fullmoves}...`] : [];
}

/** A variation in brackets, with a comment at its end. */
function sideLine(start: Chess, moves: readonly string[], comment: string): string[] {
  const position = start.clone();
  const tokens = moves.flatMap((san, n) => {
    const number = moveNumber(position, n === 0);
    position.play(parseSan(position, san)!);
    return [...number, san];
  });
  const all = [...tokens, ...braced(comment).split(" ")];
  all[0] = `(${all[0]}`;
  all[all.length - 1] += ")";
  return all;
}

/** One game in PGN, ending with a blank line. */
export function writeGame(game: WrittenGame): string {
  const position = Chess.fromSetup(parseFen(game.start ?? INITIAL_FEN).unwrap()).unwrap();
  const tokens: string[] = game.comment ? braced(game.comment).split(" ") : [];
  let afterComment = true;
  game.moves.forEach((uci, ply) => {
    const before = position.clone();
    tokens.push(...moveNumber(position, afterComment));
    tokens.push(makeSanAndPlay(position, parseUci(uci)!));
    const { glyphs = [], comment, instead = [] } = game.annotations.get(ply) ?? {};
    tokens.push(...glyphs.map((glyph) => `$${glyph}`));
    if (comment) tokens.push(...braced(comment).split(" "));
    for (const line of instead) tokens.push(...sideLine(before, line.moves, line.comment));
    afterComment = comment !== undefined || instead.length > 0;
  });
  tokens.push(game.result);
  const lines: string[] = [];
  let line = "";
  for (const token of tokens) {
    if (line && line.length + 1 + token.length > WIDTH) {
      lines.push(line);
      line = token;
    } else {
      line = line ? `${line} ${token}` : token;
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

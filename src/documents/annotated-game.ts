// An ending as an annotated game: what each move did to the verdict, as comments and glyphs.

import type { Annotation, WrittenGame } from "../pgn/game/write.js";
import type { Verdict } from "../tablebase/tables.js";
import type { Ply } from "../chess/units.js";
import type { EndingAnswer, PositionAnswer } from "../query/engine/rows.js";
import type { FullEnding } from "../query/engine/show.js";

/** Glyphs of the PGN standard: 10 drawish, 18 White and 19 Black has a decisive advantage. */
function verdictGlyph(verdict: Verdict, attackerIsWhite: boolean): number {
  if (verdict === "drawn") return 10;
  return (verdict === "won") === attackerIsWhite ? 18 : 19;
}

/** "84" for White's 84th move, "84..." for Black's, of a game from the usual start. */
export const moveNumber = (fen: string): string => {
  const [, turn, , , , number] = fen.split(" ");
  return turn === "w" ? `${number}.` : `${number}...`;
};

/** Numbers of moves from plies, by the position to look at: right for games from a FEN as well. */
export function moveOf({ look }: Pick<EndingAnswer, "look">): (ply: Ply) => number {
  const [, turn, , , , number] = look.fen.split(" ");
  const whitePly = turn === "w" ? look.ply : look.ply - 1;
  return (ply) => Number(number) + Math.floor((ply - whitePly) / 2);
}

/** "Adler v Brandt". */
export const namesText = ({
  white,
  black,
}: {
  readonly white: string | null;
  readonly black: string | null;
}): string => `${white ?? "?"} v ${black ?? "?"}`;

/** How an ending came to its end: "agreed", or "capture of the defender's rook". */
export const endedInWords = ({ endedBy, captured }: Pick<EndingAnswer, "endedBy" | "captured">): string =>
  captured === null ? endedBy : `capture of the ${captured}`;

/** "Adler v Brandt", with ratings where known. */
export function playersText(game: {
  readonly white: string | null;
  readonly black: string | null;
  readonly whiteRating: number | null;
  readonly blackRating: number | null;
}): string {
  const one = (name: string | null, rating: number | null) =>
    (name ?? "?") + (rating === null ? "" : ` (${rating})`);
  return `${one(game.white, game.whiteRating)} v ${one(game.black, game.blackRating)}`;
}

/** "won, mate in 19": a value in words. */
export function valueInWords({ verdict, dtm }: { verdict: Verdict | null; dtm: number | null }): string {
  if (verdict === null) return "outside the tables";
  if (verdict === "drawn") return "drawn";
  if (dtm === 0) return `${verdict}, checkmate`;
  return verdict === "won" ? `won, mate in ${dtm}` : `lost, mated in ${dtm}`;
}

/** What a move threw away, in words; undefined for a move that kept the verdict. */
export function errorInWords(at: PositionAnswer, next: PositionAnswer | undefined): string | undefined {
  if (at.error === null || at.error === "none") return undefined;
  const size = at.error === "half" ? "half a point" : "a full point";
  const kept = at.keeping === 1 ? "only one move kept it" : `${at.keeping} of ${at.legal} moves kept it`;
  const now = next ? `; now ${valueInWords(next)}` : "";
  return `${at.verdict} before: the ${at.sideToMove} gives away ${size}${now}; ${kept}`;
}

/** The game of an ending with the verdict's changes as comments and glyphs. */
export function annotatedGame({ ending, positions, game }: FullEnding): WrittenGame {
  const white = ending.attacker === "white";
  const annotations = new Map<number, Annotation>();
  positions.forEach((at, n) => {
    const error = errorInWords(at, positions[n + 1]);
    if (!error) return;
    const glyphs = [at.error === "full" ? 4 : 2];
    const next = positions[n + 1]?.verdict;
    if (next) glyphs.push(verdictGlyph(next, white));
    annotations.set(at.ply, { glyphs, comment: error });
  });
  const first = positions[0];
  const before = first.ply - 1;
  if (before >= 0 && first.verdict && !annotations.has(before)) {
    const attacker = white ? "White" : "Black";
    annotations.set(before, {
      glyphs: [verdictGlyph(first.verdict, white)],
      comment: `the ending begins, ${attacker} attacks: ${valueInWords(first)}`,
    });
  }
  const tags: [string, string][] = [
    ["Event", game.event ?? "?"],
    ["Site", game.site ?? "?"],
    ["Date", game.date ?? "????.??.??"],
    ["Round", game.round ?? "?"],
    ["White", game.white ?? "?"],
    ["Black", game.black ?? "?"],
    ["Result", game.result],
  ];
  if (game.whiteRating !== null) tags.push(["WhiteElo", String(game.whiteRating)]);
  if (game.blackRating !== null) tags.push(["BlackElo", String(game.blackRating)]);
  if (game.fischerRandom) tags.push(["Variant", "fischerandom"]);
  return {
    tags,
    start: game.start,
    moves: game.moves === "" ? [] : game.moves.split(" "),
    result: game.result,
    annotations,
  };
}

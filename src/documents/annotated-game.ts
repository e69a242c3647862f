// An ending as an annotated game: what each move did to the verdict, as comments and glyphs.

import type { Verdict } from "../chess/verdict.js";
import type { Annotation, WrittenGame } from "../pgn/game/write.js";
import { errorInWords, valueInWords } from "../position/wording.js";
import type { FullEnding } from "../query/engine/show.js";

/** Glyphs of the PGN standard: 2 poor, 4 very poor, 6 questionable move; 10 drawish, 18 White and 19 Black has a decisive advantage. */
function verdictGlyph(verdict: Verdict, attackerIsWhite: boolean): number {
  if (verdict === "drawn") return 10;
  return (verdict === "won") === attackerIsWhite ? 18 : 19;
}

/** The game of an ending with the verdict's changes as comments and glyphs. */
export function annotatedGame({ ending, positions, game }: FullEnding): WrittenGame {
  const white = ending.attacker === "white";
  const annotations = new Map<number, Annotation>();
  positions.forEach((at, n) => {
    const error = errorInWords(at, positions[n + 1]);
    if (!error) return;
    const glyphs = [at.error === "full" ? 4 : at.error === "half" ? 2 : 6];
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

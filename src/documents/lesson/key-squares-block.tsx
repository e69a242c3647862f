// The block of key squares: maps of one man with the distances to mate for both sides to move, the best square marked. Where
// every square gives the same, another man is taken, since such a map teaches nothing.

import { renderToString } from "preact-render-to-string";

import { otherTurn } from "../../chess/fen-text.js";
import { placementFen, placementOf, readFen } from "../../chess/fen.js";
import { squareName } from "../../chess/squares.js";
import type { Square } from "../../chess/units.js";
import { Mapper, type VerdictMap } from "../../position/map.js";
import type { Prober } from "../../position/probe.js";
import { capital, counted } from "../../position/wording.js";
import { type Mark, diagramsSvg } from "../diagram.js";
import { withoutPieces } from "../drawings.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, badBlock, needed } from "./means.js";
import type { Block } from "./outline.js";
import { listed } from "./sentences.js";
import { isLegal, uprightFen } from "./upright.js";

/** Men by what their maps usually teach, the most first. */
const MEN = ["rook", "king", "bishop", "attacker's king", "attacker's rook"] as const;

/** A map that has more than one verdict on it. */
const teaches = ({ counts }: VerdictMap) =>
  [counts.won, counts.drawn, counts.lost].filter((n) => n > 2).length > 1;

/** The FEN with the man on another square. */
function movedTo(map: VerdictMap, square: Square): string {
  const { material, attacker, squares, attackerToMove } = placementOf(readFen(map.fen));
  const moved = squares.map((one, n) => (n === map.piece.index ? square : one));
  return placementFen({ squares: moved, attackerToMove }, material, attacker);
}

const isAttackers = ({ piece }: VerdictMap) => piece.name.startsWith("attacker's") || piece.name === "bishop";

/**
 * The best square of a man: of the attacker's the one that mates soonest, of the defender's the one from which most replies
 * to every move hold; where none holds, the one that lasts longest.
 */
function bestSquare(map: VerdictMap, prober: Prober): Square | undefined {
  const attackers = isAttackers(map);
  let best: { square: Square; worth: number } | undefined;
  for (const { square, value } of map.squares) {
    if (!value) continue;
    const { verdict, dtm } = value;
    const drawn = verdict === "drawn" ? 1000 + easeOf(movedTo(map, square), prober) : (dtm ?? 0);
    const worth = attackers ? (verdict === "won" ? 1000 - dtm! : 0) : verdict === "lost" ? 2000 : drawn;
    if (!best || worth > best.worth) best = { square, worth };
  }
  return best?.square;
}

/** Share of the defender's replies that hold: the least over the attacker's moves, then their mean. */
function easeOf(fen: string, prober: Prober): number {
  const position = readFen(fen);
  const { placed, moves } = prober.values(position);
  const share = (at: ReturnType<typeof readFen>) => {
    const { moves: replies } = prober.values(at);
    return replies.length === 0
      ? 1
      : replies.filter(({ verdict }) => verdict !== "won").length / replies.length;
  };
  if (!placed.attackerToMove) return share(position);
  const shares = moves
    .filter(({ to }) => !position.board.occupied.has(to))
    .map(({ from, to }) => {
      const after = position.clone();
      after.play({ from, to });
      return share(after);
    });
  return shares.length === 0
    ? 1
    : Math.min(...shares) + shares.reduce((a, b) => a + b) / (100 * shares.length);
}

/** One map as a figure: rings with the moves to mate, empty ones for a draw, a disc in the best. */
function MapFigure({ map, prober }: { map: VerdictMap; prober: Prober }) {
  const best = bestSquare(map, prober);
  const marks = new Map<Square, Mark>();
  for (const { square, value } of map.squares)
    if (value)
      marks.set(square, {
        verdict: value.verdict,
        text: value.verdict === "drawn" ? "" : String(value.dtm),
        best: square === best ? true : undefined,
      });
  const { won, drawn, lost } = map.counts;
  const side = map.attackerToMove ? "White" : "Black";
  const parts = [
    won > 0 ? `${won} won` : null,
    drawn > 0 ? `${drawn} drawn` : null,
    lost > 0 ? `${lost} won by Black` : null,
  ].filter((part) => part !== null);
  const fen = withoutPieces(map.fen, [map.piece.square]);
  const title = `${side} to move: ${listed(parts)} of ${counted(won + drawn + lost, "square")}`;
  const description = `${title}. The best square is ${best === undefined ? "none" : squareName(best)}.`;
  return (
    <Figure
      svg={diagramsSvg(
        [{ fen, marks, turn: true, bare: true, framed: map.piece.square, description }],
        1,
        title,
      )}
    >
      {title}.{" "}
      {best !== undefined &&
        `${won + lost > 0 && drawn === 0 && !isAttackers(map) ? "Lasts longest" : "Best"}: ${squareName(best)}.`}
    </Figure>
  );
}

/** How the legend calls a man. */
const manInWords = (name: string): string =>
  name.startsWith("attacker's")
    ? `White's ${name.slice("attacker's ".length)}`
    : name === "bishop"
      ? "White's bishop"
      : `Black's ${name}`;

export function keySquaresBlock({ prober }: LessonMeans, block: Block): string {
  const fens = [uprightFen(needed(block, "fen"))];
  const idle = otherTurn(fens[0]);
  if (isLegal(idle)) fens.push(idle);
  const mappers = fens.map((fen) => new Mapper(fen, prober));
  const asked = block.values.piece;
  const mapsOf = (man: string) => mappers.map((mapper) => mapper.map(mapper.pieces([man])[0]));
  const there = (man: string) => {
    try {
      return mapsOf(man);
    } catch {
      // a material without such a man
      return [];
    }
  };
  const all = asked === undefined ? MEN.map(there).filter((maps) => maps.length > 0) : [mapsOf(asked)];
  // that of a man nearer to the front of the list says more, even where with one side to move all is the same
  const maps = all.find((one) => one.some(teaches)) ?? all[0];
  if (!maps) throw badBlock(block, "there is no man to put on other squares");
  const shown = maps.filter(teaches);
  return renderToString(
    <>
      <p>
        {shown.length > 0 ? "" : "It is the same everywhere. "}
        {capital(manInWords(maps[0].piece.name))} on every square where it can stand. A number says in how
        many moves the mate comes; an empty ring is a draw, the disc in it marks the best square, and the
        broken frame where it stands now.
      </p>
      <div class="boards two">
        {maps.map((map) => (
          <MapFigure map={map} prober={prober} />
        ))}
      </div>
    </>,
  );
}

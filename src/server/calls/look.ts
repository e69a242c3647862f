// Calls that look: an ending ply by ply, a position, its maps and slides, drawings of it.

import type { Color } from "chessops";
import { makeFen } from "chessops/fen";
import { parseUci } from "chessops/util";

import { placementOf, readFen } from "../../chess/fen.js";
import { opponent } from "../../chess/fen-text.js";
import { squareName } from "../../chess/squares.js";
import { LongsideError } from "../../errors.js";
import { nearest, spoken } from "../../query/language/tokens.js";
import { moveNumber } from "../../chess/move-numbers.js";
import { playersText, placeText } from "../../pgn/game/players.js";
import { endedInWords, errorInWords, valueInWords } from "../../position/wording.js";
import { Mapper } from "../../position/map.js";
import { placementReader } from "../../position/probe.js";
import { identityOf } from "../../store/database.js";
import type { PositionAnswer } from "../../query/engine/rows.js";
import { readEnding } from "../../query/engine/show.js";
import { slides as slidesOf } from "../../position/slide.js";
import { diagramsSvg } from "../../documents/diagram.js";
import { edgeStrip, mapTitle, slideText } from "../../documents/drawings.js";
import { pngOf } from "../../documents/png.js";
import { topicOf } from "../../documents/lesson/topic.js";
import type { Input } from "../api.js";
import { withoutUploadsFolder } from "../uploads.js";
import { heldMoves } from "../../app/find.js";
import type { Workspace } from "../../app/workspace.js";

/** Names of the set-ups that a stored position fits. */
function setUpsAt(workspace: Workspace, { fen, verdict, dtm, dtc }: PositionAnswer): string[] {
  if (verdict === null) return [];
  const placed = placementOf(readFen(fen));
  const read = placementReader(workspace.prober.geometerFor(placed), placed, { verdict, dtm, dtc });
  return workspace.catalogue.naming(read, placed.material);
}

/** An ending from its first position to its last. Throws `no-such-ending`. */
export function ending(workspace: Workspace, { id }: Input<"ending">) {
  const db = workspace.db();
  const { ending: found, positions, game } = readEnding(db, id);
  return {
    games: identityOf(db, workspace.settings.db),
    id,
    players: playersText(game),
    where: placeText([game.event, game.site], game.date),
    result: game.result,
    attacker: found.attacker,
    outcome: found.outcome,
    endedBy: endedInWords(found),
    look: found.look.ply,
    file: withoutUploadsFolder(found.file),
    game: found.game,
    duplicateOf: found.duplicateOf && {
      ...found.duplicateOf,
      file: withoutUploadsFolder(found.duplicateOf.file),
    },
    positions: positions.map((at, n) => ({
      ply: at.ply,
      fen: at.fen,
      move: at.move,
      number: moveNumber(at.fen),
      verdict: at.verdict,
      dtm: at.dtm,
      value: valueInWords(at),
      error: at.error === "none" ? null : at.error,
      said: errorInWords(at, positions[n + 1]) ?? null,
      /** Moves that would have kept the verdict, where the one played did not. */
      held: heldMoves(workspace, at) ?? [],
      setUps: setUpsAt(workspace, at),
      clock: at.clock,
      beyondFifty: at.beyondFifty,
    })),
  };
}

/** Everything about one position, and the FEN after each move. Throws `bad-fen`, `outside-tables`, `tables-missing`. */
export function position(workspace: Workspace, { fen }: Input<"position">) {
  const probe = workspace.prober.probe(fen);
  const fenAfter = (uci: string) => {
    const after = readFen(fen);
    after.play(parseUci(uci)!);
    return makeFen(after.toSetup());
  };
  return {
    ...probe,
    value: valueInWords(probe),
    inCheck: readFen(fen).isCheck(),
    moves: probe.moves.map((move) => ({ ...move, value: valueInWords(move), fen: fenAfter(move.uci) })),
  };
}

/** What the position would be with one piece on each other square; `piece` is its square. */
export function map(workspace: Workspace, { fen, piece }: Input<"map">) {
  const mapper = new Mapper(fen, workspace.prober);
  const made = mapper.map(mapper.pieces([piece])[0]);
  return {
    title: mapTitle(made),
    piece: { name: made.piece.name, square: squareName(made.piece.square) },
    counts: made.counts,
    squares: made.squares.flatMap(({ square, value }) =>
      value ? [{ square: squareName(square), verdict: value.verdict, value: valueInWords(value) }] : [],
    ),
  };
}

/** The formation moved over the board as a whole. */
export function slides(workspace: Workspace, { fen }: Input<"slides">) {
  const found = slidesOf(fen, workspace.prober, workspace.catalogue);
  return {
    sideToMove: found.sideToMove,
    /** Along the edge that the defender's king is held at. */
    slides: edgeStrip(found).map((one) => ({
      ...one,
      title: slideText(one),
      attackerToMove: one.attackerToMove && {
        ...one.attackerToMove,
        value: valueInWords(one.attackerToMove),
      },
      defenderToMove: one.defenderToMove && {
        ...one.defenderToMove,
        value: valueInWords(one.defenderToMove),
      },
    })),
  };
}

/** Pixels of a drawing for each of its units. */
const PNG_WIDTH = 1000;

/** A diagram to take along. */
export function drawing(_workspace: Workspace, { fen, below, as }: Input<"drawing">) {
  readFen(fen);
  const svg = diagramsSvg([{ fen, below: below satisfies Color, turn: true }], 1, "A position");
  return as === "svg"
    ? { made: { name: "diagram.svg", type: "image/svg+xml", content: svg } }
    : {
        made: {
          name: "diagram.png",
          type: "image/png",
          content: Buffer.from(pngOf(svg, PNG_WIDTH)).toString("base64"),
        },
      };
}

/** A position that shows a set-up. */
export function example(workspace: Workspace, { setUp }: Input<"example">) {
  const { catalogue, prober } = workspace;
  const test = catalogue.known.get(spoken(setUp));
  const found = test && catalogue.named(test);
  if (!found) {
    const near = nearest(
      setUp,
      catalogue.setUps.map(({ name }) => name),
    );
    throw new LongsideError("bad-usage", {
      message: `there is no set-up ${setUp}`,
      hint: near ? `did you mean ${near}?` : "take one of the catalogue",
    });
  }
  const { fen } = topicOf(test, catalogue, prober, workspace.target());
  return {
    name: found.name,
    picture: found.picture,
    known: found.known,
    source: found.source,
    fen: fen ?? null,
    /** The defender's colour in it. */
    defender: fen === undefined ? null : opponent(placementOf(readFen(fen)).attacker),
  };
}

// The block of typical errors: which kinds of move go wrong, and examples with what would have held.

import { renderToString } from "preact-render-to-string";

import { Names } from "../names.js";
import { namesText } from "../../pgn/game/players.js";
import type { Prober } from "../../position/probe.js";
import { errorInWords } from "../../position/wording.js";
import { EVERYTHING, type Question } from "../../query/language/ast.js";
import { parseQuestion } from "../../query/language/parse.js";
import { readSplit } from "../../query/engine/splits.js";
import { errorsBy } from "../../statistics/errors.js";
import { Study } from "../../statistics/moves-made.js";
import { arrowBetween, diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { errorTable } from "../report/errors.js";
import { TableView } from "../tables.js";
import { endingsFor } from "./game-blocks.js";
import { type EndingAt, moveText } from "./game-story.js";
import { type LessonMeans, gamesFor, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";

/** A position in which a move gave the draw away. */
const MissedDraw = ({ full, ply, prober }: EndingAt & { prober: Prober }) => {
  const at = full.positions.findIndex((position) => position.ply === ply);
  const position = full.positions[at];
  const next = full.positions[at + 1];
  const { explanation } = prober.probe(position.fen);
  const game = namesText(full.game);
  const diagram = { fen: position.fen, turn: true, arrows: arrowBetween(position.fen, next?.fen) };
  return (
    <Figure svg={diagramsSvg([diagram], 1, game)}>
      <Names text={game} />: {moveText(position)}? {errorInWords(position, next)}.{" "}
      {explanation.keeping.join(", ")} {explanation.keeping.length === 1 ? "holds" : "hold"}.
    </Figure>
  );
};

export function errorsBlock(means: LessonMeans, block: Block): string {
  const { leaveOut, prober } = means;
  const db = gamesFor(means, block);
  const question = questionOf(means, block);
  const study = new Study(db, EVERYTHING, leaveOut);
  const all = study.ask(errorsBy(study, readSplit("kind", []), question))();
  const groups = all.filter(({ side, stood }) => side === "defender" && stood === "drawn");
  const missed: Question = {
    kind: "and",
    parts: [question, parseQuestion("to-move = defender and verdict = drawn and error != none")],
  };
  const examples = endingsFor(
    db,
    { kind: "scoped", quantifier: "somewhere", part: missed },
    wholeNumber(block, "size", 3),
    leaveOut,
  );
  return renderToString(
    <>
      {groups.length === 0 ? (
        <p class="note">No player in the database had something to lose there.</p>
      ) : (
        <TableView {...errorTable("errors", "kind of move", groups, "no move")} />
      )}
      <div class="boards">
        {examples.map((one) => (
          <MissedDraw {...one} prober={prober} />
        ))}
      </div>
    </>,
  );
}

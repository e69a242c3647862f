// The block that asks the whole table: how every position that fits a question comes out.

import { renderToString } from "preact-render-to-string";

import { totalOf } from "../../chess/verdict.js";
import { formatQuestion } from "../../query/language/ast.js";
import { aboutGames } from "../../query/engine/placement-conditions.js";
import { percentText } from "../../statistics/percent.js";
import { type Outcomes, survey } from "../../survey/survey.js";
import { TURNS } from "../drawings.js";
import { type TableColumn, TableView } from "../tables.js";
import { type LessonMeans, badBlock, questionOf } from "./means.js";
import type { Block } from "./outline.js";

const COLUMNS: readonly TableColumn[] = [
  { name: "side", head: "to move", kind: "text" },
  { name: "placements", head: "positions", kind: "count" },
  { name: "won", head: "won", kind: "count" },
  { name: "drawn", head: "not won", kind: "count" },
  { name: "mean", head: "mean win, moves", kind: "decimal" },
  { name: "longest", head: "longest", kind: "count" },
];

const cells = ({ counts, moves, longest }: Outcomes) => {
  const placements = totalOf(counts);
  return {
    placements,
    won: percentText(counts.won / placements),
    drawn: percentText((counts.drawn + counts.lost) / placements),
    mean: counts.won === 0 ? null : moves.won / counts.won,
    longest: counts.won === 0 ? null : longest.won,
  };
};

export async function surveyBlock(means: LessonMeans, block: Block): Promise<string> {
  const { target, threads, setUps } = means;
  const asked = questionOf(means, block);
  const foreign = aboutGames(asked);
  if (foreign)
    throw badBlock(block, `"${formatQuestion(foreign)}" is about games, and a survey is about placements`);
  const question = formatQuestion(asked);
  const by = block.values.by ?? null;
  const { groups, all } = await survey(target, { question, setUps, by }, threads);
  const rows = (by === null ? [all] : groups).flatMap((group) =>
    TURNS.map(({ turn, side }) => ({
      value: group.value === null ? "none" : String(group.value),
      side,
      ...cells(group[turn]),
    })).filter(({ placements }) => placements > 0),
  );
  return renderToString(
    <TableView
      id="survey"
      caption={`Every position that fits ${question}`}
      columns={by === null ? COLUMNS : [{ name: "value", head: by, kind: "text" }, ...COLUMNS]}
      rows={rows}
    />,
  );
}

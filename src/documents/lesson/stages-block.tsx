// The block of a win in stages: what the attacker forces one after another, each with its moves and a board.

import { renderToString } from "preact-render-to-string";

import { placementFen, readFen } from "../../chess/fen.js";
import { counted, numberWord, sentence } from "../../position/wording.js";
import { type Plan, planOf, stageInWords, stageLine } from "../../survey/plan.js";
import { Stages } from "../../survey/stages.js";
import { cacheFolder } from "../../places.js";
import { unpack } from "../../tablebase/tables.js";
import { diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { type LessonMeans, badBlock, placementsFor } from "./means.js";
import type { Block } from "./outline.js";
import { uprightFen } from "./upright.js";

/** The longest win that a student follows to its end, in moves to conversion. */
const LONGEST_FOLLOWED = 30;

/** The position that is to be won: the one given, or of those drawn for a question the one that takes longest. */
async function startOf(means: LessonMeans, block: Block): Promise<string | undefined> {
  if (block.values.fen !== undefined) return uprightFen(block.values.fen);
  if (block.values.question === undefined) throw badBlock(block, 'it needs a line "fen: …" or "question: …"');
  let hardest: { readonly fen: string; readonly moves: number } | undefined;
  for (const placement of await placementsFor(means, block)) {
    if (!placement.attackerToMove) continue;
    const { verdict, dtc } = unpack(means.tables.probe(placement.squares, true));
    if (verdict !== "won" || dtc! > LONGEST_FOLLOWED || dtc! <= (hardest?.moves ?? 0)) continue;
    hardest = { fen: placementFen(placement, means.target, "white"), moves: dtc! };
  }
  return hardest && uprightFen(hardest.fen);
}

/** Moves of a plan's own way to mate, where it is longer than the shortest; undefined too where it ends with a piece won. */
function matingLength({ dtm, stages }: Plan): number | undefined {
  const moves = stages.flatMap(({ line }) => line);
  const own = moves.filter(({ attacker }) => attacker).length;
  return moves.at(-1)?.san.endsWith("#") && own > dtm ? own : undefined;
}

export async function stagesBlock(means: LessonMeans, block: Block): Promise<string> {
  const fen = await startOf(means, block);
  if (fen === undefined) return "";
  const { target, catalogue, threads } = means;
  const stages = await Stages.of(target, catalogue, { folder: cacheFolder(), threads }, () => undefined);
  const plan = planOf(readFen(fen), means.prober, stages, catalogue);
  const longer = matingLength(plan);
  const begins = [fen, ...plan.stages.map((stage) => stage.fen)];
  const boards = [
    { fen, turn: true, title: "The start" },
    // mate, or a piece taken, needs no board
    ...plan.stages.slice(0, -1).map((stage, n) => ({
      fen: stage.fen,
      turn: true,
      title: `After stage ${n + 1}`,
    })),
  ];
  return renderToString(
    <>
      <p>
        From the start below, the shortest way to mate takes {counted(plan.dtm, "move")} against the best
        defence.{" "}
        {plan.stages.length === 1
          ? "No station on the way makes it easier: it is one stage."
          : `The way below comes in ${numberWord(plan.stages.length)} stages, which are easier to keep in mind${longer ? `, and mates in ${longer}` : ""}. Each stage is forced: the defender may lose sooner, but not later.`}{" "}
        A square behind a move marks the only one that wins.
      </p>
      <ol>
        {plan.stages.map((stage, n) => (
          <li>
            <b>{stageInWords(stage)}.</b> {sentence(stageLine(begins[n], stage.line))}
          </li>
        ))}
      </ol>
      <div class="boards">
        {boards.map(({ title, ...board }) => (
          <Figure svg={diagramsSvg([board], 1, title)}>{title}</Figure>
        ))}
      </div>
    </>,
  );
}

// The block of exercises: given positions, or as many as asked for that fit a question and a task.

import { type Candidate, candidatesFromTable, questionFor } from "../../exercises/candidates.js";
import type { Exercise } from "../../exercises/exercise.js";
import { ExerciseMaker } from "../../exercises/maker.js";
import { TASKS } from "../../exercises/tasks.js";
import { aboutGames } from "../../query/engine/placement-test.js";
import { type LessonMeans, badBlock, gamesFor, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";

export async function exercisesOf(means: LessonMeans, block: Block): Promise<readonly Exercise[]> {
  const { target, tables, prober, catalogue, db, leaveOut, setUps, threads, seed } = means;
  const { among, fens } = block.values;
  const task = TASKS.find(({ name }) => name === (block.values.task ?? "hold"))?.name;
  if (!task) throw badBlock(block, `a task is one of ${TASKS.map(({ name }) => name).join(", ")}`);
  if (among !== undefined && among !== "games" && among !== "table")
    throw badBlock(block, `"among" is games or table`);
  if (among === "games") gamesFor(means, block);
  const maker = new ExerciseMaker(target, tables, prober, catalogue, db, leaveOut);
  if (fens !== undefined) return maker.given(fens.split("\n").map((fen) => ({ fen }))).exercises;
  const question = questionFor(questionOf(means, block), task);
  const wanted = {
    task,
    answers: wholeNumber(block, "answers", 1),
    size: wholeNumber(block, "size", 9),
    seed: wholeNumber(block, "seed", seed, 2 ** 31),
  };
  const games: Candidate[] = db && among !== "table" ? maker.candidatesFromGames(question) : [];
  const chosen = maker.choose(games, wanted);
  // where nothing else is said the table makes up for what the games do not give
  if (chosen.length === wanted.size || among === "games" || aboutGames(question) !== undefined) return chosen;
  const drawn = await candidatesFromTable(target, question, wanted, { setUps, threads });
  return maker.choose([...games, ...drawn], wanted);
}

// Exercises as they are asked for: from games or from the whole table, or of positions that were collected.

import type { ExercisesAsked } from "../exercises/exercise.js";
import { ExerciseMaker } from "../exercises/maker.js";
import { type Assembled, assemble } from "../exercises/assemble.js";
import { exerciseQuestion } from "../exercises/candidates.js";
import type { Among, Task } from "../exercises/tasks.js";
import { type Question, formatQuestion } from "../query/language/ast.js";
import { titleOf } from "../query/language/catalogue.js";
import { EXCLUDED_BY_DEFAULT, type Exclusion } from "../store/exclusions.js";
import type { OnProgress, Workspace } from "./workspace.js";

export interface ExercisesWanted extends ExercisesAsked {
  readonly question: Question;
  readonly task: Task;
  /** Games where there are any, and the table for what they lack, where it is left out. */
  readonly among?: Among;
  readonly leaveOut?: readonly Exclusion[];
}

export interface ExerciseSet extends Assembled {
  readonly title: string;
  /** What the positions answer, in words: the question with the condition of the task. */
  readonly question: string;
}

/** Makes exercises of the target's positions; with what people did in them, where there is a database. */
export const exerciseMaker = (
  workspace: Workspace,
  leaveOut: readonly Exclusion[] = EXCLUDED_BY_DEFAULT,
): ExerciseMaker =>
  new ExerciseMaker(
    workspace.target(),
    workspace.tables(),
    workspace.prober,
    workspace.catalogue,
    workspace.dbIfAny(),
    leaveOut,
  );

/** Chooses exercises. Throws `bad-option` for a question that does not fit, `no-database`, `tables-missing`. */
export async function chooseExercises(
  workspace: Workspace,
  wanted: ExercisesWanted,
  onProgress: OnProgress,
): Promise<ExerciseSet> {
  const { task, among } = wanted;
  const hasGames = workspace.dbIfAny() !== undefined;
  const question = exerciseQuestion(wanted.question, task, among === "table" || !hasGames);
  if (among === "games") workspace.db();
  const target = workspace.target();
  await workspace.prepare([target]);
  const maker = exerciseMaker(workspace, wanted.leaveOut);
  const { setUps, threads } = workspace.settings;
  onProgress("choosing");
  const assembled = await assemble(
    { material: target, maker, hasGames, setUps, threads },
    question,
    wanted,
    among,
    () => onProgress("drawing positions from the whole table"),
  );
  return {
    title: titleOf(wanted.question, workspace.catalogue, target),
    question: formatQuestion(question),
    ...assembled,
  };
}

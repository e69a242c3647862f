// Exercises as they are asked for: from games or from the whole table, or of positions that were collected.

import { type Exercise, type ExercisesAsked } from "../exercises/exercise.js";
import { ExerciseMaker } from "../exercises/maker.js";
import { candidatesFromTable, exerciseQuestion } from "../exercises/candidates.js";
import type { Task } from "../exercises/tasks.js";
import { type Question, formatQuestion } from "../query/language/ast.js";
import { titleOf } from "../query/language/catalogue.js";
import { EXCLUDED_BY_DEFAULT, type Exclusion } from "../store/exclusions.js";
import type { OnProgress, Workspace } from "./workspace.js";

/** Where positions are taken from. */
export type Among = "games" | "table";

export interface ExercisesWanted extends ExercisesAsked {
  readonly question: Question;
  readonly task: Task;
  readonly among: Among;
  readonly leaveOut?: readonly Exclusion[];
}

export interface ExerciseSet {
  readonly title: string;
  /** What the positions answer, in words: the question with the condition of the task. */
  readonly question: string;
  /** Positions among which was chosen. */
  readonly candidates: number;
  readonly exercises: readonly Exercise[];
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
  const question = exerciseQuestion(wanted.question, task, among === "table");
  if (among === "games") workspace.db();
  const target = workspace.target();
  await workspace.prepare([target]);
  const maker = exerciseMaker(workspace, wanted.leaveOut);
  if (among === "table") onProgress("drawing positions from the whole table");
  const candidates =
    among === "games"
      ? maker.candidatesFromGames(question)
      : await candidatesFromTable(target, question, wanted, workspace.settings);
  onProgress("choosing");
  return {
    title: titleOf(wanted.question, workspace.catalogue, target),
    question: formatQuestion(question),
    candidates: candidates.length,
    exercises: maker.choose(candidates, wanted),
  };
}

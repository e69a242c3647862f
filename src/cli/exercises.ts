// `exercises`: positions whose answers are certain, from games or from the whole table.

import { type ExerciseSet, chooseExercises } from "../app/exercises.js";
import { exercisesEpd, exercisesPage, exercisesPgn, taskInWords } from "../documents/exercise-set.js";
import { today } from "../documents/printed-page.js";
import type { Exercise } from "../exercises/exercise.js";
import type { Command } from "./command.js";
import { typedCommand, writePage } from "./output.js";
import { counted } from "../position/wording.js";
import { note, noteProgress, printFile, print, printJson } from "./messages.js";
import { dim, paragraph, tableText } from "./terminal.js";

const USUAL_SIZE = 24;

const exercisesTable = (exercises: readonly Exercise[]): string =>
  tableText([
    { head: "no", cells: exercises.map(({ number }) => String(number)), right: true },
    { head: "grade", cells: exercises.map(({ grade }) => "*".repeat(grade ?? 0)), optional: 2 },
    { head: "task", cells: exercises.map(taskInWords), optional: 1 },
    { head: "position", cells: exercises.map(({ fen }) => fen.split(" ").slice(0, 2).join(" ")) },
    { head: "answer", cells: exercises.map(({ answers }) => answers.join(" ")), shrinksTo: 8 },
  ]);

/** Why there are fewer exercises than were wanted. */
function fewText({ candidates, exercises }: ExerciseSet, size: number, answers: number): string {
  if (candidates === 0) return "No position fits that.";
  const fit = `${candidates.toLocaleString("en")} ${candidates === 1 ? "position fits" : "positions fit"}`;
  const answered = answers === 1 ? "one answer" : `${answers} answers`;
  return `${counted(exercises.length, "exercise")} of ${size} wanted: ${fit}, and no more of them have ${answered} and are unlike the others.`;
}

export const run: Command = async (words, options, workspace) => {
  const { among = "games", answers = 1, size = USUAL_SIZE, leaveOut } = options;
  const question = workspace.question(words.join(" "));
  // positions of the table need no games, but a database that is named must be there
  if (options.db !== undefined) workspace.db();
  const wanted = { task: options.task ?? "find", answers, size, seed: options.seed ?? 1 };
  const chosen = await chooseExercises(workspace, { ...wanted, question, among, leaveOut }, noteProgress);
  const { exercises } = chosen;
  const title = `Exercises: ${chosen.title}`;
  if (options.json) exercises.forEach(printJson);
  else if (options.pgn) printFile(exercisesPgn(exercises, title));
  else if (options.epd) printFile(exercisesEpd(exercises, title));
  else {
    print(dim(paragraph(chosen.question)));
    if (exercises.length > 0) print(exercisesTable(exercises));
  }
  await writePage(options, () => exercisesPage(exercises, { title, command: typedCommand(), date: today() }));
  if (exercises.length < size) note(fewText(chosen, size, answers));
  return exercises.length > 0 ? 0 : 1;
};

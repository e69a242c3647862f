// `exercises`: positions whose answers are certain, from games or from the whole table.

import { type ExerciseSet, chooseExercises } from "../app/exercises.js";
import { exercisesEpd, exercisesPgn } from "../documents/exercise-files.js";
import { exercisesPage } from "../documents/exercise-set.js";
import { answerInWords, refusedInWords, taskInWords } from "../documents/exercise-words.js";
import { today } from "../documents/printed-page.js";
import type { Exercise } from "../exercises/exercise.js";
import { writeCourse } from "./course.js";
import { writeDiagrams } from "./diagram-folder.js";
import type { Command } from "./command.js";
import { LongsideError } from "../errors.js";
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
    { head: "theme", cells: exercises.map(({ themes }) => themes[0] ?? ""), optional: 3 },
    { head: "answer", cells: exercises.map(answerInWords), shrinksTo: 8 },
  ]);

/** Why there are fewer exercises than were wanted. */
function fewText({ candidates, exercises, refused }: ExerciseSet, size: number): string {
  if (candidates === 0) return "No position fits that.";
  const fit = `${candidates.toLocaleString("en")} ${candidates === 1 ? "position fits" : "positions fit"}`;
  const others = refusedInWords(refused);
  return `${counted(exercises.length, "exercise")} of ${size} wanted: ${fit}${others === "" ? "" : `; of those looked at, ${others}`}.`;
}

export const run: Command = async (words, options, workspace) => {
  if (options.course !== undefined) return writeCourse(words, options, workspace);
  const {
    among,
    answers = null,
    themes,
    byTheme,
    pairs,
    paper,
    letters,
    size = USUAL_SIZE,
    leaveOut,
  } = options;
  const question = workspace.question(words.join(" "));
  // positions of the table need no games, but a database that is named must be there
  if (options.db !== undefined) workspace.db();
  const task = options.task ?? (pairs ? "judge" : "find");
  if (pairs && task !== "judge")
    throw new LongsideError("bad-option", {
      option: "--pairs",
      cause: "two positions that contrast are judged: their answers are verdicts (--task judge)",
      command: "exercises",
    });
  if (byTheme && task === "judge")
    throw new LongsideError("bad-option", {
      option: "--by-theme",
      cause: "positions to judge have no themes, which would give them away",
      command: "exercises",
    });
  const wanted = { task, answers, size, themes, byTheme, pairs, seed: options.seed ?? 1 };
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
  await writePage(options, () =>
    exercisesPage(exercises, { title, command: typedCommand(), date: today(), paper, letters }),
  );
  if (options.folder !== undefined) writeDiagrams(options.folder, title, exercises);
  if (chosen.fromTable > 0)
    note(
      `The games have too few: ${chosen.fromTable === exercises.length ? "all the exercises are" : `${counted(chosen.fromTable, "exercise")} of ${exercises.length} ${chosen.fromTable === 1 ? "is" : "are"}`} drawn from the whole table.`,
    );
  if (exercises.length < size) note(fewText(chosen, size));
  return exercises.length > 0 ? 0 : 1;
};

// Calls that make something of what was collected or asked: exercises, lessons, sheets, games in PGN.

import { chooseExercises, exerciseMaker } from "../../app/exercises.js";
import { fillLesson, outlineOf } from "../../app/lesson.js";
import { reportAsPage, reportManifest, reportOn } from "../../app/report.js";
import type { OnProgress, Workspace } from "../../app/workspace.js";
import { collectionOutline, collectionPgn } from "../../documents/collection.js";
import { exercisesPage } from "../../documents/exercise-set.js";
import { gradeInWords, sourceInWords, taskInWords } from "../../documents/exercise-words.js";
import { today } from "../../documents/printed-page.js";
import type { Exercise } from "../../exercises/exercise.js";
import type { Input } from "../api.js";

/** What a page made here says made it. */
const MADE_WITH = "longside serve";

/** What the page needs of an exercise to have it played. */
const played = (one: Exercise) => ({
  number: one.number,
  fen: one.fen,
  said: taskInWords(one),
  grade: one.grade,
  graded: gradeInWords(one),
  source: sourceInWords(one),
  setUps: one.setUps,
});

/** Collected positions as exercises, and those in which there is nothing to find. */
const exercisesOf = (workspace: Workspace, items: Input<"sheet">["items"]) =>
  exerciseMaker(workspace).given(
    items.flatMap(({ fen, ending, ply }) => (fen === undefined ? [] : [{ fen, ending, ply }])),
  );

/** Exercises to be played on the page. */
export async function exercises(workspace: Workspace, input: Input<"exercises">, onProgress: OnProgress) {
  const wanted = { ...input, question: workspace.question(input.question) };
  const chosen = await chooseExercises(workspace, wanted, onProgress);
  return { ...chosen, exercises: chosen.exercises.map(played) };
}

/** An outline to be changed by hand: of what was collected, or of a question. */
export async function outline(workspace: Workspace, { title, items, question }: Input<"outline">) {
  return {
    outline:
      question === undefined
        ? collectionOutline(title, items ?? [])
        : await outlineOf(workspace, [workspace.question(question)]),
  };
}

/** A lesson from its outline. */
export async function lesson(workspace: Workspace, input: Input<"lesson">, onProgress: OnProgress) {
  const asked = { outline: input.outline, path: "outline.md", command: MADE_WITH };
  const { page: content } = await fillLesson(workspace, asked, onProgress);
  return { made: { name: "lesson.html", type: "text/html", content } };
}

/** Collected positions to be played as exercises, and those in which there is nothing to find. */
export function practise(workspace: Workspace, { items }: Input<"practise">) {
  const { exercises: made, idle } = exercisesOf(workspace, items);
  return { exercises: made.map(played), idle };
}

/** An exercise sheet of collected positions, and those in which there is nothing to find. */
export function sheet(workspace: Workspace, { title, items }: Input<"sheet">) {
  const { exercises: made, idle, notTaken } = exercisesOf(workspace, items);
  const content = exercisesPage(made, { title, command: MADE_WITH, date: today() }, { notTaken });
  return { exercises: made.length, idle, made: { name: "exercises.html", type: "text/html", content } };
}

/** Everything collected as PGN. */
export function pgn(workspace: Workspace, { title, items }: Input<"pgn">) {
  const content = collectionPgn(title, items, { db: workspace.dbIfAny(), prober: workspace.prober });
  return { made: { name: "collected.pgn", type: "application/vnd.chess-pgn", content } };
}

/** What people did, in numbers, as one page; nothing where no ending answers the question. */
export async function report(
  workspace: Workspace,
  { question: text }: Input<"report">,
  onProgress: OnProgress,
) {
  const question = workspace.question(text);
  const made = await reportOn(workspace, { question }, onProgress, () => {});
  if (!made.report) return { made: null };
  const manifest = reportManifest(workspace, made, made.report, MADE_WITH);
  const content = reportAsPage(workspace, made, made.report, manifest);
  return { made: { name: "report.html", type: "text/html", content } };
}

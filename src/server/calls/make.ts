// Calls that make something of what was collected or asked: exercises, lessons, sheets, games in PGN.

import { EXCLUDED_FROM_NUMBERS } from "../../store/exclusions.js";
import { formatQuestion } from "../../query/language/ast.js";
import { titleOf } from "../../query/language/catalogue.js";
import { type Candidate, candidatesFromTable, exerciseQuestion } from "../../exercises/candidates.js";
import type { Exercise } from "../../exercises/exercise.js";
import { ExerciseMaker } from "../../exercises/maker.js";
import { exercisesPage, gradeInWords, sourceInWords, taskInWords } from "../../documents/exercise-set.js";
import { collectionOutline, collectionPgn } from "../../documents/collection.js";
import { defaultOutline } from "../../documents/lesson/default-outline.js";
import { LessonFiller } from "../../documents/lesson/filler.js";
import { renderOutline } from "../../documents/lesson/outline.js";
import { Raw, renderPage, today } from "../../documents/printed-page.js";
import { topicOf } from "../../documents/lesson/topic.js";
import type { Input } from "../api.js";
import type { Workspace } from "../../app/workspace.js";

/** Tells how far a call has come, in words. */
export type Report = (said: string) => void;

/** What a page made here says made it. */
const MADE_WITH = "longside serve";

const makerOf = (workspace: Workspace) =>
  new ExerciseMaker(
    workspace.target(),
    workspace.tables(),
    workspace.prober,
    workspace.catalogue,
    workspace.dbIfAny(),
    EXCLUDED_FROM_NUMBERS,
  );

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

/** The positions among what was collected. */
const positionsIn = (items: Input<"sheet">["items"]) =>
  items.flatMap(({ fen, ending, ply }) => (fen === undefined ? [] : [{ fen, ending, ply }]));

/** Exercises to be played on the page. */
export async function exercises(workspace: Workspace, input: Input<"exercises">, report: Report) {
  const { task, among, answers, size, seed } = input;
  const asked = workspace.question(input.question);
  const question = exerciseQuestion(asked, task, among === "table");
  const maker = makerOf(workspace);
  const wanted = { task, answers, size, seed };
  let candidates: Candidate[];
  if (among === "games") {
    workspace.db();
    candidates = maker.candidatesFromGames(question);
  } else {
    report("drawing positions from the whole table");
    const { setUps, threads } = workspace.means;
    candidates = await candidatesFromTable(workspace.target(), question, wanted, { setUps, threads });
  }
  report("choosing");
  return {
    title: titleOf(asked, workspace.catalogue, workspace.target()),
    question: formatQuestion(question),
    candidates: candidates.length,
    exercises: maker.choose(candidates, wanted).map(played),
  };
}

/** An outline to be changed by hand: of what was collected, or of a question. */
export function outline(workspace: Workspace, { title, items, question }: Input<"outline">) {
  if (question === undefined) return { outline: collectionOutline(title, items ?? []) };
  const topic = topicOf(
    workspace.question(question),
    workspace.catalogue,
    workspace.prober,
    workspace.target(),
  );
  return { outline: defaultOutline([topic], workspace.dbIfAny() !== undefined) };
}

/** A lesson from its outline. */
export async function lesson(workspace: Workspace, { outline: text }: Input<"lesson">, report: Report) {
  const { setUps, threads, folder } = workspace.means;
  const filler = new LessonFiller({
    db: workspace.dbIfAny(),
    target: workspace.target(),
    folder,
    tables: workspace.tables(),
    prober: workspace.prober,
    catalogue: workspace.catalogue,
    setUps,
    leaveOut: EXCLUDED_FROM_NUMBERS,
    threads,
    seed: 1,
  });
  const { title, html } = await renderOutline(text, "outline.md", (block) => {
    report(`line ${block.line}: ${block.name}`);
    return filler.fill(block);
  });
  const body = Raw({ html: html + filler.solutions() });
  const content = renderPage({ title, command: MADE_WITH, date: today(), body });
  return { made: { name: "lesson.html", type: "text/html", content } };
}

/** Collection positions to be played as exercises, and those in which there is nothing to find. */
export function practise(workspace: Workspace, { items }: Input<"practise">) {
  const { exercises: made, idle } = makerOf(workspace).given(positionsIn(items));
  return { exercises: made.map(played), idle };
}

/** An exercise sheet of collected positions, and those in which there is nothing to find. */
export function sheet(workspace: Workspace, { title, items }: Input<"sheet">) {
  const { exercises: made, idle } = makerOf(workspace).given(positionsIn(items));
  const content = exercisesPage(made, { title, command: MADE_WITH, date: today() });
  return { exercises: made.length, idle, made: { name: "exercises.html", type: "text/html", content } };
}

/** Everything collected as PGN. */
export function pgn(workspace: Workspace, { title, items }: Input<"pgn">) {
  const content = collectionPgn(title, items, { db: workspace.dbIfAny(), prober: workspace.prober });
  return { made: { name: "collected.pgn", type: "application/vnd.chess-pgn", content } };
}

// Calls that make something of what was gathered or asked: exercises, lessons, sheets, games in PGN.

import { USUALLY_LEFT_OUT_OF_PEOPLE } from "../../store/exclusions.js";
import { formatQuestion } from "../../query/language/ast.js";
import { titleOf } from "../../query/language/catalogue.js";
import {
  type Candidate,
  type Exercise,
  ExerciseMaker,
  candidatesFromTable,
  exerciseQuestion,
} from "../../exercises/exercises.js";
import { exercisesPage, gradeInWords, sourceInWords, taskInWords } from "../../documents/exercise-set.js";
import { gatheredOutline, gatheredPgn } from "../../documents/collection.js";
import { LessonFiller } from "../../documents/lesson.js";
import { defaultOutline, renderOutline } from "../../documents/outline.js";
import { Raw, renderPage, today } from "../../documents/printed-page.js";
import { subjectOf } from "../../documents/lesson-topic.js";
import type { Input } from "../api.js";
import type { Bench } from "../../app/workspace.js";

/** Tells how far a call has come, in words. */
export type Report = (said: string) => void;

/** What a page made here says made it. */
const MADE_WITH = "longside serve";

const makerOf = (bench: Bench) =>
  new ExerciseMaker(
    bench.target(),
    bench.tables(),
    bench.prober,
    bench.catalogue,
    bench.dbIfAny(),
    USUALLY_LEFT_OUT_OF_PEOPLE,
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

/** The positions among what was gathered. */
const positionsIn = (items: Input<"sheet">["items"]) =>
  items.flatMap(({ fen, ending, ply }) => (fen === undefined ? [] : [{ fen, ending, ply }]));

/** Exercises to be played on the page. */
export async function exercises(bench: Bench, input: Input<"exercises">, report: Report) {
  const { task, among, answers, size, seed } = input;
  const asked = bench.question(input.question);
  const question = exerciseQuestion(asked, task, among === "table");
  const maker = makerOf(bench);
  const wanted = { task, answers, size, seed };
  let candidates: Candidate[];
  if (among === "games") {
    bench.db();
    candidates = maker.candidatesFromGames(question);
  } else {
    report("drawing positions from the whole table");
    const { setUps, threads } = bench.means;
    candidates = await candidatesFromTable(bench.target(), question, wanted, { setUps, threads });
  }
  report("choosing");
  return {
    title: titleOf(asked, bench.catalogue, bench.target()),
    question: formatQuestion(question),
    candidates: candidates.length,
    exercises: maker.choose(candidates, wanted).map(played),
  };
}

/** An outline to be changed by hand: of what was gathered, or of a question. */
export function outline(bench: Bench, { title, items, question }: Input<"outline">) {
  if (question === undefined) return { outline: gatheredOutline(title, items ?? []) };
  const subject = subjectOf(bench.question(question), bench.catalogue, bench.prober, bench.target());
  return { outline: defaultOutline([subject], bench.dbIfAny() !== undefined) };
}

/** A lesson from its outline. */
export async function lesson(bench: Bench, { outline: text }: Input<"lesson">, report: Report) {
  const { setUps, threads, folder } = bench.means;
  const filler = new LessonFiller({
    db: bench.dbIfAny(),
    target: bench.target(),
    folder,
    tables: bench.tables(),
    prober: bench.prober,
    catalogue: bench.catalogue,
    setUps,
    leaveOut: USUALLY_LEFT_OUT_OF_PEOPLE,
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

/** Gathered positions to be played as exercises, and those in which there is nothing to find. */
export function practise(bench: Bench, { items }: Input<"practise">) {
  const { exercises: made, idle } = makerOf(bench).given(positionsIn(items));
  return { exercises: made.map(played), idle };
}

/** An exercise sheet of gathered positions, and those in which there is nothing to find. */
export function sheet(bench: Bench, { title, items }: Input<"sheet">) {
  const { exercises: made, idle } = makerOf(bench).given(positionsIn(items));
  const content = exercisesPage(made, { title, command: MADE_WITH, date: today() });
  return { exercises: made.length, idle, made: { name: "exercises.html", type: "text/html", content } };
}

/** Everything gathered as PGN. */
export function pgn(bench: Bench, { title, items }: Input<"pgn">) {
  const content = gatheredPgn(title, items, { db: bench.dbIfAny(), prober: bench.prober });
  return { made: { name: "gathered.pgn", type: "application/vnd.chess-pgn", content } };
}

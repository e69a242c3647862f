// Calls that make something of what was collected or asked: exercises, lessons, sheets, games in PGN.

import { chooseExercises, exerciseMaker } from "../../app/exercises.js";
import { fillLesson, outlineOf } from "../../app/lesson.js";
import { reportAsPage, reportManifest, reportOn } from "../../app/report.js";
import type { OnProgress, Workspace } from "../../app/workspace.js";
import { collectionOutline, collectionPgn } from "../../documents/collection.js";
import { pdfOf } from "../../documents/browser.js";
import { lessonFiles } from "../../documents/lesson/export.js";
import { outlineFrom, partAt, partsOf } from "../../documents/lesson/parts.js";
import { exercisesPage } from "../../documents/exercise-set.js";
import { gradeInWords, refusedInWords, sourceInWords, taskInWords } from "../../documents/exercise-words.js";
import { today } from "../../documents/printed-page.js";
import type { Exercise } from "../../exercises/exercise.js";
import { RefusalCount } from "../../exercises/refusals.js";
import { LongsideError } from "../../errors.js";
import { sentence } from "../../position/wording.js";
import type { Input, LESSON_FORMS } from "../api.js";

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
  hints: one.hints,
});

/** Collected positions as exercises, those that are none, and what to say of these; nothing where there are none. */
function exercisesOf(workspace: Workspace, items: Input<"sheet">["items"]) {
  const positions = items.flatMap(({ fen, ending, ply }) =>
    fen === undefined ? [] : [{ fen, ending, ply }],
  );
  const { exercises, notTaken } = exerciseMaker(workspace).given(positions);
  const refused = new RefusalCount();
  for (const { reason } of notTaken) refused.add(reason);
  const whole = items.length - positions.length;
  const said = [
    refusedInWords(refused.all()),
    whole === 0 ? "" : `${whole} ${whole === 1 ? "is a whole ending" : "are whole endings"}`,
  ].filter((part) => part !== "");
  return {
    exercises,
    notTaken,
    leftOut: said.length === 0 ? null : sentence(`Not taken: ${said.join(", ")}`),
  };
}

/** Exercises to be played on the page. */
export async function exercises(workspace: Workspace, input: Input<"exercises">, onProgress: OnProgress) {
  const wanted = { ...input, question: workspace.question(input.question) };
  const chosen = await chooseExercises(workspace, wanted, onProgress);
  return { ...chosen, exercises: chosen.exercises.map(played) };
}

/** What the outline of a lesson made here is called in its errors. */
const OUTLINE = "outline.md";

/** An outline to be changed by hand: of what was collected, of a question, or one that was written; also in parts. */
export async function outline(workspace: Workspace, asked: Input<"outline">) {
  const { title, items, question } = asked;
  const outline =
    asked.outline ??
    (question === undefined
      ? collectionOutline(title, items ?? [])
      : await outlineOf(workspace, [workspace.question(question)]));
  return { outline, ...partsOf(outline, OUTLINE) };
}

/** A lesson from its outline; of one that is put together from parts, the place of an error is the number of a part. */
export async function lesson(workspace: Workspace, input: Input<"lesson">, onProgress: OnProgress) {
  const { title = "", parts, paper, as = "page" } = input;
  const { outline, lines } = parts
    ? outlineFrom({ title, parts })
    : { outline: input.outline ?? "", lines: undefined };
  const asked = { outline, path: OUTLINE, command: MADE_WITH, paper, asPrinted: as === "printed" };
  try {
    return { made: await lessonAs(as, await fillLesson(workspace, asked, onProgress)) };
  } catch (thrown) {
    if (!(thrown instanceof LongsideError) || thrown.where.line === undefined || !lines) throw thrown;
    throw thrown.placed({ line: partAt(lines, thrown.where.line) });
  }
}

/** A filled lesson as a file. Throws `no-browser`. */
async function lessonAs(
  as: (typeof LESSON_FORMS)[number],
  filled: Awaited<ReturnType<typeof fillLesson>>,
): Promise<{ name: string; type: string; content: string }> {
  if (as === "pgn") {
    const content = lessonFiles(filled, "diagrams").pgn;
    return { name: "lesson.pgn", type: "application/vnd.chess-pgn", content };
  }
  if (as !== "pdf") return { name: "lesson.html", type: "text/html", content: filled.page };
  const printed = await pdfOf(alone(filled.page), "lesson.pdf");
  return { name: "lesson.pdf", type: "application/pdf", content: Buffer.from(printed).toString("base64") };
}

/** A page that fetches nothing while it is printed here: its author may be elsewhere, and files of this machine are not theirs. */
const alone = (page: string): string =>
  page.replace(
    "<head>",
    `<head><meta http-equiv="content-security-policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
  );

/** Collected positions to be played as exercises, and what is said of those that are none. */
export function practise(workspace: Workspace, { items }: Input<"practise">) {
  const { exercises: made, leftOut } = exercisesOf(workspace, items);
  return { exercises: made.map(played), leftOut };
}

/** An exercise sheet of collected positions, and what is said of those that are none. */
export function sheet(workspace: Workspace, { title, items }: Input<"sheet">) {
  const { exercises: made, notTaken, leftOut } = exercisesOf(workspace, items);
  const content = exercisesPage(made, { title, command: MADE_WITH, date: today() }, { notTaken });
  return { exercises: made.length, leftOut, made: { name: "exercises.html", type: "text/html", content } };
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

// `exercises --course`: sets of exercises in the order of learning, each as a sheet and as PGN in one folder, and all of them
// on one page where that is asked for.

import { join } from "node:path";

import { chooseCourse } from "../app/course.js";
import type { Workspace } from "../app/workspace.js";
import { exercisesPgn } from "../documents/exercise-files.js";
import { exercisesPage, sheetsPage } from "../documents/exercise-set.js";
import { today } from "../documents/printed-page.js";
import { LongsideError } from "../errors.js";
import { capital, counted, countedInWords } from "../position/wording.js";
import { canonicalName } from "../query/language/catalogue.js";
import type { Options } from "./options.js";
import { note, noteProgress, print } from "./messages.js";
import { typedCommand, writeAndSay, writePage } from "./output.js";

/** Exercises of a set, unless told otherwise. */
const USUAL_SIZE = 12;

/** Writes a course. Throws `bad-option` without a folder. */
export async function writeCourse(
  words: readonly string[],
  options: Options,
  workspace: Workspace,
): Promise<number> {
  const { course: sets = 1, folder, size = USUAL_SIZE, seed = 1, leaveOut, paper, letters } = options;
  const refuse = (cause: string) =>
    new LongsideError("bad-option", { option: "--course", cause, command: "exercises" });
  if (folder === undefined) throw refuse("its sheets are written to a folder: --folder course");
  if (words.length > 0) throw refuse("it chooses its set-ups by itself; leave the question out");
  const course = await chooseCourse(workspace, { sets, size, seed, leaveOut }, noteProgress);
  const titleOf = (n: number, setUp: string) => `Set ${n + 1} of ${course.length}: ${setUp}`;
  course.forEach(({ setUp, exercises, again }, n) => {
    const title = titleOf(n, setUp);
    const name = join(folder, `${n + 1}-${canonicalName(setUp).replace(/[^\w-]/g, "")}`);
    const made = { title, command: typedCommand(), date: today(), paper, letters };
    writeAndSay(`${name}.html`, exercisesPage(exercises, made, { again }));
    writeAndSay(`${name}.pgn`, exercisesPgn(exercises, title));
    const back = again.length > 0 ? `; some go back to ${again.join(", ")}` : "";
    print(`${n + 1}. ${capital(setUp)}: ${counted(exercises.length, "exercise")}${back}`);
  });
  await writePage(options, () =>
    sheetsPage(
      course.map(({ setUp, exercises, again }, n) => ({ title: titleOf(n, setUp), exercises, again })),
      {
        title: `A course of ${countedInWords(course.length, "set")}`,
        command: typedCommand(),
        date: today(),
        paper,
        letters,
      },
    ),
  );
  if (course.length < sets)
    note(`${counted(course.length, "set")} of ${sets}: there are no more set-ups to learn.`);
  return course.length > 0 ? 0 : 1;
}

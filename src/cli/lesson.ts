// `lesson`: a lesson to print, from an outline or from nothing but a question.

import { join } from "node:path";

import { fillLesson, outlineOf } from "../app/lesson.js";
import type { Workspace } from "../app/workspace.js";
import { LongsideError } from "../errors.js";
import { readText } from "../read-text.js";
import { QueryError } from "../query/language/query-error.js";
import type { Question } from "../query/language/ast.js";
import type { Command } from "./command.js";
import { typedCommand, writeAndSay, writePage, writeResult } from "./output.js";
import { counted } from "../position/wording.js";
import type { LessonFiles } from "../documents/lesson/export.js";
import { writeDrawings } from "./diagram-folder.js";
import { note } from "./messages.js";

/** The words as one question, or each as one of its own where together they are none. */
function questionsOf(words: readonly string[], workspace: Workspace): Question[] {
  try {
    return [workspace.question(words.join(" "))];
  } catch (thrown) {
    if (!(thrown instanceof QueryError) || words.length < 2) throw thrown;
    try {
      return words.map((word) => workspace.question(word));
    } catch {
      throw thrown;
    }
  }
}

/** The folder of the drawings in that of a lesson's files. */
const DRAWINGS = "diagrams";

/** Writes a lesson as Markdown, PGN and EPD, and its drawings each by itself. Throws `cannot-write`. */
function writeLessonFiles(folder: string, { markdown, pgn, epd, drawings }: LessonFiles): void {
  writeResult(join(folder, "lesson.md"), markdown);
  writeResult(join(folder, "lesson.pgn"), pgn);
  writeResult(join(folder, "lesson.epd"), epd);
  writeDrawings(join(folder, DRAWINGS), drawings);
  note(`Written: lesson.md, lesson.pgn, lesson.epd and ${counted(drawings.length, "drawing")} in ${folder}`);
}

export const run: Command = async (words, options, workspace) => {
  const { outline, writeOutline, leaveOut, seed, html, pdf, paper, letters } = options;
  if (outline === undefined && words.length === 0)
    throw new LongsideError("bad-usage", {
      message: "a lesson needs a question or an outline",
      hint: 'for example: longside lesson "second-rank defence"',
    });
  if (outline !== undefined && words.length > 0)
    throw new LongsideError("bad-option", {
      option: "--outline",
      cause: "the outline says what the lesson is about; leave the question out",
      command: "lesson",
    });
  // a lesson can do without games, but a database that is named must be there
  if (options.db !== undefined) workspace.db();
  const text =
    outline === undefined ? await outlineOf(workspace, questionsOf(words, workspace)) : readText(outline);
  if (writeOutline !== undefined) {
    writeAndSay(writeOutline, text);
    if (html === undefined && pdf === undefined) return 0;
  }
  await workspace.prepare([workspace.target()]);
  note("Writing the lesson; each survey of the whole table takes some seconds …");
  const lesson = await fillLesson(
    workspace,
    { outline: text, path: outline ?? "outline.md", command: typedCommand(), leaveOut, seed, paper, letters },
    () => {},
  );
  const { folder } = options;
  const hasPlace = pdf !== undefined || folder !== undefined;
  await writePage(hasPlace ? options : { html: "lesson.html", ...options }, () => lesson.page);
  if (folder !== undefined) {
    const { lessonFiles } = await import("../documents/lesson/export.js");
    writeLessonFiles(folder, lessonFiles(lesson, DRAWINGS));
  }
  return 0;
};

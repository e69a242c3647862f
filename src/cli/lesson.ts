// `lesson`: a lesson to print, from an outline or from nothing but a question.

import { fillLesson, outlineOf } from "../app/lesson.js";
import type { Workspace } from "../app/workspace.js";
import { LongsideError } from "../errors.js";
import { readText } from "../read-text.js";
import { QueryError } from "../query/language/query-error.js";
import type { Question } from "../query/language/ast.js";
import type { Command } from "./command.js";
import { typedCommand, writeAndSay, writePage } from "./output.js";
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
  const page = await fillLesson(
    workspace,
    { outline: text, path: outline ?? "outline.md", command: typedCommand(), leaveOut, seed, paper, letters },
    () => {},
  );
  await writePage(pdf === undefined ? { html: "lesson.html", ...options } : options, () => page);
  return 0;
};

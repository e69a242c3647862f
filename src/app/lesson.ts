// Lessons: the outline of one or several questions, and the page that an outline is filled to.

import { topicOf } from "../documents/lesson/topic.js";
import { LessonFiller } from "../documents/lesson/filler.js";
import { defaultOutline } from "../documents/lesson/default-outline.js";
import { renderOutline } from "../documents/lesson/outline.js";
import { Raw, renderPage, today } from "../documents/printed-page.js";
import type { Question } from "../query/language/ast.js";
import { EXCLUDED_BY_DEFAULT, type Exclusion } from "../store/exclusions.js";
import type { OnProgress, Workspace } from "./workspace.js";

export interface LessonAsked {
  readonly outline: string;
  /** Name of the outline's file, for errors in it. */
  readonly path: string;
  /** What made the lesson, as its last line says. */
  readonly command: string;
  readonly leaveOut?: readonly Exclusion[];
  readonly seed?: number;
}

/** The outline of a lesson on some questions, to be changed by hand. Throws `tables-missing`. */
export async function outlineOf(workspace: Workspace, questions: readonly Question[]): Promise<string> {
  const target = workspace.target();
  await workspace.prepare([target]);
  const { catalogue, prober } = workspace;
  return defaultOutline(
    questions.map((question) => topicOf(question, catalogue, prober, target)),
    workspace.dbIfAny() !== undefined,
  );
}

/** A lesson as an HTML page. Throws `bad-outline`, `bad-block`, `tables-missing`. */
export async function fillLesson(
  workspace: Workspace,
  asked: LessonAsked,
  onProgress: OnProgress,
): Promise<string> {
  const { setUps, threads } = workspace.settings;
  const target = workspace.target();
  await workspace.prepare([target]);
  const filler = new LessonFiller({
    db: workspace.dbIfAny(),
    target,
    tables: workspace.tables(),
    prober: workspace.prober,
    catalogue: workspace.catalogue,
    setUps,
    leaveOut: asked.leaveOut ?? EXCLUDED_BY_DEFAULT,
    threads,
    seed: asked.seed ?? 1,
  });
  const { title, html } = await renderOutline(asked.outline, asked.path, (block) => {
    onProgress(`line ${block.line}: ${block.name}`);
    return filler.fill(block);
  });
  const body = Raw({ html: html + filler.solutions() });
  return renderPage({ title, command: asked.command, date: today(), body });
}

// Lessons: the outline of one or several questions, and the page that an outline is filled to.

import { type LessonTopic, topicOf, withExample } from "../documents/lesson/topic.js";
import type { FilledLesson } from "../documents/lesson/export.js";
import type { EndingAt } from "../documents/lesson/game-story.js";
import { LessonFiller } from "../documents/lesson/filler.js";
import { defaultOutline } from "../documents/lesson/default-outline.js";
import { renderOutline } from "../documents/lesson/outline.js";
import type { PieceLetters } from "../documents/piece-letters.js";
import { type Paper, Raw, renderPage, today } from "../documents/printed-page.js";
import { placementFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import { samplePlacements } from "../survey/sample.js";
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
  readonly paper?: Paper;
  readonly letters?: PieceLetters;
}

/** The outline of a lesson on some questions, to be changed by hand. Throws `tables-missing`. */
export async function outlineOf(workspace: Workspace, questions: readonly Question[]): Promise<string> {
  const target = workspace.target();
  await workspace.prepare([target]);
  const { catalogue, prober, settings } = workspace;
  const topics: LessonTopic[] = [];
  for (const question of questions) {
    const topic = topicOf(question, catalogue, prober, target);
    const fen =
      topic.ofTable && topic.fen === undefined ? await sampled(topic.question, target, settings) : undefined;
    topics.push(fen === undefined ? topic : withExample(topic, fen, prober));
  }
  return defaultOutline(topics, workspace.dbIfAny() !== undefined);
}

/** A drawn placement that fits a question, attacker to move; another drawn one, or any, where there is none. */
async function sampled(
  question: string,
  target: Material,
  { setUps, threads }: Workspace["settings"],
): Promise<string | undefined> {
  for (const also of [" and to-move = attacker and verdict = drawn", " and verdict = drawn", ""]) {
    const asked = { question: `(${question})${also}`, setUps, seed: 1, size: 1 };
    const [found] = await samplePlacements(target, asked, threads);
    if (found) return placementFen(found, target, "white");
  }
  return undefined;
}

/** A lesson, and its HTML page. Throws `bad-outline`, `bad-block`, `tables-missing`. */
export async function fillLesson(
  workspace: Workspace,
  asked: LessonAsked,
  onProgress: OnProgress,
): Promise<FilledLesson & { readonly page: string }> {
  const { setUps, threads } = workspace.settings;
  const target = workspace.target();
  await workspace.prepare([target]);
  const games: EndingAt[] = [];
  const filler = new LessonFiller({
    games,
    db: workspace.dbIfAny(),
    target,
    tables: workspace.tables(),
    prober: workspace.prober,
    catalogue: workspace.catalogue,
    setUps,
    leaveOut: asked.leaveOut ?? EXCLUDED_BY_DEFAULT,
    threads,
    seed: asked.seed ?? 1,
    drawn: new Map(),
  });
  const { title, html } = await renderOutline(asked.outline, asked.path, (block) => {
    onProgress(`line ${block.line}: ${block.name}`);
    return filler.fill(block);
  });
  const body = html + filler.solutions();
  const { command, paper, letters } = asked;
  const page = renderPage({ title, command, date: today(), paper, letters, body: Raw({ html: body }) });
  return { title, body, exercises: filler.exercises, games, page };
}

// Lessons: the outline of one or several questions, and the page that an outline is filled to.

import { statSync } from "node:fs";

import { type LessonTopic, topicOf, withExample } from "../documents/lesson/topic.js";
import type { FilledLesson } from "../documents/lesson/export.js";
import type { EndingAt } from "../documents/lesson/game-story.js";
import { namedSetUpsSection } from "../documents/lesson/named-set-ups.js";
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
  /** Whether the page is to look on a screen as on paper. */
  readonly asPrinted?: boolean;
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
  const { command, paper, letters, asPrinted } = asked;
  const lesson = await filledOnce(workspace, asked, onProgress);
  const body = Raw({ html: lesson.body });
  const page = renderPage({ title: lesson.title, command, date: today(), paper, letters, asPrinted, body });
  return { ...lesson, page };
}

/** The lesson that was filled last in a workspace, and what it was filled from. */
const lastFilled = new WeakMap<Workspace, { readonly from: string; readonly lesson: FilledLesson }>();

/** When a file was written last, and its size; the same file gives the same. */
function stampOf(path: string): string {
  const stat = statSync(path, { throwIfNoEntry: false, bigint: true });
  return stat ? `${stat.mtimeNs} ${stat.size} ${stat.ino}` : "";
}

/** A filled lesson. Who looks at it and then saves it does not wait twice: nothing it is filled from has changed. */
async function filledOnce(
  workspace: Workspace,
  asked: LessonAsked,
  onProgress: OnProgress,
): Promise<FilledLesson> {
  const { outline, path, leaveOut, seed } = asked;
  const { db } = workspace.settings;
  // what is written to a database goes to the file beside it first
  const stamps = [db, `${db}-wal`].map(stampOf);
  const from = JSON.stringify([outline, path, leaveOut, seed, stamps]);
  const last = lastFilled.get(workspace);
  if (last?.from === from) return last.lesson;
  const lesson = await filledLesson(workspace, asked, onProgress);
  lastFilled.set(workspace, { from, lesson });
  return lesson;
}

async function filledLesson(
  workspace: Workspace,
  asked: LessonAsked,
  onProgress: OnProgress,
): Promise<FilledLesson> {
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
    onProgress(block.name.replaceAll("-", " "));
    return filler.fill(block);
  });
  const { exercises } = filler;
  const names = namedSetUpsSection(html, exercises, workspace.catalogue);
  return { title, body: html + filler.solutions() + names, exercises, games };
}

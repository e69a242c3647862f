// A course: several sets of exercises in the order in which set-ups are best learnt, each going back to those before it.

import { assemble } from "../exercises/assemble.js";
import { questionFor } from "../exercises/candidates.js";
import type { Exercise } from "../exercises/exercise.js";
import { spoken } from "../query/language/tokens.js";
import type { Exclusion } from "../store/exclusions.js";
import { exerciseMaker } from "./exercises.js";
import { orderFound } from "./theory.js";
import type { OnProgress, Workspace } from "./workspace.js";

export interface CourseAsked {
  /** Sets, and exercises of each. */
  readonly sets: number;
  readonly size: number;
  readonly seed: number;
  readonly leaveOut?: readonly Exclusion[];
}

export interface CourseSet {
  readonly setUp: string;
  readonly exercises: readonly Exercise[];
  /** Set-ups of earlier sets that it goes back to. */
  readonly again: readonly string[];
}

/** Part of a set that goes back to what was learnt before. */
const AGAIN = 1 / 4;

/** Chooses a course to hold the draw. Throws `tables-missing`, and what the order of learning throws. */
export async function chooseCourse(
  workspace: Workspace,
  { sets, size, seed, leaveOut }: CourseAsked,
  onProgress: OnProgress,
): Promise<CourseSet[]> {
  const material = workspace.target();
  await workspace.prepare([material]);
  const { order } = await orderFound(workspace, onProgress);
  const { setUps, threads } = workspace.settings;
  const maker = exerciseMaker(workspace, leaveOut);
  const source = { material, maker, hasGames: workspace.dbIfAny() !== undefined, setUps, threads };
  const choose = async (setUp: string, wanted: number, of: number) => {
    const question = questionFor(workspace.catalogue.known.get(spoken(setUp))!, "hold");
    const asked = { task: "hold", answers: null, size: wanted, seed: of } as const;
    return (await assemble(source, question, asked, undefined)).exercises;
  };
  const course: CourseSet[] = [];
  for (const { setUp } of order) {
    if (course.length === sets) break;
    onProgress(`choosing set ${course.length + 1} of ${sets}: ${setUp}`);
    const before = course.map((one) => one.setUp);
    const back = before.length === 0 ? 0 : Math.floor(size * AGAIN);
    const own = await choose(setUp, size - back, seed);
    // a set-up that gives hardly any exercise is no set
    if (own.length < (size - back) / 2) continue;
    const again: Exercise[] = [];
    const from: string[] = [];
    // the latest first, other positions than in its own set
    for (let n = 0; n < back; ++n) {
      const name = before[before.length - 1 - (n % before.length)];
      const taken = [...course.flatMap((one) => one.exercises), ...again].map(({ fen }) => fen);
      const more = await choose(name, n + 2, seed + course.length);
      const fresh = more.find(({ fen }) => !taken.includes(fen));
      if (!fresh) continue;
      again.push(fresh);
      if (!from.includes(name)) from.push(name);
    }
    const exercises = [...own, ...again]
      .sort((a, b) => (a.difficulty ?? 0) - (b.difficulty ?? 0))
      .map((one, n) => ({ ...one, number: n + 1 }));
    course.push({ setUp, exercises, again: from });
  }
  return course;
}

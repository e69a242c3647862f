// A course: several sets of exercises in the order in which set-ups are best learnt, each going back to those before it.

import { placementOf, readFen } from "../chess/fen.js";
import { assemble } from "../exercises/assemble.js";
import { questionFor } from "../exercises/candidates.js";
import type { Exercise } from "../exercises/exercise.js";
import { pictureOf } from "../exercises/pictures.js";
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

/** Equal for exercises that show one picture: one of them may stand turned, or with the colours exchanged. */
const pictureIn = ({ fen }: Exercise): string => pictureOf(placementOf(readFen(fen)));

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
    const known = new Set(course.flatMap((one) => one.exercises).map(pictureIn));
    const isNew = (one: Exercise) => !known.has(pictureIn(one));
    const wanted = size - back;
    let own = (await choose(setUp, wanted, seed)).filter(isNew);
    // a position may fit two set-ups: others take the places of those that an earlier set had
    if (own.length < wanted)
      own = (await choose(setUp, 2 * wanted - own.length, seed)).filter(isNew).slice(0, wanted);
    // a set-up that gives hardly any exercise is no set
    if (own.length < wanted / 2) continue;
    const again: Exercise[] = [];
    const from: string[] = [];
    // the latest first, other positions than in its own set
    for (const one of own) known.add(pictureIn(one));
    for (let n = 0; n < back; ++n) {
      const name = before[before.length - 1 - (n % before.length)];
      const seeded = seed + course.length;
      const fresh =
        (await choose(name, n + 2, seeded)).find(isNew) ?? (await choose(name, size, seeded)).find(isNew);
      if (!fresh) continue;
      again.push(fresh);
      known.add(pictureIn(fresh));
      if (!from.includes(name)) from.push(name);
    }
    const exercises = [...own, ...again]
      .sort((a, b) => (a.difficulty ?? 0) - (b.difficulty ?? 0))
      .map((one, n) => ({ ...one, number: n + 1 }));
    course.push({ setUp, exercises, again: from });
  }
  return course;
}

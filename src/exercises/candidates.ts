// Where exercises come from: positions of games, of a whole table, or given one by one, that fit a question and a task.

import type { Material } from "../chess/material.js";
import type { Ply } from "../chess/units.js";
import { LongsideError } from "../errors.js";
import type { Connection } from "../store/connection.js";
import { columnStoreOf } from "../store/column-store.js";
import type { Exclusion } from "../store/exclusions.js";
import { type Question, formatQuestion, isEverything, levelOf } from "../query/language/ast.js";
import { parseQuestion } from "../query/language/parse.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { isEmpty } from "../query/engine/masks.js";
import { aboutGames } from "../query/engine/placement-conditions.js";
import { exclusionsOf } from "../statistics/exclusions.js";
import { samplePlacements } from "../survey/sample.js";
import type { ExercisesAsked } from "./exercise.js";
import { Pool } from "./pool.js";
import { type Task, seedOf, taskQuestion } from "./tasks.js";

/** A position as a user collected it, with the ending it comes from. */
export interface GivenPosition {
  readonly fen: string;
  readonly ending?: number;
  readonly ply?: Ply;
}

/** Candidates that are looked at for each exercise wanted. */
export const POOL = 30;
/** Placements drawn from a table for each of these: most have more than one answer. */
const DRAWN = 8;

/**
 * The question that a task's positions must answer. Throws `bad-option` for one that positions of a table, or positions
 * at all, cannot answer.
 */
export function exerciseQuestion(question: Question, task: Task, fromTable: boolean): Question {
  const fail = (cause: string) =>
    new LongsideError("bad-option", { option: "question", cause, command: "exercises" });
  const foreign = fromTable ? aboutGames(question) : undefined;
  if (foreign)
    throw fail(
      `"${formatQuestion(foreign)}" is about games; positions out of the table have none (--among games)`,
    );
  if (levelOf(question) === "ending" && fromTable && !isEverything(question))
    throw fail("it must be about a position");
  return questionFor(question, task);
}

/** The question that a task's positions must answer. */
export function questionFor(asked: Question, task: Task): Question {
  const condition = parseQuestion(taskQuestion(task));
  return { kind: "and", parts: [...(asked.kind === "and" ? asked.parts : [asked]), condition] };
}

/** Candidates out of a material's whole table: the same for the same seed. `setUps` is a file of the user's own. */
export async function candidatesFromTable(
  material: Material,
  question: Question,
  { seed, size, task }: Pick<ExercisesAsked, "seed" | "size" | "task">,
  options: { readonly setUps: string | null; readonly threads: number },
): Promise<Pool> {
  const { setUps, threads } = options;
  const asked = {
    question: formatQuestion(question),
    setUps,
    seed: seedOf(seed, task),
    size: DRAWN * POOL * size,
  };
  return Pool.of(material, await samplePlacements(material, asked, threads));
}

/** Positions of the database that a question fits. */
export function candidatesFromGames(
  db: Connection,
  material: Material,
  question: Question,
  leaveOut: readonly Exclusion[],
): Pool {
  const excluded = exclusionsOf(db, leaveOut);
  const pool = new Pool(material, true);
  for (const slice of columnStoreOf(db).slices()) {
    const mask = new Evaluation(db, slice).positions(question);
    if (isEmpty(mask)) continue;
    const { ids, starts, firstPlies, endings, from } = slice;
    const numbers = slice.column("placement").values;
    for (let n = 0; n < endings; ++n) {
      if (excluded[from + n] >= 0) continue;
      for (let p = starts[n]; p < starts[n + 1]; ++p)
        if (mask[p]) pool.add(numbers[p], ids[n], firstPlies[n] + p - starts[n]);
    }
  }
  return pool;
}

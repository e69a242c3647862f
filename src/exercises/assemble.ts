// A set of exercises out of games, out of the whole table, or out of games with the table making up for what they lack.

import type { Material } from "../chess/material.js";
import type { Question } from "../query/language/ast.js";
import { aboutGames } from "../query/engine/placement-conditions.js";
import { candidatesFromTable } from "./candidates.js";
import type { ExercisesAsked } from "./exercise.js";
import type { Among } from "./tasks.js";
import type { ExerciseMaker, Made } from "./maker.js";

/** What a set is made with. */
export interface Means {
  readonly material: Material;
  readonly maker: ExerciseMaker;
  /** Whether there are games to take positions from. */
  readonly hasGames: boolean;
  /** A file of the user's own set-ups. */
  readonly setUps: string | null;
  readonly threads: number;
}

export interface Assembled extends Made {
  /** Positions among which was chosen. */
  readonly candidates: number;
  /** Exercises out of the table that make up for what the games lack. */
  readonly fromTable: number;
}

/** A set is balanced where each verdict has this part of what is to be judged. */
const LEAST_PART = 1 / 3;

function isEnough({ exercises }: Made, { size, task }: ExercisesAsked): boolean {
  if (exercises.length < size) return false;
  const drawn = exercises.filter(({ verdict }) => verdict === "drawn").length;
  return task !== "judge" || Math.min(drawn, size - drawn) >= Math.floor(size * LEAST_PART);
}

/** Chooses a set. `among` undefined: games first, the table where they do not suffice; `onTable` is told of it. */
export async function assemble(
  { material, maker, hasGames, setUps, threads }: Means,
  question: Question,
  wanted: ExercisesAsked,
  among: Among | undefined,
  onTable: () => void = () => {},
): Promise<Assembled> {
  const games = hasGames && among !== "table" ? maker.candidatesFromGames(question) : undefined;
  const found = games?.size ?? 0;
  const mayDraw = among !== "games" && aboutGames(question) === undefined;
  const first = maker.choose(games ? [games] : [], { ...wanted, varied: mayDraw });
  if (!mayDraw || isEnough(first, wanted)) return { ...first, candidates: found, fromTable: 0 };
  onTable();
  const drawn = await candidatesFromTable(material, question, wanted, { setUps, threads });
  const made = maker.choose(games ? [games, drawn] : [drawn], wanted);
  const fromTable = made.exercises.filter(({ source }) => source === null).length;
  return {
    ...made,
    candidates: found + drawn.size,
    fromTable: found > 0 ? fromTable : 0,
  };
}

// The block of exercises: given positions, or as many as asked for that fit a question and a task.

import { assemble } from "../../exercises/assemble.js";
import { questionFor } from "../../exercises/candidates.js";
import type { Exercise } from "../../exercises/exercise.js";
import { ExerciseMaker } from "../../exercises/maker.js";
import { TASKS } from "../../exercises/tasks.js";
import { THEMES, type Theme } from "../../exercises/themes/theme.js";
import { capital, numberWord } from "../../position/wording.js";
import { notTakenInWords } from "../exercise-words.js";
import { type LessonMeans, badBlock, gamesFor, isTrue, questionOf, wholeNumber } from "./means.js";
import type { Block } from "./outline.js";

/** The exercises of a block, what the author says of some, and what a reader must know of the choice. */
export interface LessonExercises {
  readonly exercises: readonly Exercise[];
  /** By place in the block, from 1. */
  readonly comments: ReadonlyMap<number, string>;
  readonly note: string | null;
}

/** Reads "stalemate, pin". Throws `bad-block`. */
function themesOf(block: Block): Theme[] | undefined {
  return block.values.themes?.split(/[,\n]/).map((word) => {
    const theme = THEMES.find(({ name }) => name === word.trim().toLowerCase());
    if (!theme)
      throw badBlock(
        block,
        `"${word.trim()}" is no theme; there are ${THEMES.map(({ name }) => name).join(", ")}`,
      );
    return theme.name;
  });
}

/** Reads lines such as "3: look at the corner". Throws `bad-block`. */
function commentsOf(block: Block): Map<number, string> {
  const lines = block.values.comments?.split("\n") ?? [];
  return new Map(
    lines.map((line) => {
      const [, number, text] = /^(\d+):\s*(.+)$/.exec(line) ?? [];
      if (!number) throw badBlock(block, `a comment looks like "3: look at the corner"`);
      return [Number(number), text];
    }),
  );
}

/** Positions that the author gave, each with a comment after a semicolon, or by its place among them. */
function given(
  maker: ExerciseMaker,
  lines: readonly string[],
  byPlace: Map<number, string>,
): LessonExercises {
  const read = lines.map((line, n) => {
    const [fen, ...said] = line.split(";");
    return { fen: fen.trim(), said: [said.join(";").trim(), byPlace.get(n + 1)] };
  });
  const { exercises, notTaken } = maker.given(read.map(({ fen }) => ({ fen })));
  const comments = new Map(
    exercises.flatMap(({ number, fen }) => {
      const said = read.find((one) => one.fen === fen)?.said.filter((part) => part);
      return said && said.length > 0 ? [[number, said.join(" ")] as const] : [];
    }),
  );
  const note = notTaken.length === 0 ? null : `Not taken: ${notTaken.map(notTakenInWords).join(" ")}`;
  return { exercises, comments, note };
}

export async function exercisesOf(means: LessonMeans, block: Block): Promise<LessonExercises> {
  const { target, tables, prober, catalogue, db, leaveOut, setUps, threads, seed } = means;
  const { among, fens, answers } = block.values;
  const [pairs, byTheme] = [isTrue(block, "pairs"), isTrue(block, "by-theme")];
  const task = TASKS.find(({ name }) => name === (block.values.task ?? (pairs ? "judge" : "hold")))?.name;
  if (!task) throw badBlock(block, `a task is one of ${TASKS.map(({ name }) => name).join(", ")}`);
  if (among !== undefined && among !== "games" && among !== "table")
    throw badBlock(block, `"among" is games or table`);
  if (among === "games") gamesFor(means, block);
  const maker = new ExerciseMaker(target, tables, prober, catalogue, db, leaveOut);
  const comments = commentsOf(block);
  /** Throws `bad-block` for a comment that would be lost. */
  const checkComments = (most: number) => {
    const lost = [...comments].find(([number]) => number < 1 || number > most);
    if (lost)
      throw badBlock(
        block,
        `there is no exercise ${lost[0]} in it, of which to say "${lost[1]}"; it has ${most}`,
      );
  };
  if (fens !== undefined) {
    const lines = fens.split("\n");
    checkComments(lines.length);
    return given(maker, lines, comments);
  }
  const asked = questionOf(means, block);
  const instead = block.values.else;
  const wanted = {
    task,
    answers: answers === undefined ? null : wholeNumber(block, "answers", 1),
    size: wholeNumber(block, "size", 9),
    seed: wholeNumber(block, "seed", seed, 2 ** 31),
    themes: themesOf(block),
    byTheme,
    pairs,
    upright: true,
  };
  const source = { material: target, maker, hasGames: db !== undefined, setUps, threads };
  const made = await assemble(source, questionFor(asked, task), wanted, among);
  const { exercises, fromTable } =
    instead !== undefined && made.exercises.length < wanted.size
      ? await assemble(
          source,
          questionFor(questionOf(means, { ...block, values: { question: instead } }), task),
          wanted,
          among,
        )
      : made;
  checkComments(exercises.length);
  const fromGames = exercises.length - fromTable;
  const note =
    fromTable === 0 || fromGames === 0
      ? null
      : `${capital(numberWord(fromGames))} of the ${numberWord(exercises.length)} exercises ${fromGames === 1 ? "comes" : "come"} from games; the others are drawn from the whole table.`;
  return { exercises, comments, note };
}

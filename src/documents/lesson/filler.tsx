// A lesson: each block of an outline filled with what the tables, the catalogue and the games say, the solutions of its
// exercises at the end.

import { renderToString } from "preact-render-to-string";

import type { Exercise } from "../../exercises/exercise.js";
import { ExerciseBoards, ExerciseHints, ExerciseSolutions } from "../exercise-set.js";
import { boardBlock, mapBlock } from "./drawing-blocks.js";
import { errorsBlock } from "./errors-block.js";
import { type LessonExercises, exercisesOf } from "./exercises-block.js";
import { gameBlock, gamesBlock } from "./game-blocks.js";
import type { LessonMeans } from "./means.js";
import type { Block, BlockName } from "./outline.js";
import { keySquaresBlock } from "./key-squares-block.js";
import { memoryBlock } from "./memory-block.js";
import { practiceBlock } from "./practice-block.js";
import { ruleBlock } from "./rule-block.js";
import { slidesBlock } from "./slides-block.js";
import { stagesBlock } from "./stages-block.js";
import { triesBlock } from "./tries-block.js";
import { surveyBlock } from "./survey-block.js";

/** How each block is filled, but for exercises, which the lesson numbers on. */
const FILLED: Readonly<
  Record<Exclude<BlockName, "exercises">, (means: LessonMeans, block: Block) => string | Promise<string>>
> = {
  board: boardBlock,
  practice: practiceBlock,
  rule: ruleBlock,
  "key-squares": keySquaresBlock,
  stages: stagesBlock,
  tries: triesBlock,
  slides: slidesBlock,
  memory: memoryBlock,
  map: mapBlock,
  survey: surveyBlock,
  games: gamesBlock,
  game: gameBlock,
  errors: errorsBlock,
};

/** Fills the blocks of one lesson, and keeps its exercises for the end. */
export class LessonFiller {
  readonly exercises: Exercise[] = [];

  constructor(private readonly means: LessonMeans) {}

  /** The HTML in the place of a block. Throws `bad-block`, and what the block's own work throws. */
  readonly fill = async (block: Block): Promise<string> =>
    block.name === "exercises"
      ? this.numbered(await exercisesOf(this.means, block))
      : await FILLED[block.name](this.means, block);

  /** The boards of more exercises, numbered on through the lesson. */
  private numbered({ exercises, comments, note }: LessonExercises): string {
    const first = this.exercises.length;
    const numbered = exercises.map((one, n) => ({ ...one, number: first + n + 1 }));
    this.exercises.push(...numbered);
    const own = new Map([...comments].map(([n, said]) => [first + n, said]));
    return renderToString(
      <>
        {note !== null && <p class="note">{note}</p>}
        {exercises.some(({ pair }) => pair !== null) && (
          <p>
            The boards stand in pairs, {first + 1} with {first + 2} and so on. The two of a pair differ by a
            little, and one is won where the other is drawn. Which is which?
          </p>
        )}
        <ExerciseBoards exercises={numbered} comments={own} />
      </>,
    );
  }

  /** The solutions of every exercise of the lesson; nothing where there is none. */
  solutions(): string {
    if (this.exercises.length === 0) return "";
    return renderToString(
      <>
        <ExerciseHints exercises={this.exercises} />
        <section class="solutions">
          <h2>Solutions</h2>
          <ExerciseSolutions exercises={this.exercises} />
        </section>
      </>,
    );
  }
}

// A set of exercises as a sheet to print: boards, hints, and the solutions at its end.

import { capital, countedInWords, withEnd } from "../position/wording.js";
import { fenFields } from "../chess/fen-text.js";
import { numbered } from "../chess/move-numbers.js";
import type { Exercise } from "../exercises/exercise.js";
import type { NotTaken } from "../exercises/refusals.js";
import { diagramsSvg } from "./diagram.js";
import {
  FIFTY_NOTE,
  STARS_NOTE,
  gradeInWords,
  joined,
  notTakenInWords,
  sourceInWords,
  taskInWords,
  themesInWords,
  verdictInWords,
} from "./exercise-words.js";
import { Names } from "./names.js";
import { type PageMade, Raw, renderPage } from "./printed-page.js";

/** A word of the author's own on an exercise, by its number. */
export type Comments = ReadonlyMap<number, string>;

/** With more boards than these, four stand in a row: twelve and their hints fill one page. */
const THREE_IN_A_ROW = 9;

/** How boards stand: two that contrast beside each other. */
const rowsOf = (exercises: readonly Exercise[]): string =>
  exercises.some(({ pair }) => pair !== null)
    ? "pairs"
    : exercises.length > THREE_IN_A_ROW
      ? "exercises four"
      : "exercises";

/** The boards to be solved. */
export const ExerciseBoards = ({
  exercises,
  comments,
}: {
  exercises: readonly Exercise[];
  comments?: Comments;
}) => (
  <div class={`boards ${rowsOf(exercises)}`}>
    {exercises.map((exercise) => (
      <figure>
        <Raw
          html={diagramsSvg(
            [{ fen: exercise.fen, turn: true }],
            1,
            `Exercise ${exercise.number}. ${taskInWords(exercise)}`,
          )}
        />
        <figcaption class="task">
          <b>{exercise.number}</b> {taskInWords(exercise)}{" "}
          <span class="stars">{"★".repeat(exercise.grade ?? 0)}</span>
          {comments?.has(exercise.number) && <> {comments.get(exercise.number)}</>}
        </figcaption>
      </figure>
    ))}
  </div>
);

/** The ideas first, then what moves: so that one can be read without the other. */
export const ExerciseHints = ({ exercises }: { exercises: readonly Exercise[] }) => {
  const hinted = exercises.filter(({ hints }) => hints.length > 0);
  const list = (title: string, hintOf: (one: Exercise) => string | undefined) => (
    <p class="hints">
      <b>{title}.</b>{" "}
      {hinted.map((one) => {
        const hint = hintOf(one);
        return hint === undefined ? null : (
          <span>
            <b>{one.number}</b>
            {"\u00a0"}
            {hint}{" "}
          </span>
        );
      })}
    </p>
  );
  if (hinted.length === 0) return null;
  return (
    <section class="hint">
      <h2>Hints</h2>
      {list("The idea", ({ hints }) => (hints.length > 1 ? hints[0] : undefined))}
      {list("What to move", ({ hints }) => hints.at(-1))}
    </section>
  );
};

/** What is right, what is not, and how it went in the game. */
export const ExerciseSolutions = ({ exercises }: { exercises: readonly Exercise[] }) => (
  <>
    {exercises.map((exercise) => {
      const { number, fen, task, answers, solution, refutations, setUps } = exercise;
      const source = sourceInWords(exercise);
      const { turn } = fenFields(fen);
      const [answer, ...line] = numbered(turn, 1, [answers[0], ...solution.line]);
      const judged = task === "judge";
      return (
        <div class="solution">
          <b class="no">{number}</b>{" "}
          {judged ? (
            judgedInWords(exercise)
          ) : (
            <>
              <b>
                {answer}
                {answers.length === 1 ? "!" : ""}
              </b>{" "}
              {withEnd(line.join(" "), solution.end)}.
              {answers.length > 1 && <> As good: {answers.slice(1).join(", ")}.</>}
            </>
          )}
          {!judged &&
            refutations.map((one) => {
              const [wrong, ...reply] = numbered(turn, 1, [one.san, ...one.line]);
              return (
                <>
                  {" "}
                  Not {wrong}? {withEnd(reply.join(" "), one.end)}.
                </>
              );
            })}{" "}
          {exercise.beyondFifty && <>{FIFTY_NOTE} </>}
          <span class="about">
            <Names
              text={joined([themesInWords(exercise), setUps.join(", "), gradeInWords(exercise), source])}
            />
          </span>
        </div>
      );
    })}
  </>
);

/** The verdict with what shows it: the first moves of a win, the moves that hold, or that none wins. */
function judgedInWords(exercise: Exercise): string {
  const { fen, verdict, sideToMove, answers, legal, solution } = exercise;
  const { turn } = fenFields(fen);
  const said = capital(verdictInWords(exercise));
  if (verdict !== "drawn")
    return `${said}: ${numbered(turn, 1, [answers[0], ...solution.line.slice(0, 6)]).join(" ")}${solution.line.length > 6 ? " and so on" : ""}.`;
  if (sideToMove === "attacker") return `${said}: no move wins.`;
  if (answers.length === legal) return `${said}: every move holds.`;
  const [first] = numbered(turn, 1, answers.slice(0, 1));
  return answers.length === 1
    ? `${said}: ${first} is the only move that holds.`
    : `${said}: ${answers.length} of ${legal} moves hold, such as ${first}.`;
}

/** What the boards of a sheet ask, in a sentence or two. */
function introduction(exercises: readonly Exercise[]): string {
  const graded = exercises.some(({ grade }) => grade !== null);
  const rises = exercises.every(
    ({ difficulty }, n) => n === 0 || (difficulty ?? 0) >= (exercises[n - 1].difficulty ?? 0),
  );
  return joined([
    `${capital(countedInWords(exercises.length, "exercise"))}${graded ? `, ${rises ? "" : "theme after theme, each "}from easy to hard: ${STARS_NOTE}` : ""}`,
    exercises.some(({ pair }) => pair !== null)
      ? "the boards stand in pairs, 1 with 2 and so on; the two of a pair differ by a little, and one is won where the other is drawn"
      : null,
    `the disc beside a board shows whose move it is; ${exercises.some(({ hints }) => hints.length > 0) ? "hints and solutions" : "solutions"} are at the end`,
  ]);
}

/** A set of exercises on a sheet, with what a reader must know of the choice. */
export interface Sheet {
  readonly title: string;
  readonly exercises: readonly Exercise[];
  readonly notTaken?: readonly NotTaken[];
  /** Earlier sets that some of them go back to. */
  readonly again?: readonly string[];
}

const SheetBoards = ({ title, exercises, notTaken = [], again = [] }: Sheet) => (
  <section class="sheet">
    <h1>{title}</h1>
    <p>{introduction(exercises)}</p>
    {again.length > 0 && <p>Some of them go back to earlier sets: {again.join(", ")}.</p>}
    {notTaken.length > 0 && <p class="note">Not taken: {notTaken.map(notTakenInWords).join(" ")}</p>}
    <ExerciseBoards exercises={exercises} />
    <ExerciseHints exercises={exercises} />
  </section>
);

/** A sheet to print: the boards, hints, and the solutions on a page of their own. */
export const exercisesPage = (
  exercises: readonly Exercise[],
  made: PageMade,
  more: Omit<Sheet, "title" | "exercises"> = {},
): string =>
  renderPage({
    ...made,
    body: (
      <>
        <SheetBoards title={made.title} exercises={exercises} {...more} />
        <section class="solutions">
          <h2>Solutions</h2>
          <ExerciseSolutions exercises={exercises} />
        </section>
      </>
    ),
  });

/** Several sheets, one after another, and behind them the solutions of all, so that the sheets can be handed out. */
export const sheetsPage = (sheets: readonly Sheet[], made: PageMade): string =>
  renderPage({
    ...made,
    body: (
      <>
        {sheets.map((sheet) => (
          <SheetBoards {...sheet} />
        ))}
        <section class="solutions">
          <h2>Solutions</h2>
          {sheets.map(({ title, exercises }) => (
            <>
              <h3>{title}</h3>
              <ExerciseSolutions exercises={exercises} />
            </>
          ))}
        </section>
      </>
    ),
  });

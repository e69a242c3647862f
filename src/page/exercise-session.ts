// A session of exercises: how one is stored, where it is played, and how a try is counted.

import { addressOf } from "./address.js";
import { changeByStep, changeStored } from "./browser-storage.js";
import type { AnswerTo } from "./calls.js";
import { turnOf } from "./fen.js";
import { afterTry, dayOf, daysAfter } from "./learning.js";
import type { ExerciseSession, LearntExercise, StoredExercise } from "./stored.js";

const UNTRIED = { won: 0, lost: 0, last: null } as const;

/** An exercise as the browser stores it. */
export const storedExercise = ({
  fen,
  said,
  grade,
  graded,
  source,
  setUps,
  hints,
}: AnswerTo<"exercises">["exercises"][number]): StoredExercise => ({
  fen,
  said,
  grade,
  about: [setUps.join(", "), graded, source].filter((part) => part).join("; ") + ".",
  hints,
  ...UNTRIED,
});

/** Puts exercises in the place of those that are there, as a step that can be undone; none puts them away. */
export const putExercises = (session: ExerciseSession | null): void =>
  changeByStep("session", session === null ? "putting exercises away" : session.title, () => session);

/** Where an exercise is played, as a new try: each has a number of its own. */
export const exerciseAddress = (exercises: readonly StoredExercise[], n: number): string => {
  const { fen, won, lost } = exercises[n];
  return addressOf("/play", { exercise: n, fen, you: turnOf(fen), seed: won + lost + 1 });
};

/** A session with one of its exercises changed, by its position. */
const withExercise = (
  session: ExerciseSession,
  fen: string,
  how: (one: StoredExercise) => StoredExercise,
): ExerciseSession => ({
  ...session,
  exercises: session.exercises.map((one) => (one.fen === fen ? how(one) : one)),
});

/** Counts a try of an exercise as won or lost. */
export const countTry = (fen: string, how: "won" | "lost", attempt: string): void =>
  changeStored(({ session, learning, days }) => {
    if (session === null) return {};
    const day = dayOf(new Date());
    const tried = session.exercises.find((one) => one.fen === fen);
    return {
      session: withExercise(session, fen, (one) => ({
        ...one,
        [how]: one[how] + 1,
        last: how,
        counted: attempt,
      })),
      learning: tried ? afterTry(learning, tried, how, day) : learning,
      days: daysAfter(days, how, day),
    };
  });

/** Says of an exercise that it was solved with help; one that was won or lost before stays so. */
export const markHelped = (fen: string): void =>
  changeStored(({ session }) =>
    session === null
      ? {}
      : {
          session: withExercise(session, fen, (one) =>
            one.last === null ? { ...one, last: "helped" } : one,
          ),
        },
  );

/** Exercises that come back, as a session of their own. */
export const sessionOf = (due: readonly LearntExercise[]): ExerciseSession => ({
  title: "Exercises that come back",
  exercises: due.map(({ fen, said, grade, about, hints }) => ({
    fen,
    said,
    grade,
    about,
    hints,
    ...UNTRIED,
  })),
});

/** Whether exercises under way may be replaced: asked where some have been tried. */
export const mayReplace = (session: ExerciseSession | null): boolean =>
  session === null ||
  session.exercises.every(({ last }) => last === null) ||
  confirm("Put these exercises and their score away?");

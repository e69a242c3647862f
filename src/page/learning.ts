// When an exercise comes back: after a success in growing steps of days, after a failure the next day. And how many were won
// and lost on each day. Plain functions of what the browser stores.

import type { LearntExercise, PractiseDay, StoredExercise } from "./stored.js";

/** Days until an exercise comes back, after so many successes in a row; after more as after the last. */
export const STEPS = [1, 3, 7, 16, 35, 90] as const;

/** Days until one that was lost comes back. */
const AFTER_FAILURE = 1;

/** Days of which the score is kept. */
const KEPT_DAYS = 60;

const DAY = 24 * 60 * 60 * 1000;

/** A day by its number since 1970, in the time of this place. */
export const dayOf = (date: Date): number =>
  Math.floor((date.getTime() - date.getTimezoneOffset() * 60_000) / DAY);

/** The day of a number, as people write it. */
export const writtenDay = (day: number): string =>
  new Date(day * DAY).toLocaleDateString("en-GB", { day: "numeric", month: "long", timeZone: "UTC" });

/** What is learnt after a try of an exercise on a day. */
export function afterTry(
  learning: readonly LearntExercise[],
  { fen, said, grade, about, hints }: StoredExercise,
  how: "won" | "lost",
  day: number,
): readonly LearntExercise[] {
  const before = learning.find((one) => one.fen === fen);
  // trying it once more on a day on which it was not due proves nothing new
  const early = before !== undefined && before.due > day;
  if (how === "won" && early) return learning;
  const step = how === "lost" ? -1 : Math.min(STEPS.length - 1, (before?.step ?? -1) + 1);
  const due = day + (how === "lost" ? AFTER_FAILURE : STEPS[step]);
  const after = { fen, said, grade, about, hints, step, due };
  return before ? learning.map((one) => (one.fen === fen ? after : one)) : [...learning, after];
}

/** The exercises that are due on a day, those first that have waited longest. */
export const dueOn = (learning: readonly LearntExercise[], day: number): readonly LearntExercise[] =>
  learning.filter(({ due }) => due <= day).sort((a, b) => a.due - b.due);

/** The score of the days with another try. */
export function daysAfter(
  days: readonly PractiseDay[],
  how: "won" | "lost",
  day: number,
): readonly PractiseDay[] {
  const last = days.at(-1);
  const today = last?.day === day ? last : { day, won: 0, lost: 0 };
  const others = last?.day === day ? days.slice(0, -1) : days;
  return [...others, { ...today, [how]: today[how] + 1 }].slice(-KEPT_DAYS);
}

// When exercises come back: days in growing steps after successes, the next day after a failure.

import fc from "fast-check";
import { describe, expect, it } from "vitest";

import { STEPS, afterTry, dayOf, daysAfter, dueOn, writtenDay } from "../../src/page/learning.js";
import type { LearntExercise, PractiseDay, StoredExercise } from "../../src/page/stored.js";

const exercise: StoredExercise = {
  fen: "3k4/r7/3K4/3B4/8/8/8/6R1 b - - 0 1",
  said: "Hold the draw.",
  grade: 2,
  about: "",
  won: 0,
  lost: 0,
  last: null,
};
const tries = (...made: readonly (readonly [how: "won" | "lost", day: number])[]) =>
  made.reduce<readonly LearntExercise[]>((known, [how, day]) => afterTry(known, exercise, how, day), []);

describe("an exercise", () => {
  it("comes back later and later as long as it is won on the day it is due", () => {
    let known = tries(["won", 100]);
    let day = 100;
    for (const step of STEPS) {
      expect(known[0].due).toBe(day + step);
      day = known[0].due;
      known = afterTry(known, exercise, "won", day);
    }
    expect(known[0].due).toBe(day + STEPS[STEPS.length - 1]);
  });

  it("comes back the next day when it was lost, and then from the first step on", () => {
    const known = tries(["won", 100], ["won", 101], ["lost", 104]);
    expect(known[0].due).toBe(105);
    expect(afterTry(known, exercise, "won", 105)[0].due).toBe(105 + STEPS[0]);
  });

  it("is no better known for being won twice on one day", () => {
    expect(tries(["won", 100], ["won", 100])).toEqual(tries(["won", 100]));
  });

  it("is stored once, whatever is tried, and never due on the day it was tried", () => {
    const made = fc.array(fc.tuple(fc.constantFrom("won" as const, "lost" as const), fc.nat(3)), {
      minLength: 1,
    });
    fc.assert(
      fc.property(made, (list) => {
        let day = 0;
        let known: readonly LearntExercise[] = [];
        for (const [how, later] of list) {
          day += later;
          known = afterTry(known, exercise, how, day);
          expect(known).toHaveLength(1);
          expect(dueOn(known, day)).toEqual([]);
          expect(dueOn(known, known[0].due)).toEqual(known);
        }
      }),
    );
  });
});

describe("days", () => {
  it("count their tries, and only so many are kept", () => {
    let days: readonly PractiseDay[] = [];
    for (let day = 0; day < 100; ++day)
      for (const how of ["won", "won", "lost"] as const) days = daysAfter(days, how, day);
    expect(days).toHaveLength(60);
    expect(days.at(-1)).toEqual({ day: 99, won: 2, lost: 1 });
  });

  it("are those of the place, and are written as people do", () => {
    const day = dayOf(new Date(2026, 10, 28, 23, 30));
    expect(writtenDay(day)).toBe("28 November");
    expect(dayOf(new Date(2026, 10, 29, 0, 10))).toBe(day + 1);
  });
});

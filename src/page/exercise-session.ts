// A session of exercises: how one is kept, where it is played, when it is won, and how a try is counted.

import type { Color } from "chessops";

import { addressOf } from "./address.js";
import type { AnswerTo } from "./calls.js";
import { type Kept, type Session, keep } from "./browser-storage.js";

/** An exercise is won with so many moves of one's own that keep the result, if the game is not over before. */
export const ENOUGH = 5;

/** Whose move it is in a position. */
export const turnOf = (fen: string): Color => (fen.split(" ")[1] === "w" ? "white" : "black");

/** An exercise as the browser keeps it. */
export const keptOf = ({
  fen,
  said,
  grade,
  graded,
  source,
  setUps,
}: AnswerTo<"exercises">["exercises"][number]): Kept => ({
  fen,
  said,
  grade,
  about: [setUps.join(", "), graded, source].filter((part) => part).join("; ") + ".",
  won: 0,
  lost: 0,
  last: null,
});

/** Where an exercise is played, as a new try: each has a number of its own. */
export const exerciseAddress = (exercises: readonly Kept[], n: number): string => {
  const { fen, won, lost } = exercises[n];
  return addressOf("/play", { exercise: n, fen, you: turnOf(fen), seed: won + lost + 1 });
};

/** Counts a try of an exercise as won or lost. */
export const count = (fen: string, how: "won" | "lost", attempt: string) =>
  keep(({ session }) =>
    session === null
      ? {}
      : {
          session: {
            ...session,
            exercises: session.exercises.map((one) =>
              one.fen === fen ? { ...one, [how]: one[how] + 1, last: how, counted: attempt } : one,
            ),
          },
        },
  );

/** Whether exercises under way may be replaced: asked where some have been tried. */
export const mayReplace = (session: Session | null): boolean =>
  session === null ||
  session.exercises.every(({ last }) => last === null) ||
  confirm("Put the exercises under way and their score away?");

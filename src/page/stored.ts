// What the browser stores, its shape and its key: plain, so that tests can store the same.

import type { Input } from "../server/answers.js";

/** Something in the collection: a position, or a whole ending. */
export interface CollectionItem {
  readonly key: string;
  /** What it is called in the collection. */
  readonly title: string;
  /** A position's; a whole ending has none. */
  readonly fen?: string;
  readonly ending?: number;
  readonly ply?: number;
  /** The position to show for it. */
  readonly shown: string;
  readonly note: string;
}

/** One exercise, and how it went. */
export interface StoredExercise {
  readonly fen: string;
  readonly said: string;
  readonly grade: number | null;
  readonly about: string;
  /** What helps, step by step; none of an exercise that was stored before there were hints. */
  readonly hints?: readonly string[];
  readonly won: number;
  readonly lost: number;
  /** How it went last; "helped" as long as it was solved with hints alone, which counts neither way. */
  readonly last: "won" | "lost" | "helped" | null;
  /** The try that was counted last, by its number: it is not counted again, whatever is taken back. */
  readonly counted?: string;
}

export interface ExerciseSession {
  readonly title: string;
  readonly exercises: readonly StoredExercise[];
}

/** An exercise that has been tried, and when it comes back (see learning.ts). */
export interface LearntExercise extends Pick<StoredExercise, "fen" | "said" | "grade" | "about" | "hints"> {
  /** Successes in a row on days on which it was due, less one; -1 after a failure. */
  readonly step: number;
  /** A day by its number since 1970. */
  readonly due: number;
}

/** Tries on one day. */
export interface PractiseDay {
  readonly day: number;
  readonly won: number;
  readonly lost: number;
}

export interface Settings {
  /** Whose side is at the bottom of a board. */
  readonly below: "white" | "black";
  readonly opponent: NonNullable<Input<"play">["opponent"]>;
  /** When a game says that the result has changed. */
  readonly tell: "at-once" | "asked";
}

type Part = NonNullable<Input<"lesson">["parts"]>[number];

/** A part of a lesson, by a key that it keeps wherever it is moved to. */
export type StoredPart = Part & { readonly key: string };

/** A lesson, its parts in order. */
export interface StoredLesson {
  readonly title: string;
  readonly paper: NonNullable<Input<"lesson">["paper"]>;
  readonly parts: readonly StoredPart[];
}

export interface Stored {
  readonly collection: readonly CollectionItem[];
  readonly session: ExerciseSession | null;
  readonly learning: readonly LearntExercise[];
  /** The last days on which something was tried, in order. */
  readonly days: readonly PractiseDay[];
  readonly settings: Settings;
  /** The lesson that is being put together. */
  readonly lesson: StoredLesson | null;
  /** The outline of a lesson that was written before lessons were put together from parts. */
  readonly outline: string | null;
}

export const NOTHING_STORED: Stored = {
  collection: [],
  session: null,
  learning: [],
  days: [],
  settings: { below: "white", opponent: "table", tell: "at-once" },
  lesson: null,
  outline: null,
};

/** The key in the browser's storage: what is stored belongs to its games, since endings of others have the same numbers. */
export const storageKey = (games: string): string => `longside ${games}`;

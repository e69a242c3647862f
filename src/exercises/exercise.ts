// What an exercise is: a position, a task, the moves that solve it and those that do not, and how hard it is.

import type { Color } from "chessops";

import type { Moves, Ply } from "../chess/units.js";
import type { Verdict } from "../chess/verdict.js";
import type { Tempting } from "../position/explain.js";
import type { Variation } from "../position/variations.js";
import type { Task } from "./tasks.js";
import type { Theme } from "./themes/theme.js";

export interface ExercisesAsked {
  readonly task: Task;
  /** Moves that keep the verdict; null for one where there is one, else for a few. */
  readonly answers: number | null;
  readonly size: number;
  readonly seed: number;
  /** Ideas of which each exercise has one at least, each for its part of the set; any where it is left out. */
  readonly themes?: readonly Theme[];
  /** Whether one theme comes after another, each from easy to hard, rather than all of them mixed. */
  readonly byTheme?: boolean;
  /** Whether each position to judge comes with one that looks alike and comes out otherwise. */
  readonly pairs?: boolean;
  /** Whether to stop rather than to fill a set up with more of the same. */
  readonly varied?: boolean;
  /** Whether all boards stand the same way: White attacks, the defender's king is at the top. */
  readonly upright?: boolean;
}

/** Endings with the position or a similar one in them, and in how many of these a move there gave something away. */
export interface PeopleRecord {
  readonly met: number;
  readonly failed: number;
}

/** The game a position comes from. */
export interface Source {
  readonly white: string | null;
  readonly black: string | null;
  readonly event: string | null;
  readonly date: string | null;
  readonly file: string;
  readonly game: number;
  readonly ending: number;
  readonly ply: Ply;
  /** Number of the move in the game, and whether it kept the verdict; null without a move. */
  readonly move: number;
  readonly kept: boolean | null;
}

export interface Exercise {
  /** From 1, easy to hard. */
  readonly number: number;
  readonly task: Task;
  readonly fen: string;
  readonly attacker: Color;
  readonly sideToMove: "attacker" | "defender";
  readonly verdict: Verdict;
  readonly dtm: Moves | null;
  readonly legal: number;
  /** Every move that keeps the verdict, in SAN; the first is the solution's. */
  readonly answers: readonly string[];
  readonly solution: Variation;
  readonly refutations: readonly Tempting[];
  /** Ideas that every answer has, the one that says the most first. */
  readonly themes: readonly Theme[];
  /** The idea, then what moves; none where a verdict is asked for. */
  readonly hints: readonly string[];
  /** Won or lost on paper, but not within fifty moves (FIDE Laws 9.3: the arbiter decides). */
  readonly beyondFifty: boolean;
  /** What makes it as hard as its grade says. */
  readonly reason: string | null;
  /** Number that it shares with the one that looks alike and comes out otherwise. */
  readonly pair: number | null;
  /** Expected share of players who fail, 0 to 1, and the grade that follows from it, 1 to 5; null where a verdict is asked for. */
  readonly difficulty: number | null;
  readonly grade: number | null;
  readonly record: PeopleRecord | null;
  readonly setUps: readonly string[];
  readonly source: Source | null;
}

// Tasks of exercises: their names as options, their questions to tables and games, and their words on the sheet.

/** What a student is asked to do. `find` leaves open which of the first two it is. */
export const TASKS = [
  { name: "hold", say: "Hold the draw." },
  { name: "win", say: "Find the move that wins." },
  { name: "find", say: "Find the move." },
  { name: "judge", say: "Won or drawn?" },
] as const;
export type Task = (typeof TASKS)[number]["name"];

/** Those that are done by playing: to judge is none of them. */
export const PLAYED_TASKS = ["hold", "win", "find"] as const satisfies readonly Task[];

/** The condition of a task, in the language of questions. */
export const taskQuestion = (task: Task): string =>
  ({
    hold: "to-move = defender and verdict = drawn",
    win: "to-move = attacker and verdict = won",
    find: "((to-move = defender and verdict = drawn) or (to-move = attacker and verdict = won))",
    judge: "verdict != lost",
  })[task];

/** The seed of a task: with one seed each task has another choice. */
export const seedOf = (seed: number, task: Task): number =>
  seed + 0x9e3779b1 * TASKS.findIndex(({ name }) => name === task);

/** Where positions are taken from. */
export const SOURCES = ["games", "table"] as const;
export type Among = (typeof SOURCES)[number];

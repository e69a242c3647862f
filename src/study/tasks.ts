// What exercises ask, once: the options, the questions put to tables and games, and the words on the sheet.

/** What a student is asked to do, and the positions it can be asked in. */
export const TASKS = [
  { name: "hold", say: "Hold the draw.", meaning: "the defender moves, the position is drawn" },
  { name: "win", say: "Find the move that wins.", meaning: "the attacker moves, the position is won" },
  { name: "find", say: "Find the move.", meaning: "either of these, the student not being told which" },
  { name: "judge", say: "Won or drawn?", meaning: "any position; the answer is its verdict" },
] as const;
export type Task = (typeof TASKS)[number]["name"];

/** The condition of a task, in the language of questions. */
export const taskQuestion = (task: Task): string =>
  ({
    hold: "to-move = defender and verdict = drawn",
    win: "to-move = attacker and verdict = won",
    find: "((to-move = defender and verdict = drawn) or (to-move = attacker and verdict = won))",
    judge: "verdict != lost",
  })[task];

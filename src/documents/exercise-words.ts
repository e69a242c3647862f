// Exercises in words: what is asked, how hard it is and why, where it was played, what is right.

import { capital, counted, sentence } from "../position/wording.js";
import { winnerInWords } from "../position/variations.js";
import { fenFields } from "../chess/fen-text.js";
import { namesText, withWrittenNames, writtenDate } from "../pgn/game/players.js";
import type { Exercise } from "../exercises/exercise.js";
import type { NotTaken, Refusal, Refused } from "../exercises/refusals.js";
import { TASKS, type Task } from "../exercises/tasks.js";

/** What a task asks; where several moves win, any of them is asked for. */
const sayOf = (task: Task, answers: number): string =>
  task === "win" && answers > 1 ? "Find a move that wins." : TASKS.find(({ name }) => name === task)!.say;
const colourToMove = (fen: string) => (fenFields(fen).turn === "white" ? "White" : "Black");

/** "White moves. Hold the draw." */
export function taskInWords({
  fen,
  task,
  answers = [],
  beyondFifty = false,
}: Pick<Exercise, "fen" | "task"> & Partial<Pick<Exercise, "answers" | "beyondFifty">>): string {
  const asked = `${colourToMove(fen)} moves. ${sayOf(task, answers.length)}`;
  return beyondFifty ? `${asked} (The fifty-move rule is left out.)` : asked;
}

/** What is said of a win that comes too late for the fifty-move rule. */
export const FIFTY_NOTE =
  "The win takes more than fifty moves without a capture, so that a draw can be claimed first (FIDE Laws 9.3; the arbiter decides).";

/** What the stars mean, by the limits of the grades. */
export const STARS_NOTE =
  "one star marks what nearly everybody finds, five stars what one player in three or more gets wrong";

/** With fewer games than these it says nothing how people fared. */
const FEWEST_GAMES = 3;

/** "grade 3 of 5: about 17 in 100 go wrong; in 4 of 21 games with this or a similar position a player went wrong". */
export function gradeInWords({
  grade,
  difficulty,
  record,
  reason,
}: Pick<Exercise, "grade" | "difficulty" | "record" | "reason">): string {
  const people =
    record && record.met >= FEWEST_GAMES
      ? `in ${record.failed === 0 ? "none" : record.failed} of ${counted(record.met, "game")} with this or a similar position ${record.failed === 0 ? "did a player go wrong" : "a player went wrong"}`
      : "";
  if (grade === null || difficulty === null) return people;
  const expected = `grade ${grade} of 5: about ${Math.round(100 * difficulty)} in 100 go wrong`;
  return [expected, reason, people].filter((part) => part).join("; ");
}

/** Where it was played, and what happened; null for a position out of the table. */
export function sourceInWords({ source }: Pick<Exercise, "source">): string | null {
  if (!source) return null;
  const { event, date, move, kept } = source;
  const played = kept === null ? `, move ${move}` : `, move ${move}: ${kept ? "found" : "missed"}`;
  const names = namesText(withWrittenNames(source));
  return `${[names, event, writtenDate(date)].filter((part) => part !== null).join(", ")}${played}`;
}

/** The verdict as the answer to a question: "White wins, mate in 12" or "drawn". */
export function verdictInWords({
  verdict,
  dtm,
  attacker,
}: Pick<Exercise, "verdict" | "dtm" | "attacker">): string {
  const said = winnerInWords(verdict, attacker);
  return verdict === "drawn" ? said : `${said}, mate in ${dtm}`;
}

/** The answer to what is asked: moves, or a verdict. */
export const answerInWords = (exercise: Exercise): string =>
  exercise.task === "judge" ? verdictInWords(exercise) : exercise.answers.join(" ");

/** "theme: skewer". */
export const themesInWords = ({ themes }: Pick<Exercise, "themes">): string =>
  themes.length === 0 ? "" : `theme: ${themes[0]}`;

/** What is said of each reason, of one position and of several. */
const REASONS: Readonly<Record<Refusal, readonly [string, string]>> = {
  "no move": ["has no legal move", "have no legal move"],
  "already lost": ["is lost for the side to move", "are lost for the side to move"],
  "every move keeps it": ["keeps its result with every move", "keep their result with every move"],
  "another number of answers": ["has another number of answers", "have another number of answers"],
  "too many answers": ["has too many answers", "have too many answers"],
  "hardly a choice": ["leaves hardly a choice", "leave hardly a choice"],
  "mate in one": ["is mate in one", "are mate in one"],
  "mate by a check": ["is mate in two that begins with a check", "are mates in two that begin with a check"],
  "in check": ["is a check that has to be answered", "are checks that have to be answered"],
  "a piece is simply taken": ["is solved by taking a piece", "are solved by taking a piece"],
  "nothing tempts": ["has no wrong move that tempts", "have no wrong move that tempts"],
  "beyond fifty moves": [
    "depends on the fifty-move rule (FIDE Laws 9.3; the arbiter decides)",
    "depend on the fifty-move rule (FIDE Laws 9.3; the arbiter decides)",
  ],
  "no such theme": ["has another theme", "have other themes"],
  "no contrast near by": [
    "has no position beside it that comes out otherwise",
    "have no position beside them that comes out otherwise",
  ],
  "same picture as another": ["shows the same picture as another", "show the same picture as another"],
  "another ending": ["is another ending", "are another ending"],
};

/** "12 have too many answers, 3 are solved by taking a piece": why candidates are no exercises. */
export const refusedInWords = (refused: Refused): string =>
  (Object.entries(refused) as [Refusal, number][])
    .map(([reason, count]) => `${count.toLocaleString("en")} ${REASONS[reason][count === 1 ? 0 : 1]}`)
    .join(", ");

/** "8/8/… w: keeps its result with every move." */
export const notTakenInWords = ({ fen, reason }: NotTaken): string =>
  `${fen.split(" ").slice(0, 2).join(" ")} ${REASONS[reason][0]}.`;

/** A sentence of parts that may be missing. */
export const joined = (parts: readonly (string | null | undefined)[]): string =>
  parts
    .filter((part): part is string => Boolean(part))
    .map((part) => sentence(capital(part)))
    .join(" ");

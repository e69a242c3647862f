// A set of exercises as files: PGN, EPD, and a sheet to print with the solutions at its end.

import { parseSan } from "chessops/san";
import { makeUci } from "chessops/util";

import { epdLine } from "../pgn/game/epd.js";
import { namesText } from "../pgn/game/players.js";
import { writeGame } from "../pgn/game/write.js";
import { capital, counted, sentence } from "../position/wording.js";
import { readFen } from "../chess/fen.js";
import { fenFields } from "../chess/fen-text.js";
import { numbered } from "../chess/move-numbers.js";
import type { Exercise } from "../exercises/exercise.js";
import { TASKS, type Task } from "../exercises/tasks.js";
import { diagramsSvg } from "./diagram.js";
import { Raw, renderPage } from "./printed-page.js";

const sayOf = (task: Task): string => TASKS.find(({ name }) => name === task)!.say;
const colourToMove = (fen: string) => (fenFields(fen).turn === "white" ? "White" : "Black");

/** "White moves. Hold the draw." */
export const taskInWords = ({ fen, task }: Pick<Exercise, "fen" | "task">): string =>
  `${colourToMove(fen)} moves. ${sayOf(task)}`;

/** "grade 3 of 5: about 17 in 100 go wrong; in 4 of 21 games with this or a similar position a player went wrong". */
export function gradeInWords({ grade, difficulty, record }: Exercise): string {
  const people =
    record && record.met > 0
      ? `in ${record.failed} of ${counted(record.met, "game")} with this or a similar position a player went wrong`
      : "";
  if (grade === null || difficulty === null) return people;
  const expected = `grade ${grade} of 5: about ${Math.round(100 * difficulty)} in 100 go wrong`;
  return people === "" ? expected : `${expected}; ${people}`;
}

/** Where it was played, and what happened; null for a position out of the table. */
export function sourceInWords({ source }: Exercise): string | null {
  if (!source) return null;
  const { event, date, move, kept } = source;
  const played = kept === null ? `, move ${move}` : `, move ${move}: ${kept ? "found" : "missed"}`;
  return `${[namesText(source), event, date].filter((part) => part !== null).join(", ")}${played}`;
}

/** The verdict as the answer to a question: "White wins, mate in 12" or "drawn". */
function verdictInWords({ verdict, dtm, attacker }: Exercise): string {
  if (verdict === "drawn") return "drawn";
  const winner = (verdict === "won") === (attacker === "white") ? "White" : "Black";
  return `${winner} wins, mate in ${dtm}`;
}

/** The exercises as PGN: the solution as moves, what fails as variations. */
export function exercisesPgn(exercises: readonly Exercise[], title: string): string {
  return exercises
    .map((exercise) => {
      const { fen, answers, solution, refutations, source, verdict, attacker } = exercise;
      const position = readFen(fen);
      const moves = [answers[0], ...solution.line].map((san) => {
        const move = parseSan(position, san)!;
        position.play(move);
        return makeUci(move);
      });
      const others = answers.slice(1);
      const also = others.length > 0 ? `; as good: ${others.join(", ")}` : "";
      const end = moves.length - 1;
      const said = new Map<number, string>([
        [0, `${answers.length === 1 ? "the only move" : "keeps it"}${also}`],
      ]);
      said.set(end, [said.get(end), solution.end].filter((part) => part !== undefined).join("; "));
      const annotations = new Map(
        [...said].map(([ply, comment]) => [
          ply,
          {
            comment,
            // 8 singular move, 1 good move
            glyphs: ply === 0 ? [answers.length === 1 ? 8 : 1] : [],
            instead:
              ply === 0
                ? refutations.map((one) => ({ moves: [one.san, ...one.line], comment: one.end }))
                : [],
          },
        ]),
      );
      const result =
        verdict === "drawn" ? "1/2-1/2" : (verdict === "won") === (attacker === "white") ? "1-0" : "0-1";
      return writeGame({
        tags: [
          ["Event", title],
          ["Site", "?"],
          ["Date", source?.date ?? "????.??.??"],
          ["Round", String(exercise.number)],
          // the board is turned and colours may be exchanged: the comment names the players
          ["White", "?"],
          ["Black", "?"],
          ["Result", result],
        ],
        start: fen,
        moves,
        result,
        comment: [taskInWords(exercise), sentence(capital(gradeInWords(exercise))), sourceInWords(exercise)]
          .filter((part) => part)
          .join(" "),
        annotations,
      });
    })
    .join("");
}

/** The exercises as EPD: best moves, moves to avoid, the solution, and in c0 to c3 task, grade, end and source. */
export function exercisesEpd(exercises: readonly Exercise[], title: string): string {
  return exercises
    .map((exercise) => {
      const { fen, task, answers, refutations, dtm, solution, verdict, sideToMove } = exercise;
      const mates = dtm !== null && (verdict === "won") === (sideToMove === "attacker");
      const source = sourceInWords(exercise);
      const asksMove = task !== "judge";
      return `${epdLine(fen, [
        { opcode: "bm", operands: asksMove ? answers : [] },
        { opcode: "am", operands: asksMove ? refutations.map(({ san }) => san) : [] },
        { opcode: "dm", operands: mates ? [dtm] : [] },
        { opcode: "pv", operands: [answers[0], ...solution.line] },
        { opcode: "id", operands: [`${title}, ${exercise.number}`], text: true },
        { opcode: "c0", operands: [taskInWords(exercise)], text: true },
        { opcode: "c1", operands: [gradeInWords(exercise)].filter((said) => said !== ""), text: true },
        { opcode: "c2", operands: [asksMove ? solution.end : verdictInWords(exercise)], text: true },
        { opcode: "c3", operands: source === null ? [] : [source], text: true },
      ])}\n`;
    })
    .join("");
}

/** The boards to be solved. */
export const ExerciseBoards = ({ exercises }: { exercises: readonly Exercise[] }) => (
  <div class="boards">
    {exercises.map((exercise) => (
      <figure>
        <figcaption class="task">
          {exercise.number}) {taskInWords(exercise)} {"★".repeat(exercise.grade ?? 0)}
        </figcaption>
        <Raw
          html={diagramsSvg(
            [{ fen: exercise.fen, turn: true }],
            1,
            `Exercise ${exercise.number}. ${taskInWords(exercise)}`,
          )}
        />
      </figure>
    ))}
  </div>
);

/** What is right, what is not, and how it went in the game. */
export const ExerciseSolutions = ({ exercises }: { exercises: readonly Exercise[] }) => (
  <>
    {exercises.map((exercise) => {
      const { number, fen, task, answers, solution, refutations, setUps } = exercise;
      const source = sourceInWords(exercise);
      const { turn } = fenFields(fen);
      const [answer, ...line] = numbered(turn, 1, [answers[0], ...solution.line]);
      return (
        <div class="solution">
          {number}) {task === "judge" && <>{verdictInWords(exercise)}: </>}
          <b>{answer}</b>
          {answers.length === 1 ? "!" : ""} {line.join(" ")}
          {line.length > 0 ? ", " : ""}
          {solution.end}.
          {task !== "judge" && answers.length > 1 && <> As good: {answers.slice(1).join(", ")}.</>}
          {refutations.map((one) => (
            <>
              {" "}
              Not {numbered(turn, 1, [one.san, ...one.line]).join(" ")}
              {one.line.length > 0 ? ", " : ": "}
              {one.end}.
            </>
          ))}{" "}
          <i>
            {setUps.length > 0 ? `${setUps.join(", ")}; ` : ""}
            {[sentence(capital(gradeInWords(exercise))), source && `${source}.`]
              .filter((part) => part)
              .join(" ")}
          </i>
        </div>
      );
    })}
  </>
);

/** A sheet to print: the boards, and the solutions on pages of their own. */
export const exercisesPage = (
  exercises: readonly Exercise[],
  made: { title: string; command: string; date: string },
): string =>
  renderPage({
    ...made,
    body: (
      <>
        <h1>{made.title}</h1>
        <p>
          {counted(exercises.length, "exercise")}
          {exercises.some(({ grade }) => grade !== null) &&
            ", from easy to hard: one star for what nearly everybody finds, five for what one player in three or more gets wrong"}
          . The disc beside a board shows whose move it is.
        </p>
        <ExerciseBoards exercises={exercises} />
        <section class="solutions">
          <h2>Solutions</h2>
          <ExerciseSolutions exercises={exercises} />
        </section>
      </>
    ),
  });

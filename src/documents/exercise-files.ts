// A set of exercises as files for other programs: PGN and EPD.

import { parseSan } from "chessops/san";
import { makeUci } from "chessops/util";

import { epdLine } from "../pgn/game/epd.js";
import { writeGame } from "../pgn/game/write.js";
import { readFen } from "../chess/fen.js";
import type { Exercise } from "../exercises/exercise.js";
import {
  FIFTY_NOTE,
  gradeInWords,
  joined,
  sourceInWords,
  taskInWords,
  themesInWords,
  verdictInWords,
} from "./exercise-words.js";

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
        [0, `${answers.length === 1 ? "the only move" : "the solution"}${also}`],
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
        comment: joined([
          taskInWords(exercise),
          themesInWords(exercise),
          gradeInWords(exercise),
          exercise.beyondFifty ? FIFTY_NOTE : null,
          sourceInWords(exercise),
        ]),
        annotations,
      });
    })
    .join("");
}

/**
 * The exercises as EPD: best moves, moves to avoid, the solution, and in c0 to c5 task, grade, end, source, theme and
 * a word on fifty moves. */
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
        { opcode: "c4", operands: exercise.themes.length === 0 ? [] : [themesInWords(exercise)], text: true },
        { opcode: "c5", operands: exercise.beyondFifty ? [FIFTY_NOTE] : [], text: true },
      ])}\n`;
    })
    .join("");
}

// `exercises`: positions whose answers are certain, from games or from the whole table.

import { targetOf } from "../store/database.js";
import { EXCLUDED_FROM_NUMBERS } from "../store/exclusions.js";
import { formatQuestion } from "../query/language/ast.js";
import { catalogueWith, titleOf } from "../query/language/catalogue.js";
import { Tables } from "../tablebase/tables.js";
import { type Candidate, candidatesFromTable, exerciseQuestion } from "../exercises/candidates.js";
import { ExerciseMaker } from "../exercises/maker.js";
import { Prober } from "../position/probe.js";
import { exercisesEpd, exercisesPage, exercisesPgn, taskInWords } from "../documents/exercise-set.js";
import { today } from "../documents/printed-page.js";
import { typedCommand, writePage } from "./output.js";
import type { Command } from "./options.js";
import { ensureTables, openDb, openDbIfAny, readQuestion, targetOption, threadsOf } from "./resolve.js";
import { counted, dim, note, paragraph, print, printJson, tableText } from "./terminal.js";

const USUAL_SIZE = 24;

export const run: Command = async (words, options) => {
  const asked = readQuestion(words, options);
  const among = options.among ?? "games";
  const task = options.task ?? "find";
  const question = exerciseQuestion(asked, task, among === "table");
  const catalogue = catalogueWith(options.setUps);
  // a table needs no games, but tells how people fared where there are some
  const db = among === "games" ? openDb(options) : openDbIfAny(options);
  try {
    const target = db ? targetOf(db) : targetOption(options);
    const { folder } = await ensureTables([target], options);
    const tables = new Tables(target, folder);
    const prober = new Prober(folder, catalogue);
    try {
      const maker = new ExerciseMaker(
        target,
        tables,
        prober,
        catalogue,
        db,
        options.leaveOut ?? EXCLUDED_FROM_NUMBERS,
      );
      const wanted = {
        task,
        answers: options.answers ?? 1,
        size: options.size ?? USUAL_SIZE,
        seed: options.seed ?? 1,
      };
      let candidates: Candidate[];
      if (among === "games") {
        candidates = maker.candidatesFromGames(question);
      } else {
        note("Drawing positions from the whole table …");
        candidates = await candidatesFromTable(target, question, wanted, {
          setUps: options.setUps ?? null,
          threads: threadsOf(options),
        });
      }
      const exercises = maker.choose(candidates, wanted);
      const title = `Exercises: ${titleOf(asked, catalogue, target)}`;
      if (options.json) exercises.forEach(printJson);
      else if (options.pgn) process.stdout.write(exercisesPgn(exercises, title));
      else if (options.epd) process.stdout.write(exercisesEpd(exercises, title));
      else {
        print(dim(paragraph(formatQuestion(question))));
        if (exercises.length > 0) {
          print(
            tableText([
              { head: "no", cells: exercises.map(({ number }) => String(number)), right: true },
              { head: "grade", cells: exercises.map(({ grade }) => "*".repeat(grade ?? 0)), optional: 2 },
              { head: "task", cells: exercises.map(taskInWords), optional: 1 },
              { head: "position", cells: exercises.map(({ fen }) => fen.split(" ").slice(0, 2).join(" ")) },
              { head: "answer", cells: exercises.map(({ answers }) => answers.join(" ")), shrinksTo: 8 },
            ]),
          );
        }
      }
      await writePage(options, () =>
        exercisesPage(exercises, { title, command: typedCommand(), date: today() }),
      );
      if (exercises.length < wanted.size) {
        const fit = `${candidates.length.toLocaleString("en")} ${candidates.length === 1 ? "position fits" : "positions fit"}`;
        const answers = wanted.answers === 1 ? "one answer" : `${wanted.answers} answers`;
        note(
          candidates.length === 0
            ? "No position fits that."
            : `${counted(exercises.length, "exercise")} of ${wanted.size} wanted: ${fit}, and no more of them have ${answers} and are unlike the others.`,
        );
      }
      return exercises.length > 0 ? 0 : 1;
    } finally {
      prober.close();
      tables.close();
    }
  } finally {
    db?.close();
  }
};

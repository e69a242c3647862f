// `lesson`: a lesson to print, from an outline or from nothing but a question.

import { existsSync, readFileSync } from "node:fs";

import { LongsideError, causeOf } from "../errors.js";
import { targetOf } from "../store/database.js";
import { EXCLUDED_FROM_NUMBERS } from "../store/exclusions.js";
import { catalogueWith } from "../query/language/catalogue.js";
import { QueryError } from "../query/language/query-error.js";
import { Tables } from "../tablebase/tables.js";
import { Prober } from "../position/probe.js";
import { Raw, renderPage, today } from "../documents/printed-page.js";
import { defaultOutline } from "../documents/lesson/default-outline.js";
import { LessonFiller } from "../documents/lesson/filler.js";
import { renderOutline } from "../documents/lesson/outline.js";
import { topicOf } from "../documents/lesson/topic.js";
import { typedCommand, writeAndSay, writePage } from "./output.js";
import { findBrowser } from "./browser.js";
import type { Command, Options } from "./options.js";
import { ensureTables, openDbIfAny, readQuestion, targetOption, threadsOf } from "./resolve.js";
import { note } from "./terminal.js";

/** The words as one question, or each as one of its own where together they are none. */
function questionsOf(words: readonly string[], options: Options) {
  try {
    return [readQuestion(words, options)];
  } catch (thrown) {
    if (!(thrown instanceof QueryError) || words.length < 2) throw thrown;
    try {
      return words.map((word) => readQuestion([word], options));
    } catch {
      throw thrown;
    }
  }
}

function readOutline(path: string): string {
  try {
    return readFileSync(path, "utf8");
  } catch (thrown) {
    if (!existsSync(path)) throw new LongsideError("no-such-path", { path });
    throw new LongsideError("not-readable", { path, cause: causeOf(thrown) });
  }
}

export const run: Command = async (words, options) => {
  const catalogue = catalogueWith(options.setUps);
  if (options.outline === undefined && words.length === 0)
    throw new LongsideError("bad-usage", {
      message: "a lesson needs a question or an outline",
      hint: 'for example: longside lesson "second-rank defence"',
    });
  if (options.outline !== undefined && words.length > 0)
    throw new LongsideError("bad-option", {
      option: "--outline",
      cause: "the outline says what the lesson is about; leave the question out",
      command: "lesson",
    });
  // what is wanting is told before the work is done
  if (options.pdf !== undefined) findBrowser();
  const db = openDbIfAny(options);
  try {
    const target = db ? targetOf(db) : targetOption(options);
    const { folder } = await ensureTables([target], options);
    const tables = new Tables(target, folder);
    const prober = new Prober(folder, catalogue);
    try {
      const text =
        options.outline === undefined
          ? defaultOutline(
              questionsOf(words, options).map((question) => topicOf(question, catalogue, prober, target)),
              db !== undefined,
            )
          : readOutline(options.outline);
      if (options.writeOutline !== undefined) {
        writeAndSay(options.writeOutline, text);
        if (options.html === undefined && options.pdf === undefined) return 0;
      }
      const filler = new LessonFiller({
        db,
        target,
        folder,
        tables,
        prober,
        catalogue,
        setUps: options.setUps ?? null,
        leaveOut: options.leaveOut ?? EXCLUDED_FROM_NUMBERS,
        threads: threadsOf(options),
        seed: options.seed ?? 1,
      });
      note("Writing the lesson; each survey of the whole table takes some seconds …");
      const { title, html } = await renderOutline(text, options.outline ?? "outline.md", filler.fill);
      const body = Raw({ html: html + filler.solutions() });
      const page = renderPage({ title, command: typedCommand(), date: today(), body });
      await writePage(options.pdf === undefined ? { html: "lesson.html", ...options } : options, () => page);
      return 0;
    } finally {
      prober.close();
      tables.close();
    }
  } finally {
    db?.close();
  }
};

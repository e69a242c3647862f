// A fault in a question, with its place, so that it can be shown with a caret under the word.

import { LongsideError } from "../../errors.js";

/** A line with carets under a part of it: two lines, cut to `width` columns round it. */
export function pointAt(text: string, at: number, length: number, width: number): string {
  const from = Math.max(0, Math.min(at - Math.floor(width / 2), text.length - width));
  const line = text.slice(from, from + width);
  return `${line}\n${" ".repeat(at - from)}${"^".repeat(Math.max(1, Math.min(length, width)))}`;
}

export class QueryError extends LongsideError {
  constructor(
    readonly question: string,
    readonly at: number,
    readonly length: number,
    message: string,
    hint: string,
  ) {
    super("question-fault", { message, hint });
  }

  /** The question with carets under the fault: two lines, cut to `width` columns round the fault. */
  pointer(width = 80): string {
    return pointAt(this.question, this.at, this.length, width);
  }

  override toJSON() {
    const { error } = super.toJSON();
    return { error: { ...error, question: this.question, at: this.at, length: this.length } };
  }
}

/** A word that canonical form does not know, or not at its place: in plain words it may well mean something. */
export class UnknownWord extends QueryError {}

/** Something that people say and no fact tells: understood, and no question. */
export class NoFact extends QueryError {}

/** Brackets and negations inside each other beyond what is read. */
export const tooDeep = (text: string, at: number, deepest: number): QueryError =>
  new QueryError(
    text,
    at,
    1,
    "this goes too deep",
    `at most ${deepest} brackets and negations stand inside each other`,
  );

/** A question that is longer than is read; `what` says how much may be: "200 words". */
export const tooLong = (text: string, at: number, what: string): QueryError =>
  new QueryError(
    text,
    at,
    1,
    `the question has more than ${what}`,
    "ask in parts, or name what returns as a set-up of your own (--set-ups)",
  );

// Conditions in canonical form that one question's readings hold, read once: its ways through the chart are made of the
// same few.

import type { Question } from "./ast.js";
import { type KnownSetUps, parseCanonical } from "./canonical.js";
import { QueryError } from "./query-error.js";

export class ReadConditions {
  private readonly known = new Map<string, Question>();

  constructor(private readonly setUps: KnownSetUps) {}

  /** Throws `QueryError`. */
  read(text: string): Question {
    let question = this.known.get(text);
    if (!question) this.known.set(text, (question = parseCanonical(text, this.setUps)));
    return question;
  }

  /** The same for some words of a question: what is wrong is shown in the words that were written. */
  readAs(
    text: string,
    written: string,
    { at, length }: { readonly at: number; readonly length: number },
  ): Question {
    try {
      return this.read(text);
    } catch (thrown) {
      if (!(thrown instanceof QueryError)) throw thrown;
      throw new QueryError(written, at, length, thrown.message, thrown.hint);
    }
  }
}

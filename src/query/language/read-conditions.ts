// Conditions that one question's readings hold, read once: its ways through the chart are made of the same few.

import type { Question } from "./ast.js";
import { type KnownSetUps, parseCanonical } from "./canonical.js";

/** Conditions in canonical form that have been read, by their text: one question's ways hold the same ones. */
export class ReadConditions {
  private readonly known = new Map<string, Question>();

  constructor(readonly setUps: KnownSetUps) {}

  /** Throws `QueryError`. */
  read(text: string): Question {
    let question = this.known.get(text);
    if (!question) this.known.set(text, (question = parseCanonical(text, this.setUps)));
    return question;
  }
}

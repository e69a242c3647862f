// Conditions in canonical form that one question's readings hold, read once: its ways through the chart are made of the
// same few.

import type { Question } from "./ast.js";
import { type KnownSetUps, parseCanonical } from "./canonical.js";

export class ReadConditions {
  private readonly known = new Map<string, Question>();

  constructor(private readonly setUps: KnownSetUps) {}

  /** Throws `QueryError`. */
  read(text: string): Question {
    let question = this.known.get(text);
    if (!question) this.known.set(text, (question = parseCanonical(text, this.setUps)));
    return question;
  }
}

// A fault in a question, with its place, so that it can be shown with a caret under the word.

import { LongsideError } from "../errors.js";

export class QuestionFault extends LongsideError {
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
    const from = Math.max(0, Math.min(this.at - Math.floor(width / 2), this.question.length - width));
    const line = this.question.slice(from, from + width);
    return `${line}\n${" ".repeat(this.at - from)}${"^".repeat(Math.max(1, Math.min(this.length, width)))}`;
  }

  override toJSON() {
    const { error } = super.toJSON();
    return { error: { ...error, question: this.question, at: this.at, length: this.length } };
  }
}

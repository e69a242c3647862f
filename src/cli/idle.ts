// A note on a condition of a question that leaves no ending out, since that is seldom what was meant.

import { formatQuestion, type Question } from "../query/language/ast.js";
import { idleConditions } from "../statistics/count.js";
import type { Connection } from "../store/connection.js";
import { note } from "./terminal.js";

/** Names each such condition on standard error. */
export function noteIdle(db: Connection, question: Question): void {
  for (const { part } of idleConditions(db, question)) {
    const said = formatQuestion(part);
    note(
      `Every ending that answers the rest has a position with ${said} at some time, so that condition leaves none out; ` +
        `ask for more with mostly (${said}), throughout (${said}), entry (…) or end (…).`,
    );
  }
}

// How a question was understood, told above its answers: in a sentence, in canonical form, with what else it could mean; and
// what to try where a condition says nothing, or nothing answers.

import type { Workspace } from "../app/workspace.js";
import { missingInWords } from "../store/totals.js";
import type { SaidIdle, Understanding } from "../app/find.js";
import type { Nothing } from "../query/engine/coverage.js";
import { note, print } from "./messages.js";
import { dim, paragraph } from "./terminal.js";

/** Readings that are told; more would hide the answers. */
const MOST_OTHERS = 3;
/** Conditions that are named where nothing answers. */
const MOST_CONDITIONS = 3;

/** Prints the sentence and the canonical form, and notes the other readings. */
export function printUnderstanding({ sentence, canonical, others, passed, mended }: Understanding): void {
  print(paragraph(`${sentence}.`));
  print(dim(paragraph(canonical)));
  if (passed.length > 0) note(`Passed over: ${passed.map((word) => `"${word}"`).join(", ")}.`);
  for (const { words, as } of mended) note(`"${words}" was read as "${as}".`);
  for (const { reading, words, about, sentence: other } of others.slice(0, MOST_OTHERS)) {
    const guess = words === null ? "It could also mean" : `"${words}" could also be about ${about}`;
    note(`${guess}: ${other}. For that: --reading ${reading}`);
  }
}

/** Notes what a database is missing, before anything is said of what it holds. */
export function noteMissing(workspace: Workspace): void {
  const missing = missingInWords(workspace.db());
  if (missing !== undefined) note(missing);
}

/** Notes conditions that nearly every ending meets anyway, since that is seldom what was meant. */
export function noteIdle(idle: readonly SaidIdle[]): void {
  for (const { said, met, of } of idle)
    note(
      `${met === of ? `All ${of}` : `${met} of the ${of}`} endings that answer the rest have a position with ${said} at some moment, ` +
        `so that it leaves ${met === of ? "none" : "almost none"} out; ask for more with mostly (${said}), end (${said}), ` +
        `or ${said} and error != none.`,
    );
}

/** Notes without which condition something would answer, and set-ups that only follow each other. */
export function noteNothing({ without, instead }: Nothing): void {
  for (const { condition, answers } of without.slice(0, MOST_CONDITIONS))
    note(`Without ${condition}: ${answers}.`);
  for (const { question, answers } of instead)
    note(`No position has both set-ups; one after the other: ${answers} with "${question}".`);
}

// The position to look at in words: "81. Ra4?", and what it did: "drawn, now won in 7; held: Rc1, Rc2"; and two players by
// their surnames.

import { plainLine } from "../plain-text.js";
import type { EndingAnswer } from "../query/engine/rows.js";
import { moveNumber } from "../chess/move-numbers.js";

/** Moves that are named; of more, how many there are. */
const MOST_HELD = 4;

/** A name without a comma that is no longer than this is shown whole. */
const SHORT = 12;

/** A player's surname: what stands before the comma, else the last word. */
const surname = (name: string | null): string => {
  if (name === null) return "?";
  const [before, after] = name.split(/,\s*/);
  if (after !== undefined) return before;
  const words = before.trim().split(/\s+/);
  // a short name of two words may have its surname first, and a program's version says little
  const named = words.filter((word, n) => n === 0 || !/\d/.test(word));
  const whole = named.join(" ");
  return named.length < words.length || whole.length <= SHORT ? whole : named.at(-1)!;
};

/** "Vastrel v Orme". */
export const surnamesText = ({ white, black }: Pick<EndingAnswer, "white" | "black">): string =>
  plainLine(`${surname(white)} v ${surname(black)}`);

/** Moves as a list that stays short. */
const movesText = (moves: readonly string[]): string =>
  moves.length <= MOST_HELD
    ? moves.join(", ")
    : `${moves.slice(0, MOST_HELD - 1).join(", ")} and ${moves.length - MOST_HELD + 1} more`;

/** The move played there with its number, marked where it gave something away; "end" behind the last move. */
export const lookMove = ({ fen, move, error }: EndingAnswer["look"]): string =>
  move === null
    ? "end"
    : `${moveNumber(fen)} ${move}${error === "half" ? "?" : error === "full" ? "??" : ""}`;

/**
 * What the move did, where it gave something away: "drawn, now won in 7; held: Rc1, Rc2". Verdicts are the attacker's.
 * Without the moves that would have held, if they are not known. Undefined for any other move.
 */
export function changeText(
  { verdict, onPaper, error, then }: EndingAnswer["look"],
  held: readonly string[] | undefined,
): string | undefined {
  if (error === null || error === "none" || verdict === null) return undefined;
  const now =
    then?.verdict === null || then === null
      ? ""
      : `, now ${then.verdict}${then.dtm === null || then.dtm === 0 ? "" : ` in ${then.dtm}`}${then.onPaper ? " on paper only" : ""}`;
  return `${verdict}${onPaper ? " on paper only" : ""}${now}${held && held.length > 0 ? `; held: ${movesText(held)}` : ""}`;
}

// Positions and moves in words, the same in the terminal, on the page and in print: values, errors, how an ending
// ended, numbers of things.

import { PIECE_NAMES } from "../chess/fen-text.js";
import type { Verdict } from "../chess/verdict.js";
import type { EndingAnswer, PositionAnswer } from "../query/engine/rows.js";

/** "1 file", "2,500 files". */
export const counted = (number: number, noun: string): string =>
  `${number.toLocaleString("en")} ${noun}${number === 1 ? "" : "s"}`;

const NUMBERS =
  "none one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen twenty".split(
    " ",
  );

/** A small number as a word: "three", "24". */
export const numberWord = (n: number): string =>
  n > 0 && n < NUMBERS.length ? NUMBERS[n] : n.toLocaleString("en");

/** "one set", "three sets". */
export const countedInWords = (n: number, noun: string): string =>
  `${numberWord(n)} ${noun}${n === 1 ? "" : "s"}`;

/** "R+B v R" as "rook and bishop against rook". */
export const materialInWords = (name: string): string =>
  name
    .replace(/[KQRBN]/g, (letter) => PIECE_NAMES[letter])
    .replaceAll("+", " and ")
    .replace(" v ", " against ");

/** Text with a capital letter at its beginning. */
export const capital = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);

/** Text that ends like a sentence; nothing stays nothing. */
export const sentence = (text: string): string => (text === "" || /[.!?]$/.test(text) ? text : `${text}.`);

/** Moves as they are written, with what they end with; mate shows by its own sign. */
export const withEnd = (moves: string, end: string, between = ": "): string =>
  moves === "" ? end : moves.endsWith("#") && end === "mate" ? moves : `${moves}${between}${end}`;

/** "won, mate in 19": a value in words. */
export function valueInWords({ verdict, dtm }: { verdict: Verdict | null; dtm: number | null }): string {
  if (verdict === null) return "outside the tables";
  if (verdict === "drawn") return "drawn";
  if (dtm === 0) return `${verdict}, checkmate`;
  return verdict === "won" ? `won, mate in ${dtm}` : `lost, mated in ${dtm}`;
}

/** Why a win comes to nothing under the fifty-move rule. */
const LATE =
  "too late for the fifty-move rule, so that a draw can be claimed first (FIDE Laws 9.3; the arbiter decides)";

/**
 * What a move gave away, in words: on paper, and under the fifty-move rule where that differs. Undefined for a move that
 * gave nothing away by either.
 */
export function errorInWords(
  at: Pick<PositionAnswer, "error" | "fiftyError" | "keeping" | "legal" | "verdict" | "sideToMove">,
  next: Pick<PositionAnswer, "verdict" | "dtm"> | undefined,
): string | undefined {
  if (at.error === null) return undefined;
  const now = next ? `; now ${valueInWords(next)}` : "";
  const costs = at.fiftyError !== null && at.fiftyError !== "none";
  if (at.error === "none")
    return costs ? `too slow: still ${at.verdict} on paper, but ${LATE}${now}` : undefined;
  const size = at.error === "half" ? "half a point" : "a full point";
  const kept = at.keeping === 1 ? "only one move kept it" : `${at.keeping} of ${at.legal} moves kept it`;
  const paper = costs ? "" : `; on paper only, since the win comes ${LATE}`;
  return `${at.verdict} before: the ${at.sideToMove} gives away ${size}${now}; ${kept}${paper}`;
}

/** How an ending came to its end: "agreed", or "capture of the rook". */
export const endedInWords = ({ endedBy, captured }: Pick<EndingAnswer, "endedBy" | "captured">): string =>
  captured === null ? endedBy : `capture of the ${captured}`;

/** What the files are called, by their number from 0. */
export const FILE_NAMES = ["edge", "knight's", "bishop's", "centre"] as const;
export const fileName = (file: number): string => FILE_NAMES[Math.min(file, 7 - file)];

/** A file from 1, the edge, to 4, with its article: "a bishop's file". */
export const aFile = (file: number): string => `${file === 1 ? "an" : "a"} ${fileName(file - 1)} file`;

// The cut: of the games that hold enough captures, those whose part behind the last needed one can be the
// ending sought.
//
// Material of n men without pawns can stand on the board only between the capture that leaves n men and the next one.
// In that part of the main line no other piece moves, and the last pawn's move, if there is one, is a promotion.
// Everything that is not plainly a move makes the game be read in full.

import { type Material, lettersOf } from "../../chess/material.js";
import { type GameBounds, theKernel } from "./game-finder.js";
import { LeanBoard, menNumber } from "./lean.js";
import type { FilterTarget } from "./scan-kernel.js";
import { CASTLES, PAWN, PAWN_TAKES, PIECE_TAKES, PROMOTES, UNCLEAR, Words } from "./words.js";

/** What the cut has to know of a material. */
export function filterTarget({ men, attacker, defender }: Material): FilterTarget {
  const [one, other] = [attacker, defender].map((side) => `K${lettersOf(side)}`);
  const sides = [menNumber(one + other.toLowerCase()), menNumber(other + one.toLowerCase())] as const;
  return { men, letters: one + other, sides };
}

const words = new Words();
const board = new LeanBoard();

/**
 * Whether the game may hold the ending; false only where it certainly does not. First by the words of the part
 * alone, then, if they allow it, by the men on the board when it begins.
 */
export function mayHold(bytes: Uint8Array, span: Readonly<GameBounds>, target: FilterTarget): boolean {
  if (span.special || span.unsigned || span.captures === 0) return true;
  const kernel = theKernel();
  if (span.fen < 0 && kernel.has(bytes)) return kernel.mayHold(span.text, span.end, target);
  return mayHoldPlain(bytes, span, target);
}

/** The same without the kernel, which knows the usual start only (src/pgn/scan/kernel/material-filter.ts). */
export const mayHoldPlain = (bytes: Uint8Array, span: Readonly<GameBounds>, target: FilterTarget): boolean =>
  stretchAllows(bytes, span, target) && menAllow(bytes, span, target);

function stretchAllows(bytes: Uint8Array, span: Readonly<GameBounds>, target: FilterTarget): boolean {
  const needed = span.startMen - target.men;
  let captures = 0;
  let pawnless = true; // as far as the part tells
  words.set(bytes, span.text, span.end);
  while (words.next()) {
    const { kind } = words;
    if (captures < needed) {
      if (kind === PIECE_TAKES || kind === PAWN_TAKES) ++captures;
      else if (kind === UNCLEAR && words.hasSign()) return true;
      continue;
    }
    if (kind === UNCLEAR) return true;
    if (kind === PAWN_TAKES) return false;
    if (kind === PAWN || kind === PROMOTES) {
      pawnless = kind === PROMOTES;
      continue;
    }
    const letter = bytes[words.word];
    if (letter !== CASTLES && !target.letters.includes(String.fromCharCode(letter))) return false;
    if (kind === PIECE_TAKES) return pawnless;
  }
  return captures >= needed && pawnless;
}

/** Plays the game through on the lean board up to the end of the part: whether the target's men ever stand there. */
function menAllow(bytes: Uint8Array, span: Readonly<GameBounds>, target: FilterTarget): boolean {
  if (!board.set(bytes, span)) return true;
  const { men, sides } = target;
  const holds = () => sides.includes(board.men);
  words.set(bytes, span.text, span.end);
  if (board.count === men && holds()) return true;
  while (words.next()) {
    if (!board.play(bytes, words.word, words.wordEnd, words.kind)) return true;
    if (board.count > men) continue;
    if (board.count < men) return false;
    if (holds()) return true;
  }
  return false;
}

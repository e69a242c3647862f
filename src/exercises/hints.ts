// What helps a student: hints in two steps, and the reason for a grade.

import { PIECE_NAMES } from "../chess/fen-text.js";
import type { Probe } from "../position/probe.js";
import { counted } from "../position/wording.js";
import { type Theme, ideaOf } from "./themes/theme.js";

/** "Move the rook", of the first moves in SAN of every answer. */
function pieceHint(answers: readonly string[]): string {
  const pieces = [...new Set(answers.map((san) => PIECE_NAMES[san[0]]))];
  const named = pieces.map((piece) => `the ${piece}`);
  if (named.length === 1) return `Move ${named[0]}.`;
  // "move the king or the rook" tells nothing where there is nothing else to move
  const list =
    named.length === 2 ? named.join(" and ") : `${named.slice(0, -1).join(", ")} and ${named.at(-1)}`;
  return `${list[0].toUpperCase()}${list.slice(1)} each have a move that is right.`;
}

/** The idea, where there is one with a name; then what to move. */
export const hintsOf = (themes: readonly Theme[], answers: readonly string[]): string[] => [
  ...themes.slice(0, 1).map(ideaOf),
  pieceHint(answers),
];

/** What of a move makes one want to play it, in the order in which it is said. */
const TEMPTING = [
  ["capture", "takes a piece"],
  ["check", "gives check"],
  ["pin", "pins a piece"],
  ["attack", "attacks the rook"],
  ["from corner", "goes away from the corner"],
] as const;

/** What makes it hard: "one of 17 moves holds; Rg4+ tempts, since it gives check". */
export function reasonOf({ legal, keeping, verdict, explanation }: Probe): string {
  const kept = verdict === "drawn" ? ["holds", "hold"] : ["wins", "win"];
  const share = `${keeping === 1 ? "one" : keeping} of ${counted(legal, "move")} ${kept[keeping === 1 ? 0 : 1]}`;
  for (const { san, kinds } of explanation.tempting) {
    const found = TEMPTING.find(([kind]) => kinds.includes(kind));
    if (found) return `${share}; ${san} tempts, since it ${found[1]}`;
  }
  return share;
}

// What a game's judged moves mean for the one who plays: how a try at an exercise stands, and what help says.

import type { AnswerTo } from "../server/answers.js";
import { type Colour, colourName, otherColour, turnOf } from "./fen.js";

type Game = AnswerTo<"play">;
type Position = AnswerTo<"position">;
type Verdict = Position["verdict"];

/** Moves of one's own that keep the result, with which an exercise is won, if the game is not over before. */
export const ENOUGH = 5;

/** What the verdict for the attacker is for one side, in words. */
export const forSide = (verdict: Verdict, isAttacker: boolean): string =>
  verdict === "drawn" ? "a draw" : (verdict === "won") === isAttacker ? "a win" : "a loss";

/** How good a result is for a colour: 1, 0 or -1. */
const worthOf = (result: "1-0" | "0-1" | "1/2-1/2", colour: Colour): number =>
  result === "1/2-1/2" ? 0 : (result === "1-0") === (colour === "white") ? 1 : -1;

/** The same of a verdict. */
const worthOfVerdict = (verdict: Verdict, isAttacker: boolean): number =>
  verdict === "drawn" ? 0 : (verdict === "won") === isAttacker ? 1 : -1;

/** The verdict that the game began with. */
export const beganAs = ({ moves, value }: Game): Verdict =>
  moves[0]?.before.verdict ?? value?.verdict ?? "drawn";

/** How a try at an exercise stands. */
export interface Try {
  /** Moves that kept the result. */
  readonly found: number;
  readonly outcome: "won" | "lost" | "open";
  /** Lost though no move gave anything away: a win that ended in a draw by repetition. */
  readonly isShort: boolean;
}

/** Judges the try at an exercise by the game that has been played. */
export function judgeTry(game: Game, you: Colour): Try {
  const own = game.moves.filter(({ by }) => by === you);
  const found = own.filter(({ error }) => error === 0).length;
  const wanted = worthOfVerdict(beganAs(game), you === game.attacker);
  const isLess = game.end !== null && worthOf(game.end.result, you) < wanted;
  const hasErred = found < own.length;
  const isWon = found >= ENOUGH || game.end !== null;
  return {
    found,
    outcome: hasErred || isLess ? "lost" : isWon ? "won" : "open",
    isShort: isLess && !hasErred,
  };
}

/** Which moves keep the result; where every move does, what that result is. */
export function helpIn({ fen, attacker, verdict, moves }: Position): string {
  const keeping = moves.filter((move) => move.verdict === verdict).map(({ san }) => san);
  if (keeping.length === 1 && moves.length > 1) return `Only ${keeping[0]} keeps the result.`;
  if (keeping.length < moves.length) return `These keep the result: ${keeping.join(", ")}.`;
  if (verdict === "drawn") return "Every move keeps the draw.";
  const winner = verdict === "won" ? attacker : otherColour(attacker);
  return winner === turnOf(fen)
    ? "Every move keeps the win."
    : `No move changes the result: ${colourName(winner)} wins.`;
}

/** The sign of a verdict for the side that moves: what wins for it, draws, loses. */
export const signFor = (verdict: Verdict, isAttacker: boolean): "+" | "=" | "−" =>
  verdict === "drawn" ? "=" : (verdict === "won") === isAttacker ? "+" : "−";

/** A value of the attacker's said of the side that moves: "won, mate in 7" is "lost, mate in 7" for the defender. */
export const valueFor = (value: string, isAttacker: boolean): string =>
  isAttacker ? value : value.replace(/^(won|lost)/, (word) => (word === "won" ? "lost" : "won"));

/** What a move does for the side that made it, by the verdict after it. */
export const wordFor = (verdict: Verdict, isAttacker: boolean): string =>
  ({ "+": "wins", "=": "draws", "−": "loses" })[signFor(verdict, isAttacker)];

// One game of a lesson: the position to look at, and the moments that mattered, told in sentences.

import { parseSan } from "chessops/san";

import { fenFields } from "../../chess/fen-text.js";
import { readFen } from "../../chess/fen.js";
import { moveNumber, numbered } from "../../chess/move-numbers.js";
import type { Ply } from "../../chess/units.js";
import { Names } from "../names.js";
import { playersText, withWrittenNames, writtenDate } from "../../pgn/game/players.js";
import type { Prober } from "../../position/probe.js";
import { outcomeInWords } from "../../position/variations.js";
import { capital, countedInWords, numberWord, sentence, withEnd } from "../../position/wording.js";
import type { PositionAnswer } from "../../query/engine/rows.js";
import type { FullEnding } from "../../query/engine/show.js";
import { arrowBetween, diagramsSvg } from "../diagram.js";
import { Figure } from "../printed-page.js";
import { type Moment, momentsOf } from "./moments.js";
import { listed } from "./sentences.js";
import { threatInWords } from "./threat.js";

/** An ending, and the ply of the position to look at. */
export interface EndingAt {
  readonly full: FullEnding;
  readonly ply: Ply;
}

/** "84. Rb4": the move made in a position. */
export const moveText = ({ fen, move }: Pick<PositionAnswer, "fen" | "move">): string =>
  `${moveNumber(fen)} ${move}`;

/** Moments that are told of one game. */
export const MOMENTS = 3;
/** Half-moves shown on end; more are cut short. */
const MOVES_SHOWN = 16;

/** The moves from one place to before another, errors marked. */
function playedBetween(positions: readonly PositionAnswer[], from: number, to: number): string {
  const end = Math.min(to, from + MOVES_SHOWN);
  const moves = positions.slice(from, end).flatMap(({ move, error }) => {
    if (move === null) return [];
    return [error !== null && error !== "none" ? `${move}?` : move];
  });
  if (moves.length === 0) return "";
  const { turn, fullmove } = fenFields(positions[from].fen);
  const skipped = Math.round((to - end) / 2);
  const more = countedInWords(skipped, "more move");
  const played = numbered(turn, fullmove, moves).join(" ");
  if (end >= to) return sentence(played);
  const rest =
    skipped === 0
      ? " and on."
      : // at the end no board follows that the moves lead to
        to === positions.length
        ? `, and ${more}.`
        : ` and, after ${more}:`;
  return played + rest;
}

const colourOf = ({ fen }: PositionAnswer) => (fenFields(fen).turn === "white" ? "White" : "Black");
const otherColour = (at: PositionAnswer) => (colourOf(at) === "White" ? "Black" : "White");

/** What a position is for the two players: "a draw", "won for White, mate in 12". */
function resultInWords({
  verdict,
  dtm,
  attacker,
}: Pick<PositionAnswer, "verdict" | "dtm" | "attacker">): string {
  if (verdict === null) return "outside the tables";
  if (verdict === "drawn") return "a draw";
  const winner = (verdict === "won") === (attacker === "white") ? "White" : "Black";
  return dtm === 0 ? `mate by ${winner}` : `won for ${winner}, mate in ${dtm}`;
}

/** What a position comes to, under its board. */
const captionOf = (at: PositionAnswer): string =>
  at.verdict === null || at.dtm === 0
    ? resultInWords(at)
    : outcomeInWords({ verdict: at.verdict, dtm: at.dtm }, at.attacker);

/** The moment of an error: what it changed, what was right. */
function errorText(at: PositionAnswer, next: PositionAnswer | undefined, prober: Prober): string[] {
  const { explanation } = prober.probe(at.fen);
  const { keeping } = explanation;
  // whoever errs had a draw or a win to lose
  const had = at.verdict === "drawn" ? "draw" : "win";
  const changed = [
    had === "win" ? `it was ${resultInWords(at)}` : "",
    next ? `now it is ${resultInWords(next)}` : "",
  ].filter((part) => part !== "");
  const right =
    keeping.length === 1
      ? `only ${keeping[0]} was right`
      : keeping.length <= 3
        ? `${listed(keeping, "or")} was right`
        : `${listed(keeping.slice(0, 2), "or")} was right, among others`;
  const threat = threatInWords(explanation.threat);
  const done = explanation.tempting.find(({ san }) => san === at.move);
  return [
    `${moveText(at)}? throws the ${had} away${changed.length > 0 ? `: ${changed.join(", and ")}` : ""}`,
    ...(threat ? [`${otherColour(at)} ${threatenedInWords(threat)}`] : []),
    right,
    ...(done && done.line.length > 0
      ? [`after ${at.move} comes ${withEnd(numbered(...after(at), done.line).join(" "), done.end)}`]
      : []),
  ];
}

/** The turn and number of the move after a position's. */
function after(at: PositionAnswer): [turn: "white" | "black", number: number] {
  const { turn, fullmove } = fenFields(at.fen);
  return turn === "white" ? ["black", fullmove] : ["white", fullmove + 1];
}

const threatenedInWords = (threat: string) => threat.replace(/^threatens/, "was threatening");

/** The moment of an only move: what it had to meet, and why another fails. */
function onlyMoveText(at: PositionAnswer, prober: Prober): string[] {
  const { explanation } = prober.probe(at.fen);
  const threat = threatInWords(explanation.threat);
  const [natural] = explanation.tempting;
  return [
    ...(threat ? [`${otherColour(at)} ${threat}`] : []),
    `${moveText(at)}! is the only one of ${countedInWords(at.legal, "move")} that ${at.verdict === "drawn" ? "holds" : "wins"}`,
    ...(natural
      ? [
          `${natural.san} would be wrong${natural.line.length > 0 ? ` because of ${withEnd(numbered(...after(at), natural.line).join(" "), natural.end)}` : `: ${natural.end}`}`,
        ]
      : []),
  ];
}

const sentences = (parts: readonly string[]): string =>
  parts.map((part) => sentence(capital(part))).join(" ");

/** Whether a move is stalemate: a rook that is taken for it is no loss. */
function stalemates(fen: string, san: string): boolean {
  const position = readFen(fen);
  const move = parseSan(position, san);
  if (!move) return false;
  position.play(move);
  return position.isStalemate();
}

/** How the ending came to its end. */
function endText({ ending, positions }: FullEnding): string {
  const last = positions.at(-1)!;
  const move = fenFields(last.fen).fullmove;
  const how: Readonly<Record<string, string>> = {
    mate: "with mate",
    stalemate: "with stalemate",
    agreed: "with a draw agreed",
    "fifty moves": "with a claim under the fifty-move rule (FIDE Laws 9.3; the arbiter decides)",
    repetition: "with a draw by repetition",
    resignation: "",
    time: "on time",
    "cut off": "where the record breaks off",
    capture: ending.captured === null ? "with a capture" : `with the capture of the ${ending.captured}`,
  };
  const result =
    ending.outcome === "held"
      ? "the game was drawn"
      : ending.outcome === "lost"
        ? `${ending.attacker === "white" ? "White" : "Black"} won`
        : "the result is not known";
  const over = `the ending was over on move ${move}`;
  if (last.move !== null && stalemates(last.fen, last.move)) return `${over} with stalemate; ${result}`;
  if (ending.endedBy !== "resignation") return `${over} ${how[ending.endedBy]}; ${result}`;
  const winner =
    ending.outcome === "lost" ? ending.attacker : ending.attacker === "white" ? "black" : "white";
  return `${over}: ${winner === "white" ? "Black" : "White"} resigned`;
}

/** A moment beside its board, with what goes before it and the moves that follow. */
const MomentFigure = ({ positions, moment, prober, below, before, then }: MomentProps) => {
  const at = positions[moment.at];
  const text =
    moment.kind === "error" ? errorText(at, positions[moment.at + 1], prober) : onlyMoveText(at, prober);
  const arrows = arrowBetween(at.fen, positions[moment.at + 1]?.fen);
  return (
    <div class="beside moment">
      <Figure svg={diagramsSvg([{ fen: at.fen, turn: true, below, arrows }], 1, moveText(at))}>
        {moveText(at)}
        {moment.kind === "error" ? "?" : "!"}
      </Figure>
      <div>
        {before !== "" && <p>{before}</p>}
        <p>{sentences(text)}</p>
        {then !== "" && <p>{then}</p>}
      </div>
    </div>
  );
};

interface MomentProps {
  readonly positions: readonly PositionAnswer[];
  readonly moment: Moment;
  readonly prober: Prober;
  readonly below: "white" | "black";
  readonly before: string;
  readonly then: string;
}

export const GameStory = ({ full, ply, prober }: EndingAt & { readonly prober: Prober }) => {
  const { ending, positions, game } = full;
  const at = Math.max(
    0,
    positions.findIndex((position) => position.ply === ply),
  );
  const look = positions[at];
  const title = playersText(withWrittenNames(game));
  const where = [game.event, writtenDate(game.date)]
    .filter((part) => part !== null && part !== undefined)
    .join(", ");
  const moments = momentsOf(positions, at, MOMENTS);
  const below = ending.attacker;
  const stops = [...moments.map((moment) => moment.at), positions.length];
  const begins = fenFields(positions[0].fen).fullmove;
  const errors = positions.filter(({ error }) => error !== null && error !== "none").length;
  const told = sentences(
    [
      `the ending is on the board from move ${begins} on, at first ${resultInWords(positions[0])}`,
      at > 0 ? `the diagram shows it before ${colourOf(look)}'s move ${fenFields(look.fen).fullmove}` : "",
      errors === 0
        ? "neither side gives anything away"
        : `${numberWord(errors)} of the moves ${errors === 1 ? "gives" : "give"} something away`,
    ].filter((part) => part !== ""),
  );
  const startsAtMoment = moments[0]?.at === at;
  const heading = (
    <h4>
      <Names text={where ? `${title}, ${where}` : title} />
    </h4>
  );
  const figures = moments.map((moment, n) => (
    <MomentFigure
      positions={positions}
      moment={moment}
      prober={prober}
      below={below}
      before={n === 0 && startsAtMoment ? told : ""}
      then={playedBetween(positions, moment.at, stops[n + 1])}
    />
  ));
  return (
    <div class="game">
      <div class="together">
        {heading}
        {startsAtMoment ? (
          figures.shift()
        ) : (
          <div class="beside">
            <Figure svg={diagramsSvg([{ fen: look.fen, turn: true, below }], 1, title)}>
              {colourOf(look)} to move: {captionOf(look)}.
            </Figure>
            <div>
              <p>{told}</p>
              {stops[0] !== at && <p>{playedBetween(positions, at, stops[0])}</p>}
            </div>
          </div>
        )}
      </div>
      {figures}
      <p class="ends">{sentences([endText(full)])}</p>
    </div>
  );
};

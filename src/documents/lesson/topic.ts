// The topic of a lesson on a question: its title, the set-up it names, a position that shows it.

import { otherTurn } from "../../chess/fen-text.js";
import type { Material } from "../../chess/material.js";
import { type Question, formatQuestion, isEverything, levelOf } from "../../query/language/ast.js";
import { inOneSentence } from "../../query/language/describe.js";
import { type Catalogue, titleOf } from "../../query/language/catalogue.js";
import { type SetUp } from "../../query/language/set-up.js";
import { aboutGames } from "../../query/engine/placement-conditions.js";
import type { Prober } from "../../position/probe.js";
import { winnerInWords } from "../../position/variations.js";
import { isLegal, uprightFen } from "./upright.js";

/** What a lesson is about. */
export interface LessonTopic {
  /** In canonical form. */
  readonly question: string;
  readonly title: string;
  readonly setUp: SetUp | undefined;
  /** A position that shows it. */
  readonly fen: string | undefined;
  /** Whether it is about positions, and about nothing that only games know, so that a table can be asked. */
  /** What is said below the board. */
  readonly caption: string | undefined;
  /** Whether the position is one that the attacker wins: then the lesson is for the attacker. */
  readonly isWon: boolean;
  readonly ofPositions: boolean;
  readonly ofTable: boolean;
}

/**
 * Of a set-up's examples the first that teaches: attacker to move, a draw that not every reply holds, for what the
 * defender holds; won for a station of the attacker's. Then the first that is drawn, then the first.
 */
function showcase(setUp: SetUp | undefined, prober: Prober): string | undefined {
  const examples = (setUp?.examples ?? []).map(({ fen }) => fen);
  const all = examples
    .flatMap((fen) => [fen, otherTurn(fen)])
    .filter(isLegal)
    .map((fen) => ({ fen: uprightFen(fen), worth: prober.worth(fen) }));
  const wanted = setUp?.side === "attacker" ? "won" : "drawn";
  const found =
    all.find(({ worth }) => worth.sideToMove === "attacker" && worth.verdict === wanted) ??
    all.find(({ worth }) => worth.verdict === wanted) ??
    all[0];
  return found?.fen;
}

/** "White to move: a draw." */
function captionOf(fen: string, prober: Prober): string {
  const { verdict, attacker, dtm, sideToMove } = prober.worth(fen);
  const turn = sideToMove === "attacker" ? "White" : "Black";
  const won = winnerInWords(verdict, attacker);
  return `${turn} to move: ${verdict === "drawn" ? "a draw" : `${won}, mate in ${dtm}`}.`;
}

/** A question as a title: "Endings in which the defender drew". */
const inWords = (question: Question, ofPositions: boolean): string =>
  inOneSentence(question, ofPositions ? "position" : "ending").replace(/\.$/, "");

/** The topic of a lesson on a question. */
export function topicOf(
  question: Question,
  catalogue: Catalogue,
  prober: Prober,
  target: Material,
): LessonTopic {
  const setUp = catalogue.named(question);
  const ofPositions = levelOf(question) !== "ending";
  const fen = showcase(setUp, prober);
  return {
    question: formatQuestion(question),
    title:
      setUp || isEverything(question) ? titleOf(question, catalogue, target) : inWords(question, ofPositions),
    setUp,
    fen,
    caption: fen && captionOf(fen, prober),
    isWon: setUp?.side === "attacker" && fen !== undefined && prober.worth(fen).verdict === "won",
    ofPositions,
    ofTable: ofPositions && aboutGames(question) === undefined,
  };
}

/** A topic with a position that shows it. */
export function withExample(topic: LessonTopic, fen: string, prober: Prober): LessonTopic {
  const upright = uprightFen(fen);
  return { ...topic, fen: upright, caption: captionOf(upright, prober) };
}

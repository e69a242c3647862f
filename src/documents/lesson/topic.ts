// The topic of a lesson on a question: its title, the set-up it names, a position that shows it.

import { otherTurn } from "../../chess/fen-text.js";
import type { Material } from "../../chess/material.js";
import { type Question, formatQuestion, levelOf } from "../../query/language/ast.js";
import { type Catalogue, titleOf } from "../../query/language/catalogue.js";
import { type SetUp } from "../../query/language/set-up.js";
import { aboutGames } from "../../query/engine/placement-test.js";
import type { Prober } from "../../position/probe.js";

/** What a lesson is about. */
export interface LessonTopic {
  /** In canonical form. */
  readonly question: string;
  readonly title: string;
  readonly setUp: SetUp | undefined;
  /** A position that shows it. */
  readonly fen: string | undefined;
  /** Whether it is about positions, and about nothing that only games know, so that a table can be asked. */
  readonly ofPositions: boolean;
  readonly ofTable: boolean;
}

/** Of a set-up's examples, with either side to move, the first that is drawn; otherwise the first. */
function showcase(examples: readonly string[], prober: Prober): string | undefined {
  const isDrawn = (fen: string) => {
    try {
      return prober.probe(fen).verdict === "drawn";
    } catch {
      // the side that is not to move would be in check
      return false;
    }
  };
  return examples.flatMap((fen) => [fen, otherTurn(fen)]).find(isDrawn) ?? examples[0];
}

/** The topic of a lesson on a question. */
export function topicOf(
  question: Question,
  catalogue: Catalogue,
  prober: Prober,
  target: Material,
): LessonTopic {
  const setUp = catalogue.named(question);
  const ofPositions = levelOf(question) !== "ending";
  return {
    question: formatQuestion(question),
    title: titleOf(question, catalogue, target),
    setUp,
    fen: showcase(setUp?.examples.map(({ fen }) => fen) ?? [], prober),
    ofPositions,
    ofTable: ofPositions && aboutGames(question) === undefined,
  };
}

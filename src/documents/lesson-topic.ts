// What a lesson on a question is about: its title, the set-up it names, a position that shows it.

import type { Material } from "../chess/material.js";
import { type Question, formatQuestion, levelOf } from "../query/language/ast.js";
import { type Catalogue, titleOf } from "../query/language/catalogue.js";
import { aboutGames } from "../query/engine/placement-test.js";
import type { Prober } from "../position/probe.js";
import { otherTurn } from "./diagram.js";
import type { LessonTopic } from "./outline.js";

/** Of a set-up's examples, with either side to move, the first that is drawn; else the first. */
function showcase(examples: readonly string[], prober: Prober): string | undefined {
  const legal = (fen: string) => {
    try {
      return prober.probe(fen).verdict === "drawn";
    } catch {
      // the side that is not to move would be in check
      return false;
    }
  };
  return examples.flatMap((fen) => [fen, otherTurn(fen)]).find(legal) ?? examples[0];
}

/** What a lesson on a question is about. */
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

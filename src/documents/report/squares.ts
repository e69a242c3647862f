// Where the pieces stood when the defender had a draw to lose, and where it was lost.

import { type SquareCounts, squaresOfErrors } from "../../statistics/errors.js";
import type { Study } from "../../statistics/moves-made.js";
import { squaresChart } from "../charts.js";
import type { Section } from "./parts.js";

export function squareSection(study: Study): () => Section {
  const squares = study.ask(squaresOfErrors());
  const part = (piece: string, counts: SquareCounts) => {
    const id = `squares-${piece}`;
    return [
      {
        appendix: true,
        chart: {
          id,
          caption: `The defender's ${piece}, seen in the frame: the edge where the defender's king is held is the first rank, and that king stands on the files a to d.`,
          svg: squaresChart(counts, piece),
        },
      },
    ];
  };
  const any = (counts: SquareCounts) => counts.moves.some((count) => count > 0);
  return () => {
    const { king, rook } = squares();
    return {
      title: "Where the pieces stood",
      paragraphs: ["Moves of the defender in drawn positions."],
      parts: [...(any(king) ? part("king", king) : []), ...(any(rook) ? part("rook", rook) : [])],
    };
  };
}

// `diagram`: one position drawn as in a book.

import type { Color } from "chessops";

import { makeFen } from "chessops/fen";

import { readFen } from "../chess/fen.js";
import { typedFen } from "../chess/fen-text.js";
import { boardInWords, diagramsSvg, readArrows, readRings } from "../documents/diagram.js";
import { writeDrawing } from "./output.js";
import type { Command } from "./command.js";
import { print, printJson } from "./messages.js";
import { boardText, paragraph } from "./terminal.js";

export const run: Command = (args, options) => {
  const fen = makeFen(readFen(typedFen(args)).toSetup());
  const below: Color = options.below ?? "white";
  const caption = options.caption === undefined ? [] : [options.caption];
  const arrows = readArrows(options.arrows ?? "");
  const marks = readRings(options.rings ?? "");
  const description = [...caption, boardInWords(fen)].join(". ");
  if (options.json) printJson({ fen, below, description });
  else {
    print(boardText(fen, below));
    print(paragraph(description));
  }
  writeDrawing(options, () =>
    diagramsSvg(
      [
        {
          fen,
          below,
          caption,
          arrows,
          marks,
          turn: true,
          coordinates: options.coordinates ?? true,
          description,
        },
      ],
      1,
      caption[0] ?? "A position",
    ),
  );
  return 0;
};

// `map`: the verdict of a position for every square where one of its pieces could stand instead.

import { placementOf, readFen } from "../chess/fen.js";
import { typedFen } from "../chess/fen-text.js";
import { LongsideError } from "../errors.js";
import { valueInWords } from "../position/wording.js";
import { type CountMap, Mapper, type VerdictMap, bySquare, pieceNamed } from "../position/map.js";
import { VERDICTS, type VerdictCounts } from "../chess/verdict.js";
import { countsText, mapSvg, mapTitle } from "../documents/drawings.js";
import type { Command } from "./command.js";
import { writeDrawing } from "./output.js";
import { print, printJson } from "./messages.js";
import { boardRows, bold, dim, paragraph, signText, verdictText } from "./terminal.js";

const summary = (counts: VerdictCounts) =>
  VERDICTS.filter((verdict) => counts[verdict] > 0)
    .map((verdict) => verdictText(verdict, `${verdict} ${counts[verdict].toLocaleString("en")}`))
    .join("   ");

function printMap(map: VerdictMap): void {
  const shown = new Map(
    map.squares.flatMap(({ square, value }) => (value ? [[square, signText(value.verdict)] as const] : [])),
  );
  const own = map.squares[map.piece.square].value;
  print(bold(paragraph(mapTitle(map))));
  print(boardRows(map.fen, shown, map.piece.square));
  print(summary(map.counts));
  if (own) print(`in brackets where it stands: ${verdictText(own.verdict, valueInWords(own))}`);
  print(dim("dots and blanks: not legal there"));
}

function printCounts(map: CountMap): void {
  const lost = map.counts.lost > 0;
  const cells = map.squares.map(({ counts }) => (counts ? countsText(counts, lost) : ""));
  const width = Math.max(...cells.map((cell) => cell.length), 3);
  print(bold(paragraph(mapTitle(map))));
  for (let rank = 7; rank >= 0; --rank)
    print(
      `${rank + 1}  ${cells
        .slice(8 * rank, 8 * rank + 8)
        .map((cell) => cell.padStart(width))
        .join(" ")}`.trimEnd(),
    );
  print(`   ${[..."abcdefgh"].map((file) => file.padStart(width)).join(" ")}`);
  print(summary(map.counts));
  print(
    dim(
      paragraph(
        `each square of the ${map.pieces[0].name}: squares of the ${map.pieces[1].name} that are won/drawn${lost ? "/lost" : ""}`,
      ),
    ),
  );
}

export const run: Command = async (args, options, workspace) => {
  const fen = typedFen(args);
  const placed = placementOf(readFen(fen));
  const words = (options.piece ?? "rook").split(",");
  if (words.length > 2)
    throw new LongsideError("bad-option", { option: "--piece", cause: "two pieces at most", command: "map" });

  const pieces = words.map((word) => pieceNamed(placed, word));
  if (pieces.length === 2 && pieces[0] === pieces[1])
    throw new LongsideError("bad-option", {
      option: "--piece",
      cause: "it names one piece twice",
      command: "map",
    });
  await workspace.prepare([placed.material], "head");
  const mapper = new Mapper(fen, workspace.prober);
  const map = pieces.length === 1 ? mapper.map(pieces[0]) : mapper.count(pieces[0], pieces[1]);
  if (options.json) {
    const { squares, ...rest } = map;
    printJson(rest);
    bySquare<{ readonly square: number }>(squares).forEach(printJson);
  } else if ("piece" in map) printMap(map);
  else printCounts(map);
  writeDrawing(options, () => mapSvg(map));
  return 0;
};

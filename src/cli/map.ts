// `map`: the verdict of a position for every square where one of its men could stand instead.

import { placementOf, readFen } from "../chess/fen.js";
import { squareName } from "../chess/squares.js";
import { LongsideError } from "../errors.js";
import { cacheFolder } from "../places.js";
import { valueInWords } from "../study/annotate.js";
import { type CountMap, type Counts, Mapper, type VerdictMap, bySquare } from "../study/map.js";
import type { Verdict } from "../solver/tables.js";
import { type Mark, diagramsSvg } from "../teach/diagram.js";
import type { Command } from "./options.js";
import { ensureTables } from "./session.js";
import { writeAndSay } from "./files.js";
import { boardRows, bold, dim, paragraph, print, printJson, signText, verdictText } from "./terminal.js";

const VERDICTS = ["won", "drawn", "lost"] as const satisfies readonly Verdict[];

const summary = (counts: Counts) =>
  VERDICTS.filter((verdict) => counts[verdict] > 0)
    .map((verdict) => verdictText(verdict, `${verdict} ${counts[verdict].toLocaleString("en")}`))
    .join("   ");

/** "won/drawn" (and lost, where there is any) of a square. */
const figures = (counts: Counts, lost: boolean) =>
  [counts.won, counts.drawn, ...(lost ? [counts.lost] : [])].join("/");

const turnText = (attackerToMove: boolean) => `${attackerToMove ? "attacker" : "defender"} to move`;

function titleOf(map: VerdictMap | CountMap): string {
  const men = "man" in map ? [map.man] : map.men;
  const names = men.map(({ name, square }) => `the ${name} (${squareName(square)})`).join(" and ");
  return `${names} elsewhere, ${turnText(map.attackerToMove)}`;
}

function printMap(map: VerdictMap): void {
  const shown = new Map(
    map.squares.flatMap(({ square, value }) => (value ? [[square, signText(value.verdict)] as const] : [])),
  );
  const own = map.squares[map.man.square].value;
  print(bold(paragraph(titleOf(map))));
  print(boardRows(map.fen, shown, map.man.square));
  print(summary(map.counts));
  if (own) print(`in brackets where it stands: ${verdictText(own.verdict, valueInWords(own))}`);
  print(dim("dots and blanks: not legal there"));
}

function printCounts(map: CountMap): void {
  const lost = map.counts.lost > 0;
  const cells = map.squares.map(({ counts }) => (counts ? figures(counts, lost) : ""));
  const width = Math.max(...cells.map((cell) => cell.length), 3);
  print(bold(paragraph(titleOf(map))));
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
        `each square of the ${map.men[0].name}: squares of the ${map.men[1].name} that are won/drawn${lost ? "/lost" : ""}`,
      ),
    ),
  );
}

function svgOf(map: VerdictMap | CountMap): string {
  const men = "man" in map ? [map.man] : map.men;
  const marks = new Map<number, Mark>();
  const lost = map.counts.lost > 0;
  for (const one of map.squares) {
    if ("value" in one && one.value) marks.set(one.square, { verdict: one.value.verdict });
    if ("counts" in one && one.counts) marks.set(one.square, { text: figures(one.counts, lost) });
  }
  const title = titleOf(map);
  const told = VERDICTS.map((verdict) => `${verdict} on ${map.counts[verdict]}`).join(", ");
  const fen = withoutMen(
    map.fen,
    men.map(({ square }) => square),
  );
  return diagramsSvg(
    [{ fen, marks, framed: men[0].square, caption: [title], description: `${title}: ${told}.` }],
    1,
    title,
  );
}

/** A FEN with some squares emptied, for drawing. */
function withoutMen(fen: string, squares: readonly number[]): string {
  const [board, ...rest] = fen.split(" ");
  const rows = board.split("/").map((row) => row.replace(/\d/g, (n) => "1".repeat(Number(n))));
  for (const square of squares) {
    const row = 7 - (square >> 3);
    rows[row] = rows[row].slice(0, square & 7) + "1" + rows[row].slice((square & 7) + 1);
  }
  return [rows.join("/"), ...rest].join(" ");
}

export const run: Command = async (args, options) => {
  const fen = args.join(" ");
  const { material } = placementOf(readFen(fen));
  const words = (options.man ?? "rook").split(",");
  if (words.length > 2)
    throw new LongsideError("bad-option", { option: "--man", cause: "two men at most", command: "map" });
  await ensureTables([material], options, "head");
  const mapper = new Mapper(fen, cacheFolder());
  try {
    const men = mapper.men(words);
    if (men.length === 2 && men[0] === men[1])
      throw new LongsideError("bad-option", {
        option: "--man",
        cause: "it names one man twice",
        command: "map",
      });
    const map = men.length === 1 ? mapper.map(men[0]) : mapper.count(men[0], men[1]);
    if (options.json) {
      const { squares, ...rest } = map;
      printJson(rest);
      bySquare<{ readonly square: number }>(squares).forEach(printJson);
    } else if ("man" in map) printMap(map);
    else printCounts(map);
    if (options.svg) writeAndSay(options.svg, svgOf(map));
    return 0;
  } finally {
    mapper.close();
  }
};

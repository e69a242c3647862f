// `slide`: a formation moved over the board as a whole, and what changes on the way.

import { placementOf, readFen } from "../chess/fen.js";
import { typedFen } from "../chess/fen-text.js";
import { valueInWords } from "../position/wording.js";
import { type Changed, type Slides, slides } from "../position/slide.js";
import type { Value } from "../tablebase/tables.js";
import { TURNS, edgeStrip, slideText, slidesSvg } from "../documents/drawings.js";
import type { Command } from "./command.js";
import { writeDrawing } from "./output.js";
import { print, printJson } from "./messages.js";
import {
  boardText,
  bold,
  dim,
  factValueText,
  paragraph,
  signText,
  tableText,
  verdictText,
} from "./terminal.js";

const valueText = (value: Value | null) =>
  value === null ? "not legal" : verdictText(value.verdict, valueInWords(value));
const signOf = (value: Value | null) => (value === null ? "·" : signText(value.verdict));

const changeText = ({ fact, from, to }: Changed): string =>
  `${fact} ${factValueText(from)}→${factValueText(to)}`;

/** Every slide at once: two signs a place, the attacker to move and the defender. */
function grid({ slides: all }: Slides): string {
  const files = [...new Set(all.map((slid) => slid.files))].sort((a, b) => a - b);
  const ranks = [...new Set(all.map((slid) => slid.ranks))];
  const signed = (n: number) => (n > 0 ? `+${n}` : String(n));
  return tableText([
    { head: "ranks", cells: ranks.map(signed), right: true },
    ...files.map((file) => ({
      head: signed(file),
      cells: ranks.map((rank) => {
        const slid = all.find((one) => one.files === file && one.ranks === rank);
        if (!slid) return "";
        const signs = TURNS.map(({ turn }) => signOf(slid[turn])).join("");
        return file === 0 && rank === 0 ? `(${signs})` : ` ${signs} `;
      }),
    })),
  ]);
}

function printSlides(found: Slides): void {
  print(boardText(found.fen));
  print("");
  print(bold("All slides: files to the right, ranks up"));
  print(grid(found));
  print(dim(paragraph("signs: attacker to move, defender to move; + won, = drawn, - lost, · not legal")));
  print("");
  const row = edgeStrip(found);
  print(bold("Along the edge"));
  print(
    tableText(
      [
        { head: "moved", cells: row.map(slideText) },
        ...TURNS.map(({ turn, side }) => ({
          head: `${side} to move`,
          cells: row.map((slid) => valueText(slid[turn])),
        })),
        { head: "set-up", cells: row.map((slid) => slid.setUps.join(", ")), shrinksTo: 12, optional: 2 },
        {
          head: "what changes",
          cells: row.map((slid) => slid.changes.map(changeText).join(", ")),
          shrinksTo: 24,
          optional: 1,
        },
      ],
      { wrap: true },
    ),
  );
  print(
    dim(
      paragraph(
        "Mirrored and turned boards have the same verdicts: without pawns all sides of the board are alike.",
      ),
    ),
  );
}

export const run: Command = async (args, options, workspace) => {
  const fen = typedFen(args);
  const { material } = placementOf(readFen(fen));
  await workspace.prepare([material], "head");
  const found = slides(fen, workspace.prober, workspace.catalogue);
  if (options.json) found.slides.forEach(printJson);
  else printSlides(found);
  writeDrawing(options, () => slidesSvg(found));
  return 0;
};

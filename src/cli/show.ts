// `show`: one ending from its first move to its last.

import { moveOf } from "../chess/move-numbers.js";
import { LongsideError } from "../errors.js";
import { writeGame } from "../pgn/game/write.js";
import { moveNumber } from "../chess/move-numbers.js";
import { playersText } from "../pgn/game/players.js";
import { errorInWords, valueInWords } from "../position/wording.js";
import { annotatedGame } from "../documents/annotated-game.js";
import type { PositionAnswer } from "../query/engine/rows.js";
import { type FullEnding, readEnding } from "../query/engine/show.js";
import type { Command } from "./command.js";
import { printFile, print, printJson } from "./messages.js";
import { boardText, bold, dim, storyText, tableText, verdictText } from "./terminal.js";

const CLAIM = "a draw can be claimed first (FIDE Laws 9.3; the arbiter decides).";

function heading({ ending, game }: FullEnding): string {
  const where = [game.event, game.site, game.date].filter((part) => part !== null).join(", ");
  const number = moveOf(ending);
  const lines = [
    bold(`${playersText(ending)}   ${ending.result.replaceAll("1/2", "½")}`),
    `${where}${where ? " · " : ""}${ending.file}, game ${ending.game}`,
    `${ending.attacker === "white" ? "White" : "Black"} attacks · moves ${number(ending.firstPly)}–${number(ending.lastPly)} · ${storyText(ending.story, number)}`,
    `defender ${ending.outcome} · ended by ${ending.captured ? `the capture of the ${ending.captured}` : ending.endedBy}`,
  ];
  if (ending.contradicts) lines.push("The result is not what the last position's verdict says.");
  if (ending.duplicateOf)
    lines.push(`Duplicate of ${ending.duplicateOf.file}, game ${ending.duplicateOf.game}.`);
  if (ending.stoppedAt !== null) lines.push(`The game could not be read beyond ply ${ending.stoppedAt}.`);
  return lines.join("\n");
}

function moveTable(positions: readonly PositionAnswer[]): string {
  const errors = positions.map((at, n) => errorInWords(at, positions[n + 1]) ?? "");
  return tableText(
    [
      { head: "ply", cells: positions.map((at) => String(at.ply)), right: true, optional: 2 },
      { head: "move", cells: positions.map((at) => `${moveNumber(at.fen)} ${at.move ?? "–"}`) },
      { head: "before it", cells: positions.map((at) => verdictText(at.verdict, valueInWords(at))) },
      {
        head: "keep it",
        cells: positions.map((at) => `${at.keeping ?? "?"} of ${at.legal}`),
        right: true,
        optional: 1,
      },
      {
        head: "",
        cells: positions.map((at, n) =>
          errors[n] ? `${at.error === "full" ? "??" : at.error === "half" ? "?" : "?!"} ${errors[n]}` : "",
        ),
        shrinksTo: 16,
      },
    ],
    { wrap: true },
  );
}

export const run: Command = ([number], options, workspace) => {
  if (!/^\d{1,15}$/.test(number)) throw new LongsideError("no-such-ending", { id: JSON.stringify(number) });
  const id = Number(number);
  const full = readEnding(workspace.db(), id);
  if (options.json) {
    printJson({ ...full.ending, text: full.game, plies: full.positions });
    return 0;
  }
  if (options.pgn) {
    printFile(writeGame(annotatedGame(full)));
    return 0;
  }
  const ply = options.ply ?? full.ending.look.ply;
  const at = full.positions.find((one) => one.ply === ply);
  if (!at) {
    const { firstPly, lastPly } = full.ending;
    throw new LongsideError("bad-option", {
      option: `--ply ${ply}`,
      cause: `this ending has plies ${firstPly} to ${lastPly}`,
      command: "show",
    });
  }
  print(heading(full));
  print("");
  print(boardText(at.fen, full.ending.attacker));
  print(`${moveNumber(at.fen)} ${at.sideToMove} to move: ${verdictText(at.verdict, valueInWords(at))}`);
  print(dim(at.fen));
  if (at.beyondFifty) print(`${at.verdict === "won" ? "Won" : "Lost"} on paper only: ${CLAIM}`);
  print("");
  print(moveTable(full.positions));
  return 0;
};

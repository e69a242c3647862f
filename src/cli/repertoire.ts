// `repertoire`: what a defender keeps for ever that knows some set-ups and nothing else, and what is best learnt next.

import { type RepertoireFound, orderFound, repertoireFound } from "../app/theory.js";
import { placementOf, readFen } from "../chess/fen.js";
import { orderSvg } from "../documents/change-map.js";
import { LongsideError } from "../errors.js";
import type { Command } from "./command.js";
import { writeDrawing } from "./output.js";
import { noteProgress, print, printJson } from "./messages.js";
import { setUpNames } from "./set-up-names.js";
import { bold, dim, paragraph, tableText } from "./terminal.js";

const percent = (part: number, whole: number) =>
  whole === 0 ? "" : `${((100 * part) / whole).toFixed(1)} %`;
const list = (names: readonly string[]) => names.join(", ");

const RULE =
  "Kept: whatever quiet move the attacker makes, some reply leads back into the set-ups. A check by the defender does not leave them; a check by the attacker may be answered by any move that does not lose, and ends the matter, or, “against checks too”, by one after which the set-ups are reached again, for ever. A capture into an ending that is not lost, and stalemate, end it well. Placements with the attacker to move, each with all its twins. “Then kept” is of the placements that are not won and that a set-up to be learnt names.";

function printRepertoire(found: RepertoireFound): void {
  const { basic, setUps, own, next, held, kept, met, position } = found;
  const learnt = setUps.filter((name) => !basic.includes(name));
  print(
    paragraph(
      `${bold(learnt.length > 0 ? list(learnt) : "Nothing learnt yet")}, and what everybody holds (${list(basic)}): ${percent(kept, held)} of the placements of ${found.material} that are not won can be kept against quiet moves, and ${percent(found.keptOfWanted, found.wanted)} of those that a set-up to be learnt names; against checks too ${percent(found.againstChecks.kept, held)} and ${percent(found.againstChecks.keptOfWanted, found.wanted)}.`,
    ),
  );
  print("");
  print(
    tableText([
      { head: "set-up", cells: own.map(({ setUp }) => setUp), shrinksTo: 12 },
      { head: "not won", cells: own.map((one) => one.held.toLocaleString("en")), right: true, optional: 1 },
      { head: "of its own kept", cells: own.map((one) => percent(one.kept, one.held)), right: true },
    ]),
  );
  if (met && met.positions > 0)
    print(
      `\n${paragraph(`Of ${met.positions.toLocaleString("en")} drawn positions that people met with the attacker to move ${percent(met.kept, met.positions)} are kept; of ${met.onEdge.toLocaleString("en")} with the king on the edge ${percent(met.keptOnEdge, met.onEdge)}, and against checks too ${percent(met.alwaysOnEdge, met.onEdge)}.`)}`,
    );
  if (position) {
    print("");
    print(
      paragraph(
        position.kept
          ? `This position is held by what is known here${position.in.length > 0 ? ` (it is in: ${list(position.in)})` : ""}. ${position.needed.length > 0 ? `Without ${position.needed.join(" or without ")} it could not be kept.` : "No single set-up is needed for it."}`
          : "This position cannot be kept with what is known here.",
      ),
    );
  }
  if (next.length > 0) {
    print(`\n${bold("What adds most")}`);
    print(
      tableText([
        { head: "learn", cells: next.map(({ setUp }) => setUp), shrinksTo: 12 },
        { head: "then kept", cells: next.map((one) => percent(one.kept, found.wanted)), right: true },
        {
          head: "more",
          cells: next.map((one) => `+${percent(one.kept - found.keptOfWanted, found.wanted)}`),
          right: true,
        },
      ]),
    );
  }
  print(`\n${dim(paragraph(RULE))}`);
}

export const run: Command = async (words, options, workspace) => {
  // a database that is named must be there
  if (options.db !== undefined) workspace.db();
  if (options.order) {
    const found = await orderFound(workspace, noteProgress);
    writeDrawing(options, () =>
      orderSvg({ says: "what everybody holds", kept: found.start }, found.order, found.wanted),
    );
    if (options.json) {
      printJson(found);
      return 0;
    }
    const rows = [
      {
        name: `(${list(found.basic)})`,
        kept: found.start,
        againstChecks: found.startAgainstChecks,
        more: 0,
      },
      ...found.order.map(({ setUp, kept, againstChecks }, n) => ({
        name: setUp,
        kept,
        againstChecks,
        more: kept - (n === 0 ? found.start : found.order[n - 1].kept),
      })),
    ];
    print(
      tableText([
        { head: "", cells: rows.map((_, n) => (n === 0 ? "" : String(n))), right: true },
        { head: "learn", cells: rows.map(({ name }) => name), shrinksTo: 16 },
        { head: "then kept", cells: rows.map(({ kept }) => percent(kept, found.wanted)), right: true },
        {
          head: "more",
          cells: rows.map(({ more }, n) => (n === 0 ? "" : `+${percent(more, found.wanted)}`)),
          right: true,
        },
        {
          head: "against checks too",
          cells: rows.map(({ againstChecks }) => percent(againstChecks, found.wanted)),
          right: true,
          optional: 1,
        },
      ]),
    );
    print(`\n${dim(paragraph(RULE))}`);
    return 0;
  }
  const names = setUpNames(words, (name) => workspace.catalogue.known.has(name));
  const placement = options.fen === undefined ? undefined : placementOf(readFen(options.fen));
  if (placement && !placement.attackerToMove)
    throw new LongsideError("bad-option", {
      option: "--fen",
      cause: "a repertoire is asked with the attacker to move",
      command: "repertoire",
    });
  const found = await repertoireFound(workspace, names, placement, noteProgress);
  if (options.json) printJson(found);
  else printRepertoire(found);
  return 0;
};

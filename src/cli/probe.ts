// `probe`: the exact value of a position and of every move in it.

import { createInterface } from "node:readline";

import { placementOf, readFen } from "../chess/fen.js";
import { fenFields, typedFen } from "../chess/fen-text.js";
import type { Material } from "../chess/material.js";
import { numbered } from "../chess/move-numbers.js";
import { VERDICTS } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import type { Workspace } from "../app/workspace.js";
import type { Value } from "../tablebase/tables.js";
import { valueInWords, counted } from "../position/wording.js";
import type { Probe } from "../position/probe.js";
import type { Command } from "./command.js";
import { note, placeText, print, printJson, terminalWidth } from "./messages.js";
import { boardText, bold, dim, paragraph, tableText, verdictText, wrap } from "./terminal.js";

const distanceOf = ({ verdict, dtm, dtc }: Value) => (verdict === "drawn" ? "" : ` ${dtm}/${dtc}`);

function movesText(probe: Probe): string {
  const lines: string[] = [];
  for (const verdict of VERDICTS) {
    const moves = probe.moves.filter((move) => move.verdict === verdict);
    if (moves.length === 0) continue;
    const keeps = verdict === probe.verdict ? " (keep it)" : "";
    lines.push(`${verdictText(verdict)}${keeps}, ${moves.length}:`);
    lines.push(
      `  ${wrap(
        moves.map((move) => (move.san + distanceOf(move)).replaceAll(" ", "\u00a0")).join(" "),
        terminalWidth(),
        2,
      )}`,
    );
  }
  return lines.join("\n");
}

/** Which set-ups the moves that keep the verdict keep or enter, the most moves first. */
function leadsText(probe: Probe): string | undefined {
  const groups = new Map<string, string[]>();
  for (const { san, setUps } of probe.moves) {
    if (setUps.length === 0) continue;
    const kept = setUps.every((name) => probe.setUps.includes(name)) ? "keeps" : "into";
    const key = `${kept} ${setUps.join(", ")}`;
    groups.set(key, [...(groups.get(key) ?? []), san]);
  }
  if (groups.size === 0) return undefined;
  const lines = [...groups]
    .sort(([, a], [, b]) => b.length - a.length)
    .map(([key, sans]) => `  ${wrap(`${key}: ${sans.join(" ")}`, terminalWidth(), 4)}`);
  return ["of those that keep it:", ...lines].join("\n");
}

/** What the fifty-move and seventy-five-move rules (FIDE Laws 2023, 9.3 and 9.6.2) may do to the verdict. */
function fiftyText(probe: Probe): string | undefined {
  if (!probe.beyondFifty) return undefined;
  const gone = probe.halfmoves;
  const text =
    gone >= 150
      ? `On paper only: ${gone} half-moves without a capture or a pawn move have been played, and after 150 the game is drawn ` +
        "(FIDE Laws 2023, 9.6.2). The arbiter decides."
      : gone >= 100
        ? `On paper only: ${gone} half-moves without a capture or a pawn move have been played, so that a draw can be claimed now ` +
          "(FIDE Laws 2023, 9.3). Whether a claim stands, the arbiter decides."
        : `On paper only: the conversion takes ${probe.conversionHalfMoves} half-moves, and ${gone} of the 100 after which ` +
          `a draw can be claimed are gone; with move ${probe.claimMove} the hundredth is reached (FIDE Laws 2023, 9.3). ` +
          "Whether a claim stands, the arbiter decides.";
  return paragraph(text);
}

/** The verdict in a sentence; a position without a legal move is what it is. */
function verdictLine(probe: Probe): string {
  const verdict = verdictText(probe.verdict, valueInWords(probe));
  if (probe.legal === 0) return probe.verdict === "drawn" ? `${verdict}, stalemate` : verdict;
  const dtc = probe.dtc === null ? "" : `, conversion in ${probe.dtc}`;
  return `${verdict}${dtc}; ${probe.keeping} of ${counted(probe.legal, "move")} ${probe.keeping === 1 ? "keeps" : "keep"} it`;
}

function printProbe(probe: Probe): void {
  const attacker = probe.attacker === "white" ? "White" : "Black";
  print(boardText(probe.fen));
  print("");
  print(`${bold(probe.material)}, ${attacker} attacks, ${probe.sideToMove} to move`);
  print(verdictLine(probe));
  const fifty = fiftyText(probe);
  if (fifty) print(fifty);
  print(`set-up: ${probe.setUps.length > 0 ? probe.setUpsSaid.join(", ") : "none of the catalogue"}`);
  print("");
  for (const sentence of probe.explanation.sentences) print(wrap(sentence, terminalWidth(), 2));
  print("");
  if (probe.moves.length > 0) print(movesText(probe));
  if (probe.moves.some((move) => move.verdict !== "drawn"))
    print(dim("  after the move: the winner's moves to mate / to conversion"));
  const leads = leadsText(probe);
  if (leads) print(leads);
  if (probe.line.length > 0) print(lineText(probe));
  const facts = Object.entries(probe.facts).filter(([, value]) => value !== null && value !== false);
  print("");
  print(
    tableText([
      { head: "in the frame", cells: facts.map(([name]) => name) },
      { head: "", cells: facts.map(([, value]) => (value === true ? "yes" : String(value))) },
    ]),
  );
}

/** The best line with move numbers; where several moves are as good, how many. */
function lineText(probe: Probe): string {
  const { turn, fullmove } = fenFields(probe.fen);
  const moves = probe.line.map(({ san, equal }) => `${san}${equal > 1 ? ` (1 of ${equal})` : ""}`);
  const words = numbered(turn, fullmove, moves).map((move) => move.replaceAll(" ", "\u00a0"));
  return wrap(["best line:", ...words].join(" "), terminalWidth(), 2);
}

/** Probes positions; the tables they need are built when they are first needed, and again where they are damaged. */
class Asker {
  private readonly ready = new Set<string>();

  constructor(private readonly workspace: Workspace) {}

  async probe(fen: string): Promise<Probe> {
    const { material }: { material: Material } = placementOf(readFen(fen));
    if (!this.ready.has(material.id)) await this.workspace.prepare([material], "head");
    this.ready.add(material.id);
    try {
      return this.workspace.prober.probe(fen);
    } catch (thrown) {
      if (!(thrown instanceof LongsideError && thrown.code === "table-damaged")) throw thrown;
      note(`longside: ${thrown.message}`);
      this.workspace.closeTables();
      await this.workspace.prepare([material], "blocks");
      return this.workspace.prober.probe(fen);
    }
  }
}

/** One answer for each line of standard input; a line that is no position must not spoil the others. */
async function probeLines(asker: Asker, json: boolean): Promise<number> {
  let failed = false;
  let line = 0;
  for await (const fen of createInterface({ input: process.stdin, crlfDelay: Infinity })) {
    ++line;
    try {
      const probe = await asker.probe(fen);
      if (json) printJson(probe);
      else printProbe(probe);
    } catch (thrown) {
      if (!(thrown instanceof LongsideError)) throw thrown;
      failed = true;
      const told = thrown.placed({ line });
      if (json) printJson(told);
      else note(`longside: ${told.message}${placeText(told.where)}\n  ${told.hint}`);
    }
  }
  return failed ? 2 : 0;
}

export const run: Command = async (args, { json = false }, workspace) => {
  const asker = new Asker(workspace);
  if (args.length === 1 && args[0] === "-") return probeLines(asker, json);
  const probe = await asker.probe(typedFen(args));
  if (json) printJson(probe);
  else printProbe(probe);
  return 0;
};

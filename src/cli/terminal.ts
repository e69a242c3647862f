// What answers look like in a terminal: tables that fit its width, boards in letters, verdicts by sign and word as
// well as by colour. Libraries know when colour is wanted and how wide a character is.

import cliTruncate from "cli-truncate";
import pc from "picocolors";
import stringWidth from "string-width";
import wrapAnsi from "wrap-ansi";

import type { Color } from "chessops";

import type { Square } from "../chess/units.js";
import type { Chapter } from "../query/engine/rows.js";
import type { Verdict } from "../chess/verdict.js";
import { piecesOn } from "../chess/fen-text.js";
import { terminalWidth } from "./messages.js";

export const bold = pc.bold;
export const dim = pc.dim;

const SIGNS: Readonly<Record<Verdict, string>> = { won: "+", drawn: "=", lost: "-" };
const PAINTS: Readonly<Record<Verdict, (text: string) => string>> = {
  won: pc.yellow,
  drawn: pc.blue,
  lost: pc.magenta,
};

/** "+ won" in its colour: sign, word and colour say the same. */
export const verdictText = (verdict: Verdict | null, word: string | null = verdict): string =>
  verdict === null ? "?" : PAINTS[verdict](`${SIGNS[verdict]} ${word}`);

/** The value of a fact in words: "none" where there is no value. */
export const factValueText = (value: number | string | boolean | null): string =>
  value === null ? "none" : value === true ? "yes" : value === false ? "no" : String(value);

/** The sign of a verdict alone, in its colour. */
export const signText = (verdict: Verdict): string => PAINTS[verdict](SIGNS[verdict]);

export interface Column {
  readonly head: string;
  readonly cells: readonly string[];
  readonly right?: boolean;
  /** Left out first when the terminal is narrow: the highest number goes first. */
  readonly optional?: number;
  /** May be cut short with an ellipsis (or wrapped), down to this width. */
  readonly shrinksTo?: number;
}

const GAP = 2;

/** Text cut into lines of at most `width` columns between words; all but the first are indented. */
export const wrap = (text: string, width: number, indent = 0): string =>
  wrapAnsi(text, Math.max(1, width - indent)).replaceAll("\n", `\n${" ".repeat(indent)}`);

/** Text as a paragraph of the terminal's width. */
export const paragraph = (text: string): string => wrap(text, terminalWidth());

/** Text filled up with blanks to `width` columns. */
export const padded = (text: string, width: number, right = false): string => {
  const blanks = " ".repeat(Math.max(0, width - stringWidth(text)));
  return right ? blanks + text : text + blanks;
};

/** The columns of a table that are shown in `width`, each with its own width. */
function fitted(columns: readonly Column[], width: number): Map<Column, number> {
  const widths = new Map(
    columns.map((column) => [
      column,
      Math.max(stringWidth(column.head), ...column.cells.map((cell) => stringWidth(cell)), 1),
    ]),
  );
  const total = (of: (column: Column, own: number) => number) =>
    [...widths].reduce((sum, [column, own]) => sum + of(column, own) + GAP, -GAP);
  // columns that may be left out go first where shrinking all would not do, so that the others keep their room
  while (total(({ shrinksTo = Infinity }, own) => Math.min(own, shrinksTo)) > width) {
    const [last] = [...widths.keys()].sort((a, b) => (b.optional ?? 0) - (a.optional ?? 0));
    if (!last?.optional) break;
    widths.delete(last);
  }
  // the widest shrinks first, one character at a time
  while (total((_, own) => own) > width) {
    const widest = [...widths]
      .filter(([{ shrinksTo = Infinity }, own]) => own > shrinksTo)
      .sort((a, b) => b[1] - a[1])[0];
    if (!widest) break;
    widths.set(widest[0], widest[1] - 1);
  }
  return widths;
}

/** A table without rules, fitted to `width` columns. Cells that do not fit are cut short, or wrapped. */
export function tableText(
  columns: readonly Column[],
  { width = terminalWidth(), wrap: wraps = false } = {},
): string {
  const widths = [...fitted(columns, width)];
  const linesOf = (cells: readonly string[]): string[] => {
    const lines = cells.map((cell, n) =>
      wraps ? wrapAnsi(cell, widths[n][1], { hard: true }).split("\n") : [cliTruncate(cell, widths[n][1])],
    );
    return Array.from({ length: Math.max(...lines.map(({ length }) => length)) }, (_, line) =>
      widths
        .map(([{ right }, own], n) => padded(lines[n][line] ?? "", own, right))
        .join(" ".repeat(GAP))
        .trimEnd(),
    );
  };
  const rows = [widths.map(([{ head }]) => dim(head))];
  for (let n = 0; n < (columns[0]?.cells.length ?? 0); ++n) rows.push(widths.map(([{ cells }]) => cells[n]));
  return rows.flatMap(linesOf).join("\n");
}

/** A word, and the lines that are said of it. */
export interface Definition {
  readonly word: string;
  readonly said: readonly string[];
}

/**
 * Words with what is said of each: beside them where the widest word leaves two thirds of the width, else indented below
 * them.
 */
export function definitions(entries: readonly Definition[], width = terminalWidth()): string {
  const widest = Math.max(...entries.map(({ word }) => stringWidth(word)));
  const beside = 3 * (widest + GAP) <= width;
  const indent = beside ? widest + GAP : 4;
  const margin = " ".repeat(indent);
  return entries
    .map(({ word, said }) => {
      const body = said.map((line) => margin + wrap(line, width, indent)).join("\n");
      return beside ? bold(padded(word, indent)) + body.slice(indent) : `${bold(word)}\n${body}`;
    })
    .join("\n");
}

/** A FEN's board in letters, dark squares dotted, `below` the colour at the bottom. */
export const boardText = (fen: string, below: Color = "white"): string =>
  boardRows(fen, new Map(), undefined, below);

/** The same with something shown on some squares instead of what stands there, and one of them in brackets. */
export function boardRows(
  fen: string,
  shown: ReadonlyMap<Square, string>,
  bracketed?: Square,
  below: Color = "white",
): string {
  const pieces = piecesOn(fen);
  const order = [0, 1, 2, 3, 4, 5, 6, 7];
  const ranks = below === "white" ? order : [...order].reverse();
  const files = below === "white" ? order : [...order].reverse();
  const lines = ranks.map((r) => {
    const cells = files.map((f) => {
      const letter = pieces.get((7 - r) * 8 + f);
      const said = shown.get((7 - r) * 8 + f);
      return said ?? (letter ? bold(letter) : dim((r + f) % 2 === 1 ? "·" : " "));
    });
    const at = bracketed === undefined || 7 - (bracketed >> 3) !== r ? -1 : files.indexOf(bracketed & 7);
    const line = cells.map((cell, n) =>
      n === at ? `(${cell}` : n === at + 1 && at >= 0 ? `)${cell}` : ` ${cell}`,
    );
    return `${8 - r} ${line.join("")}${at === 7 ? ")" : ""}`.trimEnd();
  });
  return [...lines, `   ${files.map((f) => "abcdefgh"[f]).join(" ")}`].join("\n");
}

/** The verdict's story in one line: "= drawn, + won 84, = drawn 90"; numbers are moves of the game. */
export function storyText(story: readonly Chapter[], moveOf: (ply: number) => number): string {
  return story
    .map(
      ({ ply, verdict, onPaper }, n) =>
        `${verdictText(verdict)}${onPaper ? " on paper only" : ""}${n === 0 ? "" : ` ${moveOf(ply)}`}`,
    )
    .join(", ");
}

/** The verdict's story by signs: "= +84 =90"; numbers are moves of the game. In brackets: too late for the fifty-move rule. */
export const signsText = (story: readonly Chapter[], moveOf: (ply: number) => number): string =>
  story
    .map(({ ply, verdict, onPaper }, n) => {
      const sign = onPaper ? `(${signText(verdict)})` : signText(verdict);
      return `${sign}${n === 0 ? "" : moveOf(ply)}`;
    })
    .join(" ");

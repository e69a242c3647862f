// What answers look like in a terminal: tables that fit its width, boards in letters, verdicts told by sign and
// word as well as by colour. Colour is left to a library that knows when it is wanted.

import Table from "cli-table3";
import pc from "picocolors";

import type { Color } from "chessops";

import type { Square } from "../chess/units.js";
import type { Where } from "../errors.js";
import type { Chapter } from "../query/engine/rows.js";
import type { Verdict } from "../tablebase/tables.js";

/** Columns of the terminal, 100 where it has none to tell (a file or a pipe). */
export const terminalWidth = (): number => process.stdout.columns || 100;

/** Text without the control characters that names and file names from anywhere may hold; our colours stay. */
export const plain = (text: string): string =>
  text.replace(/\u001b\[\d+m|[\u0000-\u0009\u000b-\u001f\u007f-\u009f]/g, (said) =>
    said.length > 1 ? said : "",
  );

/** Prints data. */
export const print = (text: string): void => {
  process.stdout.write(`${plain(text)}\n`);
};
/** A message, as opposed to data: goes to standard error. */
export const note = (text: string): void => {
  process.stderr.write(`${plain(text)}\n`);
};
export const printJson = (value: unknown): void => {
  process.stdout.write(`${JSON.stringify(value)}\n`);
};

/** "1 file", "2,500 files". */
export const counted = (number: number, noun: string): string =>
  `${number.toLocaleString("en")} ${noun}${number === 1 ? "" : "s"}`;

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
/** Characters of a text that are seen, colours left out. */
export const visible = (text: string): number => [...text.replace(/\u001b\[\d+m/g, "")].length;

/** Text cut into lines of at most `width` columns between words; all but the first are indented. */
export function wrap(words: readonly string[], width: number, indent: number): string {
  const lines: string[] = [];
  let line = "";
  for (const word of words) {
    if (line && indent + line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line ? `${line} ${word}` : word;
    }
  }
  return [...lines, line].join(`\n${" ".repeat(indent)}`);
}

/** Text as a paragraph of the terminal's width. */
export const paragraph = (text: string): string => wrap(text.split(" "), terminalWidth(), 0);

/** A table without rules, fitted to `width` columns. Cells that do not fit are cut short, or wrapped. */
export function tableText(
  columns: readonly Column[],
  { width = terminalWidth(), wrap = false } = {},
): string {
  const shown = [...columns];
  const natural = (column: Column) => Math.max(visible(column.head), ...column.cells.map(visible), 1);
  const widths = new Map(columns.map((column) => [column, natural(column)]));
  const total = () => shown.reduce((sum, column) => sum + widths.get(column)! + GAP, -GAP);
  // the widest gives way first, one column at a time
  while (total() > width) {
    const widest = shown
      .filter((column) => column.shrinksTo !== undefined && widths.get(column)! > column.shrinksTo)
      .sort((a, b) => widths.get(b)! - widths.get(a)!)[0];
    if (!widest) break;
    widths.set(widest, widths.get(widest)! - 1);
  }
  while (total() > width) {
    const last = shown.reduce<Column | undefined>(
      (worst, column) => ((column.optional ?? 0) > (worst?.optional ?? 0) ? column : worst),
      undefined,
    );
    if (!last) break;
    shown.splice(shown.indexOf(last), 1);
  }
  const none = "";
  const table = new Table({
    chars: {
      top: none,
      "top-mid": none,
      "top-left": none,
      "top-right": none,
      bottom: none,
      "bottom-mid": none,
      "bottom-left": none,
      "bottom-right": none,
      left: none,
      "left-mid": none,
      mid: none,
      "mid-mid": none,
      right: none,
      "right-mid": none,
      middle: " ".repeat(GAP),
    },
    style: { "padding-left": 0, "padding-right": 0, head: [], border: [] },
    head: shown.map((column) => dim(column.head)),
    colWidths: shown.map((column) => widths.get(column)!),
    wordWrap: wrap,
    colAligns: shown.map((column) => (column.right ? "right" : "left")),
  });
  const rows = columns[0]?.cells.length ?? 0;
  for (let n = 0; n < rows; ++n) table.push(shown.map((column) => column.cells[n]));
  return table
    .toString()
    .split("\n")
    .map((line) => line.trimEnd())
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
  const rows = fen
    .split(" ")[0]
    .split("/")
    .map((row) => [...row].flatMap((c) => (/\d/.test(c) ? new Array<string>(Number(c)).fill("") : [c])));
  const order = [0, 1, 2, 3, 4, 5, 6, 7];
  const ranks = below === "white" ? order : [...order].reverse();
  const files = below === "white" ? order : [...order].reverse();
  const lines = ranks.map((r) => {
    const cells = files.map((f) => {
      const letter = rows[r][f];
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

/** Where something lies in the input: " (file games.pgn, game 7, byte 5210)". */
export function placeText(where: Where): string {
  const names = ["file", "line", "game", "byte", "ply"] as const;
  const places = names.filter((name) => where[name] !== undefined).map((name) => `${name} ${where[name]}`);
  return places.length > 0 ? ` (${places.join(", ")})` : "";
}

/** The verdict's story in one line: "= drawn, + won 84, = drawn 90"; numbers are moves of the game. */
export function storyText(story: readonly Chapter[], moveOf: (ply: number) => number): string {
  return story
    .map(({ ply, verdict }, n) => (n === 0 ? verdictText(verdict) : `${verdictText(verdict)} ${moveOf(ply)}`))
    .join(", ");
}

/** How this program is called, so that what to type next can be pasted. */
export const programName = (): string =>
  process.env.npm_lifecycle_event === undefined ? "longside" : "npm run -s longside --";

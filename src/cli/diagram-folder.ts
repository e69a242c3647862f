// Diagrams by themselves, for a book: one folder with an SVG and a PNG of each, and their captions as Markdown.

import { join } from "node:path";

import { diagramsSvg } from "../documents/diagram.js";
import {
  answerInWords,
  joined,
  sourceInWords,
  taskInWords,
  themesInWords,
} from "../documents/exercise-words.js";
import { pngOf } from "../documents/png.js";
import type { Exercise } from "../exercises/exercise.js";
import { note } from "./messages.js";
import { writeResult } from "./output.js";
import { counted } from "../position/wording.js";

/** Width of the PNG in pixels: some nine centimetres at 300 to the inch. */
const PIXELS = 1063;

/** Writes drawings as SVG and as PNG. Throws `cannot-write`. */
export function writeDrawings(folder: string, drawings: readonly { name: string; svg: string }[]): void {
  for (const { name, svg } of drawings) {
    writeResult(join(folder, `${name}.svg`), svg);
    writeResult(join(folder, `${name}.png`), pngOf(svg, PIXELS));
  }
}

/** Writes the diagrams of a set. Throws `cannot-write`. */
export function writeDiagrams(folder: string, title: string, exercises: readonly Exercise[]): void {
  const digits = Math.max(2, String(exercises.length).length);
  const captions = exercises.map((exercise) => {
    const name = String(exercise.number).padStart(digits, "0");
    const svg = diagramsSvg([{ fen: exercise.fen, turn: true }], 1, taskInWords(exercise));
    writeDrawings(folder, [{ name, svg }]);
    const about = joined([themesInWords(exercise), sourceInWords(exercise)]);
    return `${exercise.number}. ![${taskInWords(exercise)}](${name}.svg) ${taskInWords(exercise)} Answer: ${answerInWords(exercise)}. ${about}`.trimEnd();
  });
  writeResult(join(folder, "captions.md"), `# ${title}\n\n${captions.join("\n\n")}\n`);
  note(`Written: ${counted(exercises.length, "diagram")} and captions.md in ${folder}`);
}

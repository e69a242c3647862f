// Writing drawings to files.

import { writeFileSync } from "node:fs";

import { LongsideError, causeOf } from "../errors.js";
import { note } from "./terminal.js";

/** Writes a drawing and says so. Throws `cannot-write`. */
export function writeSvg(path: string, svg: string): void {
  try {
    writeFileSync(path, svg);
  } catch (thrown) {
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
  note(`Drawn in ${path}`);
}

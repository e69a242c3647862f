// A fault in a file of set-ups, with its place; by itself, since the command line shows it and reads no such file.

import { LongsideError } from "../../errors.js";
import { pointAt } from "./query-error.js";

/** A fault in a file of set-ups, shown under its line. */
export class SetUpError extends LongsideError {
  constructor(
    path: string,
    cause: string,
    line: number,
    private readonly text: string,
    private readonly at: number,
    private readonly length: number,
  ) {
    super("bad-set-up", { path, cause }, { file: path, line });
  }

  /** The line with carets under the fault, cut to `width` columns round it. */
  pointer(width = 80): string {
    return pointAt(this.text, this.at, this.length, width);
  }
}

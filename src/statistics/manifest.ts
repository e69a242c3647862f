// What a result says of how it was made, so that it can be made again and cited.

import type { SourceHeld } from "../store/totals.js";
import type { LeftOut } from "./exclusions.js";

export interface Manifest {
  readonly program: string;
  readonly version: string;
  readonly command: string;
  /** The question in canonical form. */
  readonly question: string;
  readonly database: { readonly file: string; readonly schema: number; readonly signature: string };
  readonly sources: readonly SourceHeld[];
  /** SHA-256 of each table that verdicts come from. */
  readonly tables: Readonly<Record<string, string>>;
  /** How many were counted, of what, and how many were left out, by reason. */
  readonly counted: number;
  readonly unit: string;
  readonly leftOut: LeftOut;
  readonly cite: string;
}

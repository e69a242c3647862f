// What a fact of the geometry is: its name, its values, what it depends on and how it is computed; and the forms in
// which the table of facts writes them.

import type { Square } from "../chess/units.js";
import { type View, file, rank } from "./lines.js";

export type FactType = "number" | "word" | "flag";

export interface GeometryFact {
  readonly name: string;
  readonly type: FactType;
  /** For numbers: what they count or number. */
  readonly unit?: "rank" | "file" | "files" | "lines" | "steps" | "squares";
  readonly least?: number;
  readonly most?: number;
  /** For words, in the order of their stored numbers. */
  readonly values?: readonly string[];
  readonly meaning: string;
  /** The pieces beside the kings that it depends on: none, one, or possibly all of them. */
  readonly depends: "kings" | "rook" | "attackerRook" | "bishop" | "all";
  readonly of: (view: View) => number | null;
}

/** A value of a piece that may be missing: null where it is. */
export const maybe = (square: Square | undefined, of: (square: Square) => number) =>
  square === undefined ? null : of(square);
/** A truth as a value. */
export const flag = (truth: boolean) => (truth ? 1 : 0);

export const number = (
  name: string,
  unit: NonNullable<GeometryFact["unit"]>,
  least: number,
  most: number,
  depends: GeometryFact["depends"],
  meaning: string,
  of: GeometryFact["of"],
): GeometryFact => ({ name, type: "number", unit, least, most, meaning, depends, of });
export const word = (
  name: string,
  values: readonly string[],
  depends: GeometryFact["depends"],
  meaning: string,
  of: GeometryFact["of"],
): GeometryFact => ({ name, type: "word", values, meaning, depends, of });
export const yes = (name: string, meaning: string, of: GeometryFact["of"]): GeometryFact => ({
  name,
  type: "flag",
  meaning,
  depends: "all",
  of,
});

export const square = (
  name: string,
  whose: string,
  depends: GeometryFact["depends"],
  of: (view: View) => Square | undefined,
  most = 8,
): [GeometryFact, GeometryFact] => [
  {
    name: `${name}-rank`,
    type: "number",
    unit: "rank",
    least: 1,
    most,
    meaning: `rank of the ${whose} in the frame; rank 1 is the edge nearest to the defender's king`,
    depends,
    of: (view) => maybe(of(view), rank),
  },
  {
    name: `${name}-file`,
    type: "number",
    unit: "file",
    least: 1,
    most,
    meaning: `file of the ${whose} in the frame, a = 1; the defender's king stands on files a to d`,
    depends,
    of: (view) => maybe(of(view), file),
  },
];

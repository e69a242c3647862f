// What a fact of the geometry is: its name, its values, what it depends on; and the forms in which the table of facts
// writes them.

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
}

export const number = (
  name: string,
  unit: NonNullable<GeometryFact["unit"]>,
  least: number,
  most: number,
  depends: GeometryFact["depends"],
  meaning: string,
): GeometryFact => ({ name, type: "number", unit, least, most, meaning, depends });
export const word = (
  name: string,
  values: readonly string[],
  depends: GeometryFact["depends"],
  meaning: string,
): GeometryFact => ({ name, type: "word", values, meaning, depends });
export const yes = (
  name: string,
  meaning: string,
  depends: GeometryFact["depends"] = "all",
): GeometryFact => ({
  name,
  type: "flag",
  meaning,
  depends,
});

export const square = (
  name: string,
  whose: string,
  depends: GeometryFact["depends"],
  most = 8,
): [GeometryFact, GeometryFact] => [
  number(
    `${name}-rank`,
    "rank",
    1,
    most,
    depends,
    `rank of the ${whose} in the frame; rank 1 is the edge nearest to the defender's king`,
  ),
  number(
    `${name}-file`,
    "file",
    1,
    most,
    depends,
    `file of the ${whose} in the frame, a = 1; the defender's king stands on files a to d`,
  ),
];

// Material: which pieces stand on the board beside the kings, which side is the attacker, and its names.
//
// Everything that depends on "which ending" is derived from one string here, so that another pawnless target
// is a change of that string.

import { LongsideError } from "../errors.js";

/** Kinds of pieces without kings and pawns, in order of value; the numbers are the kernel's. */
export const KINDS = ["queen", "rook", "bishop", "knight"] as const;
export type Kind = 0 | 1 | 2 | 3;
export const QUEEN: Kind = 0;
export const ROOK: Kind = 1;
export const BISHOP: Kind = 2;
export const KNIGHT: Kind = 3;

export const LETTERS = "QRBN";
/** Values by which the attacker is the stronger side. */
const VALUES = [9, 5, 3, 3] as const;

/** A side's pieces beside its king, ordered queen to knight. */
export type Pieces = readonly Kind[];

export interface Material {
  readonly attacker: Pieces;
  readonly defender: Pieces;
  /** As chess books write it: "R+B v R", "B+N v K". */
  readonly name: string;
  /** With kings and without signs: "KRBvKR". */
  readonly id: string;
  /** Pieces on the board, kings included. */
  readonly men: number;
}

export const MAX_MEN = 5;
export const DEFAULT_TARGET = "R+B v R";

export const valueOf = (pieces: Pieces): number =>
  pieces.reduce<number>((sum, kind) => sum + VALUES[kind], 0);
export const lettersOf = (pieces: Pieces): string => pieces.map((kind) => LETTERS[kind]).join("");

const sorted = (pieces: Pieces): Pieces => [...pieces].sort((a, b) => a - b);
const sideName = (pieces: Pieces) =>
  pieces.length === 0 ? "K" : pieces.map((kind) => LETTERS[kind]).join("+");

/** Whether `a` counts as the attacker against `b`: the greater value; then the more pieces; then a bishop before a knight. */
function outranks(a: Pieces, b: Pieces): boolean {
  if (valueOf(a) !== valueOf(b)) return valueOf(a) > valueOf(b);
  if (a.length !== b.length) return a.length > b.length;
  const differs = a.findIndex((kind, n) => kind !== b[n]);
  return differs >= 0 && a[differs] < b[differs];
}

/** The material of two sides' pieces, the attacker first. With equal pieces the order given stays. */
export function materialOf(one: Pieces, other: Pieces): Material {
  let attacker = sorted(one);
  let defender = sorted(other);
  if (outranks(defender, attacker)) [attacker, defender] = [defender, attacker];
  return {
    attacker,
    defender,
    name: `${sideName(attacker)} v ${sideName(defender)}`,
    id: `K${lettersOf(attacker)}vK${lettersOf(defender)}`,
    men: attacker.length + defender.length + 2,
  };
}

/** Piece `n` of a placement in words: "attacker's king", "rook" for the defender's, "attacker's rook". */
export function kindNameOf({ attacker, defender }: Material, n: number): string {
  if (n < 2) return n === 0 ? "attacker's king" : "king";
  const kind = [...attacker, ...defender][n - 2];
  const name = KINDS[kind];
  const both = attacker.includes(kind) && defender.includes(kind);
  return n - 2 < attacker.length && both ? `attacker's ${name}` : name;
}

/** Whether a side has two pieces of a kind. */
export const hasEqualPieces = ({ attacker, defender }: Pick<Material, "attacker" | "defender">): boolean =>
  [attacker, defender].some((pieces) => new Set(pieces).size < pieces.length);

const WORDS: Readonly<Record<string, string>> = {
  queen: "Q",
  rook: "R",
  bishop: "B",
  knight: "N",
  king: "K",
};

function parseSide(text: string, whole: string): Pieces {
  let letters = text.toLowerCase().replace(/\blone\b/g, " ");
  for (const [word, letter] of Object.entries(WORDS)) letters = letters.replaceAll(word, letter);
  letters = letters.replace(/\band\b|[+\s,]/g, "").toUpperCase();
  if (letters.startsWith("K")) letters = letters.slice(1);
  const pieces: Kind[] = [];
  for (const letter of letters) {
    const kind = LETTERS.indexOf(letter);
    if (kind < 0) {
      const cause = letter === "P" ? "pawns are outside the tables" : `"${letter}" is no piece`;
      throw new LongsideError("bad-material", { text: JSON.stringify(whole), cause });
    }
    pieces.push(kind as Kind);
  }
  return pieces;
}

/**
 * Reads a material: "R+B v R", "KRBvKR", "krb-kr", "rook and bishop against rook", "B+N v lone king".
 * Throws `bad-material` for pawns, more than five men, or anything else.
 */
export function parseMaterial(text: string): Material {
  const sides = text.trim().split(/\s*(?:\bversus\b|\bagainst\b|\bvs?\b\.?|(?<=[a-z])v(?=k)|-)\s*/i);
  if (sides.length !== 2) {
    throw new LongsideError("bad-material", { text: JSON.stringify(text), cause: "it needs two sides" });
  }
  const [one, other] = sides.map((side) => parseSide(side, text));
  if (one.length + other.length + 2 > MAX_MEN) {
    throw new LongsideError("bad-material", { text: JSON.stringify(text), cause: "more than five men" });
  }
  if (one.length + other.length === 0) {
    throw new LongsideError("bad-material", {
      text: JSON.stringify(text),
      cause: "no pieces beside the kings",
    });
  }
  return materialOf(one, other);
}

/** Every material without pawns of three to five men. */
export function allMaterials(): Material[] {
  const sides = (count: number, least: Kind = QUEEN): Pieces[] =>
    count === 0
      ? [[]]
      : ([QUEEN, ROOK, BISHOP, KNIGHT] as const)
          .filter((kind) => kind >= least)
          .flatMap((kind) => sides(count - 1, kind).map((rest) => [kind, ...rest]));
  const found = new Map<string, Material>();
  for (let pieces = 1; pieces <= MAX_MEN - 2; ++pieces) {
    for (let defenders = 0; defenders <= pieces / 2; ++defenders) {
      for (const one of sides(pieces - defenders)) {
        for (const other of sides(defenders)) {
          const material = materialOf(one, other);
          found.set(material.id, material);
        }
      }
    }
  }
  return [...found.values()];
}

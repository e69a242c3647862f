// What a placement looks like: the facts of its frame, each defined once in a table.
//
// A fact is a number, a word from a short list (stored as its place in the list) or a flag (0 or 1), and is
// null where the material has no such man. Files and ranks are those of the frame, counted from 1. `rook` alone
// is the defender's rook, `king` alone the defender's king, as the trade speaks of this ending.

import { BISHOP, type Kind, type Material, ROOK } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import {
  ATTACKER_KING,
  DEFENDER_KING,
  FIRST_MAN,
  type Placement,
  firstDefender,
} from "../chess/placement.js";
import { distance, fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Frame, frameOf } from "./frame.js";

export type FactType = "number" | "word" | "flag";

/** What the facts are computed from: the men of a frame by their role. */
export interface View {
  readonly king: Square;
  readonly attackerKing: Square;
  readonly rook: Square | undefined;
  readonly attackerRook: Square | undefined;
  readonly bishop: Square | undefined;
  readonly attackerToMove: boolean;
  /** Squares of all men, and each side's own. */
  readonly squares: readonly Square[];
  readonly material: Material;
  readonly movement: Movement;
}

export interface GeometryFact {
  readonly name: string;
  readonly type: FactType;
  /** For numbers: what they count or number. */
  readonly unit?: "rank" | "file" | "files" | "lines" | "steps";
  readonly least?: number;
  readonly most?: number;
  /** For words, in the order of their stored numbers. */
  readonly values?: readonly string[];
  readonly meaning: string;
  /** The men beside the kings that it depends on: none, one, or possibly all of them. */
  readonly depends: "kings" | "rook" | "attackerRook" | "bishop" | "all";
  readonly of: (view: View) => number | null;
}

const file = (square: Square) => fileOf(square) + 1;
const rank = (square: Square) => rankOf(square) + 1;
const maybe = (square: Square | undefined, of: (square: Square) => number) =>
  square === undefined ? null : of(square);
const flag = (truth: boolean) => (truth ? 1 : 0);

/** Squares strictly between two squares of one rank or file; undefined if they share none or are one. */
function lineBetween(a: Square, b: Square): Square[] | undefined {
  const df = Math.sign(fileOf(b) - fileOf(a));
  const dr = Math.sign(rankOf(b) - rankOf(a));
  if ((df !== 0) === (dr !== 0)) return undefined;
  const squares: Square[] = [];
  for (let s = a + df + 8 * dr; s !== b; s += df + 8 * dr) squares.push(s);
  return squares;
}
const clear = (view: View, a: Square, b: Square) =>
  lineBetween(a, b)?.every((square) => !view.squares.includes(square)) ?? false;

const SIDES = ["short", "king's file", "long"] as const;
const sideOf = (square: Square, king: Square) => Math.sign(fileOf(square) - fileOf(king)) + 1;

/**
 * Files at which the bishop's diagonals meet rank 1, on the short side and on the long side of the bishop;
 * undefined where the foot lies beyond the board. For a king on rank 1 strictly between them.
 */
function feet(view: View): { short?: number; long?: number } | undefined {
  if (view.bishop === undefined || rank(view.king) !== 1 || rank(view.bishop) < 2) return undefined;
  const low = file(view.bishop) - (rank(view.bishop) - 1);
  const high = file(view.bishop) + (rank(view.bishop) - 1);
  const king = file(view.king);
  if (king <= low || king >= high) return undefined;
  return { short: low >= 1 ? low : undefined, long: high <= 8 ? high : undefined };
}
function depths(view: View): { short: number | null; long: number | null; least: number | null } {
  const found = feet(view);
  const short = found?.short === undefined ? null : file(view.king) - found.short;
  const long = found?.long === undefined ? null : found.long - file(view.king);
  return { short, long, least: short === null ? long : long === null ? short : Math.min(short, long) };
}

/** A rook on the file between its king and a foot at depth 2, with a clear way down to rank 1. */
function holdsIntersection(view: View): boolean {
  if (view.rook === undefined) return false;
  const { short, long } = depths(view);
  return (
    [
      [short, -1],
      [long, 1],
    ] as const
  ).some(([depth, step]) => {
    if (depth !== 2) return false;
    const meeting = fileOf(view.king) + step; // on rank 1
    if (fileOf(view.rook!) !== meeting) return false;
    return view.rook === meeting || (!view.squares.includes(meeting) && clear(view, view.rook!, meeting));
  });
}

const REAR_PINS = ["none", "file", "rank"] as const;

/** The line along which the rook pins the bishop to its king while the defender's king stands on it too. */
function rearPin(view: View): number {
  const { rook, bishop, attackerKing, king } = view;
  if (rook === undefined || bishop === undefined) return 0;
  for (const [n, same] of [
    [1, fileOf],
    [2, rankOf],
  ] as const) {
    if ([rook, bishop, attackerKing].some((square) => same(square) !== same(king))) continue;
    const along = n === 1 ? rankOf : fileOf;
    const inOrder = (along(rook) - along(bishop)) * (along(bishop) - along(attackerKing)) > 0;
    if (inOrder && clear(view, rook, bishop) && clear(view, bishop, attackerKing)) return n;
  }
  return 0;
}

/** Whether some man of a side (0 attacker, 1 defender) may not leave its line because its king stands behind. */
function hasPinned(view: View, side: 0 | 1): boolean {
  const first = side === 0 ? FIRST_MAN : firstDefender(view.material);
  const end = side === 0 ? firstDefender(view.material) : view.material.men;
  if (view.movement.inCheck(view.squares, side)) return false;
  for (let n = first; n < end; ++n) if (view.movement.inCheck(view.squares, side, n)) return true;
  return false;
}

const PINNED = ["none", "attacker", "defender", "both"] as const;
const OPPOSITIONS = ["none", "direct", "diagonal", "knight's move", "distant"] as const;

/** Kings two apart on a line (direct) or a diagonal, a knight's move apart, or four or six apart on a line. */
function opposition(view: View): number {
  const df = Math.abs(fileOf(view.king) - fileOf(view.attackerKing));
  const dr = Math.abs(rankOf(view.king) - rankOf(view.attackerKing));
  const [low, high] = df < dr ? [df, dr] : [dr, df];
  if (low === 0) return high === 2 ? 1 : high === 4 || high === 6 ? 4 : 0;
  if (low === 2 && high === 2) return 2;
  return low === 1 && high === 2 ? 3 : 0;
}

const square = (
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

/** Every fact of the geometry. The order is the order of the columns. */
export const GEOMETRY: readonly GeometryFact[] = [
  ...square("king", "defender's king", "kings", (view) => view.king, 4),
  ...square("attacker-king", "attacker's king", "kings", (view) => view.attackerKing),
  ...square("rook", "defender's rook", "rook", (view) => view.rook),
  ...square("attacker-rook", "attacker's rook", "attackerRook", (view) => view.attackerRook),
  ...square("bishop", "attacker's bishop", "bishop", (view) => view.bishop),
  {
    name: "rook-side",
    type: "word",
    values: SIDES,
    meaning:
      "side of its king on which the defender's rook stands: the short side has fewer files to the edge",
    depends: "rook",
    of: (view) => maybe(view.rook, (s) => sideOf(s, view.king)),
  },
  {
    name: "bishop-side",
    type: "word",
    values: SIDES,
    meaning: "side of the defender's king on which the bishop stands",
    depends: "bishop",
    of: (view) => maybe(view.bishop, (s) => sideOf(s, view.king)),
  },
  {
    name: "short-room",
    type: "number",
    unit: "files",
    least: 0,
    most: 3,
    meaning: "files between the defender's king and the board's side on the short side",
    depends: "kings",
    of: (view) => fileOf(view.king),
  },
  {
    name: "long-room",
    type: "number",
    unit: "files",
    least: 4,
    most: 7,
    meaning: "files between the defender's king and the board's side on the long side",
    depends: "kings",
    of: (view) => 7 - fileOf(view.king),
  },
  {
    name: "kings-apart",
    type: "number",
    unit: "steps",
    least: 2,
    most: 7,
    meaning: "king's steps between the kings",
    depends: "kings",
    of: (view) => distance(view.king, view.attackerKing),
  },
  {
    name: "kings-files-apart",
    type: "number",
    unit: "files",
    least: 0,
    most: 7,
    meaning: "files between the kings' files, 0 for the same file",
    depends: "kings",
    of: (view) => Math.abs(fileOf(view.king) - fileOf(view.attackerKing)),
  },
  {
    name: "lines-between-kings",
    type: "number",
    unit: "lines",
    least: 1,
    most: 6,
    meaning: "whole ranks or files that lie between the kings, the greater number",
    depends: "kings",
    of: (view) => distance(view.king, view.attackerKing) - 1,
  },
  {
    name: "bishop-files-apart",
    type: "number",
    unit: "files",
    least: 0,
    most: 7,
    meaning: "files between the bishop's file and the defender's king's",
    depends: "bishop",
    of: (view) => maybe(view.bishop, (s) => Math.abs(fileOf(s) - fileOf(view.king))),
  },
  {
    name: "opposition",
    type: "word",
    values: OPPOSITIONS,
    meaning:
      "the kings: direct two apart on a rank or file, diagonal two apart on a diagonal, knight's move apart, distant four or six apart on a rank or file",
    depends: "kings",
    of: opposition,
  },
  {
    name: "wedge-depth",
    type: "number",
    unit: "files",
    least: 1,
    most: 7,
    meaning:
      "files from the defender's king, on rank 1 inside the bishop's wedge, to the nearer foot of the bishop's diagonals; none outside the wedge",
    depends: "bishop",
    of: (view) => depths(view).least,
  },
  {
    name: "wedge-depth-short",
    type: "number",
    unit: "files",
    least: 1,
    most: 7,
    meaning: "files from the king inside the wedge to the foot on the short side, where it exists",
    depends: "bishop",
    of: (view) => depths(view).short,
  },
  {
    name: "wedge-depth-long",
    type: "number",
    unit: "files",
    least: 1,
    most: 7,
    meaning: "files from the king inside the wedge to the foot on the long side, where it exists",
    depends: "bishop",
    of: (view) => depths(view).long,
  },
  {
    name: "rook-holds-intersection",
    type: "flag",
    meaning:
      "the king stands at depth 2 and the rook on the file between it and that foot, with a clear way down to rank 1",
    depends: "all",
    of: (view) => flag(holdsIntersection(view)),
  },
  {
    name: "rear-pin-line",
    type: "word",
    values: REAR_PINS,
    meaning:
      "rook, bishop and attacker's king stand in that order with nothing between, on the file or rank of the defender's king",
    depends: "all",
    of: rearPin,
  },
  {
    name: "pinned",
    type: "word",
    values: PINNED,
    meaning: "which side has a man that is pinned to its king",
    depends: "all",
    of: (view) => flag(hasPinned(view, 0)) + 2 * flag(hasPinned(view, 1)),
  },
  {
    name: "in-check",
    type: "flag",
    meaning: "the side to move is in check",
    depends: "all",
    of: (view) => flag(view.movement.inCheck(view.squares, view.attackerToMove ? 0 : 1)),
  },
];

/** Computes the facts of placements of one material. */
export class Geometer {
  private readonly movement: Movement;
  private readonly places: { readonly rook: number; readonly attackerRook: number; readonly bishop: number };

  constructor(readonly material: Material) {
    this.movement = new Movement(material);
    const place = (men: readonly Kind[], first: number, kind: Kind) => {
      const n = men.indexOf(kind);
      return n < 0 ? -1 : first + n;
    };
    this.places = {
      rook: place(material.defender, firstDefender(material), ROOK),
      attackerRook: place(material.attacker, FIRST_MAN, ROOK),
      bishop: place(material.attacker, FIRST_MAN, BISHOP),
    };
  }

  /** Index in a placement's squares of the man a fact depends on; -1 where the material has none. */
  manOf(depends: "rook" | "attackerRook" | "bishop"): number {
    return this.places[depends];
  }

  /** The men of a placement's frame, by their role. */
  view(placement: Placement): View {
    return this.viewOfFrame(frameOf(placement, this.material));
  }

  /** The same for a placement that stands in its frame already. */
  viewOfFrame({ squares, attackerToMove }: Frame): View {
    const at = (n: number) => (n < 0 ? undefined : squares[n]);
    return {
      king: squares[DEFENDER_KING],
      attackerKing: squares[ATTACKER_KING],
      rook: at(this.places.rook),
      attackerRook: at(this.places.attackerRook),
      bishop: at(this.places.bishop),
      attackerToMove,
      squares,
      material: this.material,
      movement: this.movement,
    };
  }

  /** The values of all facts, in the order of `GEOMETRY`. */
  facts(placement: Placement): (number | null)[] {
    const view = this.view(placement);
    return GEOMETRY.map((fact) => fact.of(view));
  }
}

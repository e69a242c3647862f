// What a placement looks like: the facts of its frame, each defined once in a table.
//
// A fact is a number, a word from a short list (stored as its place in the list) or a flag (0 or 1), and is
// null where the material has no such piece. Files and ranks are those of the frame, counted from 1. `rook` alone
// is the defender's rook, `king` alone the defender's king, as the trade speaks of this ending.

import { BISHOP, type Kind, type Material, ROOK } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import {
  ATTACKER_KING,
  DEFENDER_KING,
  FIRST_PIECE,
  type Placement,
  firstDefender,
} from "../chess/placement.js";
import { type Symmetry, distance, fileOf, imageOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Frame, frameOf, symmetryOf } from "./frame.js";
import {
  LINES,
  type Side,
  type View,
  attacks,
  depths,
  file,
  footSide,
  isClear,
  lineOf,
  piecesOf,
  pinLine,
  rank,
} from "./lines.js";
import {
  HOLDERS,
  LOSSES,
  canTake,
  TARGETS,
  discovery,
  fork,
  freePiece,
  rookAttacks,
  kingEscapes,
  lossThreat,
  mateThreat,
  safeSquares,
  skewer,
  stalemateResource,
} from "./threats.js";

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

const maybe = (square: Square | undefined, of: (square: Square) => number) =>
  square === undefined ? null : of(square);
const flag = (truth: boolean) => (truth ? 1 : 0);

const SIDES = ["short", "king's file", "long"] as const;
const sideOf = (square: Square, king: Square) => Math.sign(fileOf(square) - fileOf(king)) + 1;

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
    return (
      view.rook === meeting || (!view.squares.includes(meeting) && isClear(view.squares, view.rook!, meeting))
    );
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
    if (inOrder && isClear(view.squares, rook, bishop) && isClear(view.squares, bishop, attackerKing))
      return n;
  }
  return 0;
}

/** Whether some piece of a side may not leave its line because its king stands behind. */
const hasPinned = (view: View, side: Side): boolean =>
  piecesOf(side, view.material).some((n) => pinLine(view, n) > 0);

/** The line along which the piece on a square is pinned to its king. */
const pinAt = (view: View, square: Square) => pinLine(view, view.squares.indexOf(square));

/** Where a piece stands seen from the edge that the defender is held at, next to another. */
const PLACES = ["in front", "beside", "behind"] as const;
/** Lines that bar a king's way. */
const BARS = ["none", "rank", "file", "both"] as const;
const isBetween = (n: number, a: number, b: number) => (n - a) * (n - b) < 0;
/** The ranks and files strictly between two squares, the greater number. */
const gap = (a: Square, b: Square) => Math.max(0, distance(a, b) - 1);

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

const number = (
  name: string,
  unit: NonNullable<GeometryFact["unit"]>,
  least: number,
  most: number,
  depends: GeometryFact["depends"],
  meaning: string,
  of: GeometryFact["of"],
): GeometryFact => ({ name, type: "number", unit, least, most, meaning, depends, of });
const word = (
  name: string,
  values: readonly string[],
  depends: GeometryFact["depends"],
  meaning: string,
  of: GeometryFact["of"],
): GeometryFact => ({ name, type: "word", values, meaning, depends, of });
const yes = (name: string, meaning: string, of: GeometryFact["of"]): GeometryFact => ({
  name,
  type: "flag",
  meaning,
  depends: "all",
  of,
});

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
    values: HOLDERS,
    meaning: "which side has a piece that is pinned to its king",
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
  number("rook-files-apart", "files", 0, 7, "rook", "files between the rook's file and its king's", (view) =>
    maybe(view.rook, (s) => Math.abs(fileOf(s) - fileOf(view.king))),
  ),
  word("rook-line", LINES.slice(0, 3), "rook", "the line that the rook shares with its king", (view) =>
    maybe(view.rook, (s) => lineOf(s, view.king) % 3),
  ),
  word(
    "rook-place",
    PLACES,
    "rook",
    "where the rook stands next to the attacker's king, seen from the edge: in front of it (nearer to the edge), beside it on its rank, or behind it",
    (view) => maybe(view.rook, (s) => Math.sign(rankOf(s) - rankOf(view.attackerKing)) + 1),
  ),
  word(
    "attacker-rook-place",
    PLACES,
    "attackerRook",
    "where the attacker's rook stands next to the defender's king, seen from the middle: in front of it (farther from the edge), beside it on its rank, or behind it",
    (view) => maybe(view.attackerRook, (s) => 1 - Math.sign(rankOf(s) - rankOf(view.king))),
  ),
  number(
    "checking-distance",
    "lines",
    0,
    6,
    "rook",
    "ranks or files between the rook and the attacker's king, the greater number: the room its checks have",
    (view) => maybe(view.rook, (s) => gap(s, view.attackerKing)),
  ),
  number(
    "attacker-checking-distance",
    "lines",
    0,
    6,
    "attackerRook",
    "ranks or files between the attacker's rook and the defender's king, the greater number",
    (view) => maybe(view.attackerRook, (s) => gap(s, view.king)),
  ),
  word(
    "attacker-king-barred",
    BARS,
    "rook",
    "the line on which the rook stands between the kings and keeps the attacker's king away",
    ({ rook, king, attackerKing }) =>
      maybe(
        rook,
        (s) =>
          flag(isBetween(rankOf(s), rankOf(king), rankOf(attackerKing))) +
          2 * flag(isBetween(fileOf(s), fileOf(king), fileOf(attackerKing))),
      ),
  ),
  word(
    "king-cut-off",
    BARS,
    "attackerRook",
    "the line next to the defender's king that the attacker's rook holds against it: the next rank towards the middle, or a file beside it",
    ({ attackerRook, king }) =>
      maybe(
        attackerRook,
        (s) => flag(rankOf(s) === rankOf(king) + 1) + 2 * flag(Math.abs(fileOf(s) - fileOf(king)) === 1),
      ),
  ),
  number(
    "bishop-from-king",
    "steps",
    1,
    7,
    "bishop",
    "king's steps from the attacker's king to its bishop",
    (view) => maybe(view.bishop, (s) => distance(s, view.attackerKing)),
  ),
  word(
    "bishop-colour",
    ["corner's", "other"],
    "bishop",
    "whether the bishop moves on the colour of the corner nearest to the defender's king",
    (view) => maybe(view.bishop, (s) => (fileOf(s) + rankOf(s)) % 2),
  ),
  number(
    "corner-steps",
    "steps",
    0,
    3,
    "kings",
    "king's steps from the defender's king to the nearest corner",
    (view) => Math.max(fileOf(view.king), rankOf(view.king)),
  ),
  word(
    "attacker-rook-side",
    SIDES,
    "attackerRook",
    "side of the defender's king on which the attacker's rook stands",
    (view) => maybe(view.attackerRook, (s) => sideOf(s, view.king)),
  ),
  word(
    "foot-side",
    ["none", "short", "long"],
    "all",
    "the side of the nearer foot of the wedge that the king stands in; of two as near, the rook's side",
    (view) => [1, 0, 2][footSide(view) + 1],
  ),
  number(
    "foot-room",
    "files",
    0,
    7,
    "all",
    "files between the king in the wedge and the board's side, on the side of the nearer foot; of two as near, the rook's side",
    (view) => {
      const side = footSide(view);
      return side === 0 ? null : side < 0 ? fileOf(view.king) : 7 - fileOf(view.king);
    },
  ),
  yes("rook-attacked", "the attacker's pieces or king attack the defender's rook", (view) =>
    maybe(view.rook, (s) => flag(attacks(view, 0, s))),
  ),
  yes("rook-guarded", "the defender's king, or another piece of his, guards the rook", (view) =>
    maybe(view.rook, (s) => flag(attacks(view, 1, s))),
  ),
  yes("attacker-rook-attacked", "the defender's pieces or king attack the attacker's rook", (view) =>
    maybe(view.attackerRook, (s) => flag(attacks(view, 1, s))),
  ),
  yes("attacker-rook-guarded", "the attacker's king or another piece of his guards his rook", (view) =>
    maybe(view.attackerRook, (s) => flag(attacks(view, 0, s))),
  ),
  yes("bishop-attacked", "the defender's pieces or king attack the bishop", (view) =>
    maybe(view.bishop, (s) => flag(attacks(view, 1, s))),
  ),
  yes("bishop-guarded", "the attacker's king or another piece of his guards the bishop", (view) =>
    maybe(view.bishop, (s) => flag(attacks(view, 0, s))),
  ),
  word(
    "bishop-pin",
    LINES.slice(0, 3),
    "all",
    "the line along which the bishop is pinned to its king",
    (view) => maybe(view.bishop, (s) => pinAt(view, s)),
  ),
  word("rook-pin", LINES, "all", "the line along which the defender's rook is pinned to its king", (view) =>
    maybe(view.rook, (s) => pinAt(view, s)),
  ),
  word(
    "attacker-rook-pin",
    LINES.slice(0, 3),
    "all",
    "the line along which the attacker's rook is pinned to its king",
    (view) => maybe(view.attackerRook, (s) => pinAt(view, s)),
  ),
  word(
    "discovery",
    HOLDERS,
    "all",
    "the side that has a battery: its piece or king stands alone between its own piece and the enemy's king, and gives check by stepping aside",
    discovery,
  ),
  word(
    "skewer",
    HOLDERS,
    "all",
    "the side that gives check along a line on which an enemy piece stands behind the king",
    skewer,
  ),
  word(
    "fork",
    HOLDERS,
    "all",
    "the side of which one piece gives check and attacks another piece as well",
    fork,
  ),
  yes("mate-threat", "the side to move, if it passed, would be mated at once", (view) =>
    flag(mateThreat(view)),
  ),
  word(
    "loss-threat",
    LOSSES,
    "all",
    "the piece that the side to move, if it passed, would lose: it could be taken and not be taken back, or for less",
    lossThreat,
  ),
  word(
    "free-piece",
    LOSSES,
    "all",
    "the piece that the side to move could take and not be taken back, or take for less",
    freePiece,
  ),
  word("rook-attacks", TARGETS, "all", "what the defender's rook attacks", (view) =>
    maybe(view.rook, () => rookAttacks(view)),
  ),
  yes("capture", "the side to move can take a piece", (view) => flag(canTake(view))),
  yes(
    "stalemate-resource",
    "the defender's rook cannot be taken, since every way to take it is stalemate; with the defender to move: a move of the rook makes it so",
    (view) => maybe(view.rook, (s) => flag(stalemateResource(view, view.squares.indexOf(s)))),
  ),
  number(
    "king-escapes",
    "squares",
    0,
    8,
    "all",
    "squares the defender's king could step to, were it his turn",
    kingEscapes,
  ),
  number(
    "rook-safe-squares",
    "squares",
    0,
    14,
    "all",
    "empty squares the defender's rook could go to, were it his turn, where it could not be taken",
    (view) => maybe(view.rook, (s) => safeSquares(view, view.squares.indexOf(s))),
  ),
];

const INDEX = new Map(GEOMETRY.map((fact, n) => [fact.name, n]));
/** Place of a fact in `GEOMETRY` by its name; -1 for a name that is none of them. */
export const geometryIndex = (name: string): number => INDEX.get(name) ?? -1;

/** Whether a fact only says on which rank or file a piece stands. */
export const isCoordinate = (name: string): boolean =>
  /^(?:attacker-)?(?:king|rook|bishop)-(?:rank|file)$/.test(name);

/** Computes the facts of placements of one material. */
export class Geometer {
  private readonly movement: Movement;
  private readonly places: { readonly rook: number; readonly attackerRook: number; readonly bishop: number };

  constructor(readonly material: Material) {
    this.movement = new Movement(material);
    const place = (pieces: readonly Kind[], first: number, kind: Kind) => {
      const n = pieces.indexOf(kind);
      return n < 0 ? -1 : first + n;
    };
    this.places = {
      rook: place(material.defender, firstDefender(material), ROOK),
      attackerRook: place(material.attacker, FIRST_PIECE, ROOK),
      bishop: place(material.attacker, FIRST_PIECE, BISHOP),
    };
  }

  /** Index in a placement's squares of the piece a fact depends on; -1 where the material has none. */
  pieceOf(depends: "rook" | "attackerRook" | "bishop"): number {
    return this.places[depends];
  }

  /** The pieces of a placement's frame, by their role. */
  view(placement: Placement): View {
    return this.viewOfFrame(frameOf(placement, this.material));
  }

  /**
   * The same with every piece in his place of the placement's order, and the symmetry that leads to it: equal pieces of a
   * side are not put in order of their squares.
   */
  framed({ squares, attackerToMove }: Placement): { readonly view: View; readonly symmetry: Symmetry } {
    const symmetry = symmetryOf({ squares, attackerToMove }, this.material);
    const turned = squares.map((square) => imageOf(symmetry, square));
    return { view: this.viewOfFrame({ squares: turned, attackerToMove }), symmetry };
  }

  /** The same for a placement that stands in its frame already. */
  viewOfFrame({ squares, attackerToMove }: Frame): View {
    return this.viewOf([...squares], attackerToMove);
  }

  /** The same for squares that may be changed and put back while facts are worked out. */
  viewOf(squares: Square[], attackerToMove: boolean): View {
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
    return this.values(this.view(placement));
  }

  /** The values of all facts of a view. */
  values(view: View): (number | null)[] {
    return GEOMETRY.map((fact) => fact.of(view));
  }
}

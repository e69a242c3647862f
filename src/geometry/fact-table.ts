// The table of facts: each defined once. A fact is a number, a word from a short list (stored as its place in the list)
// or a flag (0 or 1), and is null where the material has no such piece. Files and ranks are those of the frame, counted
// from 1. `rook` alone is the defender's rook, `king` alone the defender's king, as players speak of this ending. How
// they are worked out is in ./portable/facts.ts, by their places in this table (./portable/numbers.ts).

import { KINDS } from "../chess/material.js";
import { type GeometryFact, number, square, word, yes } from "./fact.js";

/** Names of lines. */
const LINES = ["none", "rank", "file", "diagonal"] as const;
/** Sides of the board as seen from the defender's king. */
const SIDES = ["short", "king's file", "long"] as const;
const REAR_PINS = ["none", "file", "rank"] as const;
/** Where a piece stands seen from the edge that the defender is held at, next to another. */
const PLACES = ["in front", "beside", "behind"] as const;
/** Lines that bar a king's way. */
const BARS = ["none", "rank", "file", "both"] as const;
const OPPOSITIONS = ["none", "direct", "diagonal", "knight's move", "distant"] as const;
/** Words for the piece that is threatened. */
export const LOSSES = ["none", ...KINDS] as const;
/** What the defender's rook attacks. */
const TARGETS = ["none", "bishop", "rook", "both"] as const;
/** Words for the side that has something. */
const HOLDERS = ["none", "attacker", "defender", "both"] as const;
/** Where the attacker's king is, seen from the defender's king, as against something on one side of it. */
const TOWARDS = ["none", "towards", "level", "away"] as const;
/** Answers to a check along the edge. */
const ANSWERS = ["none", "met", "denied", "not met"] as const;

/** Every fact of the geometry. The order is the order of the columns. */
export const GEOMETRY: readonly GeometryFact[] = [
  ...square("king", "defender's king", "kings", 4),
  ...square("attacker-king", "attacker's king", "kings"),
  ...square("rook", "defender's rook", "rook"),
  ...square("attacker-rook", "attacker's rook", "attackerRook"),
  ...square("bishop", "attacker's bishop", "bishop"),
  word(
    "rook-side",
    SIDES,
    "rook",
    "side of its king on which the defender's rook stands: the short side has fewer files to the edge",
  ),
  word("bishop-side", SIDES, "bishop", "side of the defender's king on which the bishop stands"),
  number(
    "short-room",
    "files",
    0,
    3,
    "kings",
    "files between the defender's king and the board's side on the short side",
  ),
  number(
    "long-room",
    "files",
    4,
    7,
    "kings",
    "files between the defender's king and the board's side on the long side",
  ),
  number("kings-apart", "steps", 2, 7, "kings", "king's steps between the kings"),
  number("kings-files-apart", "files", 0, 7, "kings", "files between the kings' files, 0 for the same file"),
  number(
    "lines-between-kings",
    "lines",
    1,
    6,
    "kings",
    "whole ranks or files between the kings, the greater number",
  ),
  number(
    "bishop-files-apart",
    "files",
    0,
    7,
    "bishop",
    "files between the bishop's file and the defender's king's",
  ),
  word(
    "opposition",
    OPPOSITIONS,
    "kings",
    "the kings: direct two apart on a rank or file, diagonal two apart on a diagonal, knight's move apart, distant four or six apart on a rank or file",
  ),
  number(
    "wedge-depth",
    "files",
    1,
    7,
    "bishop",
    "files from the defender's king, on rank 1 inside the bishop's wedge, to the nearer foot of the bishop's diagonals; none outside the wedge",
  ),
  number(
    "wedge-depth-short",
    "files",
    1,
    7,
    "bishop",
    "files from the king inside the wedge to the foot on the short side, where it exists",
  ),
  number(
    "wedge-depth-long",
    "files",
    1,
    7,
    "bishop",
    "files from the king inside the wedge to the foot on the long side, where it exists",
  ),
  yes(
    "rook-holds-intersection",
    "the king stands at depth 2 and the rook on the file between it and that foot, with a clear way down to rank 1",
  ),
  word(
    "rear-pin-line",
    REAR_PINS,
    "all",
    "on the file or rank of the defender's king: the attacker's king, behind it the bishop, behind that the rook, with nothing between these three",
  ),
  word("pinned", HOLDERS, "all", "which side has a piece that is pinned to its king"),
  yes("in-check", "the side to move is in check"),
  number("rook-files-apart", "files", 0, 7, "rook", "files between the rook's file and its king's"),
  word("rook-line", LINES.slice(0, 3), "rook", "the line that the rook shares with its king"),
  word(
    "rook-place",
    PLACES,
    "rook",
    "where the rook stands next to the attacker's king, seen from the edge: in front of it (nearer to the edge), beside it on its rank, or behind it",
  ),
  word(
    "attacker-rook-place",
    PLACES,
    "attackerRook",
    "where the attacker's rook stands next to the defender's king, seen from the middle: in front of it (farther from the edge), beside it on its rank, or behind it",
  ),
  number(
    "checking-distance",
    "lines",
    0,
    6,
    "rook",
    "ranks or files between the rook and the attacker's king, the greater number: the room its checks have",
  ),
  number(
    "attacker-checking-distance",
    "lines",
    0,
    6,
    "attackerRook",
    "ranks or files between the attacker's rook and the defender's king, the greater number",
  ),
  word(
    "attacker-king-barred",
    BARS,
    "rook",
    "the line on which the rook stands between the kings and keeps the attacker's king away",
  ),
  word(
    "king-cut-off",
    BARS,
    "attackerRook",
    "the line next to the defender's king that the attacker's rook holds against it: the next rank towards the middle, or a file beside it",
  ),
  number("bishop-from-king", "steps", 1, 7, "bishop", "king's steps from the attacker's king to its bishop"),
  word(
    "bishop-colour",
    ["corner's", "other"],
    "bishop",
    "whether the bishop moves on the colour of the corner nearest to the defender's king",
  ),
  number(
    "corner-steps",
    "steps",
    0,
    3,
    "kings",
    "king's steps from the defender's king to the nearest corner",
  ),
  word(
    "attacker-rook-side",
    SIDES,
    "attackerRook",
    "side of the defender's king on which the attacker's rook stands",
  ),
  word(
    "foot-side",
    ["none", "short", "long"],
    "all",
    "the side of the nearer foot of the wedge that the king stands in; if both are equally near, the rook's side",
  ),
  number(
    "foot-room",
    "files",
    0,
    7,
    "all",
    "files between the king in the wedge and the board's side, on the side of the nearer foot; if both are equally near, the rook's side",
  ),
  yes("rook-attacked", "the attacker's pieces or king attack the defender's rook"),
  yes("rook-guarded", "the defender's king or another piece of its side guards the rook"),
  yes("attacker-rook-attacked", "the defender's pieces or king attack the attacker's rook"),
  yes("attacker-rook-guarded", "the attacker's king or another piece of its side guards the rook"),
  yes("bishop-attacked", "the defender's pieces or king attack the bishop"),
  yes("bishop-guarded", "the attacker's king or another piece of its side guards the bishop"),
  word("bishop-pin", LINES.slice(0, 3), "all", "the line along which the bishop is pinned to its king"),
  word("rook-pin", LINES, "all", "the line along which the defender's rook is pinned to its king"),
  word(
    "attacker-rook-pin",
    LINES.slice(0, 3),
    "all",
    "the line along which the attacker's rook is pinned to its king",
  ),
  word(
    "discovery",
    HOLDERS,
    "all",
    "the side that has a battery: its piece or king stands alone between its own piece and the enemy's king, and gives check by stepping aside",
  ),
  word(
    "skewer",
    HOLDERS,
    "all",
    "the side that gives check along a line on which an enemy piece stands behind the king",
  ),
  word("fork", HOLDERS, "all", "the side of which one piece gives check and attacks another piece as well"),
  yes("mate-threat", "the side to move, if it passed, would be mated at once"),
  word(
    "loss-threat",
    LOSSES,
    "all",
    "the piece that the side to move, if it passed, would lose: it could be taken and not be taken back, or for less",
  ),
  word(
    "free-piece",
    LOSSES,
    "all",
    "the piece that the side to move could take and not be taken back, or take for less",
  ),
  word("rook-attacks", TARGETS, "all", "what the defender's rook attacks"),
  yes("capture", "the side to move can take a piece"),
  yes(
    "stalemate-resource",
    "the defender's rook cannot be taken, since every way to take it is stalemate; with the defender to move: a move of the rook makes it so",
  ),
  number(
    "king-escapes",
    "squares",
    0,
    8,
    "all",
    "squares the defender's king could step to if it were the defender's move",
  ),
  number(
    "rook-safe-squares",
    "squares",
    0,
    14,
    "all",
    "empty squares the defender's rook could go to if it were the defender's move, and not be taken there",
  ),
  word(
    "attacker-king-side",
    SIDES,
    "kings",
    "side of the defender's king on which the attacker's king stands; the short side is the nearer corner's",
  ),
  word(
    "attacker-king-foot",
    TOWARDS,
    "all",
    "the attacker's king, seen from the defender's king in the wedge, is on the side of the nearer foot (towards), on the king's file (level) or on the other side (away)",
  ),
  word(
    "attacker-king-rook",
    TOWARDS,
    "rook",
    "the attacker's king, seen from the defender's king, is on the side on which the defender's rook stands (towards), on the king's file (level) or on the other side (away)",
  ),
  word(
    "edge-check",
    ANSWERS,
    "all",
    "the check along the defender's edge that the attacker's rook could give if it were to move, the worst for the defender: none, met by the rook (it takes, or steps between where its king alone guards it), denied (it can step between only where it would be lost), not met",
  ),
  number(
    "spare-moves-on-rank",
    "squares",
    0,
    7,
    "all",
    "empty squares on its rank that the defender's rook could go to if it were the defender's move, and not be taken there",
  ),
  number(
    "spare-moves-on-file",
    "squares",
    0,
    7,
    "all",
    "empty squares on its file that the defender's rook could go to if it were the defender's move, and not be taken there",
  ),
  yes("equal-edges", "the defender's king is as near to a second edge, so that both are looked at", "kings"),
  number(
    "side-check",
    "files",
    0,
    6,
    "all",
    "files between the defender's rook and the attacker's king when it checks along the rank: the check it gives, or the best it could give from a safe square if it were the defender's move",
  ),
];

/**
 * Facts that say nothing of the edge from which a placement is seen: where the defender's king is as near to two, they are
 * the same from both. (Those of the attacker's rook and bishop are left out: of two such pieces another is the first then.)
 */
export const SAME_FROM_BOTH_EDGES: ReadonlySet<string> = new Set([
  "king-file",
  "king-rank",
  "short-room",
  "long-room",
  "kings-apart",
  "opposition",
  "lines-between-kings",
  "corner-steps",
  "equal-edges",
  "checking-distance",
  "king-escapes",
  "rook-safe-squares",
  "rook-attacked",
  "rook-guarded",
  "in-check",
  "pinned",
  "discovery",
  "fork",
  "skewer",
  "capture",
  "free-piece",
  "loss-threat",
  "mate-threat",
  "stalemate-resource",
]);

/** Facts that take a list of legal moves, and so longer than all others. */
export const LIST_MOVES: ReadonlySet<string> = new Set([
  "king-escapes",
  "rook-safe-squares",
  "spare-moves-on-rank",
  "spare-moves-on-file",
  "side-check",
  "stalemate-resource",
  "mate-threat",
]);

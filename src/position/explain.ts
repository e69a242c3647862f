// A position explained: its set-up, the threat, the moves that keep the verdict, and why the tempting ones fail, each
// with a variation from the tables that ends where the result is plain.

import { opposite } from "chessops";
import type { Chess } from "chessops/chess";
import { makeSan } from "chessops/san";

import type { Moves } from "../chess/units.js";
import { OTHER_SIDE, type Verdict } from "../chess/verdict.js";
import { type Geometer, geometryIndex } from "../geometry/facts.js";
import { type KindSet, kindNames } from "../geometry/move-kinds.js";
import { LOSSES } from "../geometry/fact-table.js";
import { unpack } from "../tablebase/tables.js";
import { temptation, temptsNobody } from "./temptation.js";
import type { ProbedMove, Valued, Valuer } from "./valued.js";
import { type Variation, refutationOf } from "./variations.js";
import { capital, valueInWords, withEnd } from "./wording.js";

/** A move that looks good and is not. */
export interface Tempting extends Variation {
  readonly san: string;
  readonly kinds: readonly string[];
  /** What the position is after it. */
  readonly verdict: Verdict;
  readonly dtm: Moves | null;
}

export interface Explanation {
  /** Moves with which the other side, if it were to move, would mate; otherwise the piece it would win, and how. */
  readonly threat:
    { readonly mates: readonly string[] } | { readonly wins: string; readonly by: readonly string[] } | null;
  /** Moves that keep the verdict, where some do not. */
  readonly keeping: readonly string[];
  /** Kinds that every one of them has. */
  readonly needed: readonly string[];
  readonly tempting: readonly Tempting[];
  /** All of it in words. */
  readonly sentences: readonly string[];
}

/** Tempting moves that are shown. */
const SHOWN = 3;

/** Kinds of each move of a position, by its squares. */
export function kindsOf({ placed, moves }: Valued, geometer: Geometer): Map<ProbedMove, KindSet> {
  const kindOf = geometer.kindsOfMoves(placed);
  return new Map(moves.map((move) => [move, kindOf(placed.squares.indexOf(move.from), move.to)]));
}

const FREE_PIECE = geometryIndex("free-piece");

/** Whether a capture wins nothing: it can be answered by another, which makes it a trade, or it gives stalemate. */
function winsNothing(position: Chess, move: { from: number; to: number }): boolean {
  const after = position.clone();
  after.play(move);
  if (after.isStalemate()) return true;
  return [...after.allDests().values()].some((targets) => targets.intersects(after.board.occupied));
}

/** What the side that is not to move would do if it were. */
function threatIn(position: Chess, geometer: Geometer, placed: Valued["placed"]): Explanation["threat"] {
  if (position.isCheck()) return null;
  const passed = position.clone();
  passed.turn = opposite(position.turn);
  const moves = [...passed.allDests()].flatMap(([from, targets]) => [...targets].map((to) => ({ from, to })));
  const san = (move: (typeof moves)[number]) => makeSan(passed, move);
  const mates = moves.map(san).filter((text) => text.endsWith("#"));
  if (mates.length > 0) return { mates };
  const loss = LOSSES[geometer.fact(FREE_PIECE, { ...placed, attackerToMove: !placed.attackerToMove })];
  if (loss === "none") return null;
  const by = moves.filter((move) => position.board.get(move.to)?.role === loss && !winsNothing(passed, move));
  return by.length === 0 ? null : { wins: loss, by: by.map(san) };
}

/** Moves that give the result away, those that tempt the most first; one of several that fail in the same way. */
export function temptingOf(
  valuer: Valuer,
  position: Chess,
  { placed, packed, moves }: Valued,
  kinds: ReadonlyMap<ProbedMove, KindSet>,
): Tempting[] {
  const { verdict } = unpack(packed);
  const failing = moves
    .filter((move) => move.verdict !== verdict)
    .map((move) => ({ move, tempts: temptation(position, move, kinds.get(move) ?? 0) }))
    .sort((a, b) => b.tempts - a.tempts || (a.move.san < b.move.san ? -1 : 1));
  const real = failing.filter(({ move }) => !temptsNobody(position, move));
  const found: Tempting[] = [];
  const ways = new Set<string>();
  for (const { move } of real.length > 0 ? real : failing) {
    if (found.length === SHOWN) break;
    const variation = refutationOf(valuer, position, move, placed.attacker);
    const way = `${variation.line[0] ?? ""} ${variation.line.length < 2 ? variation.end : ""}`;
    if (ways.has(way)) continue;
    ways.add(way);
    const { san, dtm } = move;
    found.push({ san, kinds: kindNames(kinds.get(move) ?? 0), verdict: move.verdict, dtm, ...variation });
  }
  return found;
}

const listed = (words: readonly string[], most = 6) =>
  words.length > most ? `${words.slice(0, most).join(", ")} …` : words.join(", ");

/** Whether having to move costs something. */
export type Zugzwang = "none" | "zugzwang" | "reciprocal";

/** Explains a position. `geometer` is that of its material. */
export function explain(
  valuer: Valuer,
  position: Chess,
  valued: Valued,
  geometer: Geometer,
  setUps: readonly string[],
  zugzwang: Zugzwang,
): Explanation {
  const { placed, packed, moves } = valued;
  const value = unpack(packed);
  const mover = placed.attackerToMove ? "attacker" : "defender";
  const other = placed.attackerToMove ? "defender" : "attacker";
  const kinds = kindsOf(valued, geometer);
  const keeping = moves.filter((move) => move.verdict === value.verdict);
  const failing = moves.filter((move) => move.verdict !== value.verdict);
  const threat = threatIn(position, geometer, placed);
  const needed =
    failing.length === 0 ? [] : kindNames(keeping.reduce((all, move) => all & (kinds.get(move) ?? 0), ~0));
  const tempting = temptingOf(valuer, position, valued, kinds);
  const sentences: string[] = [];
  if (moves.length > 0) {
    const names = setUps.length > 0 ? setUps.join(" and ") : "no set-up of the catalogue";
    sentences.push(`${capital(names)}, the ${mover} to move: ${valueInWords(value)}.`);
    if (position.isCheck()) sentences.push(`The ${mover} is in check.`);
    if (zugzwang !== "none")
      sentences.push(
        zugzwang === "reciprocal"
          ? "It is a reciprocal zugzwang: whoever has to move comes off worse."
          : `The ${mover} is in zugzwang: with the ${other} to move it would come off better.`,
      );
    if (threat && "mates" in threat)
      sentences.push(`The ${other} threatens mate with ${listed(threat.mates, 3)}.`);
    else if (threat)
      sentences.push(`The ${other} threatens to win the ${threat.wins} with ${listed(threat.by, 3)}.`);
    if (failing.length === 0) {
      const forMover = mover === "attacker" ? value.verdict : OTHER_SIDE[value.verdict];
      sentences.push(
        { won: "Every move wins.", drawn: "Every move draws.", lost: "Every move loses." }[forMover],
      );
    } else if (keeping.length === 1) sentences.push(`Only ${keeping[0].san} keeps it.`);
    else {
      const all = needed.length > 0 ? ` (each of them: ${needed.join(", ")})` : "";
      sentences.push(
        `${keeping.length} of ${moves.length} moves keep it${all}: ${listed(keeping.map(({ san }) => san))}.`,
      );
    }
    for (const { san, line, end } of tempting)
      sentences.push(`Not ${san}: ${withEnd(line.join(" "), end, ", ")}.`);
  }
  return {
    threat,
    keeping: failing.length === 0 ? [] : keeping.map(({ san }) => san),
    needed,
    tempting,
    sentences,
  };
}

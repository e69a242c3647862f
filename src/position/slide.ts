// Slides: a formation moved as a whole over the board, file by file and rank by rank, with each side to move; and
// what changes on the way: verdicts, set-ups, facts.

import type { Color } from "chessops";

import { placementFen, placementOf, readFen } from "../chess/fen.js";
import { Movement } from "../chess/moves.js";
import { DEFENDER_KING } from "../chess/placement.js";
import { fileOf, rankOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY, Geometer, isCoordinate } from "../geometry/facts.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type Value, unpack } from "../tablebase/tables.js";
import { type Prober, placementReader } from "./probe.js";
import { shownFact } from "../query/engine/rows.js";

/** A fact whose value is another than in the formation that was given. */
export interface Changed {
  readonly fact: string;
  readonly from: number | string | boolean | null;
  readonly to: number | string | boolean | null;
}

export interface Slid {
  /** Files to the right and ranks up; 0 and 0 is the formation itself. */
  readonly files: number;
  readonly ranks: number;
  readonly fen: string;
  /** Null where the side that is not to move would be in check. */
  readonly attackerToMove: Value | null;
  readonly defenderToMove: Value | null;
  readonly setUps: readonly string[];
  /** Facts of lines and relations that differ; where pieces stand by file and rank is left out. */
  readonly changes: readonly Changed[];
}

export interface Slides {
  readonly fen: string;
  readonly attacker: Color;
  readonly sideToMove: "attacker" | "defender";
  /** By rank from the top of the board down, then by file. */
  readonly slides: readonly Slid[];
}

/** Every place that a formation can be moved to. Throws `bad-fen`, `outside-tables`, `tables-missing`. */
export function slides(fen: string, prober: Prober, catalogue: Catalogue): Slides {
  const { material, attacker, squares, attackerToMove } = placementOf(readFen(fen));
  const movement = new Movement(material);
  const geometer = new Geometer(material);
  const tables = prober.tablesFor({ material });
  const factsOf = (placed: readonly Square[]) => geometer.facts({ squares: placed, attackerToMove });
  const own = factsOf(squares);
  const valueOf = (placed: readonly Square[], turn: boolean): Value | null =>
    movement.inCheck(placed, turn ? 1 : 0) ? null : unpack(tables.probe(placed, turn));
  const found: Slid[] = [];
  for (let ranks = 7; ranks >= -7; --ranks) {
    for (let files = -7; files <= 7; ++files) {
      const onBoard = squares.every((square) => {
        const [f, r] = [fileOf(square) + files, rankOf(square) + ranks];
        return f >= 0 && f < 8 && r >= 0 && r < 8;
      });
      if (!onBoard) continue;
      const placed = squares.map((square) => square + files + 8 * ranks);
      const placement = { squares: placed, attackerToMove };
      const facts = factsOf(placed);
      const values = { attackerToMove: valueOf(placed, true), defenderToMove: valueOf(placed, false) };
      const value = attackerToMove ? values.attackerToMove : values.defenderToMove;
      found.push({
        files,
        ranks,
        fen: placementFen(placement, material, attacker),
        ...values,
        setUps: value ? catalogue.naming(placementReader(geometer, placement, value), material) : [],
        changes: GEOMETRY.flatMap((fact, n) =>
          facts[n] === own[n] || isCoordinate(fact.name)
            ? []
            : [{ fact: fact.name, from: shownFact(fact, own[n]), to: shownFact(fact, facts[n]) }],
        ),
      });
    }
  }
  return { fen, attacker, sideToMove: attackerToMove ? "attacker" : "defender", slides: found };
}

/** Whether the defender's king of a formation stands on a rank's end or a file's: which way is along the edge. */
export function alongEdge(fen: string): "files" | "ranks" {
  const { squares } = placementOf(readFen(fen));
  const king = squares[DEFENDER_KING];
  const toEdge = (n: number) => Math.min(n, 7 - n);
  return toEdge(rankOf(king)) <= toEdge(fileOf(king)) ? "files" : "ranks";
}

/** Whether a formation can stand elsewhere along the edge, or reaches from one side of the board to the other. */
export function hasRoomAlongEdge(fen: string): boolean {
  const { squares } = placementOf(readFen(fen));
  const lines = squares.map(alongEdge(fen) === "files" ? fileOf : rankOf);
  return Math.max(...lines) - Math.min(...lines) < 7;
}

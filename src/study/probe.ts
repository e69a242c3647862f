// Probing one position: its exact value, what each legal move does to it, what it looks like and which set-ups
// it fits.

import type { Color } from "chessops";
import { makeSanAndPlay } from "chessops/san";
import { makeFen } from "chessops/fen";

import { type BoardPlacement, placementOf, readFen } from "../chess/fen.js";
import type { Moves } from "../chess/units.js";
import { halfMovesFor, isBeyondFifty, scoreOf } from "../endings/ending.js";
import { GEOMETRY, Geometer } from "../geometry/facts.js";
import type { Catalogue } from "../questions/catalogue.js";
import type { FactReader } from "../questions/predicate.js";
import { type PackedValue, Tables, type Value, type Verdict, unpack } from "../solver/tables.js";
import { shownFact } from "./rows.js";

export interface ProbedMove extends Value {
  readonly san: string;
}

export interface Probe extends Value {
  readonly fen: string;
  readonly material: string;
  readonly attacker: Color;
  readonly sideToMove: "attacker" | "defender";
  readonly legal: number;
  readonly keeping: number;
  /** Values after each move; the keeping moves first, then best first for the side to move. */
  readonly moves: readonly ProbedMove[];
  readonly setUps: readonly string[];
  readonly facts: Readonly<Record<string, number | string | boolean | null>>;
  readonly halfmoves: number;
  /** Half-moves the conversion takes; null when drawn. */
  readonly conversionHalfMoves: number | null;
  /** Won or lost on paper, but a draw can be claimed first (FIDE Laws 9.3; the arbiter decides). */
  readonly beyondFifty: boolean;
}

const ORDER: Readonly<Record<Verdict, number>> = { won: 1, drawn: 0, lost: -1 };

/** Opens each material's tables once. */
export class Prober {
  private readonly tables = new Map<string, Tables>();
  private readonly geometers = new Map<string, Geometer>();

  constructor(
    private readonly folder: string,
    private readonly catalogue: Catalogue,
  ) {}

  private tablesFor({ material }: BoardPlacement): Tables {
    let tables = this.tables.get(material.id);
    if (!tables) this.tables.set(material.id, (tables = new Tables(material, this.folder)));
    return tables;
  }

  private geometerFor({ material }: BoardPlacement): Geometer {
    let geometer = this.geometers.get(material.id);
    if (!geometer) this.geometers.set(material.id, (geometer = new Geometer(material)));
    return geometer;
  }

  /** Probes a position given as FEN. Throws `bad-fen`, `outside-tables` or `tables-missing`. */
  probe(fen: string): Probe {
    const position = readFen(fen);
    const placed = placementOf(position);
    const tables = this.tablesFor(placed);
    const { squares, attackerToMove } = placed;
    const packed = tables.probe(squares, attackerToMove);
    const value = unpack(packed);
    const moves: (ProbedMove & { packed: PackedValue })[] = [];
    for (const [from, targets] of position.allDests()) {
      const man = squares.indexOf(from);
      for (const to of targets) {
        const captured = squares.indexOf(to);
        squares[man] = to;
        const after =
          captured >= 0
            ? tables.probeWithout(squares, captured, !attackerToMove)
            : tables.probe(squares, !attackerToMove);
        squares[man] = from;
        moves.push({ san: makeSanAndPlay(position.clone(), { from, to }), ...unpack(after), packed: after });
      }
    }
    const sign = attackerToMove ? 1 : -1;
    moves.sort(
      (a, b) =>
        sign * (ORDER[b.verdict] - ORDER[a.verdict]) ||
        // the winner wants it short, the loser long
        (a.verdict === "drawn" ? 0 : sign * ORDER[a.verdict] * (a.dtm! - b.dtm! || a.dtc! - b.dtc!)) ||
        (a.san < b.san ? -1 : 1),
    );
    const facts = this.geometerFor(placed).facts(placed);
    const read: FactReader = (fact) => {
      const n = GEOMETRY.findIndex((one) => one.name === fact.name);
      if (n >= 0) return facts[n];
      if (fact.name === "verdict") return scoreOf(packed);
      if (fact.name === "to-move") return attackerToMove ? "attacker" : "defender";
      return fact.name === "dtm" ? value.dtm : value.dtc;
    };
    const score = scoreOf(packed);
    return {
      fen: makeFen(position.toSetup()),
      ...value,
      material: placed.material.name,
      attacker: placed.attacker,
      sideToMove: attackerToMove ? "attacker" : "defender",
      legal: moves.length,
      keeping: moves.filter((move) => move.verdict === value.verdict).length,
      moves: moves.map(({ san, verdict, dtm, dtc }) => ({ san, verdict, dtm, dtc })),
      setUps: this.catalogue.fitting(read),
      facts: Object.fromEntries(GEOMETRY.map((fact, n) => [fact.name, shownFact(fact, facts[n])])),
      halfmoves: position.halfmoves,
      conversionHalfMoves:
        value.dtc === null ? null : halfMovesFor(value.dtc as Moves, attackerToMove === score > 0),
      beyondFifty: isBeyondFifty(score, value.dtc, attackerToMove, position.halfmoves),
    };
  }

  close(): void {
    for (const tables of this.tables.values()) tables.close();
  }
}

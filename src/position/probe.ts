// Probing one position: its exact value, what each legal move does to it, the best line, its facts and set-ups.

import type { Color } from "chessops";
import type { Chess } from "chessops/chess";
import { makeFen } from "chessops/fen";
import { makeSanAndPlay, parseSan } from "chessops/san";
import { makeUci } from "chessops/util";

import { type BoardPlacement, placementOf, readFen } from "../chess/fen.js";
import { Movement } from "../chess/moves.js";
import type { Placement } from "../chess/placement.js";
import { SCORES, type Score, scoreOf } from "../chess/verdict.js";
import { halfMovesFor, isBeyondFifty } from "../endings/fifty-moves.js";
import { GEOMETRY, Geometer, geometryIndex } from "../geometry/facts.js";
import type { Catalogue } from "../query/language/catalogue.js";
import type { Fact } from "../query/language/vocabulary.js";
import { type FactReader, joinReaders } from "../query/engine/predicate.js";
import { shownFact } from "../query/engine/rows.js";
import { Tables, type Value, unpack } from "../tablebase/tables.js";
import { isZugzwang } from "../tablebase/zugzwang.js";
import { type Explanation, type Zugzwang, explain } from "./explain.js";
import type { ProbedMove, Valued } from "./valued.js";
import { aFile } from "./wording.js";
import { type Variation, solutionAfter } from "./variations.js";

/** A move of the best line, and how many moves of that position are as good (itself included). */
export interface LineMove {
  readonly san: string;
  readonly equal: number;
}

export interface Probe extends Value {
  readonly fen: string;
  readonly material: string;
  readonly attacker: Color;
  readonly sideToMove: "attacker" | "defender";
  readonly legal: number;
  readonly keeping: number;
  /** Whether the side to move would come off better if it could pass; reciprocal if the other side would, too. */
  readonly zugzwang: Zugzwang;
  /** The one move that keeps the verdict, if there is just one. */
  readonly onlyMove: string | null;
  /** Share of the legal moves that lose half a point or more; null without a legal move. */
  readonly blunderPotential: number | null;
  /** The fastest win against the longest resistance, to mate; empty when drawn. */
  readonly line: readonly LineMove[];
  /** Values after each move; the keeping moves first, then best first for the side to move. */
  /** `setUps`: what a move that keeps the verdict keeps or enters. */
  readonly moves: readonly (Value & {
    readonly san: string;
    readonly uci: string;
    readonly setUps: readonly string[];
  })[];
  readonly setUps: readonly string[];
  /** The same as they are told, with the file of those that come out differently by it. */
  readonly setUpsSaid: readonly string[];
  readonly explanation: Explanation;
  readonly facts: Readonly<Record<string, number | string | boolean | null>>;
  readonly halfmoves: number;
  /** Half-moves the conversion takes; null when drawn. */
  readonly conversionHalfMoves: number | null;
  /** Won or lost on paper, but a draw can be claimed first (FIDE Laws 9.3; the arbiter decides). */
  readonly beyondFifty: boolean;
  /** Number of the move with which the hundredth half-move is reached if nothing is captured until then. */
  readonly claimMove: number;
}

/** Reads the facts of a placement, from either edge where two are as near, and its value. */
export function placementReader(geometer: Geometer, placement: Placement, value: Value): FactReader {
  const seen = (facts: readonly (number | null)[]) => (fact: Fact) => {
    const n = geometryIndex(fact.name);
    if (n >= 0) return facts[n];
    if (fact.name === "verdict") return SCORES[value.verdict];
    if (fact.name === "to-move") return placement.attackerToMove ? 1 : 0;
    if (fact.name === "dtm" || fact.name === "dtc") return value[fact.name];
    throw new Error(`${fact.name} is not a fact of a placement`);
  };
  const other = geometer.factsFromOtherEdge(placement);
  const read = seen(geometer.facts(placement));
  return other ? joinReaders(read, seen(other)) : read;
}

/** Opens each material's tables once. */
export class Prober {
  private readonly tables = new Map<string, Tables>();
  private readonly geometers = new Map<string, Geometer>();

  constructor(
    private readonly folder: string,
    private readonly catalogue: Catalogue,
  ) {}

  /** The tables of a position's material. Throws `tables-missing`. */
  tablesFor({ material }: Pick<BoardPlacement, "material">): Tables {
    let tables = this.tables.get(material.id);
    if (!tables) this.tables.set(material.id, (tables = new Tables(material, this.folder)));
    return tables;
  }

  /** The geometer of a position's material. */
  geometerFor({ material }: Pick<BoardPlacement, "material">): Geometer {
    let geometer = this.geometers.get(material.id);
    if (!geometer) this.geometers.set(material.id, (geometer = new Geometer(material)));
    return geometer;
  }

  /** A position's value and its moves, the best first. */
  values(position: Chess): Valued {
    const placed = placementOf(position);
    const { squares, attackerToMove } = placed;
    const tables = this.tablesFor(placed);
    const moves: ProbedMove[] = [];
    for (const [from, targets] of position.allDests()) {
      const piece = squares.indexOf(from);
      for (const to of targets) {
        const after = tables.probeAfter(squares, piece, to, attackerToMove);
        moves.push({ san: makeSanAndPlay(position.clone(), { from, to }), from, to, ...unpack(after) });
      }
    }
    const sign = attackerToMove ? 1 : -1;
    moves.sort(
      (a, b) =>
        sign * (SCORES[b.verdict] - SCORES[a.verdict]) ||
        // the winner wants it short, the loser long
        (a.verdict === "drawn" ? 0 : sign * SCORES[a.verdict] * (a.dtm! - b.dtm! || a.dtc! - b.dtc!)) ||
        (a.san < b.san ? -1 : 1),
    );
    return { placed, packed: tables.probe(squares, attackerToMove), moves };
  }

  /**
   * The line with the fastest win and the longest resistance, to mate, from a position (which is changed). Of
   * equally good moves the one with the faster (slower) conversion is taken, then the first by name.
   */
  private line(position: Chess): LineMove[] {
    const line: LineMove[] = [];
    for (;;) {
      const { packed, moves } = this.values(position);
      if (packed === 0 || moves.length === 0) return line;
      const [best] = moves;
      const equal = moves.filter((move) => move.verdict === best.verdict && move.dtm === best.dtm).length;
      line.push({ san: best.san, equal });
      position.play(parseSan(position, best.san)!);
    }
  }

  /** What a position is worth, without its moves, which take a hundred times as long. Throws as `probe` does. */
  worth(fen: string): Value & Pick<Probe, "attacker" | "sideToMove"> {
    const placed = placementOf(readFen(fen));
    const { squares, attackerToMove, attacker } = placed;
    const packed = this.tablesFor(placed).probe(squares, attackerToMove);
    return { ...unpack(packed), attacker, sideToMove: attackerToMove ? "attacker" : "defender" };
  }

  /** Probes a position given as FEN. Throws `bad-fen`, `outside-tables` or `tables-missing`. */
  probe(fen: string): Probe {
    const position = readFen(fen);
    const valued = this.values(position);
    const { placed, packed, moves } = valued;
    const value = unpack(packed);
    const { attackerToMove } = placed;
    const facts = this.geometerFor(placed).facts(placed);
    const read = placementReader(this.geometerFor(placed), placed, value);
    const score = scoreOf(packed);
    const keeping = moves.filter((move) => move.verdict === value.verdict);
    const zugzwang = this.zugzwangAt(placed, score);
    const setUps = this.catalogue.naming(read, placed.material);
    const { halfmoves, fullmoves } = position;
    const left = Math.max(1, 100 - halfmoves);
    return {
      fen: makeFen(position.toSetup()),
      ...value,
      material: placed.material.name,
      attacker: placed.attacker,
      sideToMove: attackerToMove ? "attacker" : "defender",
      legal: moves.length,
      keeping: keeping.length,
      onlyMove: keeping.length === 1 ? keeping[0].san : null,
      blunderPotential: moves.length === 0 ? null : (moves.length - keeping.length) / moves.length,
      line: this.line(position.clone()),
      moves: moves.map(({ san, from, to, verdict, dtm, dtc }) => ({
        san,
        uci: makeUci({ from, to }),
        verdict,
        dtm,
        dtc,
        setUps: verdict === value.verdict ? this.namesAfter(placed, { from, to }, { verdict, dtm, dtc }) : [],
      })),
      setUps,
      setUpsSaid: setUps.map((name) => this.said(name, facts[geometryIndex("king-file")]!)),
      zugzwang,
      explanation: explain(this, position, valued, this.geometerFor(placed), setUps, zugzwang),
      facts: Object.fromEntries(GEOMETRY.map((fact, n) => [fact.name, shownFact(fact, facts[n])])),
      halfmoves,
      conversionHalfMoves: value.dtc === null ? null : halfMovesFor(value.dtc, attackerToMove === score > 0),
      beyondFifty: isBeyondFifty(score, value.dtc, attackerToMove, halfmoves),
      claimMove: fullmoves + Math.floor((position.turn === "white" ? left - 1 : left) / 2),
    };
  }

  /** A set-up with the file of its king, where that matters. */
  private said(name: string, kingFile: number): string {
    const isFamily = this.catalogue.setUps.some((one) => one.name === name && one["by-file"]);
    return isFamily ? `${name} on ${aFile(kingFile)}` : name;
  }

  /** The set-ups that a move keeps or enters; none after a capture, which leads to another ending. */
  private namesAfter(
    placed: BoardPlacement & Placement,
    { from, to }: Pick<ProbedMove, "from" | "to">,
    value: Value,
  ): string[] {
    const { squares, attackerToMove, material } = placed;
    if (squares.includes(to)) return [];
    const after = {
      squares: squares.map((square) => (square === from ? to : square)),
      attackerToMove: !attackerToMove,
    };
    return this.catalogue.naming(placementReader(this.geometerFor(placed), after, value), material);
  }

  /** Whether having to move costs something, for one side or for either; never where a side in check would have to pass. */
  private zugzwangAt(placed: BoardPlacement & Placement, score: Score): Zugzwang {
    const { squares, attackerToMove } = placed;
    if (new Movement(placed.material).inCheck(squares, attackerToMove ? 0 : 1)) return "none";
    const other = scoreOf(this.tablesFor(placed).probe(squares, !attackerToMove));
    if (isZugzwang("reciprocal-zugzwang", score, other, attackerToMove)) return "reciprocal";
    return isZugzwang("zugzwang", score, other, attackerToMove) ? "zugzwang" : "none";
  }

  /** The variation after a move (in SAN) that keeps the verdict of a position, up to where its result is plain. */
  solution(fen: string, san: string): Variation {
    const position = readFen(fen);
    const { placed, moves } = this.values(position);
    const first = moves.find((move) => move.san === san);
    if (!first) throw new Error(`${san} is no move of ${fen}`);
    return solutionAfter(this, position, first, placed.attacker);
  }

  close(): void {
    for (const tables of this.tables.values()) tables.close();
  }
}

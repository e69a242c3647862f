// Contrasts: placements that differ from a position by a little and come out otherwise, and what differs in words.

import { placementFen, placementOf, readFen } from "../chess/fen.js";
import { kindNameOf } from "../chess/material.js";
import { KING_STEPS, Movement } from "../chess/moves.js";
import { placementNumber } from "../chess/placement.js";
import { fileOf, rankOf, squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { GEOMETRY, isCoordinate } from "../geometry/facts.js";
import { frameOf } from "../geometry/frame.js";
import { shownFact } from "../query/engine/rows.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { type Value, unpack } from "../tablebase/tables.js";
import { type Prober, placementReader } from "./probe.js";
import type { Changed } from "./slide.js";

/** A placement near a position that has another verdict. */
export interface Contrast {
  readonly fen: string;
  readonly value: Value;
  /** Steps from the position: a piece moved by one king's step, the other side to move, and all pieces a file aside are one. */
  readonly steps: number;
  /** What was changed: "rook e2→e3", "the other side to move", "one file to the left". */
  readonly changed: readonly string[];
  readonly setUps: readonly string[];
  /** Facts that differ, but for the ranks and files of the pieces. */
  readonly differs: readonly Changed[];
}

export interface Contrasts {
  readonly fen: string;
  readonly value: Value;
  readonly setUps: readonly string[];
  /** The nearest first; of equally near ones those with the fewest facts that differ. */
  readonly contrasts: readonly Contrast[];
}

/** A placement on the way, with what was changed to come to it. */
interface Near {
  readonly squares: readonly Square[];
  readonly attackerToMove: boolean;
  readonly steps: number;
  readonly changed: readonly string[];
}

/** Steps that are looked at. */
const FARTHEST = 2;
const ASIDE = [
  [-1, 0, "one file to the left"],
  [1, 0, "one file to the right"],
  [0, -1, "one rank down"],
  [0, 1, "one rank up"],
] as const;

/** All pieces moved aside together; undefined where one would leave the board. */
function aside(squares: readonly Square[], files: number, ranks: number): Square[] | undefined {
  const onBoard = squares.every((square) => {
    const [f, r] = [fileOf(square) + files, rankOf(square) + ranks];
    return f >= 0 && f < 8 && r >= 0 && r < 8;
  });
  return onBoard ? squares.map((square) => square + files + 8 * ranks) : undefined;
}

/** Placements one step away with the same side to move, those moved aside as a whole first; some may be illegal. */
export function* oneStepFrom(squares: readonly Square[]): Generator<Square[]> {
  for (const [files, ranks] of ASIDE) {
    const moved = aside(squares, files, ranks);
    if (moved) yield moved;
  }
  for (let piece = 0; piece < squares.length; ++piece)
    for (const to of KING_STEPS[squares[piece]])
      if (!squares.includes(to)) yield squares.map((square, n) => (n === piece ? to : square));
}

/** The nearest placements with another verdict. Throws `bad-fen`, `outside-tables`, `tables-missing`. */
export function contrasts(fen: string, prober: Prober, catalogue: Catalogue): Contrasts {
  const placed = placementOf(readFen(fen));
  const { material, attacker } = placed;
  const movement = new Movement(material);
  const geometer = prober.geometerFor(placed);
  const tables = prober.tablesFor(placed);
  const valueOf = ({ squares, attackerToMove }: Pick<Near, "squares" | "attackerToMove">) =>
    movement.inCheck(squares, attackerToMove ? 1 : 0)
      ? undefined
      : unpack(tables.probe(squares, attackerToMove));
  const own = valueOf(placed)!;
  const ownFacts = geometer.facts(placed);
  const setUpsOf = (near: Pick<Near, "squares" | "attackerToMove">, value: Value) =>
    catalogue.naming(placementReader(geometer, near, value), material);

  const keyOf = (near: Pick<Near, "squares" | "attackerToMove">) => placementNumber(frameOf(near, material));
  const seen = new Set([keyOf(placed)]);
  let border: Near[] = [
    { squares: placed.squares, attackerToMove: placed.attackerToMove, steps: 0, changed: [] },
  ];
  const found: Contrast[] = [];
  for (let steps = 1; steps <= FARTHEST; ++steps) {
    const next: Near[] = [];
    for (const from of border)
      for (const near of neighbours(from)) {
        const key = keyOf(near);
        if (seen.has(key)) continue;
        seen.add(key);
        next.push(near);
        const value = valueOf(near);
        if (value === undefined || value.verdict === own.verdict) continue;
        const facts = geometer.facts(near);
        found.push({
          fen: placementFen(near, material, attacker),
          value,
          steps,
          changed: near.changed,
          setUps: setUpsOf(near, value),
          differs: GEOMETRY.flatMap((fact, n) =>
            facts[n] === ownFacts[n] || isCoordinate(fact.name)
              ? []
              : [{ fact: fact.name, from: shownFact(fact, ownFacts[n]), to: shownFact(fact, facts[n]) }],
          ),
        });
      }
    border = next;
  }
  found.sort((a, b) => a.steps - b.steps || a.differs.length - b.differs.length);
  return { fen, value: own, setUps: setUpsOf(placed, own), contrasts: found };

  function* neighbours({ squares, attackerToMove, steps, changed }: Near): Generator<Near> {
    const step = (moved: readonly Square[], turn: boolean, said: string): Near => ({
      squares: moved,
      attackerToMove: turn,
      steps: steps + 1,
      changed: [...changed, said],
    });
    const other = step(squares, !attackerToMove, "the other side to move");
    if (valueOf(other)) yield other;
    for (const [files, ranks, said] of ASIDE) {
      const moved = aside(squares, files, ranks);
      if (moved) yield step(moved, attackerToMove, said);
    }
    for (let piece = 0; piece < squares.length; ++piece)
      for (const to of KING_STEPS[squares[piece]]) {
        if (squares.includes(to)) continue;
        const moved = squares.map((square, n) => (n === piece ? to : square));
        const said = `${kindNameOf(material, piece)} ${squareName(squares[piece])}→${squareName(to)}`;
        yield step(moved, attackerToMove, said);
      }
  }
}

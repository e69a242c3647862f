// Proof of a material's tables against things outside them: published lengths and positions, moves made by the
// rules library, the symmetries of the board, and the counts the tables had before.

import type { Chess } from "chessops/chess";

import { placementFen, placementOf, readFen } from "../chess/fen.js";
import { type Material, parseMaterial } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import type { Placement } from "../chess/placement.js";
import { randomNumbers, randomPlacement } from "../chess/random.js";
import { SYMMETRIES, imageOf } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { type Half, halvesOf, isEmpty } from "./half.js";
import { knownValues } from "./known-values.js";
import { kingsOfPairs } from "./solver-kernel.js";
import { TableFile, tableFile } from "./table-file.js";
import { type PackedValue, Tables, unpack } from "./tables.js";

export interface Check {
  readonly name: string;
  readonly passed: boolean;
  /** What was found, and what was expected where they differ. */
  readonly detail: string;
}

const SIDES = ["attacker", "defender"] as const;

function countsOf(folder: string, half: Half) {
  const file = new TableFile(tableFile(folder, half), half);
  file.close();
  return file.manifest.counts;
}

function lengthChecks(material: Material, folder: string): Check[] {
  const published = knownValues("published-lengths.csv").filter(
    (row) => parseMaterial(row.material).id === material.id,
  );
  return halvesOf(material).flatMap((half, n) => {
    if (isEmpty(half)) return [];
    const name = `${SIDES[n]}'s longest win, conversion / mate`;
    const { longestConversion, longestMate } = countsOf(folder, half);
    const row = published.find((one) => one.side === SIDES[n]);
    if (!row) {
      const detail = `${longestConversion} / ${longestMate}, nothing published at hand`;
      return [{ name, passed: true, detail }];
    }
    const differs = [
      [row.conversion, longestConversion],
      [row.mate, longestMate],
    ].some(([wanted, found]) => wanted !== "" && Number(wanted) !== found);
    return [
      {
        name,
        passed: !differs,
        detail: `${longestConversion} / ${longestMate}; published ${row.conversion || "-"} / ${row.mate || "-"} (${row.source})`,
      },
    ];
  });
}

function signatureChecks(material: Material, folder: string): Check[] {
  const known = new Map(knownValues("signatures.csv").map((row) => [row.half, row]));
  return halvesOf(material).flatMap((half) => {
    const row = known.get(half.name);
    if (isEmpty(half)) return [];
    const { winnerToMove, loserToMove, longestMate, longestConversion } = countsOf(folder, half);
    const found = [
      winnerToMove.won,
      winnerToMove.legal,
      loserToMove.lost,
      loserToMove.legal,
      longestMate,
      longestConversion,
    ];
    const detail = `won ${found[0]} of ${found[1]}, lost ${found[2]} of ${found[3]}`;
    const wanted =
      row &&
      [row.won, row.winnerLegal, row.lost, row.loserLegal, row.longestMate, row.longestConversion].map(
        Number,
      );
    return [
      {
        name: `signature of ${half.name}`,
        passed: wanted !== undefined && wanted.join() === found.join(),
        detail,
      },
    ];
  });
}

function positionChecks(material: Material, tables: Tables): Check[] {
  return knownValues("published-positions.csv").flatMap((row) => {
    const placed = placementOf(readFen(row.fen));
    if (placed.material.id !== material.id) return [];
    const found = unpack(tables.probe(placed.squares, placed.attackerToMove));
    const passed = found.verdict === row.verdict && (row.dtm === "" || found.dtm === Number(row.dtm));
    const distance = found.dtm === null ? "" : ` in ${found.dtm}`;
    return [{ name: row.fen, passed, detail: `${found.verdict}${distance} (${row.source})` }];
  });
}

/** What a position's value must be by the values after its moves; `captures` convert at once. */
export function valueFromMoves(
  after: readonly { readonly value: PackedValue; readonly captures: boolean }[],
  attackerToMove: boolean,
  inCheck: boolean,
): PackedValue {
  const sign = attackerToMove ? 1 : -1;
  const pack = (side: number, mate: number, conversion: number) => side * (65536 + 256 * mate + conversion);
  if (after.length === 0) return inCheck ? pack(-sign, 0, 0) : 0;
  const mate = (value: PackedValue) => (Math.abs(value) & 0xffff) >> 8;
  const conversion = ({ value, captures }: (typeof after)[number]) => (captures ? 0 : Math.abs(value) & 255);
  const wins = after.filter(({ value }) => value * sign > 0);
  if (wins.length > 0) {
    return pack(
      sign,
      1 + Math.min(...wins.map(({ value }) => mate(value))),
      1 + Math.min(...wins.map(conversion)),
    );
  }
  if (after.some(({ value }) => value === 0)) return 0;
  return pack(-sign, Math.max(...after.map(({ value }) => mate(value))), Math.max(...after.map(conversion)));
}

/** A placement's value by one ply of search, with the moves of the rules library. */
function searched(tables: Tables, { squares, attackerToMove }: Placement, position: Chess): PackedValue {
  const after: { value: PackedValue; captures: boolean }[] = [];
  const moved = [...squares];
  for (const [from, targets] of position.allDests()) {
    const piece = squares.indexOf(from);
    for (const to of targets) {
      after.push({
        value: tables.probeAfter(moved, piece, to, attackerToMove),
        captures: squares.includes(to),
      });
    }
  }
  return valueFromMoves(after, attackerToMove, position.isCheck());
}

/** Every legal placement with the kings in a place of their own: one of each set of twins, two on the diagonal. */
export function* everyPlacement(material: Material): Generator<Placement> {
  const movement = new Movement(material);
  const pieces = material.men - 2;
  for (const kings of kingsOfPairs()) {
    for (let index = 0; index < 64 ** pieces; ++index) {
      const squares: Square[] = [...kings];
      for (let n = 0; n < pieces; ++n) squares.push((index >> (6 * n)) & 63);
      if (new Set(squares).size < squares.length) continue;
      for (const attackerToMove of [true, false]) {
        if (!movement.inCheck(squares, attackerToMove ? 1 : 0)) yield { squares, attackerToMove };
      }
    }
  }
}

/** As many random legal placements as are asked for. */
function* somePlacements(material: Material, sample: number): Generator<Placement> {
  const random = randomNumbers(20261125);
  const movement = new Movement(material);
  for (let n = 0; n < sample; ++n) yield randomPlacement(material, random, movement);
}

function placementChecks(material: Material, tables: Tables, sample: Sample): Check[] {
  let inconsistent: string | undefined;
  let unlike: string | undefined;
  let twoFaced: string | undefined;
  let count = 0;
  for (const placement of sample === "every" ? everyPlacement(material) : somePlacements(material, sample)) {
    ++count;
    const { squares, attackerToMove } = placement;
    const value = tables.probe(squares, attackerToMove);
    const fens = (["white", "black"] as const).map((attacker) => placementFen(placement, material, attacker));
    const positions = fens.map(readFen);
    if (searched(tables, placement, positions[0]) !== value) inconsistent ??= fens[0];
    for (const g of SYMMETRIES) {
      const twin = squares.map((square) => imageOf(g, square));
      if (tables.probe(twin, attackerToMove) !== value) unlike ??= fens[0];
    }
    for (const [n, position] of positions.entries()) {
      const read = placementOf(position);
      // with equal pieces White is the attacker, so that a value may change its sign with the colours
      if (Math.abs(tables.probe(read.squares, read.attackerToMove)) !== Math.abs(value)) twoFaced ??= fens[n];
    }
  }
  const check = (name: string, fault: string | undefined): Check => ({
    name,
    passed: fault === undefined,
    detail:
      fault === undefined
        ? `${count.toLocaleString("en")} ${sample === "every" ? "placements, every one" : "random placements"}`
        : `differs at ${fault}`,
  });
  return [
    check("value = best of successors, moves by chessops", inconsistent),
    check("eight twins agree", unlike),
    check("both colours agree", twoFaced),
  ];
}

/** How many random placements to check, or every one. */
export type Sample = number | "every";

/** Checks a material's tables in `folder`. Throws `tables-missing`. */
export function checkTables(material: Material, folder: string, sample: Sample): Check[] {
  const tables = new Tables(material, folder);
  try {
    return [
      ...lengthChecks(material, folder),
      ...signatureChecks(material, folder),
      ...positionChecks(material, tables),
      ...placementChecks(material, tables, sample),
    ];
  } finally {
    tables.close();
  }
}

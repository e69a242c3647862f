// From where a goal can be forced, against a slow twin that plays every move with the generator (which the rules libraries
// check), on rook against bishop; and plans, played out.

import { readFileSync, readdirSync, symlinkSync, writeFileSync } from "node:fs";
import { join } from "node:path";

import { makeFen } from "chessops/fen";
import { parseSan } from "chessops/san";
import { beforeAll, describe, expect, it } from "vitest";

import { readFen } from "../../src/chess/fen.js";
import { parseMaterial } from "../../src/chess/material.js";
import { MoveList, Movement } from "../../src/chess/moves.js";
import { Geometer } from "../../src/geometry/facts.js";
import { Prober, placementReader } from "../../src/position/probe.js";
import { catalogueWith, standardCatalogue } from "../../src/query/language/catalogue.js";
import { parseQuestion } from "../../src/query/language/parse.js";
import { meets } from "../../src/query/engine/predicate.js";
import { cacheFolder } from "../../src/places.js";
import { planOf } from "../../src/survey/plan.js";
import { planesOf } from "../../src/survey/planes.js";
import { placeOf } from "../../src/survey/regions.js";
import { Stages } from "../../src/survey/stages.js";
import { halvesOf } from "../../src/tablebase/half.js";
import { type BothTurns, KeepSolver, hasBit } from "../../src/tablebase/keep.js";
import { kingsOfPairs } from "../../src/tablebase/solver-kernel.js";
import { tableFile } from "../../src/tablebase/table-file.js";
import { unpack } from "../../src/tablebase/tables.js";
import { openTables, temporaryFolder } from "../support.js";

const material = parseMaterial("R v B");
const tables = openTables(material);
const movement = new Movement(material);
const geometer = new Geometer(material);
/** Made for this test: the attacker's king has come to the third rank before a king on the edge. */
const GOAL = parseQuestion(
  "king-rank = 1 and attacker-king-rank = 3 and kings-files-apart = 0 and not in-check",
  standardCatalogue().known,
);

type Key = number;
const keyOf = (squares: readonly number[], attackerToMove: boolean): Key =>
  squares.reduce((key, square) => key * 64 + square, attackerToMove ? 0 : 1);

/** Every won placement with a side to move, with the kings as in the pairs: its squares and its value. */
function* won(attackerToMove: boolean): Generator<number[]> {
  for (const [attacker, defender] of kingsOfPairs())
    for (let n = 0; n < 64 * 64; ++n) {
      const squares = [attacker, defender, n >> 6, n & 63];
      if (new Set(squares).size < 4 || movement.inCheck(squares, attackerToMove ? 1 : 0)) continue;
      if (tables.verdict(squares, attackerToMove) === 1) yield squares;
    }
}

/** The twin with the kings as in the pairs. */
const images = (() => {
  const pairs = new Set(kingsOfPairs().map(([a, d]) => a * 64 + d));
  const turn = (square: number, g: number) => {
    let s = square;
    if (g & 1) s ^= 7;
    if (g & 2) s ^= 56;
    if (g & 4) s = (s >> 3) | ((s & 7) << 3);
    return s;
  };
  return (squares: readonly number[]): number[] => {
    for (let g = 0; g < 8; ++g) {
      const image = squares.map((square) => turn(square, g));
      if (pairs.has(image[0] * 64 + image[1])) return image;
    }
    throw new Error("no twin");
  };
})();

describe("what can be forced", () => {
  let goal: BothTurns;
  let solver: KeepSolver;
  let all: BothTurns;
  beforeAll(async () => {
    const [winner] = await planesOf(material, [GOAL], 2);
    const [loser] = await planesOf(material, [GOAL], 2, undefined, "defender");
    solver = new KeepSolver(halvesOf(material)[0], 1);
    [all] = solver.decided([Infinity]);
    goal = {
      winner: winner().map((word, n) => word & all.winner[n]),
      loser: loser().map((word, n) => word & all.loser[n]),
    };
  });

  it("takes the moves that a slow twin counts", () => {
    // moves to the goal, or to a win before it, by the twin: rounds over everything that is won
    const distance = new Map<Key, number>();
    const inGoal = (squares: readonly number[], attackerToMove: boolean) => {
      const value = unpack(tables.probe(squares, attackerToMove));
      return meets(GOAL, placementReader(geometer, { squares, attackerToMove }, value));
    };
    const [toWin, toLose] = [[...won(true)], [...won(false)]];
    // what is won and lost is what the tables say
    for (const [placements, plane] of [
      [toWin, all.winner],
      [toLose, all.loser],
    ] as const)
      expect(placements.filter((squares) => !hasBit(plane, placeOf({ squares })))).toEqual([]);
    const list = new MoveList();
    const children = (squares: number[], attackerToMove: boolean) => {
      movement.legalMoves(squares, attackerToMove, list);
      return Array.from({ length: list.count }, (_, n) => ({
        takes: list.captured[n] >= 0,
        squares: squares.map((square, piece) => (piece === list.piece[n] ? list.to[n] : square)),
        winsAfter:
          list.captured[n] >= 0 &&
          tables.verdictAfter([...squares], list.piece[n], list.to[n], attackerToMove) === 1,
      }));
    };
    const known = (squares: number[], attackerToMove: boolean) =>
      distance.get(keyOf(images(squares), attackerToMove));
    const losing = toLose.map((squares) => ({ squares, moves: children(squares, false) }));
    const winning = toWin.map((squares) => ({ squares, moves: children(squares, true) }));
    for (const { squares } of winning) if (inGoal(squares, true)) distance.set(keyOf(squares, true), 0);
    for (const { squares } of losing) if (inGoal(squares, false)) distance.set(keyOf(squares, false), 0);
    for (let round = 0; ; ++round) {
      let changed = round === 0;
      for (const { squares, moves } of losing) {
        const key = keyOf(squares, false);
        if (distance.has(key)) continue;
        // every quiet reply leads to what is known; a capture that loses all the same decides it
        if (moves.every((move) => move.takes || (known(move.squares, true) ?? Infinity) <= round)) {
          distance.set(key, round);
          changed = true;
        }
      }
      const next: Key[] = [];
      for (const { squares, moves } of winning) {
        const key = keyOf(squares, true);
        if (distance.has(key)) continue;
        const reaches = moves.some((move) =>
          move.takes ? move.winsAfter : known(move.squares, false) !== undefined,
        );
        if (reaches) next.push(key);
      }
      for (const key of next) distance.set(key, round + 1);
      if (next.length === 0 && !changed) break;
    }
    const found = new Map<string, number>();
    solver.forced(goal, "a win", (turn, word, low, high, distance) => {
      for (const [bits, from] of [
        [low, 0],
        [high, 32],
      ])
        for (let bit = 0; bit < 32; ++bit)
          if ((bits >>> bit) & 1 && !found.has(`${turn} ${word} ${from + bit}`))
            found.set(`${turn} ${word} ${from + bit}`, distance);
    });
    const wrong: string[] = [];
    for (const [turn, all] of [
      ["winner", winning],
      ["loser", losing],
    ] as const)
      for (const { squares } of all) {
        const { word, bit } = placeOf({ squares });
        const [twin, ours] = [
          distance.get(keyOf(squares, turn === "winner")),
          found.get(`${turn} ${word} ${bit}`),
        ];
        if (twin !== ours) wrong.push(`${turn} ${squares}: ${ours}, twin ${twin}`);
      }
    expect(wrong.slice(0, 5)).toEqual([]);
    expect([...distance.values()].some((moves) => moves > 3)).toBe(true);
  });
});

describe("a plan", () => {
  const folder = temporaryFolder();
  const file = join(folder, "stations.yaml");
  writeFileSync(
    file,
    `- name: king near
  side: attacker
  material: R v B
  means: king-rank = 1 and attacker-king-rank = 3 and not in-check
- name: kings opposed
  side: attacker
  material: R v B
  means: king-rank = 1 and attacker-king-rank = 3 and kings-files-apart = 0 and not in-check
`,
  );
  const catalogue = catalogueWith(file);
  const prober = new Prober(cacheFolder(), catalogue);
  // what is remembered lies beside the table
  const [half] = halvesOf(material);
  symlinkSync(tableFile(cacheFolder(), half), tableFile(folder, half));
  const options = { folder, threads: 2 };
  let stages: Stages;
  beforeAll(async () => {
    stages = await Stages.of(material, catalogue, options, () => undefined);
  });

  it("is remembered, and worked out again where a file is damaged", async () => {
    const told: string[] = [];
    const again = () => Stages.of(material, catalogue, options, (what) => told.push(what));
    expect((await again()).found).toEqual(stages.found);
    expect(told).toEqual([]);
    const [path] = readdirSync(folder).filter((name) => name.endsWith(".stage"));
    const bytes = readFileSync(join(folder, path));
    bytes[bytes.length >> 1] ^= 1;
    writeFileSync(join(folder, path), bytes);
    expect((await again()).found).toEqual(stages.found);
    expect(told.length).toBeGreaterThan(0);
  });

  // the longest wins of rook against bishop: 18 moves to conversion (checked in tests/tablebase against published values)
  it.each([
    "8/8/8/8/5R2/4K3/8/1k4b1 w - - 0 1",
    "8/8/8/8/8/1K6/3b4/k6R b - - 0 1",
    "k7/8/1K6/8/8/8/4b3/7R w - - 0 1",
  ])("of %s is made of legal moves, keeps its word and ends the win", (fen) => {
    const start = readFen(fen);
    if (prober.probe(fen).verdict !== "won") throw new Error("it must be won");
    const plan = planOf(start, prober, stages, catalogue);
    const position = start.clone();
    for (const { line, moves, fen } of plan.stages) {
      const own = line.filter(({ attacker }) => attacker).length;
      expect(own).toBeLessThanOrEqual(moves);
      for (const { san, attacker, only } of line) {
        const before = prober.probe(makeFen(position.toSetup()));
        expect(before.sideToMove === "attacker").toBe(attacker);
        if (attacker) expect(only).toBe(before.keeping === 1);
        const move = parseSan(position, san);
        expect(move, san).toBeDefined();
        position.play(move!);
      }
      expect(makeFen(position.toSetup())).toBe(fen);
    }
    expect(plan.stages.at(-1)!.station).toBeNull();
    expect(plan.stages.reduce((sum, { moves }) => sum + moves, 0)).toBeGreaterThanOrEqual(plan.dtc);
    expect(position.isCheckmate() || position.board.occupied.size() < 4).toBe(true);
  });

  it("is refused where nothing is won", () => {
    expect(() => planOf(readFen("8/8/3k4/3b4/8/8/8/K6R w - - 0 1"), prober, stages, catalogue)).toThrow(
      /does not win/,
    );
  });
});

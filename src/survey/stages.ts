// A win in stages: the attacker's set-ups as stations on the way, from where each can be forced and in how many moves, and a
// way over them on which no stage is long.
//
// What can be forced is an attractor over the whole table (see `forced` in src/tablebase/keep.ts). The moves it takes are kept
// in the cache folder for each station, in blocks like a table's; what the stations have to do with each other is remembered
// beside them. Both are worked out again when definitions change.

import { join } from "node:path";

import type { Material } from "../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE } from "../chess/placement.js";
import type { Moves, Square } from "../chess/units.js";
import type { Catalogue, NamedSetUp } from "../query/language/catalogue.js";
import { definitionText } from "../query/language/ast.js";
import { ones } from "../tablebase/bits.js";
import { BLOCK, decodeBlock } from "../tablebase/codec.js";
import { halvesOf } from "../tablebase/half.js";
import { type BothTurns, KeepSolver, bitOf, countPlane, weights } from "../tablebase/keep.js";
import type { PackedSlice } from "../tablebase/solve.js";
import { longestConversion } from "../tablebase/table-file.js";
import { planesOf } from "./planes.js";
import { keepOnly } from "./regions.js";
import {
  keyOf,
  readSealed,
  readSealedBytes,
  remembered,
  writeSealed,
  writeSealedBytes,
} from "./remembered.js";

/** A set-up of the attacker's. */
export interface Station {
  readonly name: string;
  /** Won placements, both turns, each with all its twins, and the most moves to conversion from one of them. */
  readonly won: number;
  readonly longestWin: Moves;
}

/** A station as near to the win as is said: where a stage leads. */
export interface Goal {
  /** Which of the stations. */
  readonly station: number;
  /** Moves to conversion from it, at most. */
  readonly within: Moves;
  /** Its placements, both turns, each with all its twins. */
  readonly placements: number;
  /** From the placements of each goal, in the same order: the most moves until this one, or a win before it. */
  readonly from: readonly Moves[];
}

export interface Stations {
  /** Won placements of the table, both turns, each with all its twins. */
  readonly won: number;
  readonly stations: readonly Station[];
  readonly goals: readonly Goal[];
}

/** Begins the files of moves to stations. */
const NAME = "longside stage 1";

/** A plane of moves as it is kept: how many blocks (u32), their lengths (u16), the blocks. */
function packed(slices: Iterable<PackedSlice>): Uint8Array {
  const blocks: Uint8Array[] = [];
  const lengths: Uint8Array[] = [];
  for (const slice of slices) {
    blocks.push(slice.blocks.slice());
    lengths.push(new Uint8Array(slice.lengths.slice().buffer));
  }
  const count = Buffer.alloc(4);
  count.writeUInt32LE(lengths.reduce((sum, { length }) => sum + length / 2, 0));
  return Buffer.concat([count, ...lengths, ...blocks]);
}

/** The moves that it takes to force a station, with the defender to move. */
class StationMoves {
  private readonly starts: Uint32Array;
  private readonly read = new Map<number, Uint8Array>();

  constructor(
    private readonly bytes: Uint8Array,
    private readonly pieces: number,
  ) {
    const numbers = new DataView(bytes.buffer, bytes.byteOffset);
    const count = numbers.getUint32(0, true);
    this.starts = new Uint32Array(count + 1);
    let at = 4 + 2 * count;
    for (let n = 0; n < count; ++n) {
      this.starts[n] = at;
      at += numbers.getUint16(4 + 2 * n, true);
    }
    this.starts[count] = at;
  }

  /** Moves at most; undefined where it can't be forced. */
  at(squares: readonly Square[]): Moves | undefined {
    const { word, bit } = bitOf(squares[ATTACKER_KING], squares[DEFENDER_KING], squares.slice(FIRST_PIECE));
    const others = 64 ** (this.pieces - 1);
    // the order of planes that are painted: kings, the last piece, the others
    const index = (Math.floor(word / others) * 64 + bit) * others + (word % others);
    const n = Math.floor(index / BLOCK);
    let block = this.read.get(n);
    if (!block) {
      block = new Uint8Array(BLOCK);
      const packed = this.bytes.subarray(this.starts[n], this.starts[n + 1]);
      if (packed.length > 0) decodeBlock(packed, block, 0);
      this.read.set(n, block);
    }
    const value = block[index % BLOCK];
    return value === 0 ? undefined : value - 1;
  }
}

/** How near to the win goals are, as parts of the longest way to conversion. */
const NEAR = [1 / 6, 2 / 5];

/** Placements of parts of a solver's log, each with all its twins, by the sets that they are in. */
class Tally {
  /** By station and limit: placements, and the most moves of one. */
  readonly counts: { placements: number; longest: Moves }[][];
  private readonly weights = weights();

  constructor(
    private readonly stations: readonly BothTurns[],
    private readonly limits: readonly BothTurns[],
    private readonly pairShift: number,
  ) {
    this.counts = stations.map(() => limits.map(() => ({ placements: 0, longest: 0 })));
  }

  readonly add = (turn: keyof BothTurns, word: number, low: number, high: number, distance: number): void => {
    for (let s = 0; s < this.stations.length; ++s) {
      const station = this.stations[s][turn];
      const [one, other] = [low & station[2 * word], high & station[2 * word + 1]];
      if (one === 0 && other === 0) continue;
      for (let n = 0; n < this.limits.length; ++n) {
        const limit = this.limits[n][turn];
        const found = ones(one & limit[2 * word]) + ones(other & limit[2 * word + 1]);
        if (found === 0) continue;
        const counts = this.counts[s][n];
        counts.placements += found * this.weights[word >> this.pairShift];
        counts.longest = distance;
      }
    }
  };
}

/** Takes out of a set what is not in another. */
function keepWithin(set: BothTurns, limit: BothTurns): void {
  for (const turn of ["winner", "loser"] as const) keepOnly(set[turn], limit[turn]);
}
const within = (set: BothTurns, limit: BothTurns): BothTurns => ({
  winner: keepOnly(set.winner.slice(), limit.winner),
  loser: keepOnly(set.loser.slice(), limit.loser),
});
const empty = ({ winner, loser }: BothTurns): BothTurns => ({
  winner: new Uint32Array(winner.length),
  loser: new Uint32Array(loser.length),
});

/** The stations of a material, ready to be asked about placements. */
export class Stages {
  private constructor(
    readonly found: Stations,
    private readonly moves: readonly StationMoves[],
  ) {}

  /**
   * The stations that a catalogue has for a material, whose tables are in `folder`. What is not remembered there is worked out
   * over the whole table, on `threads` threads; `onWork` is told what is done. What cannot be written is worked out again.
   */
  static async of(
    material: Material,
    catalogue: Catalogue,
    { folder, threads }: { folder: string; threads: number },
    onWork: (what: string) => void,
  ): Promise<Stages> {
    const tests = stationsIn(catalogue, material);
    const definitions = definitionsOf(tests);
    const longest = longestConversion(folder, material);
    const limits = [...new Set(NEAR.map((part) => Math.ceil(part * longest)))];
    const summary = join(
      folder,
      `${material.id}.stations.${keyOf(`stations ${definitions.join("; ")}; ${limits.join(" ")}`)}.json`,
    );
    const path = ({ station, within }: Pick<Goal, "station" | "within">) =>
      join(folder, `${material.id}.${keyOf(`station ${definitions[station]}; ${within}`)}.stage`);
    const stages = (found: Stations, moves: readonly Uint8Array[]) =>
      new Stages(
        found,
        moves.map((bytes) => new StationMoves(bytes, material.men - 2)),
      );
    const known = readSealed(summary) as Stations | undefined;
    const kept = known?.goals.map((goal) => readSealedBytes(path(goal), NAME));
    if (known && kept!.every((bytes) => bytes !== undefined)) return stages(known, kept!);
    const sets = await setsOf(material, tests, threads, onWork);
    const moves: Uint8Array[] = [];
    const found = workOut(
      material,
      tests.map(({ name }, n) => ({ name, set: sets[n] })),
      limits,
      (slices) => moves.push(packed(slices)),
      onWork,
    );
    try {
      found.goals.forEach((goal, n) => writeSealedBytes(path(goal), NAME, moves[n]));
      writeSealed(summary, found);
    } catch {
      // it will be worked out again the next time
    }
    return stages(found, moves);
  }

  /** Moves at most until a goal, or a win before it, with the defender to move; undefined where it is not lost. */
  movesTo(goal: number, squares: readonly Square[]): Moves | undefined {
    return this.moves[goal].at(squares);
  }

  /** The least cost of a way from any of a goal's placements to the win: see `costOf`. */
  costBehind(goal: number): number {
    const { goals } = this.found;
    const { station, within } = goals[goal];
    return Math.min(
      costOf(within),
      ...goals.flatMap((next, n) =>
        next.station !== station && next.within < within
          ? [costOf(next.from[goal]) + this.costBehind(n)]
          : [],
      ),
    );
  }
}

const stationsIn = (catalogue: Catalogue, material: Material) =>
  catalogue.tests(material).filter(({ side }) => side === "attacker");
const definitionsOf = (tests: readonly NamedSetUp[]) => tests.map(({ test }) => definitionText(test.means));

/** The placements of stations, won or not. */
async function setsOf(
  material: Material,
  tests: readonly NamedSetUp[],
  threads: number,
  onWork: (what: string) => void,
): Promise<(() => BothTurns)[]> {
  onWork("looking at the whole table for the stations of a win (once; they are remembered)");
  const questions = tests.map(({ test }) => test);
  const winner = await planesOf(material, questions, threads);
  const loser = await planesOf(material, questions, threads, undefined, "defender");
  return winner.map((plane, n) => () => ({ winner: plane(), loser: loser[n]() }));
}

/**
 * For each station the won placements of the table, with all twins, from which the attacker can bring it about on a defender
 * who gives nothing away at once; remembered like the stations.
 */
export async function forcedFrom(
  material: Material,
  catalogue: Catalogue,
  { folder, threads }: { folder: string; threads: number },
  onWork: (what: string) => void,
): Promise<readonly number[]> {
  const tests = stationsIn(catalogue, material);
  const path = join(folder, `${material.id}.forced.${keyOf(definitionsOf(tests).join("; "))}.json`);
  return remembered(path, async () => {
    const sets = await setsOf(material, tests, threads, onWork);
    onWork("working out from where each station can be forced (once)");
    const solver = new KeepSolver(halvesOf(material)[0], 1);
    const [all] = solver.decided([Infinity]);
    return sets.map((unpacked) => {
      const set = unpacked();
      keepWithin(set, all);
      const tally = new Tally([all], [all], 6 * (material.men - 3));
      solver.forced(set, "nothing", tally.add);
      return tally.counts[0][0].placements;
    });
  });
}

/** Works out what there is to know of stations; `onGoal` takes the moves to each goal, in order. */
function workOut(
  material: Material,
  stations: readonly { readonly name: string; readonly set: () => BothTurns }[],
  limits: readonly Moves[],
  onGoal: (slices: Generator<PackedSlice>) => void,
  onWork: (what: string) => void,
): Stations {
  const solver = new KeepSolver(halvesOf(material)[0], 1);
  const pairShift = 6 * (material.men - 3);
  const [all, ...near] = solver.decided([Infinity, ...limits]);
  const sets = stations.map(({ set }) => set());
  for (const set of sets) keepWithin(set, all);
  const everywhere = new Tally(sets, [all, ...near], pairShift);
  solver.forced(empty(all), "a win", everywhere.add);
  const goals = stations.flatMap((_, station) =>
    limits.map((limit, n) => ({ station, n, within: limit, ...everywhere.counts[station][n + 1] })),
  );
  const real = goals.filter(({ placements }) => placements > 0);
  const fromGoals = real.map((goal, done) => {
    onWork(`working out how far the stations of a win are: ${done + 1} of ${real.length} (once)`);
    const tally = new Tally(sets, near, pairShift);
    onGoal(solver.forced(within(sets[goal.station], near[goal.n]), "a win", tally.add)());
    return real.map(({ station, n }) => tally.counts[station][n].longest);
  });
  return {
    won: countBoth(all),
    stations: stations.map(({ name }, n) => {
      const [{ placements, longest }] = everywhere.counts[n];
      return { name, won: placements, longestWin: longest };
    }),
    goals: real.map(({ station, within, placements }, n) => ({
      station,
      within,
      placements,
      from: fromGoals[n],
    })),
  };
}

const countBoth = ({ winner, loser }: BothTurns): number => countPlane(winner) + countPlane(loser);

/** What a stage of so many moves costs a person: one twice as long is four times as hard to see through. */
export const costOf = (moves: Moves): number => moves * moves;

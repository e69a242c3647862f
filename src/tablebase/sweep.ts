// A sweep: a visit to every placement of a material with its value for each side to move, on all threads.
//
// What is lost is first unpacked to a memory that the threads share (values.ts); then they share out the
// king pairs and run the visitor on them. A visitor is the export of a module, since a function cannot be sent to a thread.

import { type Material, parseMaterial } from "../chess/material.js";
import type { Square } from "../chess/units.js";
import { type Crossing, crossingLater, landed } from "../errors.js";
import { cacheFolder } from "../places.js";
import { type Threads, startThreads } from "../threads.js";
import { KING_PAIRS, kingsOfPairs } from "./solver-kernel.js";
import { type SharedTables, Tables, shareTables } from "./tables.js";
import { PairValues, type SharedValues, UNPACKING, shareValues, unpackRows } from "./values.js";

/**
 * The placements of one pair of kings, seen with the defender's king in the triangle a1–d1–d4. A placement's
 * index holds six bits for each other piece: the last piece of the material first, then the others in order.
 */
export interface SweptPair {
  readonly attackerKing: Square;
  readonly defenderKing: Square;
  /** Placements on the board that each of these stands for: 8, or 4 with both kings on the long diagonal. */
  readonly weight: number;
  /** SWEPT_ILLEGAL or 0, and once `findValues` has been called the values. */
  readonly attackerToMove: Uint8Array;
  readonly defenderToMove: Uint8Array;
  readonly material: Material;
  /** Writes the values; nothing where the sweep was to show none. */
  readonly findValues: () => void;
}

/** What a visitor's module exports: `visit` sees pair after pair, `merge` joins what threads have found. */
export interface Visitor<Found, Asked = unknown> {
  /** `tables` gives those of the thread, opened when they are first asked for. */
  readonly start: (asked: Asked, material: Material, tables: () => Tables) => Found;
  readonly visit: (found: Found, pair: SweptPair) => void;
  readonly merge: (one: Found, other: Found) => Found;
}

export type SweepTask =
  | {
      readonly kind: "unpack";
      readonly values: SharedValues;
      readonly half: string;
      readonly first: number;
      readonly pairs: number;
    }
  | {
      readonly kind: "visit";
      readonly values: SharedValues;
      readonly tables: SharedTables | undefined;
      readonly first: number;
      readonly pairs: number;
      readonly visitor: string;
      readonly asked: unknown;
    };

/** This thread's view of the values, and its tables: a thread is asked about one material. */
let seen: PairValues | undefined;
let opened: Tables | undefined;

/** What a worker thread does with a task. */
export const sweepTask = (task: SweepTask): Promise<Crossing<unknown>> => crossingLater(() => done(task));

async function done(task: SweepTask): Promise<unknown> {
  if (task.kind === "unpack") return unpackRows(task.values, task.half, task.first, task.pairs);
  const material = parseMaterial(task.values.target);
  const visitor = (await import(task.visitor)) as Visitor<unknown>;
  const tables = () => (opened ??= new Tables(material, cacheFolder(), task.tables));
  const found = visitor.start(task.asked, material, tables);
  const values = (seen ??= new PairValues(task.values));
  const kings = kingsOfPairs();
  for (let n = task.first; n < task.first + task.pairs; ++n) {
    const [attackerKing, defenderKing] = kings[n];
    const onDiagonal = [attackerKing, defenderKing].every((square) => square >> 3 === (square & 7));
    const [attackerToMove, defenderToMove] = values.legal(n);
    let known = false;
    visitor.visit(found, {
      attackerKing,
      defenderKing,
      weight: onDiagonal ? 4 : 8,
      attackerToMove,
      defenderToMove,
      material,
      findValues: () => {
        if (!known) values.find(n);
        known = true;
      },
    });
  }
  return found;
}

export interface SweepOptions {
  readonly threads: number;
  /** Address (file URL) of the visitor's module. */
  readonly visitor: string;
  readonly asked?: unknown;
  /** Whether placements have values: true, if not said. */
  readonly values?: boolean;
}

/** King pairs in a task: small enough to share the work out evenly. */
const PAIRS_AT_ONCE = 11;

/** Visits every placement of a material and returns what the visitor found. Throws `tables-missing` and `table-damaged`. */
export async function sweep<Found>(material: Material, options: SweepOptions): Promise<Found> {
  const { threads, visitor, asked, values: withValues = true } = options;
  const tables = withValues ? shareTables(material, cacheFolder()) : undefined;
  const values = shareValues(material, cacheFolder(), withValues, threads);
  const pool: Threads<SweepTask, Crossing<unknown>> = startThreads("sweep", {
    most: threads,
    least: threads,
  });
  /** Runs a task for each so many pairs of kings. */
  const ofPairs = (size: number, task: (first: number, pairs: number) => SweepTask): Promise<unknown>[] => {
    const tasks: Promise<unknown>[] = [];
    for (let first = 0; first < KING_PAIRS; first += size)
      tasks.push(pool.run(task(first, Math.min(size, KING_PAIRS - first))).then(landed));
    return tasks;
  };
  try {
    const part = Math.ceil(KING_PAIRS / Math.min(threads, UNPACKING));
    await Promise.all(
      [...values.rows.keys()].flatMap((half) =>
        ofPairs(part, (first, pairs) => ({ kind: "unpack", values, half, first, pairs })),
      ),
    );
    const found = await Promise.all(
      ofPairs(PAIRS_AT_ONCE, (first, pairs) => ({
        kind: "visit",
        values,
        tables,
        first,
        pairs,
        visitor,
        asked,
      })),
    );
    const { merge } = (await import(visitor)) as Visitor<unknown>;
    return found.reduce((one, other) => merge(one, other)) as Found;
  } finally {
    await pool.destroy();
  }
}

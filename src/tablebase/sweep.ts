// A sweep: a visit to every placement of a material with its value for each side to move, on all threads.
//
// The values of each half are worked out from its file by a thread (both-turns.ts). They lie in shared memory; then the
// threads share out the king pairs and run the visitor on them. A visitor is the export of a module, since a function cannot be sent to a thread.
// Who asks for no values is shown what is legal: a bit for each placement instead of a byte for each half. So is who asks for
// few of them, and looks these up one by one in tables that the threads share.

import { type Material, parseMaterial } from "../chess/material.js";
import { IMAGES } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import { cacheFolder } from "../places.js";
import { type Threads, startThreads } from "../threads.js";
import { writeBothTurns } from "./both-turns.js";
import { type SharedTables, Tables, unpack } from "./tables.js";
import { type Half, halfNamed, halvesOf, isEmpty } from "./half.js";
import {
  KING_PAIRS,
  declare,
  kingNumbering,
  kingsOfPairs,
  newKernel,
  placementsOf,
} from "./solver-kernel.js";

/** Bytes of a swept value: 0 drawn, 1–127 won in n − 1 moves, 128–254 lost in n − 128, 255 not legal. */
export const SWEPT_ILLEGAL = 255;
export const SWEPT_LOST = 128;

/**
 * The placements of one pair of kings, seen with the defender's king in the triangle a1–d1–d4. A placement's
 * index holds six bits for each other piece: the last piece of the material first, then the others in order.
 */
export interface SweptPair {
  readonly attackerKing: Square;
  readonly defenderKing: Square;
  /** Placements on the board that each of these stands for: 8, or 4 with both kings on the long diagonal. */
  readonly weight: number;
  readonly attackerToMove: Uint8Array;
  readonly defenderToMove: Uint8Array;
  readonly material: Material;
  /** Gives the value of a legal placement where the arrays only tell what is legal and values are looked up one by one. */
  readonly valueOf: ((squares: readonly Square[], attackerToMove: boolean) => number) | undefined;
}

/**
 * What a sweep shows of values: all of them; none, all that is legal as drawn; or none until one is asked for (see
 * `SweptPair.valueOf`), which is less work where it is one placement in fifty or less.
 */
export type ValuesShown = "all" | "none" | "when asked";

/** Bits of a placement's index below those of each piece beside the kings, in a placement's order. */
export const shiftsOf = ({ men }: Material): number[] =>
  Array.from({ length: men - 2 }, (_, slot) => 6 * (slot === men - 3 ? men - 3 : men - 4 - slot));

/** Index in a placement's squares of the piece whose squares follow each other in a sweep. */
export const columnOf = (material: Material): number => 2 + shiftsOf(material).indexOf(0);

/** What a visitor's module exports: `visit` sees pair after pair, `merge` joins what threads have found. */
export interface Visitor<Found, Asked = unknown> {
  /** `tables` gives those of the thread, opened when they are first asked for. */
  readonly start: (asked: Asked, material: Material, tables: () => Tables) => Found;
  readonly visit: (found: Found, pair: SweptPair) => void;
  readonly merge: (one: Found, other: Found) => Found;
}

interface Planes {
  readonly winner: SharedArrayBuffer;
  readonly loser: SharedArrayBuffer;
}

/** What the visited placements are known by: the values of both halves, or the attacker's half's legal bits. */
type Values =
  | { readonly attacker: Planes; readonly defender: Planes | undefined }
  | { readonly legal: Planes; readonly tables: SharedTables | undefined };

export type SweepTask =
  | { readonly kind: "values"; readonly half: string; readonly planes: Planes; readonly illegal: boolean }
  | { readonly kind: "legal"; readonly half: string; readonly planes: Planes }
  | {
      readonly kind: "visit";
      readonly target: string;
      readonly values: Values;
      readonly first: number;
      readonly pairs: number;
      readonly visitor: string;
      readonly asked: unknown;
    };

/** What a worker thread does with a task. */
export async function sweepTask(task: SweepTask): Promise<unknown> {
  if (task.kind === "values") {
    const half = halfNamed(task.half);
    const { winner, loser } = task.planes;
    writeBothTurns(cacheFolder(), half, new Uint8Array(winner), new Uint8Array(loser), task.illegal);
    return undefined;
  }
  if (task.kind === "legal") {
    findLegal(halfNamed(task.half), task.planes);
    return undefined;
  }
  const material = parseMaterial(task.target);
  const visitor = (await import(task.visitor)) as Visitor<unknown>;
  const shared = "legal" in task.values ? task.values.tables : undefined;
  const tables = () => (opened ??= new Tables(material, cacheFolder(), shared));
  const found = visitor.start(task.asked, material, tables);
  const kings = kingsOfPairs();
  const valuesOf = valueReader(task.values, 64 ** (material.men - 2));
  const valueOf = shared && valueLookup(tables());
  for (let n = task.first; n < task.first + task.pairs; ++n) {
    const [attackerKing, defenderKing] = kings[n];
    const onDiagonal = [attackerKing, defenderKing].every((square) => square >> 3 === (square & 7));
    const pair: SweptPair = {
      attackerKing,
      defenderKing,
      weight: onDiagonal ? 4 : 8,
      ...valuesOf(n),
      material,
      valueOf,
    };
    if ("attacker" in task.values && task.values.defender) addLosses(pair, task.values.defender);
    visitor.visit(found, pair);
  }
  return found;
}

/** Gives the values of a pair of kings, each array of `size` placements; what is shown of one is used again for the next. */
function valueReader(
  values: Values,
  size: number,
): (pair: number) => Pick<SweptPair, "attackerToMove" | "defenderToMove"> {
  if ("attacker" in values) {
    const [winner, loser] = [new Uint8Array(values.attacker.winner), new Uint8Array(values.attacker.loser)];
    return (n) => ({
      attackerToMove: winner.subarray(n * size, (n + 1) * size),
      defenderToMove: loser.subarray(n * size, (n + 1) * size),
    });
  }
  const bits = [new Uint32Array(values.legal.winner), new Uint32Array(values.legal.loser)];
  const [attackerToMove, defenderToMove] = [new Uint8Array(size), new Uint8Array(size)];
  return (n) => {
    spreadLegal(bits[0], n, attackerToMove);
    spreadLegal(bits[1], n, defenderToMove);
    return { attackerToMove, defenderToMove };
  };
}

/** This thread's tables: a thread is asked about one material. */
let opened: Tables | undefined;

/** Looks up swept values in tables. */
export function valueLookup(tables: Tables): NonNullable<SweptPair["valueOf"]> {
  return (squares, attackerToMove) => {
    const { verdict, dtm } = unpack(tables.probe(squares, attackerToMove));
    if (verdict === "drawn") return 0;
    return verdict === "won" ? dtm! + 1 : SWEPT_LOST + dtm!;
  };
}

/** Marks what is not legal among a pair's placements. Bits are words by the other pieces; in a sweep the last piece comes first. */
function spreadLegal(bits: Uint32Array, pair: number, values: Uint8Array): void {
  values.fill(SWEPT_ILLEGAL);
  const words = values.length / 64;
  for (let word = 0; word < words; ++word)
    for (const half of [0, 1])
      for (let rest = bits[2 * (pair * words + word) + half]; rest !== 0; rest &= rest - 1)
        values[(32 * half + 31 - Math.clz32(rest & -rest)) * words + word] = 0;
}

/** Writes which placements of a half are legal, with each side to move: a bit for each, 64 of a word by the last piece's square. */
function findLegal(half: Half, { winner, loser }: Planes): void {
  const kernel = newKernel();
  const words = declare(kernel, half);
  kernel.legal();
  // the winner's set comes first, the loser's right behind it
  const bits = new Uint8Array(kernel.memory.buffer, kernel.winsAddress(), 2 * words * 8);
  new Uint8Array(winner).set(bits.subarray(0, words * 8));
  new Uint8Array(loser).set(bits.subarray(words * 8));
}

/** Writes the defender's wins, which are numbered with the kings' parts exchanged, into a pair's values. */
function addLosses(pair: SweptPair, planes: Planes): void {
  const { pairs, symmetries } = kingNumbering();
  const { attackerKing, defenderKing, material } = pair;
  const reverse = defenderKing * 64 + attackerKing;
  const image = symmetries[reverse] * 64;
  const pieces = material.men - 2;
  const size = 64 ** pieces;
  const winner = new Uint8Array(planes.winner).subarray(pairs[reverse] * size, (pairs[reverse] + 1) * size);
  const loser = new Uint8Array(planes.loser).subarray(pairs[reverse] * size, (pairs[reverse] + 1) * size);
  // where each of this pair's digits stands in the other numbering: there the defender's pieces come first
  const attackers = material.attacker.length;
  const defenders = material.defender.length;
  const shifts = shiftsOf(material);
  const moves = shifts.map((from, slot) => ({
    from,
    to: shifts[slot < attackers ? defenders + slot : slot - attackers],
  }));
  // the numbers' digits are independent: the row's part is worked out once for its 64 placements
  const column = moves.find(({ from }) => from === 0)!;
  const columns = Int32Array.from({ length: 64 }, (_, square) => IMAGES[image + square] << column.to);
  for (let row = 0; row < size; row += 64) {
    let base = 0;
    for (const { from, to } of moves) if (from > 0) base |= IMAGES[image + ((row >> from) & 63)] << to;
    for (let n = 0; n < 64; ++n) {
      const index = row + n;
      const other = base | columns[n];
      if (pair.attackerToMove[index] === 0 && loser[other] > 0)
        pair.attackerToMove[index] = SWEPT_LOST + loser[other] - 1;
      if (pair.defenderToMove[index] === 0 && winner[other] > 0)
        pair.defenderToMove[index] = SWEPT_LOST + winner[other] - 1;
    }
  }
}

export interface SweepOptions {
  readonly threads: number;
  /** Address (file URL) of the visitor's module. */
  readonly visitor: string;
  readonly asked?: unknown;
  /** All, if not said. */
  readonly values?: ValuesShown;
}

const planesFor = (half: Half): Planes => ({
  winner: new SharedArrayBuffer(placementsOf(half)),
  loser: new SharedArrayBuffer(placementsOf(half)),
});

type Pool = Threads<SweepTask, unknown>;

/** Works out the values of both halves of a material. */
async function valuesOf(material: Material, pool: Pool): Promise<Values> {
  const halves = halvesOf(material);
  const [attacker, defender] = halves.map((half) => (isEmpty(half) ? undefined : planesFor(half)));
  await Promise.all(
    [attacker, defender].map(async (planes, n) => {
      if (planes) await pool.run({ kind: "values", half: halves[n].name, planes, illegal: n === 0 });
    }),
  );
  return { attacker: attacker!, defender };
}

/** Finds what is legal; `lookups` says that values will be asked for. */
async function legalOf(material: Material, pool: Pool, lookups: boolean): Promise<Values> {
  const [half] = halvesOf(material);
  const size = placementsOf(half) / 8;
  const planes = { winner: new SharedArrayBuffer(size), loser: new SharedArrayBuffer(size) };
  await pool.run({ kind: "legal", half: half.name, planes });
  if (!lookups) return { legal: planes, tables: undefined };
  const tables = new Tables(material, cacheFolder());
  try {
    return { legal: planes, tables: tables.share() };
  } finally {
    tables.close();
  }
}

/** King pairs in a task: small enough to share the work out evenly. */
const PAIRS_AT_ONCE = 11;

/** Visits every placement of a material and returns what the visitor found. */
export async function sweep<Found>(material: Material, options: SweepOptions): Promise<Found> {
  const pool = startThreads<SweepTask, unknown>("sweep", { most: options.threads, least: options.threads });
  try {
    const { values: shown = "all" } = options;
    const values = await (shown === "all"
      ? valuesOf(material, pool)
      : legalOf(material, pool, shown === "when asked"));
    const tasks: Promise<unknown>[] = [];
    for (let first = 0; first < KING_PAIRS; first += PAIRS_AT_ONCE) {
      const pairs = Math.min(PAIRS_AT_ONCE, KING_PAIRS - first);
      const { visitor, asked } = options;
      tasks.push(
        pool.run({
          kind: "visit",
          target: material.name,
          values,
          first,
          pairs,
          visitor,
          asked,
        }),
      );
    }
    const found = await Promise.all(tasks);
    const { merge } = (await import(options.visitor)) as Visitor<unknown>;
    return found.reduce((one, other) => merge(one, other)) as Found;
  } finally {
    await pool.destroy();
  }
}

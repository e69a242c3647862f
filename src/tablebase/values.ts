// What a sweep sees of a material: which placements of a pair of kings are legal, and their values with each side to move.
//
// The memory is shared by the threads of a sweep. What is lost with the loser to move is unpacked from the files into it
// once, a byte for each placement; what is won with the winner to move each thread works out for a pair of kings at a time
// (kernel/values.ts). Placements that only the defender can win are few, and memory that stays zero costs nothing.

import { type Material, parseMaterial } from "../chess/material.js";
import { type Symmetry, inverseOf } from "../chess/squares.js";
import { valuesKernelFile } from "../places.js";
import { instantiate } from "../wasm.js";
import { BLOCK } from "./codec.js";
import { type Half, equalSlots, halfNamed, halvesOf, isEmpty, smallerHalves } from "./half.js";
import { kingNumbering, kingsOfPairs, placementsOf } from "./solver-kernel.js";
import { TableFile, tableFile } from "./table-file.js";

/** Values in a sweep: 0 drawn, 1–127 won in n − 1 moves, 128–254 lost in n − 128, 255 not legal. */
export const SWEPT_ILLEGAL = 255;
export const SWEPT_LOST = 128;

/** The place of a swept value's verdict in `VERDICTS`. */
export const verdictPlace = (value: number): number => (value === 0 ? 1 : value < SWEPT_LOST ? 0 : 2);
/** The winner's moves to mate of a swept value, 0 where it is drawn. */
export const movesOf = (value: number): number =>
  value === 0 ? 0 : value < SWEPT_LOST ? value - 1 : value - SWEPT_LOST;

/** Bits of a placement's index in a sweep below those of each piece beside the kings, in a placement's order. */
export const shiftsOf = ({ men }: Material): number[] =>
  Array.from({ length: men - 2 }, (_, slot) => 6 * (slot === men - 3 ? men - 3 : men - 4 - slot));

/** Index in a placement's squares of the piece whose squares follow each other in a sweep. */
export const columnOf = (material: Material): number => 2 + shiftsOf(material).indexOf(0);

const PAGE = 65536;
/** Bytes of the tables of the board, with which the memory begins (`TABLES_END` in kernel/board.ts). */
const TABLES = 6 * PAGE;
/** Bytes of a thread's room before its planes (see `SLICES` in the kernel). */
const BEFORE_SLICES = 4096;
/** Threads that unpack a half at once, at most. */
export const UNPACKING = 8;

interface Exports {
  fillTables(): void;
  attach(address: number): void;
  lookAt(pieces: number, winners: number, rows: number): void;
  setSlot(slot: number, kind: number, smaller: number): void;
  sliceAddress(turn: number): number;
  keep(pair: number): void;
  putInOrder(pair: number, equal: number): void;
  setStride(slot: number, bits: number): void;
  show(pair: number, values: number): void;
  addTo(pair: number, symmetry: number, toWin: number, toLose: number): void;
}

/** The memory of a sweep, as it is sent to its threads. */
export interface SharedValues {
  readonly target: string;
  readonly folder: string;
  readonly memory: WebAssembly.Memory;
  /** Addresses of the rows of each half that is looked at; none where no values are. */
  readonly rows: ReadonlyMap<string, number>;
}

const kernelIn = (memory: WebAssembly.Memory): Exports =>
  instantiate<Exports>(valuesKernelFile(), { env: { memory } });

/** The halves whose losses tell the values of a half: itself, and those that the winner's captures lead to. */
const rowsNeeded = (half: Half): Half[] => [
  half,
  ...smallerHalves(half)
    .filter(({ side, half: smaller }) => side === 0 && smaller.pieces > 0)
    .map(({ half: smaller }) => smaller),
];

/**
 * Lays out the memory for the values of a material whose tables are in a folder, or only for what is legal, for so many
 * threads.
 */
export function shareValues(
  material: Material,
  folder: string,
  withValues: boolean,
  threads: number,
): SharedValues {
  const main = halvesOf(material);
  const needed = withValues ? main.filter((half) => !isEmpty(half)).flatMap(rowsNeeded) : [];
  let end = TABLES;
  const take = (bytes: number) => {
    const start = end;
    end += Math.ceil(bytes / 64) * 64;
    return start;
  };
  const rows = new Map<string, number>();
  for (const half of needed) if (!rows.has(half.name)) rows.set(half.name, take(placementsOf(half)));
  const pages = Math.ceil(end / PAGE);
  // room for each thread's look at both halves, and for those that unpack
  const kernels = 2 * threads + UNPACKING * rows.size;
  const maximum = pages + kernels * roomPages(main[0]);
  const memory = new WebAssembly.Memory({ initial: pages, maximum, shared: true });
  kernelIn(memory).fillTables();
  return { target: material.name, folder, memory, rows };
}

const roomPages = (half: Half): number => Math.ceil((BEFORE_SLICES + 2 * 64 ** half.pieces) / PAGE);

/** A kernel that looks at one half. */
class HalfValues {
  private readonly kernel: Exports;
  /** The planes of a pair of kings: with the winner and with the loser to move. */
  readonly planes: readonly [Uint8Array, Uint8Array];

  constructor(
    readonly half: Half,
    { memory, rows }: SharedValues,
    /** Where the square of the piece in each slot stands in the planes of the other half. */
    strides: readonly number[] = [],
  ) {
    this.kernel = kernelIn(memory);
    this.kernel.attach(memory.grow(roomPages(half)) * PAGE);
    this.kernel.lookAt(half.pieces, half.winner.length, rows.get(half.name) ?? 0);
    const smaller = smallerHalves(half);
    [...half.winner, ...half.loser].forEach((kind, slot) =>
      this.kernel.setSlot(slot, kind, rows.get(smaller[slot].half.name) ?? 0),
    );
    strides.forEach((bits, slot) => this.kernel.setStride(slot, bits));
    const plane = (turn: number) =>
      new Uint8Array(memory.buffer, this.kernel.sliceAddress(turn), 64 ** half.pieces);
    this.planes = [plane(0), plane(1)];
  }

  /** Reads the losses of some pairs of kings into the rows. Throws `table-damaged`. */
  unpack(file: TableFile, first: number, pairs: number): void {
    const { half, kernel } = this;
    const plane = this.planes[1];
    const equal = equalSlots(half);
    const blocks = Math.ceil(plane.length / BLOCK);
    const block = new Uint8Array(BLOCK);
    for (let pair = first; pair < first + pairs; ++pair) {
      let any = false;
      for (let n = 0; n < blocks; ++n) {
        const place = pair * plane.length + n * BLOCK;
        const some = file.readBlock("mate", Math.floor(place / BLOCK), block, 0);
        const from = place % BLOCK;
        const bytes = Math.min(BLOCK, plane.length);
        if (some) plane.set(block.subarray(from, from + bytes), n * BLOCK);
        else plane.fill(0, n * BLOCK, n * BLOCK + bytes);
        any ||= some;
      }
      if (!any) continue;
      kernel.keep(pair);
      if (equal !== 0) kernel.putInOrder(pair, equal);
    }
  }

  show(pair: number, values: boolean): void {
    this.kernel.show(pair, values ? 1 : 0);
  }

  /** Adds what is won and lost of a pair of kings to the planes of the other half, whose squares are images of this pair's. */
  addTo(pair: number, symmetry: Symmetry, { kernel }: HalfValues): void {
    this.kernel.addTo(pair, symmetry, kernel.sliceAddress(0), kernel.sliceAddress(1));
  }
}

/** Unpacks the losses of some pairs of kings of a half, by its name, into the rows. Throws `table-damaged`. */
export function unpackRows(shared: SharedValues, name: string, first: number, pairs: number): void {
  const half = halfNamed(name);
  const file = new TableFile(tableFile(shared.folder, half), half);
  try {
    new HalfValues(half, shared).unpack(file, first, pairs);
  } finally {
    file.close();
  }
}

/** The values of a material's placements, a pair of kings at a time: one thread's view of the memory. */
export class PairValues {
  private readonly attacker: HalfValues;
  private readonly defender: HalfValues | undefined;
  private readonly material: Material;
  private readonly kings = kingsOfPairs();

  constructor(private readonly shared: SharedValues) {
    this.material = parseMaterial(shared.target);
    const [attacker, defender] = halvesOf(this.material);
    this.attacker = new HalfValues(attacker, shared);
    if (!shared.rows.has(defender.name)) return;
    const { attacker: attackers, defender: defenders } = this.material;
    const shifts = shiftsOf(this.material);
    // in the defender's half the defender's pieces come first
    this.defender = new HalfValues(defender, shared, [
      ...shifts.slice(attackers.length, attackers.length + defenders.length),
      ...shifts.slice(0, attackers.length),
    ]);
  }

  /**
   * What is legal of a pair of kings, with the attacker and with the defender to move: SWEPT_ILLEGAL, or 0. Good until the next
   * call.
   */
  legal(pair: number): readonly [Uint8Array, Uint8Array] {
    this.attacker.show(pair, false);
    return this.attacker.planes;
  }

  /** Writes the values to the same places; nothing where the memory is laid out without. */
  find(pair: number): void {
    const { attacker, defender, shared } = this;
    if (shared.rows.size === 0) return;
    attacker.show(pair, true);
    if (defender) this.addLosses(pair, defender);
  }

  /** Adds the defender's wins, which are numbered with the kings' parts exchanged. */
  private addLosses(pair: number, defender: HalfValues): void {
    const { pairs, symmetries } = kingNumbering();
    const [attackerKing, defenderKing] = this.kings[pair];
    const reverse = defenderKing * 64 + attackerKing;
    defender.addTo(pairs[reverse], inverseOf(symmetries[reverse]), this.attacker);
  }
}

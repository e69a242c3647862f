// Probing: the exact value of a placement, from table files that are read block by block when first needed.
//
// The planes lie in shared memory that the system hands out page by page, so that a large table costs only what
// has been looked at, and every worker sees the blocks that another has read. There is no lock: a block's bytes
// are written first and its flag (an atomic store) after; a reader that sees the flag sees the bytes. Two
// threads may unpack the same block at once and then write the same bytes, which does no harm.

import type { Material, Men } from "../chess/material.js";
import { FIRST_MAN } from "../chess/placement.js";
import { SYMMETRIES, imageOf } from "../chess/squares.js";
import type { Moves, Square } from "../chess/units.js";
import { LongsideError } from "../errors.js";
import { BLOCK_BITS, PLANES, TableFile, planeNumber, tableFile } from "./file.js";
import { type Half, halfOf, halvesOf, isEmpty, neededHalves } from "./half.js";
import { kingNumbering } from "./kernel.js";

export type Verdict = "won" | "drawn" | "lost";

/** A probed value, for the attacker. Distances count the winner's moves and are null when drawn. */
export interface Value {
  readonly verdict: Verdict;
  readonly dtm: Moves | null;
  readonly dtc: Moves | null;
}

/**
 * A value in one number, so that a probe allocates nothing: 0 drawn; else ±(65536 + 256 × moves to mate +
 * moves to conversion), positive when the attacker wins.
 */
export type PackedValue = number;

export function unpack(packed: PackedValue): Value {
  if (packed === 0) return { verdict: "drawn", dtm: null, dtc: null };
  const distances = Math.abs(packed) & 0xffff;
  return { verdict: packed > 0 ? "won" : "lost", dtm: distances >> 8, dtc: distances & 255 };
}

/** What a worker needs to read the same tables: file names and shared memory. */
export interface SharedTables {
  readonly halves: readonly {
    half: string;
    path: string;
    planes: SharedArrayBuffer;
    flags: SharedArrayBuffer;
  }[];
}

const IMAGES = Uint8Array.from(
  SYMMETRIES.flatMap((g) => Array.from({ length: 64 }, (_, s) => imageOf(g, s))),
);

class HalfTable {
  private readonly file: TableFile;
  private readonly bytes: Uint8Array;
  private readonly ready: Int32Array;
  private readonly size: number;
  private readonly blocks: number;

  constructor(
    readonly half: Half,
    readonly path: string,
    shared?: { planes: SharedArrayBuffer; flags: SharedArrayBuffer },
  ) {
    this.file = new TableFile(path, half);
    this.size = this.file.manifest.placements;
    this.blocks = this.file.blocksPerPlane;
    this.bytes = new Uint8Array(shared?.planes ?? new SharedArrayBuffer(this.size * PLANES.length));
    this.ready = new Int32Array(shared?.flags ?? new SharedArrayBuffer(this.blocks * PLANES.length * 4));
  }

  share() {
    return {
      half: this.half.name,
      path: this.path,
      planes: this.bytes.buffer as SharedArrayBuffer,
      flags: this.ready.buffer as SharedArrayBuffer,
    };
  }

  private read(plane: number, index: number): number {
    const flag = plane * this.blocks + (index >> BLOCK_BITS);
    if (Atomics.load(this.ready, flag) === 0) {
      const block = this.file.readBlock(plane, index >> BLOCK_BITS);
      if (block) this.bytes.set(block, plane * this.size + ((index >> BLOCK_BITS) << BLOCK_BITS));
      Atomics.store(this.ready, flag, 1);
    }
    return this.bytes[plane * this.size + index];
  }

  /** 0 not won, else 65536 + 256 × moves to mate + moves to conversion. */
  value(index: number, winnerToMove: boolean): number {
    const turn = winnerToMove ? "winner" : "loser";
    const mate = this.read(planeNumber("mate", turn), index);
    if (mate === 0) return 0;
    return 65536 + 256 * (mate - 1) + this.read(planeNumber("conversion", turn), index) - 1;
  }

  close(): void {
    this.file.close();
  }
}

/** The tables of one material seen from its attacker, with those that captures lead to. */
interface Node {
  readonly attackerWins?: HalfTable;
  readonly defenderWins?: HalfTable;
  /** Index of the attacker's men and of the defender's in `squares`. */
  readonly firstDefender: number;
  readonly men: number;
  /** By index of the captured man, from FIRST_MAN. */
  readonly children: readonly Node[];
}

export class Tables {
  private readonly root: Node;
  private readonly halves = new Map<string, HalfTable>();
  private readonly numbering = kingNumbering();
  private readonly scratch: Int8Array[];

  /** Opens the tables of a material. Throws `tables-missing` or `table-damaged`. */
  constructor(
    readonly material: Material,
    folder: string,
    shared?: SharedTables,
  ) {
    const given = new Map(shared?.halves.map((one) => [one.half, one]));
    for (const half of neededHalves(halvesOf(material))) {
      const one = given.get(half.name);
      try {
        this.halves.set(half.name, new HalfTable(half, one?.path ?? tableFile(folder, half), one));
      } catch (thrown) {
        this.close();
        if (thrown instanceof LongsideError && thrown.code === "table-damaged") {
          throw new LongsideError("tables-missing", { material: material.name });
        }
        throw thrown;
      }
    }
    this.root = this.node(material.attacker, material.defender);
    this.scratch = Array.from({ length: material.men + 1 }, (_, men) => new Int8Array(men));
  }

  private node(attacker: Men, defender: Men): Node {
    const table = (winner: Men, loser: Men) => {
      const half = halfOf(winner, loser);
      return isEmpty(half) ? undefined : this.halves.get(half.name)!;
    };
    const less = (men: Men, n: number) => men.filter((_, m) => m !== n);
    return {
      attackerWins: table(attacker, defender),
      defenderWins: table(defender, attacker),
      firstDefender: FIRST_MAN + attacker.length,
      men: FIRST_MAN + attacker.length + defender.length,
      children: [
        ...attacker.map((_, n) => this.node(less(attacker, n), defender)),
        ...defender.map((_, n) => this.node(attacker, less(defender, n))),
      ],
    };
  }

  /** For handing the tables to a worker. */
  share(): SharedTables {
    return { halves: [...this.halves.values()].map((table) => table.share()) };
  }

  private look(node: Node, squares: ArrayLike<Square>, attackerToMove: boolean): PackedValue {
    const pair = squares[0] * 64 + squares[1];
    const image = this.numbering.symmetries[pair] * 64;
    if (node.attackerWins) {
      let index = this.numbering.pairs[pair];
      for (let n = FIRST_MAN; n < node.men; ++n) index = index * 64 + IMAGES[image + squares[n]];
      const value = node.attackerWins.value(index, attackerToMove);
      if (value !== 0) return value;
    }
    if (node.defenderWins) {
      // this half's men: the defender's first, then the attacker's
      const reverse = squares[1] * 64 + squares[0];
      const mirror = this.numbering.symmetries[reverse] * 64;
      let index = this.numbering.pairs[reverse];
      for (let n = node.firstDefender; n < node.men; ++n) index = index * 64 + IMAGES[mirror + squares[n]];
      for (let n = FIRST_MAN; n < node.firstDefender; ++n) index = index * 64 + IMAGES[mirror + squares[n]];
      return -node.defenderWins.value(index, !attackerToMove) || 0;
    }
    return 0;
  }

  /**
   * The value of a legal placement of the material; squares in a placement's order. A placement that is not
   * legal gives a meaningless value.
   */
  probe(squares: ArrayLike<Square>, attackerToMove: boolean): PackedValue {
    return this.look(this.root, squares, attackerToMove);
  }

  /** The value after man `captured` (its index in `squares`) has been taken off; `attackerToMove` then. */
  probeWithout(squares: ArrayLike<Square>, captured: number, attackerToMove: boolean): PackedValue {
    const rest = this.scratch[squares.length - 1];
    for (let n = 0, m = 0; n < squares.length; ++n) if (n !== captured) rest[m++] = squares[n];
    return this.look(this.root.children[captured - FIRST_MAN], rest, attackerToMove);
  }

  close(): void {
    for (const table of this.halves.values()) table.close();
  }
}

// Probing: the exact value of a placement, from table files that are read block by block when first needed, by the
// compiled kernel (kernel/probe.ts).

import type { Material, Pieces } from "../chess/material.js";
import type { MoveList } from "../chess/moves.js";
import type { Moves, Square } from "../chess/units.js";
import { type Score, type Verdict, scoreOf } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import { type Half, equalSlots, halfOf, halvesOf, neededHalves, smallerHalves, without } from "./half.js";
import { type ProbeKernel, layOut, newMemory, probeKernel } from "./probe-kernel.js";
import { TableFile, tableFile } from "./table-file.js";
import { Unpacked } from "./unpacked.js";

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

/** What a probe wants to know: distances too, or only who wins, in any number of moves or in so many at most. */
type Wanted = number;
const DISTANCES: Wanted = -1;
const VERDICT: Wanted = 255;

/** No number of moves. */
export const UNTOLD = -1;

/** What is known of each move of a `MoveList`. */
export interface MoveValues {
  /** Who wins after the move: 1 the attacker, -1 the defender, 0 neither. */
  readonly verdicts: Int8Array;
  /** The winner's moves to conversion that are left, where the side to move wins by a move that takes nothing; else UNTOLD. */
  readonly conversions: Int16Array;
}

/** What a worker needs to read the same tables: the memory, and the files, whole where they are small. */
export interface SharedTables {
  readonly memory: WebAssembly.Memory;
  readonly files: readonly { readonly path: string; readonly whole: SharedArrayBuffer | undefined }[];
}

export class Tables {
  private readonly files: TableFile[] = [];
  private readonly memory: WebAssembly.Memory;
  private readonly kernel: ProbeKernel;
  /** What `probeMoves` has found: good until the next call. */
  readonly moveValues: MoveValues;

  /** Opens the tables of a material. Throws `tables-missing`. */
  constructor(
    readonly material: Material,
    folder: string,
    shared?: SharedTables,
  ) {
    const halves = neededHalves(halvesOf(material));
    try {
      halves.forEach((half, n) => {
        const given = shared?.files[n];
        this.files.push(new TableFile(given?.path ?? tableFile(folder, half), half, given?.whole));
      });
    } catch (thrown) {
      this.close();
      if (thrown instanceof LongsideError && thrown.code === "table-damaged")
        throw new LongsideError("tables-missing", { material: material.name });
      throw thrown;
    }
    const { halves: places, pages } = layOut(this.files.map(({ blocks }) => blocks));
    this.memory = shared?.memory ?? newMemory(pages);
    const unpacked = this.files.map((file, n) => new Unpacked(file, this.memory.buffer, places[n]));
    this.kernel = probeKernel(this.memory, (half, part, block) => unpacked[half].unpack(part, block));
    this.moveValues = this.kernel;
    if (shared) return;
    this.kernel.fill();
    const numbers = new Map(halves.map(({ name }, n) => [name, n]));
    const numberOf = (half: Half): number => numbers.get(half.name) ?? -1;
    halves.forEach((half, n) => {
      const { blocks, lost, wins, flags, pairs, ranks } = places[n];
      const winners = half.winner.length;
      this.kernel.declareHalf(
        n,
        half.pieces,
        winners,
        equalSlots(half),
        blocks,
        lost,
        wins,
        flags,
        pairs,
        ranks,
      );
      const smaller = smallerHalves(half);
      [...half.winner, ...half.loser].forEach((kind, slot) =>
        this.kernel.declareSlot(n, slot, kind, slot < winners ? -1 : numberOf(smaller[slot].half)),
      );
    });
    const declareNode = (node: number, attacker: Pieces, defender: Pieces) =>
      this.kernel.declareNode(
        node,
        numberOf(halfOf(attacker, defender)),
        numberOf(halfOf(defender, attacker)),
        attacker.length,
        defender.length,
      );
    const { attacker, defender } = material;
    declareNode(0, attacker, defender);
    attacker.forEach((_, n) => declareNode(1 + n, without(attacker, n), defender));
    defender.forEach((_, n) => declareNode(1 + attacker.length + n, attacker, without(defender, n)));
  }

  /** For handing the tables to a worker. */
  share(): SharedTables {
    return {
      memory: this.memory,
      files: this.files.map((file) => ({ path: file.path, whole: file.readWhole() })),
    };
  }

  private place(squares: ArrayLike<Square>): void {
    const { squares: placed } = this.kernel;
    for (let n = 0; n < squares.length; ++n) placed[n] = squares[n];
  }

  private look(squares: ArrayLike<Square>, attackerToMove: boolean, wanted: Wanted): PackedValue {
    this.place(squares);
    return this.kernel.probe(attackerToMove ? 1 : 0, wanted);
  }

  private lookAfter(
    squares: ArrayLike<Square>,
    piece: number,
    to: Square,
    attackerToMove: boolean,
    wanted: Wanted,
  ): PackedValue {
    this.place(squares);
    return this.kernel.probeAfter(piece, to, attackerToMove ? 1 : 0, wanted);
  }

  /**
   * The value of a legal placement of the material; squares in a placement's order. A placement that is not
   * legal gives a meaningless value. Throws `table-damaged`.
   */
  probe(squares: ArrayLike<Square>, attackerToMove: boolean): PackedValue {
    return this.look(squares, attackerToMove, DISTANCES);
  }

  /** The value after the side to move has moved piece `piece` (its index in `squares`) to `to`, taking what stands there. */
  probeAfter(squares: ArrayLike<Square>, piece: number, to: Square, attackerToMove: boolean): PackedValue {
    return this.lookAfter(squares, piece, to, attackerToMove, DISTANCES);
  }

  /** Only who wins: 1 the attacker, -1 the defender, 0 neither. Less work than `probe`. */
  verdict(squares: ArrayLike<Square>, attackerToMove: boolean): Score {
    return scoreOf(this.look(squares, attackerToMove, VERDICT));
  }

  /** Only who wins after a move: see `probeAfter`. */
  verdictAfter(squares: ArrayLike<Square>, piece: number, to: Square, attackerToMove: boolean): Score {
    return scoreOf(this.lookAfter(squares, piece, to, attackerToMove, VERDICT));
  }

  /**
   * Who wins after a move that takes nothing, with a conversion in at most `moves` moves of the winner (0 or more); 0
   * where nobody does within them.
   */
  verdictAfterWithin(
    squares: ArrayLike<Square>,
    piece: number,
    to: Square,
    attackerToMove: boolean,
    moves: Moves,
  ): Score {
    return scoreOf(this.lookAfter(squares, piece, to, attackerToMove, Math.min(moves, VERDICT)));
  }

  /**
   * The value of a legal placement, as `probe` gives it, and what is known of each of its moves (see `moveValues`): `list`
   * holds all that are legal. Throws `table-damaged`.
   */
  probeMoves(squares: ArrayLike<Square>, list: MoveList, attackerToMove: boolean): PackedValue {
    const { movePiece, moveTo, moveTaken } = this.kernel;
    this.place(squares);
    for (let m = 0; m < list.count; ++m) {
      movePiece[m] = list.piece[m];
      moveTo[m] = list.to[m];
      moveTaken[m] = list.captured[m];
    }
    return this.kernel.probeMoves(attackerToMove ? 1 : 0, list.count);
  }

  close(): void {
    for (const file of this.files) file.close();
  }
}

/** The tables of a material in a folder, for threads that look at them. Throws `tables-missing`. */
export function shareTables(material: Material, folder: string): SharedTables {
  const tables = new Tables(material, folder);
  try {
    return tables.share();
  } finally {
    tables.close();
  }
}

// The compiled kernel of the geometry, as TypeScript sees it: one instance for each material and thread. A placement is
// written into its memory, and what is found is read from there.

import type { Material } from "../chess/material.js";
import type { Square } from "../chess/units.js";
import { geometryKernelFile } from "../places.js";
import { instantiate } from "../wasm.js";

interface Exports {
  readonly memory: WebAssembly.Memory;
  setMen(attackers: number, defenders: number): void;
  setKind(piece: number, kind: number): void;
  settle(): void;
  setTurn(side: number): void;
  toFrame(): number;
  toSortedFrame(): number;
  turnToOtherEdge(): void;
  hasTwoEdges(): number;
  fact(n: number): number;
  allFacts(): void;
  findKinds(): void;
  everything(mayThreaten: number): number;
  countOfMoves(): number;
  movesAddress(n: number): number;
  squaresAddress(): number;
  valuesAddress(): number;
  kindsAddress(): number;
  rowAddress(): number;
  filterRow(n: number, from: number, to: number, inside: number, column: number, mirrored: number): void;
}

export interface GeometryKernel extends Omit<
  Exports,
  | "memory"
  | "setMen"
  | "setKind"
  | "settle"
  | "squaresAddress"
  | "valuesAddress"
  | "kindsAddress"
  | "movesAddress"
  | "rowAddress"
> {
  /** The squares of the placement at hand, in a placement's order; the kernel turns them in place. */
  readonly squares: Int32Array;
  /** The values of all facts after `allFacts`. */
  readonly values: Int32Array;
  /** The kinds of each legal move after `findKinds`, by piece × 64 + its new square; 0 for what is no legal move. */
  readonly kinds: Int32Array;
  /** The legal moves after `findKinds`, `countOfMoves` of them: the piece, its new square, the piece taken or -1. */
  readonly movePiece: Int32Array;
  readonly moveTo: Int32Array;
  readonly moveTaken: Int32Array;
  /** The placements of a row, for `filterRow`: a bit for each square of the piece by which they differ, the low 32 first. */
  readonly row: Uint32Array;
  /** Writes a placement. */
  place(squares: ArrayLike<Square>, attackerToMove: boolean): void;
}

const kernels = new Map<string, GeometryKernel>();

/** The kernel of a material in this thread. Only one placement is in it at a time. */
export function kernelOf(material: Material): GeometryKernel {
  let kernel = kernels.get(material.id);
  if (!kernel) kernels.set(material.id, (kernel = made(material)));
  return kernel;
}

function made({ attacker, defender, men }: Material): GeometryKernel {
  const exports = instantiate<Exports>(geometryKernelFile(), {
    env: {
      abort() {
        throw new Error("the kernel of the geometry stopped");
      },
    },
  });
  exports.setMen(attacker.length, defender.length);
  [...attacker, ...defender].forEach((kind, n) => exports.setKind(2 + n, kind));
  exports.settle();
  // the memory never grows, so that these stay good
  const { buffer } = exports.memory;
  const squares = new Int32Array(buffer, exports.squaresAddress(), men);
  const moves = (n: number) => new Int32Array(buffer, exports.movesAddress(n), 128);
  return {
    ...exports,
    squares,
    values: new Int32Array(buffer, exports.valuesAddress(), 128),
    kinds: new Int32Array(buffer, exports.kindsAddress(), 8 * 64),
    row: new Uint32Array(buffer, exports.rowAddress(), 2),
    movePiece: moves(0),
    moveTo: moves(1),
    moveTaken: moves(2),
    place(placed, attackerToMove) {
      for (let n = 0; n < men; ++n) squares[n] = placed[n];
      exports.setTurn(attackerToMove ? 0 : 1);
    },
  };
}

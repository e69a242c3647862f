// The moves to mate of a half with each side to move, a byte for each placement: what a sweep looks at. With the loser to move
// they are read from the half's file, and what is won is found from these by moves backwards; where there is no such file,
// or it does not hold every order of equal pieces, the half is solved.

import { hasEqualPieces } from "../chess/material.js";
import { LongsideError } from "../errors.js";
import type { Half } from "./half.js";
import { type Segment, type Slice, type Solution, paintPlane, prepare, solveHalf } from "./solve.js";
import { KING_PAIRS, type Kernel } from "./solver-kernel.js";
import { TableFile, tableFile } from "./table-file.js";

/** Wins in a kernel's log, and the losses that they come from, in a plane's order, where they were read. */
interface Known {
  readonly kernel: Kernel;
  readonly segments: readonly Segment[];
  readonly losses: Uint8Array | undefined;
}

/** The losses of a half by its file, and its longest mate; undefined where there is no sound one. */
function stored(folder: string, half: Half): { losses: Uint8Array; longest: number } | undefined {
  if (hasEqualPieces({ attacker: half.winner, defender: half.loser })) return undefined;
  try {
    const file = new TableFile(tableFile(folder, half), half);
    try {
      file.readWhole();
      return { losses: file.readPlane("mate"), longest: file.manifest.counts.longestMate };
    } finally {
      file.close();
    }
  } catch (thrown) {
    if (thrown instanceof LongsideError) return undefined;
    throw thrown;
  }
}

/** Finds what is won with the winner to move from what is lost with the loser to move. */
function winsFrom(half: Half, losses: Uint8Array, longest: number): Known {
  const { kernel } = prepare(half);
  const size = 64 ** half.pieces;
  const room = kernel.beginLosses(longest);
  for (let pair = 0; pair < KING_PAIRS; ++pair) {
    // the log may have taken new memory
    new Uint8Array(kernel.memory.buffer, room, size).set(losses.subarray(pair * size, (pair + 1) * size));
    kernel.logLosses(pair);
  }
  const segments: Segment[] = [];
  for (let distance = 1; distance <= longest; ++distance) {
    const from = kernel.logTop();
    kernel.winsOverLosses(distance);
    segments.push({ metric: "mate", turn: "winner", distance, from, to: kernel.logTop() });
  }
  return { kernel, segments, losses };
}

function known(folder: string, half: Half): Known {
  const file = stored(folder, half);
  if (file) return winsFrom(half, file.losses, file.longest);
  const { kernel, segments }: Solution = solveHalf(half, { keepWins: true });
  return { kernel, segments, losses: undefined };
}

/** A plane in the kernel's memory, slice by slice: use each before the next. */
function* copied(kernel: Kernel, half: Half, plane: Uint8Array): Generator<Slice> {
  const size = 64 ** half.pieces;
  for (let firstPair = 0; firstPair < KING_PAIRS; ++firstPair) {
    const at = kernel.sliceRoom(1);
    const from = firstPair * size;
    new Uint8Array(kernel.memory.buffer, at, size).set(plane.subarray(from, from + size));
    yield { at, size, firstPair, pairs: 1 };
  }
}

/**
 * Writes the moves to mate of both turns to two planes: 0 not won, else the distance + 1; `illegal` writes 255 where a
 * placement is not legal. Of others that nobody may ask about, such as two pieces on a square, it may write anything. Bytes
 * that stay zero are not touched. `folder` has the tables' files.
 */
export function writeBothTurns(
  folder: string,
  half: Half,
  winner: Uint8Array,
  loser: Uint8Array,
  illegal: boolean,
): void {
  const { kernel, segments, losses } = known(folder, half);
  kernel.legal();
  for (const [turn, plane] of [
    ["winner", winner],
    ["loser", loser],
  ] as const) {
    const slices =
      turn === "loser" && losses
        ? copied(kernel, half, losses)
        : paintPlane({ kernel, segments }, half, "mate", turn);
    for (const { at, size, firstPair, pairs } of slices) {
      if (illegal) kernel.sliceIllegal(at, firstPair, pairs, turn === "winner" ? 0 : 1);
      const offset = firstPair * 64 ** half.pieces;
      for (let from = 0; from < size; from += PAGE) {
        const page = new Uint8Array(kernel.memory.buffer, at + from, Math.min(PAGE, size - from));
        if (illegal || page.some((byte) => byte !== 0)) plane.set(page, offset + from);
      }
    }
  }
}

const PAGE = 4096;

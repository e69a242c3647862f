// Which placements of a whole table, with one side to move, are in which set-up: a plane of bits for each, found in one
// sweep for all that are asked about, and kept packed in the cache folder by their definitions. A visitor of `sweep`.

import { join } from "node:path";

import { compress, decompress } from "zstd-napi";

import type { Material } from "../chess/material.js";
import { cacheFolder } from "../places.js";
import { type Question, formatQuestion, writtenOut } from "../query/language/ast.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type Plane, wordsOf } from "../tablebase/keep.js";
import { halvesOf } from "../tablebase/half.js";
import { kingNumbering } from "../tablebase/solver-kernel.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import { keyOf, readSealedBytes, writeSealedBytes } from "./remembered.js";
import { placementTest, visitorModule, walkPair } from "./walk.js";

/** Whose move it is in the placements of a plane. */
export type Turn = "attacker" | "defender";

/** What the threads are asked: definitions in words, and the memory of a plane for each. */
export interface PlanesAsked {
  readonly definitions: readonly string[];
  readonly turn: Turn;
  readonly buffers: readonly SharedArrayBuffer[];
}

let tests: PlacementTest[];
let planes: Uint32Array[];
let wantsAttacker: boolean;

export function start({ definitions, turn, buffers }: PlanesAsked, material: Material): null {
  wantsAttacker = turn === "attacker";
  tests = definitions.map((definition) => placementTest(definition, null, material));
  planes = buffers.map((buffer) => new Uint32Array(buffer));
  return null;
}

export function visit(_: null, pair: SweptPair): void {
  const { material, attackerKing, defenderKing } = pair;
  const pieces = material.men - 2;
  const first = kingNumbering().pairs[attackerKing * 64 + defenderKing] * 64 ** (pieces - 1);
  const ofTurn = (_: readonly number[], attackerToMove: boolean) => attackerToMove === wantsAttacker;
  tests.forEach((test, n) => {
    const plane = planes[n];
    walkPair(
      test,
      pair,
      (squares, attackerToMove) => {
        if (attackerToMove !== wantsAttacker) return;
        let word = 0;
        for (let slot = 0; slot + 1 < pieces; ++slot) word = word * 64 + squares[2 + slot];
        const bit = squares[1 + pieces];
        plane[2 * (first + word) + (bit >> 5)] |= 1 << (bit & 31);
      },
      ofTurn,
    );
  });
}

export const merge = (): null => null;

/** Begins the files of planes. */
const NAME = "longside plane 1";

function readPlane(path: string, words: number): Plane | undefined {
  const packed = readSealedBytes(path, NAME);
  if (!packed) return undefined;
  const plane = new Uint8Array(decompress(Buffer.from(packed)));
  return plane.length === words * 8 ? new Uint32Array(plane.buffer, 0, words * 2) : undefined;
}

const writePlane = (path: string, plane: Plane): void =>
  writeSealedBytes(path, NAME, compress(Buffer.from(plane.buffer, plane.byteOffset, plane.byteLength)));

/** Definitions looked at in one sweep: each takes as much memory as a plane has. */
const AT_ONCE = 8;

/**
 * The plane of each question about placements, in order, with one side to move. Those never asked about before are found in
 * sweeps on `threads` threads; `onMissing` is told how many these are. What cannot be written to the cache is worked out again.
 */
export async function planesOf(
  material: Material,
  questions: readonly Question[],
  threads: number,
  onMissing: (missing: number) => void = () => {},
  turn: Turn = "attacker",
): Promise<Plane[]> {
  const words = wordsOf(halvesOf(material)[0]);
  const definitions = questions.map((question) => formatQuestion(writtenOut(question)));
  const folder = cacheFolder();
  const ofTurn = turn === "attacker" ? "" : ", defender to move";
  const paths = definitions.map((definition) =>
    join(folder, `${material.id}.${keyOf(definition + ofTurn)}.plane`),
  );
  const planes = paths.map((path) => readPlane(path, words));
  const missing = [...planes.keys()].filter((n) => planes[n] === undefined);
  if (missing.length > 0) onMissing(missing.length);
  for (let from = 0; from < missing.length; from += AT_ONCE) {
    const part = missing.slice(from, from + AT_ONCE);
    const buffers = part.map(() => new SharedArrayBuffer(words * 8));
    const asked: PlanesAsked = { definitions: part.map((n) => definitions[n]), turn, buffers };
    await sweep(material, { threads, visitor: visitorModule("planes"), asked });
    part.forEach((n, m) => {
      const plane = new Uint32Array(new Uint32Array(buffers[m]));
      planes[n] = plane;
      try {
        writePlane(paths[n], plane);
      } catch {
        // it will be found again the next time
      }
    });
  }
  return planes as Plane[];
}

// Which placements of a whole table, with one side to move, are in which set-up: a plane of bits for each, found in one
// sweep for all that are asked about, and kept packed by their definitions, in the cache folder and in memory: a plane has
// megabytes, its packed form a hundred times fewer. A visitor of `sweep`.

import { join } from "node:path";

import { compress } from "zstd-napi";
import zstd from "zstd-napi/binding.js";

import type { Material } from "../chess/material.js";
import { cacheFolder } from "../places.js";
import { type Question, definitionText } from "../query/language/ast.js";
import { asksForValues } from "../query/engine/placement-conditions.js";
import type { PlacementTest } from "../query/engine/placement-test.js";
import { type Plane, wordsOf } from "../tablebase/keep.js";
import { halvesOf } from "../tablebase/half.js";
import { kingNumbering } from "../tablebase/solver-kernel.js";
import { type SweptPair, sweep } from "../tablebase/sweep.js";
import type { Tables } from "../tablebase/tables.js";
import { keyOf, readSealedBytes, writeSealedBytes } from "./remembered.js";
import { type Turn, placementTest, visitorModule, walkPair } from "./walk.js";

/** What the threads are asked: definitions in words, and the memory of a plane for each. */
export interface PlanesAsked {
  readonly definitions: readonly string[];
  /** Whose move it is in the placements of the planes. */
  readonly turn: Turn;
  readonly buffers: readonly SharedArrayBuffer[];
}

let tests: PlacementTest[];
let planes: Uint32Array[];
let wanted: Turn;

export function start(
  { definitions, turn, buffers }: PlanesAsked,
  material: Material,
  tables: () => Tables,
): null {
  wanted = turn;
  tests = definitions.map((definition) => placementTest(definition, null, material, tables));
  planes = buffers.map((buffer) => new Uint32Array(buffer));
  return null;
}

export function visit(_: null, pair: SweptPair): void {
  const { material, attackerKing, defenderKing } = pair;
  const pieces = material.men - 2;
  const first = kingNumbering().pairs[attackerKing * 64 + defenderKing] * 64 ** (pieces - 1);
  tests.forEach((test, n) => {
    const plane = planes[n];
    walkPair(
      test,
      pair,
      (squares) => {
        let word = 0;
        for (let slot = 0; slot + 1 < pieces; ++slot) word = word * 64 + squares[2 + slot];
        const bit = squares[1 + pieces];
        plane[2 * (first + word) + (bit >> 5)] |= 1 << (bit & 31);
      },
      { turn: wanted },
    );
  });
}

export const merge = (): null => null;

/** Begins the files of planes. */
const NAME = "longside plane 1";

/** Unpacks a plane, into another or into a new one: whoever asks may change it. */
export type PackedPlane = (into?: Plane) => Plane;

function unpacking(packed: Uint8Array, words: number): PackedPlane {
  return (into = new Uint32Array(words * 2)) => {
    new zstd.DCtx().decompress(new Uint8Array(into.buffer, into.byteOffset, into.byteLength), packed);
    return into;
  };
}

/** The plane kept at a path; undefined where there is none of so many words. */
function readPlane(path: string, words: number): PackedPlane | undefined {
  const packed = readSealedBytes(path, NAME);
  return packed && zstd.getFrameContentSize(packed) === words * 8 ? unpacking(packed, words) : undefined;
}

/** Packs a plane and keeps it at a path; where it cannot be written it will be found again the next time. */
function keepPlane(path: string, plane: Plane): PackedPlane {
  const packed = compress(Buffer.from(plane.buffer, plane.byteOffset, plane.byteLength));
  try {
    writeSealedBytes(path, NAME, packed);
  } catch {
    // nobody is told: the answer is the same
  }
  return unpacking(packed, plane.length / 2);
}

/** Where a plane of a material is kept that is named by what it was worked out from. */
const pathOf = (material: Material, what: string): string =>
  join(cacheFolder(), `${material.id}.${keyOf(what)}.plane`);

/** A plane that is remembered by its name, or worked out. */
export function rememberedPlane(material: Material, name: string, workOut: () => Plane): PackedPlane {
  const path = pathOf(material, name);
  return readPlane(path, wordsOf(halvesOf(material)[0])) ?? keepPlane(path, workOut());
}

/** Definitions looked at in one sweep: each takes as much memory as a plane has. */
const AT_ONCE = 7;

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
): Promise<PackedPlane[]> {
  const words = wordsOf(halvesOf(material)[0]);
  const definitions = questions.map(definitionText);
  const ofTurn = turn === "attacker" ? "" : ", defender to move";
  const paths = definitions.map((definition) => pathOf(material, definition + ofTurn));
  const planes = paths.map((path) => readPlane(path, words));
  const missing = [...planes.keys()].filter((n) => planes[n] === undefined);
  if (missing.length > 0) onMissing(missing.length);
  const unshared = new Uint32Array(missing.length > 0 ? words * 2 : 0);
  // what asks for values needs a solved table: apart from the others, which need none
  for (const values of [false, true]) {
    const some = missing.filter((n) => asksForValues(questions[n]) === values);
    for (let from = 0; from < some.length; from += AT_ONCE) {
      const part = some.slice(from, from + AT_ONCE);
      const buffers = part.map(() => new SharedArrayBuffer(words * 8));
      const asked: PlanesAsked = { definitions: part.map((n) => definitions[n]), turn, buffers };
      await sweep(material, { threads, visitor: visitorModule("planes"), asked, values });
      // what packs cannot read memory that is shared
      part.forEach((n, m) => {
        unshared.set(new Uint32Array(buffers[m]));
        planes[n] = keepPlane(paths[n], unshared);
      });
    }
  }
  return planes as PackedPlane[];
}

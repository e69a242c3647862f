// The table file of one half: four planes (two metrics, two turns), cut into blocks that are compressed one by
// one, behind a head that says what the file is and carries its own checksum.
//
//   bytes 0–7    "longside"
//   8–11         format version        12–15  length of the manifest (JSON, UTF-8)
//   16–47        SHA-256 of everything from byte 48 to the first block
//   48 …         manifest, then for each plane in turn one u32 per block: its compressed length, 0 = all zero
//   then         the blocks (zlib streams, each with its own Adler-32)
//
// All numbers are little-endian. A file is written under another name and renamed when complete, so that a
// killed build leaves nothing that looks whole, and two builds at once replace one good file by another.

import { createHash } from "node:crypto";
import {
  closeSync,
  fstatSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readSync,
  renameSync,
  rmSync,
  writeSync,
} from "node:fs";
import { dirname, join } from "node:path";
import { promisify } from "node:util";
import { deflate, inflateSync } from "node:zlib";

import { LongsideError, causeOf } from "../errors.js";
import type { Half } from "./half.js";
import { placementsOf } from "./kernel.js";
import {
  METRICS,
  type Metric,
  type PlaneCount,
  type Solution,
  TURNS,
  type Turn,
  paintPlane,
} from "./solve.js";

const MAGIC = "longside";
export const FORMAT_VERSION = 1;
/** Placements (bytes) in a block; a power of two. */
export const BLOCK_BITS = 14;
export const BLOCK = 1 << BLOCK_BITS;
const HEAD = 48;
const BLOCKS_AT_ONCE = 256;

export interface Manifest {
  readonly half: string;
  readonly placements: number;
  readonly block: number;
  /** By plane, in the order of `PLANES`. */
  readonly counts: readonly PlaneCount[];
}

export const PLANES: readonly { readonly metric: Metric; readonly turn: Turn }[] = METRICS.flatMap((metric) =>
  TURNS.map((turn) => ({ metric, turn })),
);
export const planeNumber = (metric: Metric, turn: Turn): number =>
  METRICS.indexOf(metric) * TURNS.length + TURNS.indexOf(turn);

export const tableFile = (folder: string, half: Half): string => join(folder, `${half.name}.table`);

const compress = promisify(deflate);

/** Writes the file of a solved half into `folder`, which is made if need be. */
export async function writeTable(folder: string, half: Half, solution: Solution): Promise<void> {
  const path = tableFile(folder, half);
  const unfinished = `${path}.${process.pid}.part`;
  const placements = placementsOf(half);
  const blocks = Math.ceil(placements / BLOCK);
  const lengths = new Uint32Array(blocks * PLANES.length);
  let file: number | undefined;
  try {
    mkdirSync(dirname(path), { recursive: true });
    file = openSync(unfinished, "w");
    // the head is written last; leave room for it
    const counts: PlaneCount[] = [];
    const manifestRoom = 1024;
    let position = HEAD + manifestRoom + lengths.byteLength;
    let block = 0;
    for (const { metric, turn } of PLANES) {
      const count = await paintPlane(solution, metric, turn, (BLOCKS_AT_ONCE * BLOCK) / 64, async (slice) => {
        const parts = [];
        for (let at = 0; at < slice.length; at += BLOCK) {
          const part = slice.subarray(at, at + BLOCK);
          parts.push(part.some((byte) => byte !== 0) ? compress(part, { level: 1, memLevel: 9 }) : undefined);
        }
        for (const part of await Promise.all(parts)) {
          lengths[block++] = part?.length ?? 0;
          if (part) position += writeSync(file!, part, 0, part.length, position);
        }
      });
      counts.push(count);
    }
    const manifest: Manifest = { half: half.name, placements, block: BLOCK, counts };
    const text = Buffer.from(JSON.stringify(manifest).padEnd(manifestRoom));
    const body = Buffer.concat([text, Buffer.from(lengths.buffer)]);
    const head = Buffer.alloc(HEAD);
    head.write(MAGIC, "latin1");
    head.writeUInt32LE(FORMAT_VERSION, 8);
    head.writeUInt32LE(text.length, 12);
    createHash("sha256").update(body).digest().copy(head, 16);
    writeSync(file, Buffer.concat([head, body]), 0, HEAD + body.length, 0);
    fsyncSync(file);
    closeSync(file);
    file = undefined;
    renameSync(unfinished, path);
  } catch (thrown) {
    if (file !== undefined) closeSync(file);
    rmSync(unfinished, { force: true });
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** An open table file: reads and checks single blocks. */
export class TableFile {
  readonly manifest: Manifest;
  private readonly file: number;
  /** Where each block begins, one more than there are blocks. */
  private readonly starts: Float64Array;
  private readonly buffer = Buffer.allocUnsafe(2 * BLOCK);

  /** Opens and checks the head. Throws `table-damaged` (the caller treats a missing file alike: build again). */
  constructor(
    readonly path: string,
    readonly half: Half,
  ) {
    const damaged = (cause: string) => new LongsideError("table-damaged", { path, cause });
    try {
      this.file = openSync(path, "r");
    } catch (thrown) {
      throw damaged(causeOf(thrown));
    }
    try {
      const size = fstatSync(this.file).size;
      const head = Buffer.alloc(HEAD);
      if (readSync(this.file, head, 0, HEAD, 0) < HEAD || head.toString("latin1", 0, 8) !== MAGIC) {
        throw damaged("it is not a table file");
      }
      const version = head.readUInt32LE(8);
      if (version !== FORMAT_VERSION) throw damaged(`format ${version}, expected ${FORMAT_VERSION}`);
      const textLength = head.readUInt32LE(12);
      const placements = placementsOf(half);
      const blocks = Math.ceil(placements / BLOCK) * PLANES.length;
      const body = Buffer.alloc(Math.min(textLength, size) + blocks * 4);
      if (readSync(this.file, body, 0, body.length, HEAD) < body.length) throw damaged("it ends early");
      if (!createHash("sha256").update(body).digest().equals(head.subarray(16, 48))) {
        throw damaged("its head does not match its checksum");
      }
      this.manifest = JSON.parse(body.toString("utf8", 0, textLength)) as Manifest;
      if (this.manifest.half !== half.name || this.manifest.placements !== placements) {
        throw damaged(`it holds ${this.manifest.half}, expected ${half.name}`);
      }
      this.starts = new Float64Array(blocks + 1);
      let position = HEAD + body.length;
      for (let n = 0; n < blocks; ++n) {
        this.starts[n] = position;
        position += body.readUInt32LE(textLength + n * 4);
      }
      this.starts[blocks] = position;
      if (position !== size) throw damaged(`it has ${size} bytes, expected ${position}`);
    } catch (thrown) {
      closeSync(this.file);
      throw thrown;
    }
  }

  get blocksPerPlane(): number {
    return (this.starts.length - 1) / PLANES.length;
  }

  /** The placements of a block, or undefined where all are zero. Throws `table-damaged`. */
  readBlock(plane: number, block: number): Buffer | undefined {
    const n = plane * this.blocksPerPlane + block;
    const length = this.starts[n + 1] - this.starts[n];
    if (length === 0) return undefined;
    const buffer = length <= this.buffer.length ? this.buffer : Buffer.allocUnsafe(length);
    const got = readSync(this.file, buffer, 0, length, this.starts[n]);
    try {
      return inflateSync(buffer.subarray(0, got));
    } catch (thrown) {
      throw new LongsideError(
        "table-damaged",
        { path: this.path, cause: `block ${n}: ${causeOf(thrown)}` },
        { byte: this.starts[n] },
      );
    }
  }

  /** A whole plane. */
  readPlane(metric: Metric, turn: Turn): Uint8Array {
    const plane = new Uint8Array(this.manifest.placements);
    for (let block = 0; block < this.blocksPerPlane; ++block) {
      const part = this.readBlock(planeNumber(metric, turn), block);
      if (part) plane.set(part, block * BLOCK);
    }
    return plane;
  }

  close(): void {
    closeSync(this.file);
  }
}

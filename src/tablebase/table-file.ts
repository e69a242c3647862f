// The table file of one half: three planes (moves to mate and to conversion with the loser to move, and what is won with
// the winner to move), cut into blocks that are compressed one by one, behind a head that says what the file is and
// carries its own checksum.
//
//   bytes 0–7    "longside"
//   8–11         format version        12–15  length of the manifest (JSON, UTF-8)
//   16–47        SHA-256 of everything from byte 48 to the first block
//   48 …         manifest; then for each block, plane by plane, its compressed length (u16, 0 = all zero);
//                then for each block the FNV-1a of its compressed bytes (u32)
//   then         the blocks
//
// All numbers are little-endian. A file is written under another name and renamed when complete, so that a
// killed build leaves nothing that looks whole, and two builds at once replace one good file by another.

import { createHash } from "node:crypto";
import {
  closeSync,
  existsSync,
  fstatSync,
  mkdirSync,
  openSync,
  readSync,
  readdirSync,
  renameSync,
  rmSync,
} from "node:fs";
import { dirname, join } from "node:path";

import { LongsideError, causeOf } from "../errors.js";
import { isAlive } from "../processes.js";
import { writeAllAt } from "../write-whole.js";
import { BLOCK, checksum, decodeBits, decodeBlock, decodeNonzero } from "./codec.js";
import type { Material } from "../chess/material.js";
import type { Moves } from "../chess/units.js";
import { type Half, halvesOf, materialText } from "./half.js";
import { placementsOf } from "./solver-kernel.js";
import { type HalfCounts, type Metric, PLANES, type Plane, type Solution, packPlane } from "./solve.js";

const MAGIC = "longside";
export const FORMAT_VERSION = 4;
const HEAD = 48;
const MANIFEST = 512;
const EMPTY = new Uint8Array(0);
/** Bytes of a file that may be kept in memory as a whole. */
const LARGEST_WHOLE = 16 << 20;

export interface Manifest {
  readonly half: string;
  readonly placements: number;
  readonly block: number;
  readonly counts: HalfCounts;
}

export const tableFile = (folder: string, half: Half): string => join(folder, `${half.name}.table`);

/** Makes a folder and those above it. (Node's own way of doing so never returns where the system forbids it by ENOENT.) */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  if (dirname(folder) !== folder) makeFolder(dirname(folder));
  try {
    mkdirSync(folder);
  } catch (thrown) {
    // another process may have made it meanwhile
    if (!existsSync(folder)) throw thrown;
  }
}

const blocksOf = (half: Half) => Math.ceil(placementsOf(half) / BLOCK);

/** Name of a file in the making; the process that makes it can be told. */
const unfinishedName = (path: string) => `${path}.${process.pid}.part`;

/** Takes away what builds that were killed have left in a folder, and what this process has not finished. */
export function removeUnfinished(folder: string): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const pid = /\.table\.(\d+)\.part$/.exec(name)?.[1];
    if (pid === undefined || (Number(pid) !== process.pid && isAlive(Number(pid)))) continue;
    rmSync(join(folder, name), { force: true });
  }
}

/** Writes the file of a solved half into `folder`, which is made if need be. */
export function writeTable(folder: string, half: Half, solution: Solution): void {
  const path = tableFile(folder, half);
  const unfinished = unfinishedName(path);
  const blocks = blocksOf(half) * PLANES.length;
  const lengths = new Uint16Array(blocks);
  const checks = new Uint32Array(blocks);
  let file: number | undefined;
  try {
    makeFolder(folder);
    file = openSync(unfinished, "w");
    // the head is written last
    let position = HEAD + MANIFEST + lengths.byteLength + checks.byteLength;
    let block = 0;
    for (const plane of PLANES) {
      for (const slice of packPlane(solution, half, plane, BLOCK)) {
        let from = 0;
        for (const length of slice.lengths) {
          lengths[block] = length;
          checks[block++] = checksum(slice.blocks, from, from + length);
          from += length;
        }
        writeAllAt(file, slice.blocks, position);
        position += slice.blocks.length;
      }
    }
    const manifest: Manifest = {
      half: half.name,
      placements: placementsOf(half),
      block: BLOCK,
      counts: solution.counts,
    };
    const text = Buffer.from(JSON.stringify(manifest).padEnd(MANIFEST));
    const body = Buffer.concat([text, Buffer.from(lengths.buffer), Buffer.from(checks.buffer)]);
    const head = Buffer.alloc(HEAD);
    head.write(MAGIC, "latin1");
    head.writeUInt32LE(FORMAT_VERSION, 8);
    head.writeUInt32LE(text.length, 12);
    createHash("sha256").update(body).digest().copy(head, 16);
    writeAllAt(file, Buffer.concat([head, body]), 0);
    closeSync(file);
    file = undefined;
    renameSync(unfinished, path);
  } catch (thrown) {
    if (file !== undefined) closeSync(file);
    rmSync(unfinished, { force: true });
    throw new LongsideError("cannot-write", { path, cause: causeOf(thrown) });
  }
}

/** What names a table file's content: the SHA-256 of its manifest and of the checksums of its blocks. Throws where it is not there. */
export function tableDigest(path: string): string {
  const file = openSync(path, "r");
  try {
    const digest = Buffer.alloc(32);
    readSync(file, digest, 0, 32, 16);
    return digest.toString("hex");
  } finally {
    closeSync(file);
  }
}

/** The most moves to conversion of a material's attacker. Throws `table-damaged`. */
export function longestConversion(folder: string, material: Material): Moves {
  const [half] = halvesOf(material);
  const file = new TableFile(tableFile(folder, half), half);
  file.close();
  return file.manifest.counts.longestConversion;
}

/** An open table file: reads and checks single blocks. */
export class TableFile {
  readonly manifest: Manifest;
  /** Blocks in each plane. */
  readonly blocks: number;
  private readonly file: number;
  /** Where each block begins, one more than there are blocks. */
  private readonly starts: Float64Array;
  private readonly checks: Uint32Array;
  private readonly buffer = Buffer.allocUnsafe(2 * BLOCK);
  /** The whole file, where it has been read at once. */
  private whole: Uint8Array | undefined;

  /**
   * Opens and checks the head. Throws `table-damaged` (the caller treats a missing file alike: build again). `whole` is
   * what `readWhole` gave in another thread.
   */
  constructor(
    readonly path: string,
    readonly half: Half,
    whole?: SharedArrayBuffer,
  ) {
    this.whole = whole && new Uint8Array(whole);
    const damaged = (cause: string) => this.damaged(cause);
    this.blocks = blocksOf(half);
    const all = this.blocks * PLANES.length;
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
      const textLength = Math.min(head.readUInt32LE(12), size);
      const body = Buffer.alloc(textLength + all * 6);
      if (readSync(this.file, body, 0, body.length, HEAD) < body.length) throw damaged("it ends early");
      if (!createHash("sha256").update(body).digest().equals(head.subarray(16, 48))) {
        throw damaged("its head does not match its checksum");
      }
      this.manifest = JSON.parse(body.toString("utf8", 0, textLength)) as Manifest;
      if (this.manifest.half !== half.name) {
        throw damaged(`it holds ${this.manifest.half}, expected ${half.name}`);
      }
      this.starts = new Float64Array(all + 1);
      const numbers = new DataView(body.buffer, body.byteOffset + textLength);
      this.checks = Uint32Array.from({ length: all }, (_, n) => numbers.getUint32(all * 2 + n * 4, true));
      let position = HEAD + body.length;
      for (let n = 0; n < all; ++n) {
        this.starts[n] = position;
        position += numbers.getUint16(n * 2, true);
      }
      this.starts[all] = position;
      if (position !== size) throw damaged(`it has ${size} bytes, expected ${position}`);
    } catch (thrown) {
      closeSync(this.file);
      throw thrown;
    }
  }

  private damaged(cause: string, byte?: number): LongsideError {
    const material = materialText(this.half);
    return new LongsideError("table-damaged", { path: this.path, cause, material }, { byte });
  }

  /** Block `n` of the file, packed and checked; empty if it is all zero. */
  private load(n: number): Uint8Array {
    const start = this.starts[n];
    const length = this.starts[n + 1] - start;
    if (length === 0) return EMPTY;
    const packed = this.whole?.subarray(start, start + length) ?? this.buffer.subarray(0, length);
    const got = this.whole ? length : readSync(this.file, packed, 0, length, start);
    if (got < length || checksum(packed, 0, length) !== this.checks[n])
      throw this.damaged(`block ${n} does not match its checksum`, start);
    return packed;
  }

  /** Reads the whole file at once, for those who will look at much of it; undefined if it is large. */
  readWhole(): SharedArrayBuffer | undefined {
    const size = this.starts[this.starts.length - 1];
    if (size > LARGEST_WHOLE) return undefined;
    if (!this.whole) {
      const bytes = new Uint8Array(new SharedArrayBuffer(size));
      try {
        // a block that is missing does not match its checksum
        for (let done = 0, got = 1; got > 0; done += got)
          got = readSync(this.file, bytes, done, size - done, done);
      } catch (thrown) {
        throw this.damaged(causeOf(thrown));
      }
      this.whole = bytes;
    }
    return this.whole.buffer as SharedArrayBuffer;
  }

  /** Checks every block. Throws `table-damaged`. */
  checkBlocks(): void {
    this.readWhole();
    for (let n = 0; n < this.checks.length; ++n) this.load(n);
  }

  /** A block of a plane, packed and checked. */
  private blockOf(plane: Plane, block: number): Uint8Array {
    return this.load(PLANES.indexOf(plane) * this.blocks + block);
  }

  /**
   * Unpacks a block of a plane to `at` in `target`. Returns false, and leaves the target alone, if the block is all
   * zero. Throws `table-damaged`.
   */
  readBlock(metric: Metric, block: number, target: Uint8Array, at: number): boolean {
    const packed = this.blockOf(metric, block);
    if (packed.length > 0) decodeBlock(packed, target, at);
    return packed.length > 0;
  }

  /** The same, but only which placements of the block are lost, a bit for each: BLOCK / 8 bytes. */
  readLosses(block: number, target: Uint8Array, at: number): boolean {
    const packed = this.blockOf("mate", block);
    if (packed.length > 0) decodeNonzero(packed, target, at);
    return packed.length > 0;
  }

  /** The same, but which placements of the block are won with the winner to move. */
  readWins(block: number, target: Uint8Array, at: number): boolean {
    const packed = this.blockOf("wins", block);
    if (packed.length > 0) decodeBits(packed, target, at);
    return packed.length > 0;
  }

  /** A whole plane, in whole blocks. */
  readPlane(metric: Metric): Uint8Array {
    const plane = new Uint8Array(this.blocks * BLOCK);
    for (let block = 0; block < this.blocks; ++block) this.readBlock(metric, block, plane, block * BLOCK);
    return plane;
  }

  close(): void {
    closeSync(this.file);
  }
}

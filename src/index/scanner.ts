// What a scanning thread does: it gets stretches, or pieces of files that it reads itself, and gives endings. It knows
// nothing of the database.

import { parseMaterial } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { EndingScan, type ScanResult } from "../endings/scan.js";
import { ScoreMemory } from "../endings/scores.js";
import { type Crossing, crossing } from "../errors.js";
import { roomForGames } from "../pgn/games.js";
import { PieceReader } from "../pgn/pieces.js";
import { type SharedTables, Tables } from "../solver/tables.js";

/** Bytes to be scanned. */
export interface StretchTask {
  readonly bytes: Uint8Array<ArrayBuffer>;
  readonly offset: ByteOffset;
  readonly noReject: boolean;
}

/** A piece of a plain file (see `PieceReader`) to be read and scanned. */
export interface PieceTask {
  readonly path: string;
  readonly size: number;
  readonly piece: number;
  /** Games that end here or before have been scanned already. */
  readonly done: ByteOffset;
  readonly noReject: boolean;
}

export type ScanTask = StretchTask | PieceTask;

export interface Scanned {
  /** Undefined where all had been scanned already. */
  readonly found: ScanResult | undefined;
  /** Where the stretch ends in its file. */
  readonly end: ByteOffset;
  /** Bytes of the stretch. */
  readonly length: number;
  /** Of the piece, if it was one. */
  readonly digest: Uint8Array | undefined;
}

export interface ScanWorkerData {
  readonly target: string;
  readonly folder: string;
  readonly shared: SharedTables;
  /** See `ScoreMemory`. */
  readonly memory: SharedArrayBuffer;
}

/** What a scanning worker does with its tasks; `data` comes once, when the thread starts. */
export function scanner(data: ScanWorkerData): (task: ScanTask) => Crossing<Scanned> {
  const material = parseMaterial(data.target);
  const tables = new Tables(material, data.folder, data.shared);
  const endings = new EndingScan(material, tables, new ScoreMemory(data.memory));
  const reader = new PieceReader(roomForGames);
  const scan = (bytes: Uint8Array, offset: ByteOffset, noReject: boolean, digest?: Uint8Array): Scanned => ({
    found: endings.scan(bytes, { offset, noReject }),
    end: offset + bytes.length,
    length: bytes.length,
    digest,
  });
  return (task) =>
    crossing(() => {
      if ("bytes" in task) return scan(task.bytes, task.offset, task.noReject);
      const { bytes, offset, end, digest } = reader.read(task.path, task.size, task.piece);
      if (end <= task.done) return { found: undefined, end, length: bytes.length, digest };
      return scan(bytes, offset, task.noReject, digest);
    });
}

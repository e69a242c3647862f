// How a database keeps columns and moves small.
//
// A column is written as planes of bytes, the lowest bytes of all its values first, under zstd: what differs little from one
// value to the next then lies together. A move takes two bytes.

import { ROLES, isNormal, makeUci, parseUci } from "chessops";
import zstd from "zstd-napi/binding.js";

import { type ColumnArray, type Width, noneOf } from "../endings/position-columns.js";

/** Packs a third less than the fastest level, and unpacks as fast; higher ones take five times as long for a twentieth. */
const LEVEL = 3;

const compressor = new zstd.CCtx();
const decompressor = new zstd.DCtx();
/** Room that is used again; never handed out. */
let planes = new Uint8Array(0);
let packed = new Uint8Array(0);
const roomIn = (buffer: Uint8Array<ArrayBuffer>, size: number): Uint8Array<ArrayBuffer> =>
  buffer.length >= size ? buffer : new Uint8Array(size);

/** The bytes of a column, packed. */
export function packColumn(values: ColumnArray): Buffer {
  const { length, buffer, byteOffset, byteLength, BYTES_PER_ELEMENT: width } = values;
  const bytes = new Uint8Array(buffer, byteOffset, byteLength);
  let spread = bytes;
  if (width > 1) {
    planes = roomIn(planes, byteLength);
    spread = planes.subarray(0, byteLength);
    for (let plane = 0; plane < width; ++plane)
      for (let n = 0, from = plane, to = plane * length; n < length; ++n, from += width, ++to)
        spread[to] = bytes[from];
  }
  packed = roomIn(packed, zstd.compressBound(byteLength));
  return Buffer.from(packed.subarray(0, compressor.compress(packed, spread, LEVEL)));
}

/** Values of a column: of one byte each, or of four where they are wider; loops over two types of arrays stay fast. */
export type ColumnValues = Int8Array | Int32Array;

/** Room for so many values of a column of some width. */
export const roomForColumn = (width: Width, count: number): ColumnValues =>
  width === 1 ? new Int8Array(count) : new Int32Array(count);

/** The values of a column of some width that was packed. Throws where the bytes are not those of so many values. */
export function unpackColumn(data: Uint8Array, width: Width, count: number): ColumnValues {
  const size = width * count;
  if (width === 1) {
    const bytes = new Int8Array(count);
    if (decompressor.decompress(new Uint8Array(bytes.buffer), data) !== size)
      throw new Error("a column of another length");
    return bytes;
  }
  planes = roomIn(planes, size);
  const from = planes;
  if (decompressor.decompress(from.subarray(0, size), data) !== size)
    throw new Error("a column of another length");
  const values = new Int32Array(count);
  const [second, third, fourth] = [count, 2 * count, 3 * count];
  switch (width) {
    case 2:
      for (let n = 0; n < count; ++n) values[n] = ((from[n] << 16) | (from[second + n] << 24)) >> 16;
      break;
    case 4:
      for (let n = 0; n < count; ++n)
        values[n] = from[n] | (from[second + n] << 8) | (from[third + n] << 16) | (from[fourth + n] << 24);
  }
  return values;
}

/** What a column holds at least and at most, those without a value left out; null where none has one. */
export interface Bounds {
  readonly least: number | null;
  readonly greatest: number | null;
  /** How many have no value. */
  readonly absent: number;
}

/** The bounds of a column. */
export function boundsOf(values: ColumnArray): Bounds {
  const none = noneOf(values.BYTES_PER_ELEMENT as Width);
  let least = Infinity;
  let greatest = -Infinity;
  let absent = 0;
  for (let n = 0; n < values.length; ++n) {
    const value = values[n];
    if (value === none) ++absent;
    else {
      if (value < least) least = value;
      if (value > greatest) greatest = value;
    }
  }
  return absent === values.length ? { least: null, greatest: null, absent } : { least, greatest, absent };
}

/** Moves in coordinates, one space between them, as two bytes each: the square from, the square to, what a pawn becomes. */
export function packMoves(moves: string): Buffer {
  const all = moves === "" ? [] : moves.split(" ");
  const bytes = Buffer.allocUnsafe(2 * all.length);
  all.forEach((text, n) => {
    const move = parseUci(text);
    if (!move || !isNormal(move)) throw new Error(`${text} is no move in coordinates`);
    const promotion = move.promotion === undefined ? 0 : ROLES.indexOf(move.promotion) + 1;
    bytes.writeUInt16LE(move.from | (move.to << 6) | (promotion << 12), 2 * n);
  });
  return bytes;
}

/** What `packMoves` packed. */
export function unpackMoves(bytes: Buffer): string {
  const moves: string[] = [];
  for (let at = 0; at < bytes.length; at += 2) {
    const move = bytes.readUInt16LE(at);
    const promotion = move >> 12;
    moves.push(
      makeUci({
        from: move & 63,
        to: (move >> 6) & 63,
        promotion: promotion === 0 ? undefined : ROLES[promotion - 1],
      }),
    );
  }
  return moves.join(" ");
}

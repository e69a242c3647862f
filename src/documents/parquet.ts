// Parquet, row group by row group. Thrift (the schema, the headers of pages, the footer) is the library's; the pages are made
// here, straight from typed arrays: a general writer looks at every value several times over, while nearly all columns of
// positions are places among a few values, which only need packing.

import { ByteWriter, schemaFromColumnData } from "hyparquet-writer";
import { writePageHeader } from "hyparquet-writer/src/datapage.js";
import { writeMetadata } from "hyparquet-writer/src/metadata.js";
import zstd from "zstd-napi/binding.js";

import {
  type CodedColumn,
  type DataColumn,
  type DataType,
  type TextColumn,
} from "../statistics/data-columns.js";
import { distinctOf } from "../statistics/distinct.js";

type Footer = Parameters<typeof writeMetadata>[1];
type Group = Footer["row_groups"][number];
type Chunk = NonNullable<Group["columns"][number]["meta_data"]>;
type Encoding = Chunk["encodings"][number];

/** Columns are packed already: a level of 3 takes twice as long for a hundredth. */
const LEVEL = 1;
const MAGIC = 0x31524150;

const PHYSICAL = { INT32: "INT32", DOUBLE: "DOUBLE", STRING: "BYTE_ARRAY", BOOLEAN: "BOOLEAN" } as const;

/** Bytes of a page that is being made; the room is used again. */
class PageBytes {
  private room = Buffer.alloc(1 << 16);
  length = 0;

  get bytes(): Uint8Array {
    return this.room.subarray(0, this.length);
  }

  clear(): void {
    this.length = 0;
  }

  private ensure(more: number): Buffer {
    if (this.length + more > this.room.length) {
      const larger = Buffer.alloc(2 * (this.length + more));
      larger.set(this.bytes);
      this.room = larger;
    }
    return this.room;
  }

  byte(value: number): void {
    this.ensure(1)[this.length++] = value;
  }

  int32(value: number): void {
    this.ensure(4).writeInt32LE(value, this.length);
    this.length += 4;
  }

  /** Writes over what was written at a place. */
  setInt32(value: number, at: number): void {
    this.room.writeInt32LE(value, at);
  }

  double(value: number): void {
    this.ensure(8).writeDoubleLE(value, this.length);
    this.length += 8;
  }

  /** The bytes of a text between two places, their number before them. */
  text(bytes: Uint8Array, from: number, to: number): void {
    const room = this.ensure(4 + to - from);
    room.writeInt32LE(to - from, this.length);
    let at = this.length + 4;
    // texts are short, for which copying by the machine's means takes longer
    for (let n = from; n < to; ++n) room[at++] = bytes[n];
    this.length = at;
  }

  /** A number in groups of seven bits. */
  private varint(value: number): void {
    for (; value >= 128; value >>>= 7) this.byte((value & 127) | 128);
    this.byte(value);
  }

  /** Small numbers of so many bits: runs of eight or more as such, others packed by eights. */
  hybrid(values: Int32Array, count: number, width: number): void {
    let packedFrom = 0;
    let at = 0;
    while (at < count) {
      const value = values[at];
      let end = at + 1;
      while (end < count && values[end] === value) ++end;
      if (end - at < 8) {
        at += 8;
        continue;
      }
      this.packed(values, count, packedFrom, at, width);
      this.varint((end - at) << 1);
      for (let bits = 0; bits < width; bits += 8) this.byte((value >> bits) & 255);
      packedFrom = at = end;
    }
    this.packed(values, count, packedFrom, at, width);
  }

  /** Numbers between two places, which are a multiple of eight apart. */
  private packed(values: Int32Array, count: number, from: number, to: number, width: number): void {
    if (from === to) return;
    this.varint(((to - from) >> 2) | 1);
    this.bits(values, count, from, to, width);
  }

  /** Numbers between two places in bits one behind the other; those from `count` on are 0. */
  bits(values: Int32Array, count: number, from: number, to: number, width: number): void {
    const room = this.ensure((((to - from) * width) >> 3) + 8);
    let at = this.length;
    let gathered = 0;
    let held = 0;
    for (let n = from; n < to; ++n) {
      if (n < count) gathered |= values[n] << held;
      held += width;
      while (held >= 8) {
        room[at++] = gathered & 255;
        gathered >>>= 8;
        held -= 8;
      }
    }
    if (held > 0) room[at++] = gathered & 255;
    this.length = at;
  }
}

const page = new PageBytes();
const compressor = new zstd.CCtx();
let packedRoom = new Uint8Array(0);

/** A page's bytes under zstd; good until the next are packed. */
function packedPage(): Uint8Array {
  const bound = zstd.compressBound(page.length);
  if (packedRoom.length < bound) packedRoom = new Uint8Array(2 * bound);
  return packedRoom.subarray(0, compressor.compress(packedRoom, page.bytes, LEVEL));
}

/** Bits that numbers below a limit take, at least one: some readers do not know none. */
const bitsFor = (limit: number): number => Math.max(32 - Math.clz32(limit - 1), 1);

/** A Parquet file in the making: what is to be written, in its order. Every column may be without values. */
export class ParquetParts {
  private readonly groups: Group[] = [];
  /** Bytes that were handed out. */
  private offset = 0;
  private rows = 0;

  /** `texts` go into the metadata, by their names. */
  constructor(
    private readonly columns: readonly { readonly name: string; readonly type: DataType }[],
    private readonly texts: Readonly<Record<string, string>>,
  ) {}

  /** The bytes that follow for some more rows. */
  rowGroup(columns: Iterable<DataColumn>, rows: number): Uint8Array {
    const out = this.begin();
    const start = this.offset + out.offset;
    const chunks: Chunk[] = [];
    for (const column of columns) chunks.push(this.chunk(out, column, rows));
    const sum = (of: "total_uncompressed_size" | "total_compressed_size") =>
      chunks.reduce((total, chunk) => total + chunk[of], 0n);
    this.groups.push({
      columns: chunks.map((chunk) => ({
        file_offset: chunk.dictionary_page_offset ?? chunk.data_page_offset,
        meta_data: chunk,
      })),
      total_byte_size: sum("total_uncompressed_size"),
      num_rows: BigInt(rows),
      file_offset: BigInt(start),
      total_compressed_size: sum("total_compressed_size"),
    });
    this.rows += rows;
    return this.handOut(out);
  }

  /** The bytes at the end of the file. */
  end(): Uint8Array {
    const out = this.begin();
    writeMetadata(out, {
      version: 2,
      created_by: "longside",
      schema: schemaFromColumnData({
        columnData: this.columns.map(({ name, type }) => ({ name, type, nullable: true, data: [] })),
      }),
      num_rows: BigInt(this.rows),
      row_groups: this.groups,
      key_value_metadata: Object.entries(this.texts).map(([key, value]) => ({ key, value })),
      // worked out as it is written
      metadata_length: 0,
    });
    out.appendUint32(MAGIC);
    return this.handOut(out);
  }

  private begin(): ByteWriter {
    const out = new ByteWriter();
    if (this.offset === 0) out.appendUint32(MAGIC);
    return out;
  }

  private handOut(out: ByteWriter): Uint8Array {
    this.offset += out.offset;
    return out.getBytes();
  }

  /** Writes a column's pages; gives what the footer says of them. */
  private chunk(out: ByteWriter, column: DataColumn, rows: number): Chunk {
    const first = this.offset + out.offset;
    const chunk: Chunk = {
      type: PHYSICAL[column.type],
      encodings: ["RLE"],
      path_in_schema: [column.name],
      codec: "ZSTD",
      num_values: BigInt(rows),
      total_uncompressed_size: 0n,
      total_compressed_size: 0n,
      data_page_offset: BigInt(first),
    };
    /** Writes what `page` holds; a dictionary of so many values, or the data of all rows. */
    const put = (encoding: Encoding, dictionary?: number) => {
      const bytes = packedPage();
      const before = out.offset;
      const sizes = { uncompressed_page_size: page.length, compressed_page_size: bytes.length };
      if (dictionary === undefined) {
        chunk.data_page_offset = BigInt(this.offset + out.offset);
        const levels = { definition_level_encoding: "RLE", repetition_level_encoding: "RLE" } as const;
        writePageHeader(out, {
          type: "DATA_PAGE",
          ...sizes,
          data_page_header: { num_values: rows, encoding, ...levels },
        });
      } else {
        chunk.dictionary_page_offset = BigInt(first);
        writePageHeader(out, {
          type: "DICTIONARY_PAGE",
          ...sizes,
          dictionary_page_header: { num_values: dictionary, encoding },
        });
      }
      const header = out.offset - before;
      out.appendBytes(bytes);
      chunk.total_uncompressed_size += BigInt(header + page.length);
      chunk.total_compressed_size += BigInt(out.offset - before);
      if (!chunk.encodings.includes(encoding)) chunk.encodings.push(encoding);
    };
    if ("ends" in column) putTexts(column, put);
    else chunk.statistics = putCoded(column, put);
    return chunk;
  }
}

type Put = (encoding: Encoding, dictionary?: number) => void;

/** Begins a page of data with which rows have a value. */
function beginData(there: Int32Array): void {
  page.clear();
  // bytes of what follows, which are known behind it
  page.int32(0);
  page.hybrid(there, there.length, 1);
  page.setInt32(page.length - 4, 0);
}

function putTexts({ bytes, ends }: TextColumn, put: Put): void {
  beginData(new Int32Array(ends.length).fill(1));
  for (let n = 0; n < ends.length; ++n) page.text(bytes, n === 0 ? 0 : ends[n - 1], ends[n]);
  put("PLAIN");
}

/** Writes the pages of a column of numbers, truths or words; gives its statistics. */
function putCoded(column: CodedColumn, put: Put): Chunk["statistics"] {
  const { values, places, count, there } = distinctOf(column);
  // values that are mostly different gain nothing by a dictionary; truths have none
  const plain = column.type === "BOOLEAN" || values.length > count / 2;
  const write = writerOf(column);
  if (!plain) {
    page.clear();
    values.forEach(write);
    put("PLAIN", values.length);
  }
  beginData(there);
  if (column.type === "BOOLEAN") {
    for (let n = 0; n < count; ++n) places[n] = values[places[n]];
    page.bits(places, count, 0, count, 1);
  } else if (plain) for (let n = 0; n < count; ++n) write(values[places[n]]);
  else {
    const width = bitsFor(values.length);
    page.byte(width);
    page.hybrid(places, count, width);
  }
  put(plain ? "PLAIN" : "RLE_DICTIONARY");
  return { null_count: BigInt(there.length - count), ...boundsOf(column, values) };
}

/** Writes one value of a column. A zero has no sign here, as in texts: both zeros are one value of a dictionary. */
function writerOf({ type, wordOf }: CodedColumn): (value: number) => void {
  // minus zero and zero make zero
  if (type === "DOUBLE") return (value) => page.double(value + 0);
  if (!wordOf) return (value) => page.int32(value);
  return (value) => {
    const bytes = Buffer.from(wordOf(value));
    page.text(bytes, 0, bytes.length);
  };
}

/** The least and the greatest value of a column; nothing where it has none. */
function boundsOf({ type, wordOf }: CodedColumn, values: readonly number[]) {
  if (values.length === 0) return {};
  if (wordOf) {
    // texts are in the order of their bytes
    const texts = values.map((value) => Buffer.from(wordOf(value))).sort((a, b) => Buffer.compare(a, b));
    return { min_value: new Uint8Array(texts[0]), max_value: new Uint8Array(texts[texts.length - 1]) };
  }
  const least = values.reduce((a, b) => Math.min(a, b));
  const greatest = values.reduce((a, b) => Math.max(a, b));
  return type === "BOOLEAN"
    ? { min_value: least === 1, max_value: greatest === 1 }
    : { min_value: least, max_value: greatest };
}

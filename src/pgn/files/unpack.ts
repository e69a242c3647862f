// Unpacking in a thread of its own, beside the scan: compressed files, members of a zip, standard input, UTF-16.
//
// The thread splits what it unpacks into blocks and sends them. It waits while enough of them have not been taken,
// so that memory stays flat whatever the input.

import { closeSync, openSync, readSync } from "node:fs";
import { Readable, type Transform } from "node:stream";
import { pipeline } from "node:stream/promises";
import type { MessagePort } from "node:worker_threads";
import { crc32, createGunzip } from "node:zlib";

import { type Crossing, LongsideError, causeOf, notReadable, crossingLater } from "../../errors.js";
import { BlockSplitter, type GameBlock } from "./block-splitter.js";
import { NARROW_LOOKAHEAD, narrowTextIn } from "./encoding.js";
import { HEAD_BYTES, foreignKind, packingOf, wideEncoding } from "./packing.js";
import { ZipReader } from "./zip.js";

/** Standard input, as a path. */
export const STANDARD_INPUT = "-";

export interface UnpackTask {
  /** Of the file, or of the zip that holds it, or `STANDARD_INPUT`. */
  readonly path: string;
  /** Name in the zip. */
  readonly member: string | undefined;
  /** Takes files whose unpacking needs up to 2 GB. */
  readonly largeWindows?: boolean;
  /** Receives `UnpackedBlock`es, then null. */
  readonly port: MessagePort;
  /** One Int32: blocks sent and not taken. */
  readonly waiting: SharedArrayBuffer;
}

export interface UnpackedBlock extends GameBlock {
  /** Bytes of the packed file read so far. */
  readonly consumed: number;
}

/** Blocks sent ahead of being taken. */
const AHEAD = 2;
/**
 * The bytes of Zstandard's window as powers of two: the most that its own program takes unasked (RFC 8878, 3.1.1.1.2,
 * leaves a limit to each program), and the most there are on a system of 64 bits.
 */
const USUAL_WINDOW = 27;
const LARGEST_WINDOW = 31;
/** Bytes read at a time. */
const CHUNK_BYTES = 1 << 18;

const NO_BYTES = Buffer.alloc(0);

/** Counts what is read, so that damage can be told by its place. */
class Source {
  consumed = 0;
  private readonly file: number;

  constructor(path: string) {
    this.file = path === STANDARD_INPUT ? 0 : openSync(path, "r");
  }

  /** Reads into `target`; gives the number of bytes, 0 at the end. */
  read(target: Uint8Array): number {
    for (;;) {
      try {
        const length = readSync(this.file, target, 0, target.length, null);
        this.consumed += length;
        return length;
      } catch (thrown) {
        const { code } = thrown as NodeJS.ErrnoException;
        if (code === "EOF") return 0;
        if (code !== "EAGAIN") throw thrown;
        // a terminal or a slow pipe that has nothing yet
        Atomics.wait(new Int32Array(new SharedArrayBuffer(4)), 0, 0, 20);
      }
    }
  }

  /** As many bytes as there are, up to `length`. */
  head(length: number): Uint8Array {
    const head = new Uint8Array(length);
    let used = 0;
    for (;;) {
      const got = used < length ? this.read(head.subarray(used)) : 0;
      if (got === 0) return head.subarray(0, used);
      used += got;
    }
  }

  *chunks(head: Uint8Array): Generator<Buffer> {
    if (head.length > 0) yield Buffer.from(head);
    for (;;) {
      const chunk = Buffer.allocUnsafe(CHUNK_BYTES);
      const length = this.read(chunk);
      if (length === 0) return;
      yield chunk.subarray(0, length);
    }
  }

  close(): void {
    if (this.file !== 0) closeSync(this.file);
  }
}

/** Takes unpacked bytes, splits them into blocks and sends these on. */
class Sink {
  private readonly splitter = new BlockSplitter();
  private readonly waiting: Int32Array;
  private decoder: InstanceType<typeof TextDecoder> | undefined;
  private begun = false;
  /** Bytes that are held back: what follows may show that they are of one byte a letter. */
  private undecoded: Buffer = NO_BYTES;

  constructor(
    private readonly task: UnpackTask,
    private readonly consumed: () => number,
  ) {
    this.waiting = new Int32Array(task.waiting);
  }

  readonly push = (chunk: Uint8Array): void => {
    if (chunk.length === 0) return;
    if (!this.begun) {
      this.begun = true;
      const encoding = wideEncoding(chunk);
      if (encoding) this.decoder = new TextDecoder(encoding);
    }
    if (this.decoder) this.decode(this.decoder, chunk);
    else this.split(chunk);
  };

  /** Splits text of two bytes a letter, as UTF-8. Games of one byte a letter may stand behind it: it ends there. */
  private decode(decoder: InstanceType<typeof TextDecoder>, chunk: Uint8Array): void {
    const seen = Buffer.concat([this.undecoded, chunk]);
    const narrow = narrowTextIn(seen);
    const text = seen.subarray(0, narrow < 0 ? Math.max(0, seen.length - NARROW_LOOKAHEAD) : narrow);
    this.split(Buffer.from(decoder.decode(text, { stream: narrow < 0 })));
    this.undecoded = seen.subarray(text.length);
    if (narrow >= 0) this.endDecoding();
  }

  /** What has been held back is text of one byte a letter, which begins a line. */
  private endDecoding(): void {
    this.decoder = undefined;
    this.split(Buffer.concat([Buffer.from("\n"), this.undecoded]));
    this.undecoded = NO_BYTES;
  }

  /** Where bytes may be put at once, to be told to `filled`; undefined if they have to be pushed. */
  room(): Uint8Array | undefined {
    return this.begun && !this.decoder ? this.splitter.room() : undefined;
  }

  filled(length: number): void {
    this.send(this.splitter.filled(length));
  }

  private split(chunk: Uint8Array): void {
    for (let from = 0; from < chunk.length;) {
      const room = this.splitter.room();
      const part = chunk.subarray(from, from + room.length);
      room.set(part);
      from += part.length;
      this.send(this.splitter.filled(part.length));
    }
  }

  /** Sends the last block. */
  end(): void {
    if (this.decoder) this.split(Buffer.from(this.decoder.decode(this.undecoded)));
    this.send(this.splitter.end());
  }

  private send(block: GameBlock | undefined): void {
    if (!block) return;
    const { waiting } = this;
    for (let sent = Atomics.load(waiting, 0); sent >= AHEAD; sent = Atomics.load(waiting, 0))
      Atomics.wait(waiting, 0, sent);
    Atomics.add(waiting, 0, 1);
    const message: UnpackedBlock = { ...block, consumed: this.consumed() };
    this.task.port.postMessage(message, [block.bytes.buffer]);
  }
}

async function throughStream(chunks: Iterable<Buffer>, unpacker: Transform, sink: Sink): Promise<void> {
  await pipeline(
    Readable.from(chunks, { objectMode: false }),
    unpacker,
    async (unpacked: AsyncIterable<Buffer>) => {
      for await (const chunk of unpacked) sink.push(chunk);
    },
  );
}

/** Frames of any size, one behind the other; what comes out before a fault is kept. */
async function throughZstd(chunks: Iterable<Buffer>, sink: Sink, largeWindows = false): Promise<void> {
  const { default: zstd } = await import("zstd-napi/binding.js");
  const { DCtx, DParameter } = zstd;
  const context = new DCtx();
  context.setParameter(DParameter.windowLogMax, largeWindows ? LARGEST_WINDOW : USUAL_WINDOW);
  const out = Buffer.allocUnsafe(CHUNK_BYTES);
  let left = 0; // 0 between two frames
  for (const chunk of chunks) {
    for (let packed: Uint8Array = chunk; ;) {
      const room = sink.room();
      const target = room ?? out;
      const { length } = target;
      const [hint, produced, taken] = context.decompressStream(target, packed);
      left = hint;
      if (room) sink.filled(produced);
      else sink.push(out.subarray(0, produced));
      packed = packed.subarray(taken);
      // a full buffer may not have held all that there is
      if (packed.length === 0 && produced < length) break;
      if (packed.length === 0 && left === 0) break;
    }
  }
  if (left !== 0) throw new Error("it ends inside a frame");
}

/**
 * The bzip2 library asks for bytes and hands them over one by one, all in one call. The bytes of a part come before its
 * checksum has been compared; `eof` is asked between two parts, when what has come is right.
 */
async function throughBzip2(chunks: Iterator<Buffer>, sink: Sink): Promise<void> {
  const { default: bzip2 } = await import("seek-bzip");
  class Output extends bzip2.Stream {
    private buffer = Buffer.allocUnsafe(4 * CHUNK_BYTES);
    private used = 0;

    writeByte(byte: number): void {
      if (this.used === this.buffer.length) {
        const larger = Buffer.allocUnsafe(2 * this.used);
        this.buffer.copy(larger);
        this.buffer = larger;
      }
      this.buffer[this.used++] = byte;
    }

    send(): void {
      sink.push(this.buffer.subarray(0, this.used));
      this.used = 0;
    }
  }
  const output = new Output();
  class Input extends bzip2.Stream {
    private chunk: Uint8Array = new Uint8Array(0);
    private p = 0;

    private ended(): boolean {
      while (this.p >= this.chunk.length) {
        const next = chunks.next();
        if (next.done) return true;
        this.chunk = next.value;
        this.p = 0;
      }
      return false;
    }

    eof(): boolean {
      output.send();
      return this.ended();
    }

    readByte(): number {
      if (this.p < this.chunk.length || !this.ended()) return this.chunk[this.p++];
      throw new Error("it ends inside a block");
    }
  }
  bzip2.decode(new Input(), output, true);
  output.send();
}

/** This thread's: members of one zip come one after another. */
const zips = new ZipReader();

async function throughZip(path: string, member: string, sink: Sink): Promise<void> {
  const { stream, checksum } = await zips.member(path, member);
  let found = 0;
  for await (const chunk of stream) {
    found = crc32(chunk as Buffer, found);
    sink.push(chunk as Buffer);
  }
  if (found !== checksum) throw new Error(`${member} does not match its checksum`);
}

async function unpack(source: Source | undefined, task: UnpackTask, sink: Sink): Promise<void> {
  const { path, member } = task;
  if (!source) return throughZip(path, member!, sink);
  const head = source.head(HEAD_BYTES);
  const kind = foreignKind(head);
  if (kind) throw new LongsideError("packed-input", { path, kind }, { file: path, byte: 0 });
  const chunks = source.chunks(head);
  switch (packingOf(head)) {
    case "gzip":
      return throughStream(chunks, createGunzip({ chunkSize: 1 << 16 }), sink);
    case "zstd":
      return throughZstd(chunks, sink, task.largeWindows);
    case "bzip2":
      return throughBzip2(chunks, sink);
    case "zip":
      // only a file can be a zip: its list of members is at its end
      throw new LongsideError("packed-input", { path, kind: "zip" }, { file: path, byte: 0 });
    default:
      for (const chunk of chunks) sink.push(chunk);
  }
}

/** What the unpacking thread does with a file. */
export const unpackTask = (task: UnpackTask): Promise<Crossing<void>> =>
  crossingLater(async () => {
    const { path, member, port } = task;
    let source: Source | undefined;
    try {
      if (member === undefined) source = new Source(path);
    } catch (thrown) {
      port.postMessage(null);
      throw notReadable(path, thrown);
    }
    const sink = new Sink(task, () => source?.consumed ?? 0);
    try {
      await unpack(source, task, sink);
      sink.end();
    } catch (thrown) {
      if (thrown instanceof LongsideError) throw thrown;
      // the games before the damage are kept
      sink.end();
      const where = { file: path, byte: source?.consumed };
      const cause = causeOf(thrown);
      throw /too much memory/.test(cause) && !task.largeWindows
        ? new LongsideError("large-window", { path }, where)
        : new LongsideError("damaged-input", { path, cause }, where);
    } finally {
      source?.close();
      port.postMessage(null);
    }
  });

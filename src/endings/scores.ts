// Scores: what the moves of a game hold of the target, whoever played it, read with the rules library.
//
// Collections hold the same game many times over, so what came of a score is remembered by its bytes and by what else
// it depends on, and given again: in memory that all scanning threads share.

import { createHash } from "node:crypto";
import { deserialize, serialize } from "node:v8";

import { type Move, makeUci } from "chessops";
import type { Chess } from "chessops/chess";
import { INITIAL_FEN, makeFen } from "chessops/fen";

import type { Ply } from "../chess/units.js";
import { type Result, readMainLine, resultOf } from "../pgn/movetext.js";
import { type Fault, type Stop, playThrough } from "../pgn/replay.js";
import { type Tags, tagValue } from "../pgn/tags.js";
import type { Classifier, EndingRecord } from "./ending.js";
import { StayCollector } from "./stays.js";

/** What a game's score says, whoever played it. */
export interface ScoreRecord {
  readonly result: Result;
  /** FEN of the start, null for the usual one. */
  readonly start: string | null;
  /** The main line in coordinates, for writing the game out again. */
  readonly moves: string;
  readonly plies: Ply;
  /** Digest of start and moves: games with equal ones are the same score. */
  readonly digest: string;
  readonly stoppedAt: Ply | null;
  readonly stopReason: Fault | null;
  readonly endings: readonly EndingRecord[];
}

/** What came of reading a score: where it stopped short, if it did, and what it holds, if it reaches the target. */
export interface ReadScore {
  readonly stop: Stop | undefined;
  readonly score: ScoreRecord | undefined;
}

/** Bytes of the memory: some 300,000 positions. It costs only what is used of it. */
const MEMORY = 32 << 20;
/** Places of an entry's beginning, found by its key. */
const SLOTS = 1 << 14;
/** Places looked at for one key. */
const TRIES = 16;
/** Bytes of a key, and of an entry's head: the key and the length of what follows. */
const KEY = 32;
const ENTRY = KEY + 4;

/**
 * What is known by keys of 32 bytes, for all threads that are given the same `shared` bytes. Entries are written one
 * behind the other and never changed; one is found only when it is whole. When there is no room left, nothing more is
 * taken in.
 */
export class ScoreMemory {
  /** Where the next entry goes, then where entries begin. */
  private readonly places: Int32Array;
  private readonly bytes: Uint8Array;

  constructor(readonly shared = new SharedArrayBuffer(MEMORY)) {
    this.places = new Int32Array(shared, 0, 1 + SLOTS);
    this.bytes = new Uint8Array(shared);
    // 0 stands for no entry
    Atomics.compareExchange(this.places, 0, 0, this.places.byteLength);
  }

  private slot(key: Buffer, attempt: number): number {
    return 1 + ((key.readUInt32LE(0) + attempt) % SLOTS);
  }

  private isAt(place: number, key: Buffer): boolean {
    return key.equals(this.bytes.subarray(place, place + KEY));
  }

  get(key: Buffer): unknown {
    for (let attempt = 0; attempt < TRIES; ++attempt) {
      const place = Atomics.load(this.places, this.slot(key, attempt));
      if (place === 0) return undefined;
      if (!this.isAt(place, key)) continue;
      const length = new DataView(this.shared).getInt32(place + KEY, true);
      return deserialize(Buffer.from(this.bytes.subarray(place + ENTRY, place + ENTRY + length)));
    }
    return undefined;
  }

  put(key: Buffer, value: unknown): void {
    const entry = serialize(value);
    if (Atomics.load(this.places, 0) + ENTRY + entry.length > this.bytes.length) return;
    const place = Atomics.add(this.places, 0, (ENTRY + entry.length + 3) & ~3);
    // another thread may have taken the last room
    if (place + ENTRY + entry.length > this.bytes.length) return;
    this.bytes.set(key, place);
    new DataView(this.shared).setInt32(place + KEY, entry.length, true);
    this.bytes.set(entry, place + ENTRY);
    for (let attempt = 0; attempt < TRIES; ++attempt) {
      const before = Atomics.compareExchange(this.places, this.slot(key, attempt), 0, place);
      if (before === 0 || this.isAt(before, key)) return;
    }
  }
}

/** Reads scores. */
export class Scores {
  constructor(
    private readonly classifier: Classifier,
    private readonly memory: ScoreMemory,
  ) {}

  /** What comes of a score from `start`, which is left as it is. */
  read(movetext: Uint8Array, tags: Tags, start: Chess): ReadScore {
    const others = ["FEN", "Result", "Termination"].map((name) => tags.get(name) ?? "").join("\n");
    const key = createHash("sha256").update(movetext).update(`\0${others}`).digest();
    const known = this.memory.get(key) as ReadScore | undefined;
    if (known) return known;
    const read = this.replay(movetext, tags, start);
    this.memory.put(key, read);
    return read;
  }

  private replay(movetext: Uint8Array, tags: Tags, start: Chess): ReadScore {
    const position = start.clone();
    const line = readMainLine(
      Buffer.from(movetext.buffer, movetext.byteOffset, movetext.length).toString("latin1"),
    );
    // both sides forfeited: the result looks like castling
    if (/^0\s*[-–]\s*0$/.test(tags.get("Result") ?? "") && line.moves.at(-1)?.text === "0-0")
      line.moves.pop();
    const collector = new StayCollector(this.classifier.material, line.clocks);
    const played: Move[] = [];
    const stop = playThrough(position, line, (at, ply, move) => {
      collector.visit(at, ply, move);
      if (move) played.push(move);
    });
    if (collector.stays.length === 0) return { stop, score: undefined };
    // text is made only of what is kept
    const result = resultOf(tagValue(tags, "Result")) ?? line.result ?? "*";
    const fen = makeFen(start.toSetup());
    const moves = played.map(makeUci).join(" ");
    const plies = played.length;
    const end = {
      result,
      termination: tags.get("Termination"),
      position,
      ply: plies,
      stopped: stop !== undefined,
    };
    return {
      stop,
      score: {
        result,
        start: fen === INITIAL_FEN ? null : fen,
        moves,
        plies,
        digest: createHash("sha256").update(`${fen} ${moves}`).digest("hex").slice(0, 32),
        stoppedAt: stop?.ply ?? null,
        stopReason: stop?.fault ?? null,
        endings: collector.stays.map((stay) => this.classifier.ending(stay, end)),
      },
    };
  }
}

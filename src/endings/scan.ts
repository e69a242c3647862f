// From bytes to endings: what a stretch of PGN holds of the target, which is what worker threads find out.

import type { Material } from "../chess/material.js";
import type { ByteOffset, Ply } from "../chess/units.js";
import { cutTarget, mayHold } from "../pgn/cut.js";
import { type Encoding, UTF8, guessEncoding, isUtf8 } from "../pgn/encoding.js";
import { type GameSpan, findGames, mayReach } from "../pgn/games.js";
import { FAULTS, type Fault, startOf } from "../pgn/replay.js";
import { type Pace, eventTypeOf, isEngineGame, paceOf } from "../pgn/circumstances.js";
import { type Tags, ratingOf, readTags, tagValue, variantOf, yearOf } from "../pgn/tags.js";
import type { Tables } from "../solver/tables.js";
import { Classifier } from "./ending.js";
import { ScoreMemory, type ScoreRecord, Scores } from "./scores.js";

/** A game that could not be read, or not to its end. */
export interface Skipped {
  /** Number in the stretch, from 1, and part (see `GameSpan`). */
  readonly game: number;
  readonly part: number;
  readonly byte: ByteOffset;
  /** Where reading stopped; null if it never began. */
  readonly ply: Ply | null;
  readonly reason: Fault;
  readonly detail: string;
}

/** A game that reaches the target. */
export interface GameRecord extends ScoreRecord {
  /** Number in the stretch, from 1, and part (see `GameSpan`). */
  readonly game: number;
  readonly part: number;
  readonly byteStart: ByteOffset;
  readonly byteEnd: ByteOffset;
  readonly white: string | null;
  readonly black: string | null;
  readonly whiteRating: number | null;
  readonly blackRating: number | null;
  readonly event: string | null;
  readonly site: string | null;
  readonly date: string | null;
  readonly year: number | null;
  readonly round: string | null;
  readonly timeControl: string | null;
  readonly termination: string | null;
  readonly pace: Pace | null;
  readonly eventType: string | null;
  /** A program plays on one side at least. */
  readonly engineGame: boolean;
  /** Of the tags, see `Encoding.name`. */
  readonly encoding: string;
  readonly fischerRandom: boolean;
}

export interface ScanResult {
  readonly games: number;
  /** The last number given; less than `games` where games were recovered from comments. */
  readonly numbers: number;
  /** Games played through, the others having been rejected unread. */
  readonly replayed: number;
  readonly found: readonly GameRecord[];
  readonly skipped: readonly Skipped[];
}

export interface ScanOptions {
  /** Offset of the stretch in its file, added to every offset. */
  readonly offset?: ByteOffset;
  /** Play every game through, for checking the quick reject. */
  readonly noReject?: boolean;
}

class Scanner {
  private readonly found: GameRecord[] = [];
  private readonly skipped: Skipped[] = [];
  private games = 0;
  private numbers = 0;
  private part = 1;
  private replayed = 0;
  private guess: Encoding | undefined;

  constructor(
    private readonly bytes: Uint8Array,
    private readonly material: Material,
    private readonly scores: Scores,
    private readonly options: ScanOptions,
  ) {}

  run(): ScanResult {
    const { material } = this;
    const target = cutTarget(material);
    findGames(this.bytes, (span) => {
      ++this.games;
      if (span.part === 1) ++this.numbers;
      this.part = span.part;
      if (this.options.noReject || (mayReach(span, material.men) && mayHold(this.bytes, span, target)))
        this.game(span);
    });
    return {
      games: this.games,
      numbers: this.numbers,
      replayed: this.replayed,
      found: this.found,
      skipped: this.skipped,
    };
  }

  private skip(reason: Fault, at: number, ply: Ply | null, detail: string): void {
    const byte = (this.options.offset ?? 0) + at;
    this.skipped.push({
      game: this.numbers,
      part: this.part,
      byte,
      ply,
      reason,
      detail: detail || FAULTS[reason],
    });
  }

  private tagBytes(span: Readonly<GameSpan>): Uint8Array {
    return this.bytes.subarray(span.start, span.text);
  }

  /** The encoding of a game's tags: if they are not UTF-8, a guess from all names of the stretch that are not. */
  private encodingOf(span: Readonly<GameSpan>): Encoding {
    if (isUtf8(this.tagBytes(span))) return UTF8;
    this.guess ??= encodingOfNames(this.bytes);
    return this.guess;
  }

  private game(span: Readonly<GameSpan>): void {
    const tags = readTags(this.tagBytes(span));
    const variant = variantOf(tags.get("Variant"));
    if (variant === "other") return this.skip("other-variant", span.start, null, tags.get("Variant")!);
    const start = startOf(tags);
    if (!start) return this.skip("bad-start", span.start, null, tags.get("FEN")!);
    ++this.replayed;
    const { stop, score } = this.scores.read(this.bytes.subarray(span.text, span.end), tags, start);
    if (stop) this.skip(stop.fault, span.text + stop.at, stop.ply, stop.token);
    if (!score) return;
    const encoding = this.encodingOf(span);
    const named = encoding === UTF8 ? tags : readTags(this.tagBytes(span), encoding);
    const offset = this.options.offset ?? 0;
    this.found.push({
      game: this.numbers,
      part: this.part,
      byteStart: offset + span.start,
      byteEnd: offset + span.end,
      ...gameFields(named),
      encoding: encoding.name,
      fischerRandom: variant === "fischer-random",
      ...score,
    });
  }
}

/** Names enough for a guess. */
const SAMPLE_BYTES = 8192;

/** The encoding of names in a stretch that are not UTF-8; UTF-8 if there are none. */
export function encodingOfNames(bytes: Uint8Array): Encoding {
  const names = namesIn(bytes);
  return names.length === 0 ? UTF8 : guessEncoding(names);
}

/** Values of tags that are not UTF-8, each once, one a line. */
function namesIn(bytes: Uint8Array): Uint8Array {
  const found = new Set<string>();
  let size = 0;
  findGames(bytes, ({ start, text }) => {
    if (size > SAMPLE_BYTES) return;
    const section = bytes.subarray(start, text);
    if (isUtf8(section)) return;
    for (const [, value] of Buffer.from(section)
      .toString("latin1")
      .matchAll(/"(.*)"/g)) {
      if (!/[\u0080-\u00ff]/.test(value) || found.has(value)) continue;
      found.add(value);
      size += value.length;
    }
  });
  return Buffer.from([...found].join("\n"), "latin1");
}

function gameFields(tags: Tags) {
  const text = (name: string) => tagValue(tags, name) ?? null;
  return {
    white: text("White"),
    black: text("Black"),
    whiteRating: ratingOf(tags, "WhiteElo") ?? null,
    blackRating: ratingOf(tags, "BlackElo") ?? null,
    event: text("Event"),
    site: text("Site"),
    date: text("Date"),
    year: yearOf(tags) ?? null,
    round: text("Round"),
    timeControl: text("TimeControl"),
    termination: text("Termination"),
    pace: paceOf(tagValue(tags, "TimeControl")) ?? null,
    eventType: eventTypeOf(tags) ?? null,
    engineGame: isEngineGame(tags),
  };
}

/**
 * Finds every ending of one material in stretches of PGN that begin and end between games. Threads that share a
 * `memory` read a score once.
 */
export class EndingScan {
  private readonly scores: Scores;

  constructor(
    private readonly material: Material,
    tables: Tables,
    memory = new ScoreMemory(),
  ) {
    this.scores = new Scores(new Classifier(material, tables), memory);
  }

  scan(bytes: Uint8Array, options: ScanOptions = {}): ScanResult {
    return new Scanner(bytes, this.material, this.scores, options).run();
  }
}

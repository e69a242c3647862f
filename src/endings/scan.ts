// From bytes to endings: what a stretch of PGN holds of the target, which is what worker threads find out.

import { createHash } from "node:crypto";

import { type Move, makeUci } from "chessops";
import type { Chess } from "chessops/chess";
import { INITIAL_FEN, makeFen } from "chessops/fen";

import type { Material } from "../chess/material.js";
import type { ByteOffset, Ply } from "../chess/units.js";
import { cutTarget, mayHold } from "../pgn/cut.js";
import { type Encoding, UTF8, guessEncoding, isUtf8 } from "../pgn/encoding.js";
import { type GameSpan, findGames, mayReach } from "../pgn/games.js";
import { type Result, readMainLine, resultOf } from "../pgn/movetext.js";
import { FAULTS, type Fault, type Stop, playThrough, startOf } from "../pgn/replay.js";
import { type Pace, eventTypeOf, isEngineGame, paceOf } from "../pgn/circumstances.js";
import { type Tags, ratingOf, readTags, tagValue, variantOf, yearOf } from "../pgn/tags.js";
import type { Tables } from "../solver/tables.js";
import { Classifier, type EndingRecord } from "./ending.js";
import { StayCollector } from "./stays.js";

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

/** What came of reading a score: where it stopped short, if it did, and what it holds, if it reaches the target. */
interface ReadScore {
  readonly stop: Stop | undefined;
  readonly score: ScoreRecord | undefined;
}

/** Positions that are remembered: enough for a collection whose files share games, some tens of megabytes. */
const REMEMBERED = 20_000;

/**
 * Reads scores with the rules library. Collections hold the same game many times over, so what came of a score is
 * remembered by its bytes and by what else it depends on, and given again; the oldest is forgotten first.
 */
export class Scores {
  private readonly known = new Map<string, ReadScore>();
  private positions = 0;

  constructor(private readonly classifier: Classifier) {}

  /** What comes of a score from `start`, which is left as it is. */
  read(movetext: Uint8Array, tags: Tags, start: Chess): ReadScore {
    const others = ["FEN", "Result", "Termination"].map((name) => tags.get(name) ?? "").join("\n");
    const key = createHash("sha256").update(movetext).update(`\0${others}`).digest("base64");
    let read = this.known.get(key);
    if (!read) {
      read = this.replay(movetext, tags, start);
      this.known.set(key, read);
      this.positions += weightOf(read);
      for (const [old, forgotten] of this.known) {
        if (this.positions <= REMEMBERED) break;
        this.positions -= weightOf(forgotten);
        this.known.delete(old);
      }
    }
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

const weightOf = ({ score }: ReadScore): number =>
  1 + (score?.endings.reduce((sum, ending) => sum + ending.positions, 0) ?? 0);

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

/** Finds every ending of one material in stretches of PGN that begin and end between games. */
export class EndingScan {
  private readonly scores: Scores;

  constructor(
    private readonly material: Material,
    tables: Tables,
  ) {
    this.scores = new Scores(new Classifier(material, tables));
  }

  scan(bytes: Uint8Array, options: ScanOptions = {}): ScanResult {
    return new Scanner(bytes, this.material, this.scores, options).run();
  }
}

// Reading candidates: what games that may hold the target (see candidates.ts) do hold of it.

import type { Material } from "../chess/material.js";
import type { ByteOffset, Ply } from "../chess/units.js";
import { type Encoding, UTF8, guessEncoding, isUtf8 } from "../pgn/files/encoding.js";
import { FAULTS, type Fault } from "../pgn/faults.js";
import { startOf } from "../pgn/game/replay.js";
import { type Pace, eventTypeOf, paceOf } from "../pgn/game/circumstances.js";
import { type ProgramClass, programClass } from "../pgn/game/programs.js";
import { type Tags, ratingOf, readTags, tagValue, variantOf, yearOf } from "../pgn/game/tags.js";
import type { Tables } from "../tablebase/tables.js";
import { Classifier } from "./ending.js";
import { type ReplayRecord, ReplayCache } from "./replay-cache.js";
import type { Candidates, Skipped } from "./candidates.js";

/** A game that reaches the target. */
export interface GameRecord extends ReplayRecord {
  /** Number in the block, from 1, and part (see `GameBounds`). */
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
  /** Whether a program plays on one side at least. */
  readonly engineGame: ProgramClass;
  /** Of the tags, see `Encoding.name`. */
  readonly encoding: string;
  readonly fischerRandom: boolean;
}

/** What came of reading games. */
export interface ReadGames {
  /** Games replayed, or known from a copy. */
  readonly replayed: number;
  readonly found: readonly GameRecord[];
  readonly skipped: readonly Skipped[];
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
  };
}

/** Reads the candidates of one material: those that reach it, with their endings, and those that cannot be read. */
export class GameReader {
  private readonly cache: ReplayCache;

  constructor(material: Material, tables: Tables) {
    this.cache = new ReplayCache(new Classifier(material, tables));
  }

  read({ games, bytes, names }: Candidates): ReadGames {
    const found: GameRecord[] = [];
    const skipped: Skipped[] = [];
    let replayed = 0;
    let guess: Encoding | undefined;
    for (const { game, part, byte, start: at, text, end } of games) {
      const skip = (reason: Fault, place: number, ply: Ply | null, detail: string) =>
        skipped.push({ game, part, byte: byte + place - at, ply, reason, detail: detail || FAULTS[reason] });
      const section = bytes.subarray(at, text);
      const tags = readTags(section);
      const variant = variantOf(tags.get("Variant"));
      if (variant === "other") {
        skip("other-variant", at, null, tags.get("Variant")!);
        continue;
      }
      const start = startOf(tags);
      if (!start) {
        skip("bad-start", at, null, tags.get("FEN")!);
        continue;
      }
      ++replayed;
      const { stop, record } = this.cache.replay(bytes.subarray(text, end), tags, start);
      if (stop) skip(stop.fault, text + stop.at, stop.ply, stop.token);
      if (!record) continue;
      // if its tags are not UTF-8, a guess from all names of the block that are not
      const encoding = isUtf8(section) ? UTF8 : (guess ??= guessEncoding(names!));
      found.push({
        game,
        part,
        byteStart: byte,
        byteEnd: byte + end - at,
        ...gameFields(encoding === UTF8 ? tags : readTags(section, encoding)),
        engineGame: programClass(tags, record.commented),
        encoding: encoding.name,
        fischerRandom: variant === "fischer-random",
        ...record,
      });
    }
    return { replayed, found, skipped };
  }
}

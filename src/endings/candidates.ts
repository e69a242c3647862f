// Candidates: which games of a block may hold the target. Bytes in, bytes of a few games out; what those hold is for the
// reader of games (game-reader.ts) to find. Whatever of the bytes is in no game that can be read is told.

import { PERCENT, endOfLine, isBlank, textOf } from "../pgn/scan/bytes.js";
import { crc32 } from "node:zlib";

import type { Material } from "../chess/material.js";
import type { ByteOffset, Ply } from "../chess/units.js";
import type { Fault } from "../pgn/faults.js";
import { LONGEST_GAME } from "../pgn/files/block-end.js";
import { blankWideText, isUtf8 } from "../pgn/files/encoding.js";
import type { GameBounds } from "../pgn/scan/game-bounds.js";
import { findGames } from "../pgn/scan/game-finder.js";
import { mayReach } from "../pgn/scan/material-filter.js";

/** A game that may hold the target. */
export interface Candidate {
  /** Number in the block, from 1, and part (see `GameBounds`). */
  readonly game: number;
  readonly part: number;
  /** Where it begins in its file. */
  readonly byte: ByteOffset;
  /** Where it begins, its movetext begins, and it ends in `Candidates.bytes`. */
  readonly start: number;
  readonly text: number;
  readonly end: number;
  /** Equal for copies of a game, and hardly ever for others: CRC-32 of its movetext. */
  readonly checksum: number;
}

/** Games to be read, of one block. */
export interface Candidates {
  readonly games: readonly Candidate[];
  /** The bytes of these games and of no other. */
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Names of the whole block that are not UTF-8, one a line, if those of one of these games are not. */
  readonly names: Uint8Array<ArrayBuffer> | null;
}

/** A game that could not be read, or not to its end, or text that is in no game. */
export interface Skipped {
  /** Number in the block, from 1, and part (see `GameBounds`); of text in no game, of the game before it. */
  readonly game: number;
  readonly part: number;
  readonly byte: ByteOffset;
  /** Where reading stopped; null if it never began. */
  readonly ply: Ply | null;
  readonly reason: Fault;
  readonly detail: string;
}

type SkippedPlace = Omit<Skipped, "reason" | "detail">;

export interface FoundCandidates {
  readonly games: number;
  /** The last number given; less than `games` where games were recovered from comments. */
  readonly numbers: number;
  readonly candidates: Candidates;
  /** What of the block is in no game that can be read. */
  readonly skipped: readonly Skipped[];
}

export interface CandidateOptions {
  /** Offset of the block in its file, added to every offset. */
  readonly offset?: ByteOffset;
  /** Let every game through, for checking the quick reject. */
  readonly noReject?: boolean;
  /** The block begins, and ends, in the middle of a game that is too long. */
  readonly continues?: boolean;
  readonly breaksOff?: boolean;
}

/** "1. e4 e5 …", of some bytes: what shows where one is in a file. */
const sampleOf = (bytes: Uint8Array, start: number, end: number): string =>
  textOf(bytes, start, Math.min(end, start + 80))
    .replace(/\s+/g, " ")
    .trim();

/** Finds candidates for one material. */
export class CandidateFinder {
  constructor(private readonly target: Material) {}

  /** Finds the candidates in a block of PGN. Bytes of it that cannot be read are blanked. */
  find(
    bytes: Uint8Array,
    { offset = 0, noReject = false, continues = false, breaksOff = false }: CandidateOptions = {},
  ): FoundCandidates {
    const found: Candidate[] = [];
    const copied: Uint8Array[] = [];
    const skipped: Skipped[] = [];
    let games = 0;
    let numbers = 0;
    let length = 0;
    let reached = 0;
    let last: SkippedPlace = { game: 0, part: 1, byte: offset, ply: null };
    let hasOddNames = false;
    const skip = (reason: Fault, place: SkippedPlace, detail: string) =>
      skipped.push({ ...place, reason, detail });
    /** Tells of text from where the last game ends to `end`. */
    const outside = (end: number) => {
      const start = firstText(bytes, reached, end);
      if (start < end && !(continues && games === 0))
        skip("no-game", { ...last, byte: offset + start, ply: null }, sampleOf(bytes, start, end));
    };
    const wide = blankWideText(bytes);
    /** Tells of text in two bytes a letter that ends before a place. */
    const tellWide = (before: number) => {
      if (wide && wide.end <= before && !skipped.some(({ reason }) => reason === "two-encodings"))
        skip(
          "two-encodings",
          { ...last, byte: offset + wide.start },
          `${(wide.end - wide.start).toLocaleString("en")} bytes`,
        );
    };
    const take = (game: Readonly<GameBounds>) => {
      if (game.start > reached) outside(game.start);
      tellWide(game.start);
      reached = game.end;
      ++games;
      if (game.part === 1) ++numbers;
      last = { game: numbers, part: game.part, byte: offset + game.start, ply: null };
      const isCut = breaksOff && game.end === bytes.length && wide?.end !== bytes.length;
      if (isCut || game.end - game.start > LONGEST_GAME) {
        skip("too-long", last, sampleOf(bytes, game.start, game.end));
        return;
      }
      if (!noReject && !mayReach(bytes, game, this.target)) return;
      const at = length - game.start;
      const [text, end] = [at + game.text, at + game.end];
      const checksum = crc32(bytes.subarray(game.text, game.end));
      found.push({
        game: numbers,
        part: game.part,
        byte: offset + game.start,
        start: length,
        text,
        end,
        checksum,
      });
      copied.push(bytes.subarray(game.start, game.end));
      hasOddNames ||= !isUtf8(bytes.subarray(game.start, game.text));
      length = end;
    };
    findGames(bytes, take, { continues });
    outside(bytes.length);
    tellWide(bytes.length);
    const own = new Uint8Array(length);
    found.forEach(({ start }, n) => own.set(copied[n], start));
    const names = hasOddNames ? new Uint8Array(namesIn(bytes)) : null;
    return { games, numbers, candidates: { games: found, bytes: own, names }, skipped };
  }
}

/** Where the first text is between two places, lines that begin with a percent sign passed over (PGN standard, 6). */
function firstText(bytes: Uint8Array, from: number, to: number): number {
  for (let p = from; p < to; ++p) {
    if (bytes[p] === PERCENT) p = endOfLine(bytes, p);
    else if (!isBlank(bytes[p]) && !isMark(bytes, p)) return p;
  }
  return to;
}

/** Whether a byte belongs to the mark of UTF-8, with which a file may begin, or any of those that were joined to one. */
const isMark = (bytes: Uint8Array, p: number): boolean => {
  const start = bytes[p] === 0xef ? p : bytes[p] === 0xbb ? p - 1 : p - 2;
  return bytes[start] === 0xef && bytes[start + 1] === 0xbb && bytes[start + 2] === 0xbf;
};

/** Names enough for a guess. */
const SAMPLE_BYTES = 8192;

/** Values of tags that are not UTF-8, each once, one a line. */
export function namesIn(bytes: Uint8Array): Uint8Array {
  const found = new Set<string>();
  let size = 0;
  findGames(bytes, ({ start, text }) => {
    if (size > SAMPLE_BYTES) return;
    const section = bytes.subarray(start, text);
    if (isUtf8(section)) return;
    for (const [, value] of textOf(section, 0, section.length).matchAll(/"(.*)"/g)) {
      if (!/[\u0080-\u00ff]/.test(value) || found.has(value)) continue;
      found.add(value);
      size += value.length;
    }
  });
  return Buffer.from([...found].join("\n"), "latin1");
}

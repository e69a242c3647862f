// Candidates: which games of a block may hold the target. Bytes in, bytes of a few games out; what those hold is for the
// reader of games (game-reader.ts) to find.

import { textOf } from "../pgn/scan/bytes.js";
import { crc32 } from "node:zlib";

import type { Material } from "../chess/material.js";
import type { ByteOffset } from "../chess/units.js";
import { isUtf8 } from "../pgn/files/encoding.js";
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

export interface FoundCandidates {
  readonly games: number;
  /** The last number given; less than `games` where games were recovered from comments. */
  readonly numbers: number;
  readonly candidates: Candidates;
}

export interface CandidateOptions {
  /** Offset of the block in its file, added to every offset. */
  readonly offset?: ByteOffset;
  /** Let every game through, for checking the quick reject. */
  readonly noReject?: boolean;
}

/** Finds candidates for one material. */
export class CandidateFinder {
  constructor(private readonly target: Material) {}

  /** Finds the candidates in a block of PGN that begins and ends between games. */
  find(bytes: Uint8Array, { offset = 0, noReject = false }: CandidateOptions = {}): FoundCandidates {
    const found: Candidate[] = [];
    const copied: Uint8Array[] = [];
    let games = 0;
    let numbers = 0;
    let length = 0;
    let hasOddNames = false;
    findGames(bytes, (game) => {
      ++games;
      if (game.part === 1) ++numbers;
      if (!noReject && !mayReach(bytes, game, this.target)) return;
      const at = length - game.start;
      const [text, end] = [at + game.text, at + game.end];
      const checksum = crc32(bytes.subarray(game.text, game.end));
      const byte = offset + game.start;
      found.push({ game: numbers, part: game.part, byte, start: length, text, end, checksum });
      copied.push(bytes.subarray(game.start, game.end));
      hasOddNames ||= !isUtf8(bytes.subarray(game.start, game.text));
      length = end;
    });
    const own = new Uint8Array(length);
    found.forEach(({ start }, n) => own.set(copied[n], start));
    const names = hasOddNames ? new Uint8Array(namesIn(bytes)) : null;
    return { games, numbers, candidates: { games: found, bytes: own, names } };
  }
}

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

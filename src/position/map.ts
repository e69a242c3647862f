// A map: what a position would be with one of its pieces on each other square; and with two pieces moved, how many of
// the second piece's squares win, draw and lose for each of the first's.

import { type BoardPlacement, placementOf, readFen } from "../chess/fen.js";
import { kindNameOf } from "../chess/material.js";
import { Movement } from "../chess/moves.js";
import type { Placement } from "../chess/placement.js";
import { fileOf, parseSquare, rankOf, squareName } from "../chess/squares.js";
import type { Square } from "../chess/units.js";
import type { VerdictCounts } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import { type Value, type Tables, unpack } from "../tablebase/tables.js";
import type { Prober } from "./probe.js";

export interface MappedSquare {
  readonly square: Square;
  /** Null where another piece stands, or the side that is not to move would be in check. */
  readonly value: Value | null;
}

export interface VerdictMap {
  readonly fen: string;
  readonly attackerToMove: boolean;
  /** Index of the piece, its name and the square it stands on. */
  readonly piece: { readonly index: number; readonly name: string; readonly square: Square };
  readonly squares: readonly MappedSquare[];
  readonly counts: VerdictCounts;
}

export interface CountedSquare {
  readonly square: Square;
  /** Over the second piece's squares; null where another piece stands. */
  readonly counts: VerdictCounts | null;
}

export interface CountMap {
  readonly fen: string;
  readonly attackerToMove: boolean;
  readonly pieces: readonly [VerdictMap["piece"], VerdictMap["piece"]];
  readonly squares: readonly CountedSquare[];
  readonly counts: VerdictCounts;
}

const noCounts = (): VerdictCounts => ({ won: 0, drawn: 0, lost: 0 });

/** The piece that a word means: "rook", "attacker's king" (also with hyphens), or the square it stands on. */
export function pieceNamed(
  { material, squares }: Pick<BoardPlacement, "material" | "squares">,
  said: string,
): number {
  const word = said
    .trim()
    .toLowerCase()
    .replace(/[-\s]+/g, " ")
    .replace(/^attackers? (?!'s)/, "attacker's ")
    .replace(/^defender(?:'?s)? /, "");
  const names = squares.map((_, n) => kindNameOf(material, n));
  const square = parseSquare(word);
  const index = square === undefined ? names.indexOf(word) : squares.indexOf(square);
  if (index >= 0) return index;
  throw new LongsideError("bad-option", {
    option: `--piece ${said}`,
    cause: `it is one of ${[...new Set(names)].join(", ")}, or the square of a piece`,
    command: "map",
  });
}

/** Makes maps of positions of one material. */
export class Mapper {
  private readonly placed: BoardPlacement & Placement;
  private readonly movement: Movement;
  private readonly tables: Tables;

  /** Throws `bad-fen`, `outside-tables`, `tables-missing`. */
  constructor(
    private readonly fen: string,
    prober: Prober,
  ) {
    this.placed = placementOf(readFen(fen));
    this.movement = new Movement(this.placed.material);
    this.tables = prober.tablesFor(this.placed);
  }

  /** The pieces that words mean (see `pieceNamed`). */
  pieces(words: readonly string[]): number[] {
    return words.map((word) => pieceNamed(this.placed, word));
  }

  private piece(index: number): VerdictMap["piece"] {
    return { index, name: kindNameOf(this.placed.material, index), square: this.placed.squares[index] };
  }

  /** The value with the pieces on `squares`; null where that is no legal position. */
  private value(squares: readonly Square[]): Value | null {
    const { attackerToMove } = this.placed;
    if (new Set(squares).size < squares.length) return null;
    if (this.movement.inCheck(squares, attackerToMove ? 1 : 0)) return null;
    return unpack(this.tables.probe(squares, attackerToMove));
  }

  /** The value for each square of one piece. */
  map(index: number): VerdictMap {
    const counts = noCounts();
    const squares = Array.from({ length: 64 }, (_, square): MappedSquare => {
      const value = this.value(this.placed.squares.map((one, n) => (n === index ? square : one)));
      if (value) ++counts[value.verdict];
      return { square, value };
    });
    const { attackerToMove } = this.placed;
    return { fen: this.fen, attackerToMove, piece: this.piece(index), squares, counts };
  }

  /** For each square of one piece, how the squares of another come out. */
  count(first: number, second: number): CountMap {
    const all = noCounts();
    const others = this.placed.squares.filter((_, n) => n !== first && n !== second);
    const squares = Array.from({ length: 64 }, (_, square): CountedSquare => {
      if (others.includes(square)) return { square, counts: null };
      const counts = noCounts();
      for (let other = 0; other < 64; ++other) {
        const value = this.value(
          this.placed.squares.map((one, n) => (n === first ? square : n === second ? other : one)),
        );
        if (!value) continue;
        ++counts[value.verdict];
        ++all[value.verdict];
      }
      return { square, counts };
    });
    const { attackerToMove } = this.placed;
    return {
      fen: this.fen,
      attackerToMove,
      pieces: [this.piece(first), this.piece(second)],
      squares,
      counts: all,
    };
  }
}

/** A map's squares by name, for programs. */
export const bySquare = <T extends { readonly square: Square }>(
  squares: readonly T[],
): (Omit<T, "square"> & { square: string; file: number; rank: number })[] =>
  squares.map((one) => ({
    ...one,
    square: squareName(one.square),
    file: fileOf(one.square) + 1,
    rank: rankOf(one.square) + 1,
  }));

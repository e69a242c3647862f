// Legal moves of placements: a small generator for pawnless positions of up to five men.
//
// It exists because counting the moves that keep the verdict asks for every move of every position of every
// ending; the rules library is used everywhere else, and the tests hold the two against each other.
// Nothing is allocated per position: a `MoveList` is reused.

import { BISHOP, KNIGHT, type Kind, type Material, ROOK } from "./material.js";
import { ATTACKER_KING, DEFENDER_KING, firstDefender } from "./placement.js";
import type { Square } from "./units.js";

const KING = -1;
/** The square of a piece that has been taken. */
export const OFF_BOARD = 64;

/** Squares in each direction from a square: rook's 0–3, bishop's 4–7; and the steps of king and knight. */
const STEPS = [
  [0, 1],
  [0, -1],
  [1, 0],
  [-1, 0],
  [1, 1],
  [-1, 1],
  [1, -1],
  [-1, -1],
] as const;
const LEAPS = [
  [1, 2],
  [2, 1],
  [2, -1],
  [1, -2],
  [-1, -2],
  [-2, -1],
  [-2, 1],
  [-1, 2],
] as const;

const from = (square: Square, [df, dr]: readonly [number, number]): Square[] => {
  const file = (square & 7) + df;
  const rank = (square >> 3) + dr;
  return file < 0 || file > 7 || rank < 0 || rank > 7 ? [] : [rank * 8 + file];
};
const ray = (square: Square, step: readonly [number, number]): Square[] => {
  const squares: Square[] = [];
  for (let next = from(square, step); next.length; next = from(next[0], step)) squares.push(next[0]);
  return squares;
};

const ALL = Array.from({ length: 64 }, (_, square) => square);
/** RAYS[square][direction]: the squares from there to the edge; directions 0–3 are a rook's, 4–7 a bishop's. */
const RAYS: readonly (readonly Int8Array[])[] = [
  ...ALL.map((s) => STEPS.map((step) => Int8Array.from(ray(s, step)))),
  STEPS.map(() => new Int8Array()),
];
export const KING_STEPS = ALL.map((s) => Int8Array.from(STEPS.flatMap((step) => from(s, step))));
/** From no square, off the board, there is no leap. */
export const KNIGHT_LEAPS = [
  ...ALL.map((s) => Int8Array.from(LEAPS.flatMap((leap) => from(s, leap)))),
  new Int8Array(),
];
/** NEXT[square * 8 + direction]: the square one step on, -1 beyond the edge. */
export const NEXT = Int8Array.from(ALL.flatMap((s) => STEPS.map((step) => from(s, step)[0] ?? -1)));
/** LINE[a * 64 + b]: direction from a (on the board or off it) to b if they stand on one line, otherwise 255. */
const LINE = new Uint8Array(65 * 64).fill(255);
for (const s of ALL) RAYS[s].forEach((squares, d) => squares.forEach((t) => (LINE[s * 64 + t] = d)));

const near = (a: Square, b: Square) => Math.abs((a & 7) - (b & 7)) <= 1 && Math.abs((a >> 3) - (b >> 3)) <= 1;

/** Moves of one position: `count` entries of the piece's index, its new square, and the piece captured (or -1). */
export class MoveList {
  count = 0;
  readonly piece = new Int8Array(128);
  readonly to = new Int8Array(128);
  readonly captured = new Int8Array(128);
}

/** The moves of one material. Pieces are indexed as in a placement's `squares`. */
export class Movement {
  /** Kind of each piece, -1 for the kings. */
  private readonly kinds: Int8Array;
  /** 0 attacker's, 1 defender's, for each piece. */
  private readonly sides: Uint8Array;
  private readonly board = new Int8Array(65).fill(-1);
  /** The move at hand may leave its king in check. */
  private risky = true;

  constructor(readonly material: Material) {
    const { attacker, defender } = material;
    this.kinds = Int8Array.from([KING, KING, ...attacker, ...defender]);
    this.sides = Uint8Array.from({ length: material.men }, (_, n) =>
      n === DEFENDER_KING || n >= firstDefender(material) ? 1 : 0,
    );
  }

  /** The kind of piece `n`; undefined for a king. */
  kindOf(n: number): Kind | undefined {
    const kind = this.kinds[n];
    return kind === KING ? undefined : (kind as Kind);
  }

  /** 0 if piece `n` is the attacker's, 1 if it is the defender's. */
  sideOf(n: number): 0 | 1 {
    return this.sides[n] as 0 | 1;
  }

  /** Whether piece `n` (not a king) attacks `target`, with the pieces on `squares`; piece `gone` is off the board. */
  attacks(squares: ArrayLike<Square>, n: number, target: Square, gone = -1): boolean {
    const square = squares[n];
    const kind = this.kinds[n] as Kind;
    if (kind === KNIGHT) return KNIGHT_LEAPS[square].includes(target);
    const direction = LINE[square * 64 + target];
    if (direction === 255 || (kind === ROOK && direction > 3) || (kind === BISHOP && direction < 4))
      return false;
    const ray = RAYS[square][direction];
    for (let n = 0; n < ray.length; ++n) {
      const s = ray[n];
      if (s === target) return true;
      for (let m = 0; m < squares.length; ++m) if (m !== gone && squares[m] === s) return false;
    }
    return false;
  }

  /** Whether the king of `side` (0 attacker, 1 defender) is attacked. Piece `gone` is off the board. */
  inCheck(squares: ArrayLike<Square>, side: 0 | 1, gone = -1): boolean {
    const king = squares[side];
    if (near(king, squares[1 - side])) return true;
    for (let n = 2; n < this.kinds.length; ++n) {
      if (n !== gone && this.sides[n] !== side && this.attacks(squares, n, king, gone)) return true;
    }
    return false;
  }

  /** Fills `list` with the legal moves. `squares` is changed and put back while working. */
  legalMoves(squares: Square[] | Int8Array, attackerToMove: boolean, list: MoveList): void {
    const side = attackerToMove ? 0 : 1;
    const { board, kinds, sides } = this;
    const king = squares[side];
    const checked = this.inCheck(squares, side);
    list.count = 0;
    for (let n = 0; n < kinds.length; ++n) board[squares[n]] = n;
    for (let n = 0; n < kinds.length; ++n) {
      if (sides[n] !== side) continue;
      const square = squares[n];
      const kind = kinds[n];
      // a piece on no line with the king shields it from nothing
      this.risky = checked || kind === KING || LINE[square * 64 + king] !== 255;
      if (kind === KING || kind === KNIGHT) {
        const steps = kind === KING ? KING_STEPS[square] : KNIGHT_LEAPS[square];
        for (let m = 0; m < steps.length; ++m) this.tryMove(squares, side, n, steps[m], list);
        continue;
      }
      for (let d = kind === BISHOP ? 4 : 0, end = kind === ROOK ? 4 : 8; d < end; ++d) {
        const ray = RAYS[square][d];
        for (let m = 0; m < ray.length; ++m) {
          this.tryMove(squares, side, n, ray[m], list);
          if (board[ray[m]] >= 0) break;
        }
      }
    }
    for (let n = 0; n < kinds.length; ++n) board[squares[n]] = -1;
  }

  private tryMove(squares: Square[] | Int8Array, side: 0 | 1, n: number, to: Square, list: MoveList): void {
    const captured = this.board[to];
    if (
      captured >= 0 &&
      (this.sides[captured] === side || captured === ATTACKER_KING || captured === DEFENDER_KING)
    ) {
      return;
    }
    const before = squares[n];
    squares[n] = to;
    if (!this.risky || !this.inCheck(squares, side, captured)) {
      list.piece[list.count] = n;
      list.to[list.count] = to;
      list.captured[list.count++] = captured;
    }
    squares[n] = before;
  }
}

// Probing: the exact value of a placement, from table files that are read block by block when first needed.
//
// What is lost, and what is won, a bit a placement tells. The distances are looked at only where the bit is set and more than
// the verdict is wanted. What has been unpacked is shared by all threads (unpacked.ts).
//
// Distances are those of placements with the loser to move. With the winner to move, they are one move more than
// the least among those moves that lead to a loss; the plane is zero where the loser could take the king, so
// that moves into check need no test.

import { BISHOP, KNIGHT, type Material, type Pieces, ROOK } from "../chess/material.js";
import { KING_STEPS, KNIGHT_LEAPS, type MoveList, NEXT } from "../chess/moves.js";
import { FIRST_PIECE } from "../chess/placement.js";
import { IMAGES } from "../chess/squares.js";
import type { Moves, Square } from "../chess/units.js";
import { type Score, type Verdict, scoreOf } from "../chess/verdict.js";
import { LongsideError } from "../errors.js";
import { TableFile, tableFile } from "./table-file.js";
import { type Half, halfOf, halvesOf, isEmpty, neededHalves, smallerHalves, without } from "./half.js";
import { kingNumbering } from "./solver-kernel.js";
import { type Bits, type SharedUnpacked, Unpacked } from "./unpacked.js";

/** A probed value, for the attacker. Distances count the winner's moves and are null when drawn. */
export interface Value {
  readonly verdict: Verdict;
  readonly dtm: Moves | null;
  readonly dtc: Moves | null;
}

/**
 * A value in one number, so that a probe allocates nothing: 0 drawn; else ±(65536 + 256 × moves to mate +
 * moves to conversion), positive when the attacker wins.
 */
export type PackedValue = number;

const WON = 65536;

export function unpack(packed: PackedValue): Value {
  if (packed === 0) return { verdict: "drawn", dtm: null, dtc: null };
  const distances = Math.abs(packed) & 0xffff;
  return { verdict: packed > 0 ? "won" : "lost", dtm: distances >> 8, dtc: distances & 255 };
}

interface SharedHalf {
  readonly half: string;
  readonly path: string;
  readonly unpacked: SharedUnpacked;
  /** The file, where it is small enough to be kept whole. */
  readonly whole: SharedArrayBuffer | undefined;
}

/** What a worker needs to read the same tables: file names and shared memory. */
export interface SharedTables {
  readonly halves: readonly SharedHalf[];
}

/** What a probe wants to know: distances too, or only who wins, in any number of moves or in so many at most. */
type Wanted = number;
const DISTANCES: Wanted = -1;
const VERDICT: Wanted = 255;

/** No number of moves. */
export const UNTOLD = -1;

/** What is known of each move of a `MoveList`; used again for each placement. */
export class MoveValues {
  /** Who wins after the move: 1 the attacker, -1 the defender, 0 neither. */
  readonly verdicts = new Int8Array(128);
  /** The winner's moves to conversion that are left, where the side to move wins by a move that takes nothing; else UNTOLD. */
  readonly conversions = new Int16Array(128);
}

/** What a board holds besides slots of pieces. */
const EMPTY = -1;
const KING = -2;

/** The least values over the winner's moves; one object for a half, used again for each probe. */
interface Least {
  mate: number;
  conversion: number;
}

/** A piece that has been taken up, to look at each square it may go to: where the places begin and how far apart they are. */
interface Lifted {
  readonly strides: Int32Array;
  slot: number;
  base: number;
  image: number;
  stride: number;
}
/** Stand for the kings among the slots. */
const WINNERS_KING = -1;
const LOSERS_KING = -2;

/** One half: a side's wins. Pieces are given in slot order, the winner's first. */
class HalfTable {
  private readonly file: TableFile;
  private readonly unpacked: Unpacked;
  private readonly lost: Bits;
  private readonly wins: Bits;
  /** Places in the bits of losses, and in the bits of wins, from one square of a piece to the next, by slot. */
  private readonly strides: Int32Array;
  private readonly winStrides: Int32Array;
  /** A piece that is taken up where the winner moves, or the loser; used again for each. */
  readonly ofWinner: Lifted;
  readonly ofLoser: Lifted;
  private readonly winners: number;
  private readonly pairSize: number;
  // fields, so that the kernel is loaded with the first table and not by everything that imports this file
  private readonly kingPairs = kingNumbering().pairs;
  private readonly pairImages = kingNumbering().symmetries;
  private readonly least: Least = { mate: 256, conversion: 256 };
  /** Slots of equal pieces of one side, pair by pair; only the order of rising squares is stored. */
  private readonly equal: readonly (readonly [number, number])[];
  private readonly imaged: Int32Array;
  /** Halves after the loser's pieces have been captured, by slot; set by `Tables`. */
  smaller: (HalfTable | undefined)[] = [];
  private readonly rest: Int32Array;
  private readonly moved: Int32Array;
  /** What the probe at work wants. */
  private wanted: Wanted = DISTANCES;
  /** What stands on each square while a probe is at work: EMPTY, KING or a slot. */
  private readonly board = new Int8Array(64).fill(EMPTY);

  constructor(
    readonly half: Half,
    readonly path: string,
    shared?: SharedHalf,
  ) {
    this.file = new TableFile(path, half, shared?.whole);
    this.unpacked = new Unpacked(this.file, shared?.unpacked);
    this.lost = this.unpacked.lost;
    this.wins = this.unpacked.wins;
    const { pieces } = half;
    // the last piece's square comes first (see `sliceRoom` in the kernel)
    this.strides = Int32Array.from(
      { length: pieces },
      (_, slot) => 64 ** (slot === pieces - 1 ? pieces - 1 : pieces - 2 - slot),
    );
    // the other way round: after the loser's moves the winner is to move
    this.winStrides = Int32Array.from({ length: pieces }, (_, slot) => 64 ** (pieces - 1 - slot));
    const liftable = (strides: Int32Array): Lifted => ({ strides, slot: 0, base: 0, image: 0, stride: 0 });
    this.ofWinner = liftable(this.strides);
    this.ofLoser = liftable(this.winStrides);
    this.winners = half.winner.length;
    this.pairSize = 64 ** pieces;
    this.imaged = new Int32Array(pieces);
    const kinds = [...half.winner.map((kind) => `w${kind}`), ...half.loser.map((kind) => `l${kind}`)];
    // neighbours only: with three equal pieces, the passes of `index` sort them
    this.equal = kinds.flatMap((kind, n) => (n > 0 && kinds[n - 1] === kind ? [[n - 1, n] as const] : []));
    this.rest = new Int32Array(Math.max(0, pieces - 1));
    this.moved = new Int32Array(pieces);
  }

  share(): SharedHalf {
    return {
      half: this.half.name,
      path: this.path,
      unpacked: this.unpacked.share(),
      whole: this.file.readWhole(),
    };
  }

  /** Whether the placement is lost with the loser to move; one with touching kings has no place, and is not. */
  private isLost(index: number): boolean {
    return index >= 0 && this.lost.has(index);
  }

  private packed(index: number): number {
    if (!this.isLost(index)) return 0;
    return WON + this.unpacked.distances(index);
  }

  private index(pair: number, pieces: ArrayLike<Square>, strides = this.strides): number {
    const image = this.pairImages[pair] * 64;
    const { equal, imaged } = this;
    const count = strides.length;
    let index = this.kingPairs[pair] * this.pairSize;
    if (equal.length === 0) {
      for (let slot = 0; slot < count; ++slot) index += IMAGES[image + pieces[slot]] * strides[slot];
      return index;
    }
    for (let slot = 0; slot < count; ++slot) imaged[slot] = IMAGES[image + pieces[slot]];
    for (let pass = 0; pass < equal.length; ++pass) {
      for (const [a, b] of equal) {
        if (imaged[a] > imaged[b]) [imaged[a], imaged[b]] = [imaged[b], imaged[a]];
      }
    }
    for (let slot = 0; slot < count; ++slot) index += imaged[slot] * strides[slot];
    return index;
  }

  /**
   * 0 not won, else 65536 + 256 × moves to mate + moves to conversion; the loser is to move. Where no distances are
   * wanted: 0 or 65536.
   */
  loserToMove(winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, wanted: Wanted): number {
    const index = this.index(winnerKing * 64 + loserKing, pieces);
    if (wanted === DISTANCES) return this.packed(index);
    if (!this.isLost(index)) return 0;
    return wanted === VERDICT || (this.unpacked.distances(index) & 255) <= wanted ? WON : 0;
  }

  /**
   * The same with the winner to move. Where the conversion must come within some moves, the first win that is good enough
   * ends the search.
   */
  winnerToMove(winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, wanted: Wanted): number {
    const win = this.index(winnerKing * 64 + loserKing, pieces, this.winStrides);
    if (win < 0 || !this.wins.has(win)) return 0;
    if (wanted === VERDICT) return WON;
    const { board, least } = this;
    const whether = wanted !== DISTANCES;
    this.wanted = wanted;
    least.mate = 256;
    least.conversion = 256;
    for (let slot = 0; slot < pieces.length; ++slot) board[pieces[slot]] = slot;
    board[winnerKing] = KING;
    board[loserKing] = KING;
    try {
      this.search(winnerKing, loserKing, pieces, whether);
    } finally {
      for (let slot = 0; slot < pieces.length; ++slot) board[pieces[slot]] = EMPTY;
      board[winnerKing] = EMPTY;
      board[loserKing] = EMPTY;
    }
    if (least.mate === 256) return 0;
    return whether ? WON : WON + 256 * (least.mate + 1) + least.conversion + 1;
  }

  private search(winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, whether: boolean): void {
    const { board, least, strides, winners } = this;
    const pair = winnerKing * 64 + loserKing;
    const image = this.pairImages[pair] * 64;
    const index = this.index(pair, pieces);
    for (let slot = 0; slot < winners; ++slot) {
      const kind = this.half.winner[slot];
      const from = pieces[slot];
      const stride = strides[slot];
      const base = index - IMAGES[image + from] * stride;
      if (kind === KNIGHT) {
        const leaps = KNIGHT_LEAPS[from];
        for (let n = 0; n < leaps.length; ++n) {
          const to = leaps[n];
          const taken = board[to];
          if (taken === EMPTY) this.step(pair, pieces, slot, to, base + IMAGES[image + to] * stride);
          else if (taken >= winners) this.capture(winnerKing, loserKing, pieces, slot, to, taken);
        }
        if (whether && least.mate < 256) return;
        continue;
      }
      for (let d = kind === BISHOP ? 4 : 0, end = kind === ROOK ? 4 : 8; d < end; ++d) {
        for (let to = NEXT[from * 8 + d]; to >= 0; to = NEXT[to * 8 + d]) {
          const taken = board[to];
          if (taken === EMPTY) {
            this.step(pair, pieces, slot, to, base + IMAGES[image + to] * stride);
            continue;
          }
          if (taken >= winners) this.capture(winnerKing, loserKing, pieces, slot, to, taken);
          break;
        }
        if (whether && least.mate < 256) return;
      }
    }
    const steps = KING_STEPS[winnerKing];
    for (let n = 0; n < steps.length; ++n) {
      const to = steps[n];
      const next = to * 64 + loserKing;
      if (this.kingPairs[next] < 0) continue;
      const taken = board[to];
      if (taken === EMPTY) this.consider(this.index(next, pieces));
      else if (taken >= winners) this.capture(to, loserKing, pieces, -1, to, taken);
      if (whether && least.mate < 256) return;
    }
  }

  /** Considers the piece in `slot` moving to `to`; `index` is right unless equal pieces must be put in order. */
  private step(pair: number, pieces: ArrayLike<Square>, slot: number, to: Square, index: number): void {
    if (this.equal.length > 0) {
      for (let m = 0; m < pieces.length; ++m) this.moved[m] = m === slot ? to : pieces[m];
      this.consider(this.index(pair, this.moved));
    } else {
      this.consider(index);
    }
  }

  private consider(index: number): void {
    if (!this.isLost(index)) return;
    const { least, wanted } = this;
    const distances = this.unpacked.distances(index);
    const conversion = distances & 255;
    if (wanted !== DISTANCES) {
      if (conversion + 1 <= wanted) least.mate = 0;
      return;
    }
    const mate = distances >> 8;
    if (mate < least.mate) least.mate = mate;
    if (conversion < least.conversion) least.conversion = conversion;
  }

  /** Considers the winner's piece in `slot` (-1 the king) taking the piece in slot `taken` on `to`. */
  private capture(
    winnerKing: Square,
    loserKing: Square,
    pieces: ArrayLike<Square>,
    slot: number,
    to: Square,
    taken: number,
  ): void {
    const table = this.smaller[taken];
    if (!table) return;
    for (let m = 0, n = 0; m < pieces.length; ++m)
      if (m !== taken) this.rest[n++] = m === slot ? to : pieces[m];
    // a capture is a conversion, whatever comes after it
    const value = table.loserToMove(
      winnerKing,
      loserKing,
      this.rest,
      this.wanted === DISTANCES ? DISTANCES : VERDICT,
    );
    if (value === 0) return;
    const mate = (value & 0xffff) >> 8;
    if (mate < this.least.mate) this.least.mate = mate;
    this.least.conversion = 0;
  }

  /** Takes up a piece by its slot, or a king; equal pieces are not provided for. */
  lift(piece: Lifted, winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, slot: number): void {
    const pair = winnerKing * 64 + loserKing;
    piece.slot = slot;
    if (slot < 0) return;
    piece.image = this.pairImages[pair] * 64;
    piece.stride = piece.strides[slot];
    piece.base = this.index(pair, pieces, piece.strides) - IMAGES[piece.image + pieces[slot]] * piece.stride;
  }

  /** Where the piece taken up stands among the placements when it is put down on a square. */
  private placeAfter(
    piece: Lifted,
    winnerKing: Square,
    loserKing: Square,
    pieces: ArrayLike<Square>,
    to: Square,
  ): number {
    const { slot } = piece;
    if (slot >= 0) return piece.base + IMAGES[piece.image + to] * piece.stride;
    const pair = slot === WINNERS_KING ? to * 64 + loserKing : winnerKing * 64 + to;
    return this.index(pair, pieces, piece.strides);
  }

  /**
   * 256 × moves to mate + moves to conversion when the winner puts the piece that it has taken up down on an empty square;
   * UNTOLD where that does not win.
   */
  distancesAfter(winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, to: Square): number {
    const index = this.placeAfter(this.ofWinner, winnerKing, loserKing, pieces, to);
    return this.isLost(index) ? this.unpacked.distances(index) : UNTOLD;
  }

  /** Whether it is the winner's win when the loser puts the piece that it has taken up down on an empty square. */
  isWonAfter(winnerKing: Square, loserKing: Square, pieces: ArrayLike<Square>, to: Square): boolean {
    return this.wins.has(this.placeAfter(this.ofLoser, winnerKing, loserKing, pieces, to));
  }

  get hasEqualPieces(): boolean {
    return this.equal.length > 0;
  }

  close(): void {
    this.file.close();
  }
}

/** The tables of one material seen from its attacker, with those that captures lead to. */
interface Node {
  readonly attackerWins?: HalfTable;
  readonly defenderWins?: HalfTable;
  /** Numbers of the attacker's pieces and of the defender's. */
  readonly attackers: number;
  readonly defenders: number;
  /** By index of the captured piece, from FIRST_PIECE. */
  readonly children: readonly Node[];
  /** The pieces in slot order of each half; used again for each probe. */
  readonly attackerOrder: Int32Array;
  readonly defenderOrder: Int32Array;
}

/** Writes the squares of the pieces in the slot order of each half. */
function putInOrder(
  { attackers, defenders, attackerOrder, defenderOrder }: Node,
  squares: ArrayLike<Square>,
): void {
  for (let n = 0; n < attackers + defenders; ++n) attackerOrder[n] = squares[FIRST_PIECE + n];
  for (let n = 0; n < defenders; ++n) defenderOrder[n] = squares[FIRST_PIECE + attackers + n];
  for (let n = 0; n < attackers; ++n) defenderOrder[defenders + n] = squares[FIRST_PIECE + n];
}

export class Tables {
  private readonly root: Node;
  private readonly halves = new Map<string, HalfTable>();
  private readonly scratch: Int8Array[];

  /** Opens the tables of a material. Throws `tables-missing`. */
  constructor(
    readonly material: Material,
    folder: string,
    shared?: SharedTables,
  ) {
    const given = new Map(shared?.halves.map((one) => [one.half, one]));
    for (const half of neededHalves(halvesOf(material))) {
      const one = given.get(half.name);
      try {
        this.halves.set(half.name, new HalfTable(half, one?.path ?? tableFile(folder, half), one));
      } catch (thrown) {
        this.close();
        if (thrown instanceof LongsideError && thrown.code === "table-damaged") {
          throw new LongsideError("tables-missing", { material: material.name });
        }
        throw thrown;
      }
    }
    for (const table of this.halves.values()) {
      table.smaller = smallerHalves(table.half).map(({ side, half }) =>
        side === 0 ? this.halves.get(half.name) : undefined,
      );
    }
    this.root = this.node(material.attacker, material.defender);
    this.scratch = Array.from({ length: material.men + 1 }, (_, pieces) => new Int8Array(pieces));
  }

  private node(attacker: Pieces, defender: Pieces): Node {
    const table = (winner: Pieces, loser: Pieces) => {
      const half = halfOf(winner, loser);
      return isEmpty(half) ? undefined : this.halves.get(half.name)!;
    };
    const pieces = attacker.length + defender.length;
    return {
      attackerWins: table(attacker, defender),
      defenderWins: table(defender, attacker),
      attackers: attacker.length,
      defenders: defender.length,
      children: [
        ...attacker.map((_, n) => this.node(without(attacker, n), defender)),
        ...defender.map((_, n) => this.node(attacker, without(defender, n))),
      ],
      attackerOrder: new Int32Array(pieces),
      defenderOrder: new Int32Array(pieces),
    };
  }

  /** For handing the tables to a worker. */
  share(): SharedTables {
    return { halves: [...this.halves.values()].map((table) => table.share()) };
  }

  private look(node: Node, squares: ArrayLike<Square>, attackerToMove: boolean, wanted: Wanted): PackedValue {
    const { attackerWins, defenderWins, attackerOrder, defenderOrder } = node;
    const attackerKing = squares[0];
    const defenderKing = squares[1];
    putInOrder(node, squares);
    if (attackerWins) {
      const value = attackerToMove
        ? attackerWins.winnerToMove(attackerKing, defenderKing, attackerOrder, wanted)
        : attackerWins.loserToMove(attackerKing, defenderKing, attackerOrder, wanted);
      if (value !== 0) return value;
    }
    if (defenderWins) {
      const value = attackerToMove
        ? defenderWins.loserToMove(defenderKing, attackerKing, defenderOrder, wanted)
        : defenderWins.winnerToMove(defenderKing, attackerKing, defenderOrder, wanted);
      return value === 0 ? 0 : -value;
    }
    return 0;
  }

  /** The squares left after piece `captured` has been taken off. */
  private without(squares: ArrayLike<Square>, captured: number): Int8Array {
    const rest = this.scratch[squares.length - 1];
    for (let n = 0, m = 0; n < squares.length; ++n) if (n !== captured) rest[m++] = squares[n];
    return rest;
  }

  /**
   * The value of a legal placement of the material; squares in a placement's order. A placement that is not
   * legal gives a meaningless value. Throws `table-damaged`.
   */
  probe(squares: ArrayLike<Square>, attackerToMove: boolean): PackedValue {
    return this.look(this.root, squares, attackerToMove, DISTANCES);
  }

  /**
   * The value after the side to move has moved piece `piece` (its index in `squares`) to `to`, taking what stands
   * there. `squares` is changed and put back while working.
   */
  probeAfter(squares: Square[], piece: number, to: Square, attackerToMove: boolean): PackedValue {
    return this.lookAfter(squares, piece, to, attackerToMove, DISTANCES);
  }

  /** Only who wins: 1 the attacker, -1 the defender, 0 neither. Less work than `probe`. */
  verdict(squares: ArrayLike<Square>, attackerToMove: boolean): Score {
    return scoreOf(this.look(this.root, squares, attackerToMove, VERDICT));
  }

  /** Only who wins after a move: see `probeAfter`. */
  verdictAfter(squares: Square[], piece: number, to: Square, attackerToMove: boolean): Score {
    return scoreOf(this.lookAfter(squares, piece, to, attackerToMove, VERDICT));
  }

  /**
   * Who wins after a move that takes nothing, with a conversion in at most `moves` moves of the winner (0 or more); 0
   * where nobody does within them.
   */
  verdictAfterWithin(
    squares: Square[],
    piece: number,
    to: Square,
    attackerToMove: boolean,
    moves: Moves,
  ): Score {
    return scoreOf(this.lookAfter(squares, piece, to, attackerToMove, Math.min(moves, VERDICT)));
  }

  /**
   * The value of a legal placement, as `probe` gives it, and what is known of each of its moves: `list` holds all that are
   * legal. Where the side to move wins, its moves are looked at once for both. Throws `table-damaged`.
   */
  probeMoves(squares: Square[], list: MoveList, attackerToMove: boolean, moves: MoveValues): PackedValue {
    const { attackerWins, defenderWins, attackers, defenders, attackerOrder, defenderOrder } = this.root;
    const { verdicts, conversions } = moves;
    conversions.fill(UNTOLD, 0, list.count);
    if (attackerWins?.hasEqualPieces || defenderWins?.hasEqualPieces) {
      for (let m = 0; m < list.count; ++m)
        verdicts[m] = this.verdictAfter(squares, list.piece[m], list.to[m], attackerToMove);
      return this.probe(squares, attackerToMove);
    }
    const sign = attackerToMove ? 1 : -1;
    const ours = attackerToMove ? attackerWins : defenderWins;
    const theirs = attackerToMove ? defenderWins : attackerWins;
    const ourOrder = attackerToMove ? attackerOrder : defenderOrder;
    const theirOrder = attackerToMove ? defenderOrder : attackerOrder;
    const king = squares[attackerToMove ? 0 : 1];
    const enemy = squares[attackerToMove ? 1 : 0];
    putInOrder(this.root, squares);
    const lost = theirs ? theirs.loserToMove(enemy, king, theirOrder, DISTANCES) : 0;
    if (lost !== 0) {
      // whoever is lost loses by every move
      verdicts.fill(-sign, 0, list.count);
      return -sign * lost;
    }
    const isWon = ours !== undefined && ours.winnerToMove(king, enemy, ourOrder, VERDICT) !== 0;
    /** Slots of the piece with the index FIRST_PIECE in both orders. */
    const ourFirst = attackerToMove ? 0 : -attackers;
    const theirFirst = attackerToMove ? defenders : 0;
    let mate = 256;
    let conversion = 256;
    let last = -1;
    for (let m = 0; m < list.count; ++m) {
      const piece = list.piece[m];
      const to = list.to[m];
      if (list.captured[m] >= 0) {
        const after = this.lookAfter(squares, piece, to, attackerToMove, isWon ? DISTANCES : VERDICT);
        verdicts[m] = scoreOf(after);
        // a capture is a conversion, whatever comes after it
        if (verdicts[m] === sign) {
          mate = Math.min(mate, (Math.abs(after) & 0xffff) >> 8);
          conversion = 0;
        }
        continue;
      }
      if (piece !== last) {
        const slot = piece - FIRST_PIECE;
        if (isWon) ours.lift(ours.ofWinner, king, enemy, ourOrder, slot < 0 ? WINNERS_KING : ourFirst + slot);
        if (theirs)
          theirs.lift(theirs.ofLoser, enemy, king, theirOrder, slot < 0 ? LOSERS_KING : theirFirst + slot);
        last = piece;
      }
      const after = isWon ? ours.distancesAfter(king, enemy, ourOrder, to) : UNTOLD;
      if (after !== UNTOLD) {
        verdicts[m] = sign;
        conversions[m] = after & 255;
        mate = Math.min(mate, after >> 8);
        conversion = Math.min(conversion, after & 255);
      } else verdicts[m] = theirs?.isWonAfter(enemy, king, theirOrder, to) ? -sign : 0;
    }
    return isWon ? sign * (WON + 256 * (mate + 1) + conversion + 1) : 0;
  }

  private lookAfter(
    squares: Square[],
    piece: number,
    to: Square,
    attackerToMove: boolean,
    wanted: Wanted,
  ): PackedValue {
    const captured = squares.indexOf(to);
    const from = squares[piece];
    squares[piece] = to;
    try {
      if (captured < 0) return this.look(this.root, squares, !attackerToMove, wanted);
      const rest = this.without(squares, captured);
      return this.look(this.root.children[captured - FIRST_PIECE], rest, !attackerToMove, wanted);
    } finally {
      squares[piece] = from;
    }
  }

  close(): void {
    for (const table of this.halves.values()) table.close();
  }
}

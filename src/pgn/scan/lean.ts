// A board that plays plain moves from raw bytes, for knowing which men stand on it: the lean replay.
//
// It trusts the score: a move is not tested for legality unless two men could make it. Whatever it cannot follow
// it says so, and the game is then replayed with the rules library.

import { isFile, isRank, isSign } from "./bytes.js";
import type { GameBounds } from "./game-finder.js";
import { CASTLES, PAWN_TAKES, PIECE, PIECE_TAKES, PROMOTES, UNCLEAR } from "./words.js";

/** Men by number: 1–6 White's pawn, knight, bishop, rook, queen, king; 9–14 Black's. */
const [PAWN_MAN, KNIGHT, BISHOP, ROOK, QUEEN, KING] = [1, 2, 3, 4, 5, 6];
const BLACK = 8;
const DASH = 45;

const MAN = new Uint8Array(256);
for (const [letter, man] of [
  ["P", PAWN_MAN],
  ["N", KNIGHT],
  ["B", BISHOP],
  ["R", ROOK],
  ["Q", QUEEN],
  ["K", KING],
] as const) {
  MAN[letter.charCodeAt(0)] = man;
  MAN[letter.toLowerCase().charCodeAt(0)] = BLACK + man;
}

/** What a man adds to `LeanBoard.men`: four bits for each kind but the kings, White's then Black's. */
const weightOf = (man: number): number =>
  (man & 7) === KING ? 0 : 16 ** ((man & 7) - 1 + (man < BLACK ? 0 : 5));
const WEIGHT = Float64Array.from({ length: 16 }, (_, man) =>
  (man & 7) === 0 || (man & 7) > KING ? 0 : weightOf(man),
);

/** `LeanBoard.men` of a position, its men given as letters of a FEN ("KRBkr"). */
export const menNumber = (letters: string): number =>
  [...letters].reduce((sum, letter) => sum + WEIGHT[MAN[letter.charCodeAt(0)]], 0);

const USUAL = "rnbqkbnr/pppppppp/8/8/8/8/PPPPPPPP/RNBQKBNR w";
const usual = Uint8Array.from(USUAL, (letter) => letter.charCodeAt(0));

/** Squares on a board of 16 columns, so that a step over the side is seen by a bit (0x88). */
const square = (file: number, rank: number) => rank * 16 + file;
const ALONG = [1, -1, 16, -16];
const ACROSS = [15, 17, -15, -17];
const EVERY_WAY = [...ALONG, ...ACROSS];
const LEAPS = [14, 18, 31, 33, -14, -18, -31, -33];

/** A board without rules. One is made for each thread, and set to one game after another. */
export class LeanBoard {
  private readonly board = new Uint8Array(128);
  private readonly kings = new Uint8Array(2);
  private black = false;
  /** Men on the board. */
  count = 0;
  /** How many there are of each kind, four bits each; too large for bit operations. */
  men = 0;

  /** Sets up the start of a game; false if it is none that can be followed. */
  set(bytes: Uint8Array, span: Readonly<GameBounds>): boolean {
    return span.fen < 0 ? this.place(usual, 0) : this.place(bytes, span.fen);
  }

  private place(fen: Uint8Array, p: number): boolean {
    this.board.fill(0);
    this.count = 0;
    this.men = 0;
    let file = 0;
    let rank = 7;
    for (; p < fen.length && fen[p] !== 32; ++p) {
      const byte = fen[p];
      if (byte === 47) {
        if (file !== 8 || rank === 0) return false;
        file = 0;
        --rank;
      } else if (byte >= 49 && byte <= 56) {
        file += byte - 48;
      } else {
        if (MAN[byte] === 0 || file > 7) return false;
        this.put(square(file++, rank), MAN[byte]);
      }
      if (file > 8) return false;
    }
    const turn = fen[p + 1];
    this.black = turn === 98;
    return rank === 0 && file === 8 && (turn === 98 || turn === 119);
  }

  private put(at: number, man: number): void {
    this.board[at] = man;
    ++this.count;
    this.men += WEIGHT[man];
    if ((man & 7) === KING) this.kings[man >> 3] = at;
  }

  private take(at: number): void {
    const man = this.board[at];
    if (man === 0) return;
    this.board[at] = 0;
    --this.count;
    this.men -= WEIGHT[man];
  }

  private shift(from: number, to: number): void {
    const man = this.board[from];
    this.board[to] = man;
    this.board[from] = 0;
    if ((man & 7) === KING) this.kings[man >> 3] = to;
  }

  /** Plays the word of a move of a kind (see `Words`); false if it cannot be followed. */
  play(bytes: Uint8Array, word: number, end: number, kind: number): boolean {
    if (kind === UNCLEAR) return false;
    const first = bytes[word];
    const done =
      first === CASTLES
        ? this.castle(bytes[word + 3] !== DASH)
        : kind === PIECE || kind === PIECE_TAKES
          ? this.piece(bytes, word, end, kind === PIECE_TAKES)
          : this.pawn(bytes, word, end, kind);
    this.black = !this.black;
    return done;
  }

  private castle(short: boolean): boolean {
    const colour = this.black ? 1 : 0;
    const king = this.kings[colour];
    const rank = king >> 4;
    const rookMan = ROOK + colour * BLACK;
    let rook = -1;
    for (let file = king & 7; file >= 0 && file < 8; file += short ? 1 : -1)
      if (this.board[square(file, rank)] === rookMan) rook = square(file, rank);
    if (rook < 0) return false;
    this.board[king] = 0;
    this.board[rook] = 0;
    this.board[square(short ? 5 : 3, rank)] = rookMan;
    this.kings[colour] = square(short ? 6 : 2, rank);
    this.board[this.kings[colour]] = KING + colour * BLACK;
    return true;
  }

  private pawn(bytes: Uint8Array, word: number, end: number, kind: number): boolean {
    const colour = this.black ? BLACK : 0;
    const step = this.black ? -16 : 16;
    const man = PAWN_MAN + colour;
    const takes = kind === PAWN_TAKES;
    const goal = takes ? word + 2 : word;
    const to = square(bytes[goal] - 97, bytes[goal + 1] - 49);
    let from = square(bytes[word] - 97, (to - step) >> 4);
    if ((from & 0x88) !== 0) return false;
    if (takes) {
      if (this.board[to] === 0) {
        // in passing
        if (this.board[to - step] !== (man ^ BLACK)) return false;
        this.take(to - step);
      }
      this.take(to);
    } else {
      if (this.board[to] !== 0) return false;
      if (this.board[from] === 0) from -= step;
    }
    if ((from & 0x88) !== 0 || this.board[from] !== man) return false;
    this.shift(from, to);
    const rank = to >> 4;
    if (kind === PROMOTES || rank === 0 || rank === 7) {
      let made = QUEEN;
      for (let q = goal + 2; q < end; ++q)
        if (MAN[bytes[q]] > PAWN_MAN && MAN[bytes[q]] < KING) made = MAN[bytes[q]];
      if (bytes[end] === 40) return false; // "e8(R)"
      this.take(to);
      this.put(to, made + colour);
    }
    return true;
  }

  private piece(bytes: Uint8Array, word: number, end: number, takes: boolean): boolean {
    const man = MAN[bytes[word]] + (this.black ? BLACK : 0);
    // the last file and rank are the goal; what stands before them tells which man
    let q = word + 1;
    while (q < end && (isFile(bytes[q]) || isRank(bytes[q]) || isSign(bytes[q]))) ++q;
    const to = square(bytes[q - 2] - 97, bytes[q - 1] - 49);
    let file = -1;
    let rank = -1;
    for (let d = word + 1; d < q - 2; ++d) {
      if (isFile(bytes[d])) file = bytes[d] - 97;
      else if (isRank(bytes[d])) rank = bytes[d] - 49;
    }
    if (takes === (this.board[to] === 0)) return false;
    const from = this.origin(man, to, file, rank);
    if (from < 0) return false;
    this.take(to);
    this.shift(from, to);
    return true;
  }

  /**
   * Where the man stands that can go to a square; -1 if there is none, or more than one. Where several could go,
   * those that would leave their king in check (`tested`) cannot.
   */
  private origin(man: number, to: number, file: number, rank: number, tested = false): number {
    const kind = man & 7;
    const slides = kind !== KNIGHT && kind !== KING;
    const steps = kind === KNIGHT ? LEAPS : kind === ROOK ? ALONG : kind === BISHOP ? ACROSS : EVERY_WAY;
    let found = -1;
    for (let n = 0; n < steps.length; ++n) {
      for (let at = to + steps[n]; (at & 0x88) === 0; at += steps[n]) {
        const stands = this.board[at];
        const named = (file < 0 || (at & 7) === file) && (rank < 0 || at >> 4 === rank);
        if (stands === man && named && !(tested && this.exposes(at, to))) {
          if (found >= 0) return tested ? -1 : this.origin(man, to, file, rank, true);
          found = at;
        }
        if (stands !== 0 || !slides) break;
      }
    }
    return found;
  }

  /** Whether a man that goes from a square to another leaves its king in check. */
  private exposes(from: number, to: number): boolean {
    const man = this.board[from];
    const taken = this.board[to];
    this.board[to] = man;
    this.board[from] = 0;
    const exposed = this.inCheck(man >> 3);
    this.board[from] = man;
    this.board[to] = taken;
    return exposed;
  }

  private inCheck(colour: number): boolean {
    const king = this.kings[colour];
    const other = colour === 0 ? BLACK : 0;
    const { board } = this;
    for (const leap of LEAPS)
      if (((king + leap) & 0x88) === 0 && board[king + leap] === other + KNIGHT) return true;
    for (let n = 0; n < 8; ++n) {
      const step = EVERY_WAY[n];
      const liner = n < 4 ? ROOK : BISHOP;
      for (let at = king + step; (at & 0x88) === 0; at += step) {
        const stands = board[at];
        if (stands === 0) continue;
        if (stands === other + liner || stands === other + QUEEN) return true;
        break;
      }
    }
    const ahead = colour === 0 ? 16 : -16;
    for (const side of [-1, 1]) {
      const at = king + ahead + side;
      if ((at & 0x88) === 0 && board[at] === other + PAWN_MAN) return true;
    }
    return false;
  }
}

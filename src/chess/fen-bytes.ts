// FENs of many placements as bytes, one behind the other: a million of them as texts would be a million objects.

import type { Color } from "chessops";

import { menLetters } from "./fen.js";
import type { Material } from "./material.js";

const CODE = {
  blank: " ".charCodeAt(0),
  dash: "-".charCodeAt(0),
  slash: "/".charCodeAt(0),
  zero: "0".charCodeAt(0),
  white: "w".charCodeAt(0),
  black: "b".charCodeAt(0),
};
/** What a FEN of so many men can take: in each rank a figure and what parts it from the next, two more signs a man, turn, castling, en passant, two counts. */
const longest = (men: number): number => 8 * 2 + 2 * men + 6 + 2 * 11;

/** Bytes of FENs that follow each other; the same texts as `placementFen` gives. */
export class FenBytes {
  /** Where the end of each FEN is. */
  readonly ends: Int32Array;
  private room: Uint8Array;
  private length = 0;
  private count = 0;
  private readonly board = new Uint8Array(64);
  private readonly letters: Readonly<Record<Color, Uint8Array>>;

  constructor(
    private readonly material: Material,
    count: number,
  ) {
    this.ends = new Int32Array(count);
    this.room = new Uint8Array(count * longest(material.men));
    const codes = (attacker: Color) =>
      Uint8Array.from(menLetters(material, attacker), (letter) => letter.charCodeAt(0));
    this.letters = { white: codes("white"), black: codes("black") };
  }

  /** All of them. */
  get bytes(): Uint8Array {
    return this.room.subarray(0, this.length);
  }

  /** Adds the FEN of the placement with a number, which fits into 31 bits. */
  add(number: number, attacker: Color, halfmoves: number, fullmove: number): void {
    const { board, room } = this;
    const { men } = this.material;
    const letters = this.letters[attacker];
    for (let n = 0; n < men; ++n) board[squareIn(number, men, n)] = letters[n];
    let at = this.length;
    for (let rank = 7; rank >= 0; --rank) {
      let empty = 0;
      for (let square = 8 * rank; square < 8 * rank + 8; ++square) {
        const letter = board[square];
        if (letter === 0) {
          ++empty;
          continue;
        }
        if (empty > 0) room[at++] = CODE.zero + empty;
        empty = 0;
        room[at++] = letter;
      }
      if (empty > 0) room[at++] = CODE.zero + empty;
      room[at++] = rank > 0 ? CODE.slash : CODE.blank;
    }
    for (let n = 0; n < men; ++n) board[squareIn(number, men, n)] = 0;
    const attackerToMove = number >>> (6 * men) === 0;
    room[at++] = attackerToMove === (attacker === "white") ? CODE.white : CODE.black;
    room[at++] = CODE.blank;
    room[at++] = CODE.dash;
    room[at++] = CODE.blank;
    room[at++] = CODE.dash;
    room[at++] = CODE.blank;
    at = this.digits(halfmoves, at);
    room[at++] = CODE.blank;
    this.length = this.digits(fullmove, at);
    this.ends[this.count++] = this.length;
  }

  /** Writes a number that is not below 0; gives the place behind it. */
  private digits(number: number, at: number): number {
    let end = at + 1;
    for (let rest = number; rest >= 10; rest = Math.floor(rest / 10)) ++end;
    for (let place = end, rest = number; place > at; rest = Math.floor(rest / 10))
      this.room[--place] = CODE.zero + (rest % 10);
    return end;
  }
}

/** The square of one of a placement's men, by its number. */
const squareIn = (number: number, men: number, n: number) => (number >>> (6 * (men - 1 - n))) & 63;

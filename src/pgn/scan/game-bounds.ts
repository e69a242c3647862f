// Where a game begins and ends in some bytes, and what has been noticed of it in passing.

/** A game in some bytes; places count from their start. Reused from game to game. */
export interface GameBounds {
  start: number;
  /**
   * 1 for a game that any reader counts. A game recovered from inside a comment that never closed, its first
   * tag glued to the comment, is part 2 (3 …) of the game before, so that game numbers agree with readers
   * that lose it.
   */
  part: number;
  /** Where the movetext begins. */
  text: number;
  end: number;
  /** Signs of capture in the movetext, side lines included. */
  captures: number;
  /** Where the value of the FEN tag begins, -1 if there is none. */
  fen: number;
  /** Men on the board at the start: 32, or those of the FEN tag. */
  startMen: number;
  /** Another variant is played, or the FEN tag is none. */
  special: boolean;
  /** Captures may be hidden from the count: written without a sign, or inside a comment that never closes. */
  unsigned: boolean;
}

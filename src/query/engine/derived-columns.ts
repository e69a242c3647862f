// Columns that follow from others and from a position's place in its ending: whose turn by colour, mistakes, zugzwang, squares
// of the board, counts of moves.

import { BISHOP, type Material, ROOK } from "../../chess/material.js";
import { ATTACKER_KING, DEFENDER_KING, FIRST_PIECE, firstDefender } from "../../chess/placement.js";
import type { ColumnStore, Values } from "../../store/column-store.js";
import { isZugzwang } from "../../tablebase/zugzwang.js";
import type { BoardPiece, Fact, Stored } from "../language/vocabulary.js";

/** Works out columns of one state of a database. */
export class DerivedColumns {
  /** `attackers` gives the colour of each ending's attacker. */
  constructor(
    private readonly store: ColumnStore,
    private readonly target: Material,
    private readonly attackers: () => readonly (Stored | null)[],
  ) {}

  /** The values of a fact that is derived, in the order of the store. */
  values(fact: Fact): Values {
    const { store } = this;
    const { starts, positions } = store;
    const name = fact.derived!;
    switch (name) {
      case "ply":
      case "moves-in":
      case "halfmoves": {
        const values = new Int32Array(positions);
        for (let n = 0; n < store.endings; ++n) {
          const first =
            name === "ply" ? store.firstPlies[n] : name === "halfmoves" ? store.firstHalfmoves[n] : 0;
          for (let p = starts[n]; p < starts[n + 1]; ++p)
            values[p] = name === "moves-in" ? (p - starts[n]) >> 1 : first + p - starts[n];
        }
        return { values, none: -1 };
      }
      case "moves-left": {
        const values = new Int32Array(positions);
        for (let n = 0; n < store.endings; ++n)
          for (let p = starts[n], last = starts[n + 1] - 1; p <= last; ++p) values[p] = (last - p + 1) >> 1;
        return { values, none: -1 };
      }
      case "only-move": {
        const { values: keeping, none } = store.column("keeping");
        const values = new Int32Array(positions);
        for (let n = 0; n < positions; ++n) values[n] = keeping[n] === none ? -1 : keeping[n] === 1 ? 1 : 0;
        return { values, none: -1 };
      }
      case "blunder-potential": {
        const { values: keeping, none } = store.column("keeping");
        const { values: legal } = store.column("legal");
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = keeping[n] === none || legal[n] === 0 ? NaN : (legal[n] - keeping[n]) / legal[n];
        return { values, none: NaN };
      }
      case "clock":
      case "clock-before":
      case "spent": {
        const { values: milliseconds, none } = store.column(name);
        const values = new Float64Array(positions);
        for (let n = 0; n < positions; ++n)
          values[n] = milliseconds[n] === none ? NaN : milliseconds[n] / 1000;
        return { values, none: NaN };
      }
      case "fifty-verdict": {
        const { values: verdict, none } = store.column("verdict");
        const { values: beyond } = store.column("beyond-fifty");
        return { values: verdict.map((score, n) => (beyond[n] === 1 ? 0 : score)), none };
      }
      case "turn":
        return this.turns();
      case "first-mistake":
      case "decisive-mistake":
        return this.mistakes(name);
      case "own-first-mistake":
        return this.ownFirstMistakes();
      case "zugzwang":
      case "reciprocal-zugzwang":
        return this.zugzwangs(name);
      case "board-square":
        return this.boardSquares(fact);
      case "bishop-squares":
        return this.bishopSquares();
      case "mover":
        throw new Error("names of movers are compared by byMover");
    }
  }

  /** The colour to move: 1 white, 0 black. */
  private turns(): Values {
    const { starts } = this.store;
    const { values: attackerToMove } = this.store.column("attacker-to-move");
    const values = new Int32Array(this.store.positions);
    this.attackers().forEach((colour, n) => {
      const white = colour === "white" ? 1 : 0;
      for (let p = starts[n]; p < starts[n + 1]; ++p) values[p] = attackerToMove[p] === 1 ? white : 1 - white;
    });
    return { values, none: -1 };
  }

  /** The first move of each ending that gave something away, or the last. */
  private mistakes(which: "first-mistake" | "decisive-mistake"): Values {
    const { starts, endings } = this.store;
    const { values: errors, none } = this.store.column("error");
    const values = Int32Array.from(errors, (error) => (error === none ? -1 : 0));
    for (let n = 0; n < endings; ++n) {
      let at = -1;
      for (let p = starts[n]; p < starts[n + 1]; ++p) {
        if (errors[p] <= 0 || (at >= 0 && which === "first-mistake")) continue;
        at = p;
      }
      if (at >= 0) values[at] = 1;
    }
    return { values, none: -1 };
  }

  /** The first move of each side in an ending that gave something away. */
  private ownFirstMistakes(): Values {
    const { starts, endings } = this.store;
    const { values: errors, none } = this.store.column("error");
    const values = Int32Array.from(errors, (error) => (error === none ? -1 : 0));
    for (let n = 0; n < endings; ++n)
      // the sides take turns
      for (let first = starts[n]; first < Math.min(starts[n] + 2, starts[n + 1]); ++first) {
        let p = first;
        while (p < starts[n + 1] && errors[p] <= 0) p += 2;
        if (p < starts[n + 1]) values[p] = 1;
      }
    return { values, none: -1 };
  }

  private zugzwangs(which: "zugzwang" | "reciprocal-zugzwang"): Values {
    const { values: verdicts, none } = this.store.column("verdict");
    const { values: others, none: noOther } = this.store.column("other-turn");
    const { values: attackerToMove } = this.store.column("attacker-to-move");
    const values = new Int32Array(this.store.positions);
    for (let n = 0; n < values.length; ++n)
      values[n] =
        verdicts[n] === none
          ? -1
          : others[n] === noOther
            ? 0
            : Number(isZugzwang(which, verdicts[n], others[n], attackerToMove[n] === 1));
    return { values, none: -1 };
  }

  private boardSquares({ board }: Fact): Values {
    const { piece, line } = board!;
    return this.bySquare(piece, (square) => (line === "rank" ? square >> 3 : square & 7) + 1);
  }

  /** 1 where the bishop moves on light squares (a1 is dark). */
  private bishopSquares(): Values {
    return this.bySquare("bishop", (square) => ((square >> 3) + square) & 1);
  }

  /** A value worked out from the square of a piece. */
  private bySquare(piece: BoardPiece, valueOf: (square: number) => number): Values {
    const values = new Int32Array(this.store.positions).fill(-1);
    const place = placeOfPiece(piece, this.target);
    if (place < 0) return { values, none: -1 };
    const { values: placements } = this.store.column("placement");
    const shift = 6 * (this.target.men - 1 - place);
    const valueAt = Int32Array.from({ length: 64 }, (_, square) => valueOf(square));
    for (let n = 0; n < values.length; ++n) values[n] = valueAt[Math.floor(placements[n] / 2 ** shift) & 63];
    return { values, none: -1 };
  }
}

/** The place among a placement's squares of a piece that people speak of; -1 where the material has none. */
export function placeOfPiece(piece: BoardPiece, material: Material): number {
  const of = (first: number, kinds: readonly number[], kind: number) =>
    kinds.includes(kind) ? first + kinds.indexOf(kind) : -1;
  switch (piece) {
    case "king":
      return DEFENDER_KING;
    case "attacker-king":
      return ATTACKER_KING;
    case "rook":
      return of(firstDefender(material), material.defender, ROOK);
    case "attacker-rook":
      return of(FIRST_PIECE, material.attacker, ROOK);
    case "bishop":
      return of(FIRST_PIECE, material.attacker, BISHOP);
  }
}

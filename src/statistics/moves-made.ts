// Moves that were made, as numbers are about them: the cases of a question, and of their moves those that had
// something to lose.

import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { type ColumnStore, columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { type LeftOut, exclusionsOf, leftOutOf } from "./exclusions.js";

export type SideName = "attacker" | "defender";

/** A study: the endings that statistics are made of, those that answer a question and are not left out, with their columns. */
export class Study {
  readonly store: ColumnStore;
  readonly evaluation: Evaluation;
  /** Places of the endings on the store, rising. */
  readonly endings: readonly number[];
  readonly leftOut: LeftOut;

  constructor(
    readonly db: Connection,
    readonly question: Question,
    readonly leaveOut: readonly Exclusion[],
  ) {
    this.store = columnStoreOf(db);
    this.evaluation = new Evaluation(db);
    const mask = this.evaluation.endings(question);
    const excluded = exclusionsOf(db, leaveOut);
    const answers = [...mask.keys()].filter((n) => mask[n]);
    this.endings = answers.filter((n) => excluded[n] < 0);
    this.leftOut = leftOutOf(answers, excluded, leaveOut);
  }

  /** A column's values. */
  column(name: string): Int32Array | Float64Array {
    return this.store.column(name).values;
  }

  /** Calls `look` with the place of every position of the study, and of its ending. */
  eachPosition(look: (position: number, ending: number) => void): void {
    const { starts } = this.store;
    for (const n of this.endings) for (let p = starts[n]; p < starts[n + 1]; ++p) look(p, n);
  }

  /**
   * Calls `look` with every move that could have given something away: its position has a verdict, and is not lost
   * for the side to move.
   */
  eachMove(look: (position: number, move: MoveMade) => void): void {
    const turn = this.column("attacker-to-move");
    const verdict = this.column("verdict");
    const error = this.column("error");
    const none = this.store.column("error").none;
    const keeping = this.column("keeping");
    const legal = this.column("legal");
    this.eachPosition((p) => {
      if (error[p] === none) return;
      const forMover = turn[p] === 1 ? verdict[p] : -verdict[p];
      if (forMover < 0) return;
      look(p, {
        side: turn[p] === 1 ? "attacker" : "defender",
        verdict: verdict[p],
        error: error[p],
        atRandom: (legal[p] - keeping[p]) / legal[p],
      });
    });
  }
}

export interface MoveMade {
  readonly side: SideName;
  /** Before the move, for the attacker: 1 won, 0 drawn, -1 lost. */
  readonly verdict: number;
  /** Half-points given away: 0, 1 or 2. */
  readonly error: number;
  /** Share of the legal moves that give something away (blunder potential). */
  readonly atRandom: number;
}

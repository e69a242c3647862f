// Moves that were made, as numbers are about them: the cases of a question, and of their moves those that had
// something to lose.

import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { type ColumnStore, type Values, columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { factNamed } from "../query/language/vocabulary.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { type LeftOut, exclusionsOf, leftOutOf } from "./exclusions.js";

export type SideName = "attacker" | "defender";
/** What the side to move had to lose. */
export const STANDINGS = ["won", "drawn"] as const;
export type Standing = (typeof STANDINGS)[number];

/**
 * By what positions are worth: "fifty" under the fifty-move rule, as they are in practice (see endings/fifty-moves.ts), or
 * "paper" without it.
 */
export type Rule = "fifty" | "paper";

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
    readonly rule: Rule = "fifty",
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
  column(name: string): Values["values"] {
    return this.store.column(name).values;
  }

  /** Calls `look` with the place of every position of the study, and of its ending. */
  eachPosition(look: (position: number, ending: number) => void): void {
    const { starts } = this.store;
    for (const n of this.endings) for (let p = starts[n]; p < starts[n + 1]; ++p) look(p, n);
  }

  /**
   * Calls `look` with every move that had something to lose under the study's rule: its position has a verdict, and at
   * least one legal move gives some of it away.
   */
  eachMove(look: (position: number, ending: number, move: MoveMade) => void): void {
    const turn = this.column("attacker-to-move");
    const { none } = this.store.column("error");
    const paper = this.column("error");
    const verdicts = this.verdicts();
    const errors = this.column(this.rule === "fifty" ? "fifty-error" : "error");
    const keeping = this.column(this.rule === "fifty" ? "fifty-keeping" : "keeping");
    const legal = this.column("legal");
    this.eachPosition((p, ending) => {
      if (errors[p] === none || keeping[p] === legal[p]) return;
      const verdict = verdicts[p];
      look(p, ending, {
        side: turn[p] === 1 ? "attacker" : "defender",
        verdict,
        stood: (turn[p] === 1 ? verdict : -verdict) > 0 ? "won" : "drawn",
        error: errors[p],
        onPaper: paper[p],
        keeping: keeping[p],
        legal: legal[p],
      });
    });
  }

  /** What each position is worth for the attacker under the study's rule; as in the column where it is not known. */
  verdicts(): ArrayLike<number> {
    const fact = this.rule === "fifty" ? "fifty-verdict" : "verdict";
    return this.evaluation.values(factNamed(fact)!).values;
  }
}

export interface MoveMade {
  readonly side: SideName;
  /** Before the move, for the attacker: 1 won, 0 drawn, -1 lost. */
  readonly verdict: number;
  /** The same for the mover, who had a win or a draw to lose. */
  readonly stood: Standing;
  /** Half-points given away: 0, 1 or 2. */
  readonly error: number;
  /** The same with the fifty-move rule left out. */
  readonly onPaper: number;
  /** Legal moves that give nothing away, and all; one less all gives something away. */
  readonly keeping: number;
  readonly legal: number;
}

// Moves that were made, as numbers are about them: the cases of a question, and of their moves those that had something to
// lose. A study looks at the database slice by slice, once for all that is asked of it, so that memory hardly grows with it.

import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { type ColumnStore, type Values, columnStoreOf } from "../store/column-store.js";
import type { Question } from "../query/language/ast.js";
import { type Fact, factNamed } from "../query/language/vocabulary.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { type Mask, isEmpty } from "../query/engine/masks.js";
import { exclusionsOf } from "./exclusions.js";
import { PLAYER_FACTS } from "./players.js";

export type SideName = "attacker" | "defender";
/** What the side to move had to lose. */
export type Standing = "won" | "drawn";

/** Who made a move, and what there was to lose; moves have the number of their place here. */
export const MOVERS: readonly { readonly side: SideName; readonly stood: Standing }[] = [
  { side: "defender", stood: "won" },
  { side: "defender", stood: "drawn" },
  { side: "attacker", stood: "won" },
  { side: "attacker", stood: "drawn" },
];
/** The number in `MOVERS` of a side that had something to lose. */
export const moverNumber = (side: SideName, stood: Standing): number =>
  MOVERS.findIndex((one) => one.side === side && one.stood === stood);

/**
 * By what positions are worth: "fifty" under the fifty-move rule, as they are in practice (see endings/fifty-moves.ts), or
 * "paper" without it.
 */
export type Rule = "fifty" | "paper";

/** Moves that had something to lose, one behind the other. */
export interface Moves {
  readonly count: number;
  /** Places of their positions and of their endings in the part. */
  readonly positions: Int32Array;
  readonly endings: Int32Array;
  /** Numbers of `MOVERS`. */
  readonly movers: Uint8Array;
}

/** A statistic on its way: it looks at one part of a study after the other, and has its result then. */
export interface Gathering<T> {
  /** Facts of games and endings that it asks for: those of all gatherings are read together. */
  readonly facts?: readonly Fact[];
  look(part: StudyPart): void;
  result(): T;
}

/** The endings of one slice of the store; places are those in the slice. */
export class StudyPart {
  readonly store: ColumnStore;
  private madeMoves: Moves | undefined;

  constructor(
    readonly evaluation: Evaluation,
    private readonly rule: Rule,
    /** The endings that answer the question, those that are left out among them. */
    readonly answers: Mask,
    /** Places of the endings counted, rising. */
    readonly endings: Int32Array,
  ) {
    this.store = evaluation.store;
  }

  /** Place of the first ending of the slice among all. */
  get from(): number {
    return this.store.from;
  }

  /** A column's values. */
  column(name: string): Values["values"] {
    return this.store.column(name).values;
  }

  /** What each position is worth for the attacker under the study's rule; as in the column where it is not known. */
  get verdicts(): ArrayLike<number> {
    return this.evaluation.values(factNamed(this.rule === "fifty" ? "fifty-verdict" : "verdict")!).values;
  }

  /** Half-points that each move gave away under the rule, 0, 1 or 2; below 0 where it is not known. */
  get errors(): ArrayLike<number> {
    return this.column(this.rule === "fifty" ? "fifty-error" : "error");
  }

  /** Legal moves that give nothing away under the rule. */
  get keeping(): ArrayLike<number> {
    return this.column(this.rule === "fifty" ? "fifty-keeping" : "keeping");
  }

  /** Calls `look` with the place of every position of the endings counted, and of its ending. */
  eachPosition(look: (position: number, ending: number) => void): void {
    const { starts } = this.store;
    for (const n of this.endings) for (let p = starts[n]; p < starts[n + 1]; ++p) look(p, n);
  }

  /**
   * Every move that had something to lose under the rule: its position has a verdict, and at least one legal move gives
   * some of it away.
   */
  get moves(): Moves {
    return (this.madeMoves ??= this.movesMade());
  }

  private movesMade(): Moves {
    const turn = this.column("attacker-to-move");
    const legal = this.column("legal");
    const { verdicts, errors, keeping } = this;
    const positions = new Int32Array(this.store.positions);
    const endings = new Int32Array(positions.length);
    const movers = new Uint8Array(positions.length);
    let count = 0;
    this.eachPosition((p, ending) => {
      if (errors[p] < 0 || keeping[p] === legal[p]) return;
      const attacker = turn[p] === 1;
      const won = (attacker ? verdicts[p] : -verdicts[p]) > 0;
      positions[count] = p;
      endings[count] = ending;
      movers[count++] = (attacker ? 2 : 0) + (won ? 0 : 1);
    });
    return { count, positions, endings, movers };
  }
}

/** What is asked of a study, and its result once it has been looked for. */
class Asked<T> {
  private found: { readonly result: T } | undefined;

  constructor(private gathering: Gathering<T> | undefined) {}

  get facts(): readonly Fact[] {
    return this.gathering?.facts ?? [];
  }

  look(part: StudyPart): void {
    this.gathering!.look(part);
  }

  get result(): T {
    this.found ??= { result: this.gathering!.result() };
    // what was gathered is as large as the database
    this.gathering = undefined;
    return this.found.result;
  }
}

/** A study: the endings that statistics are made of, those that answer a question and are not left out. */
export class Study {
  private waiting: Asked<unknown>[] = [];

  constructor(
    readonly db: Connection,
    readonly question: Question,
    readonly leaveOut: readonly Exclusion[],
    readonly rule: Rule = "fifty",
  ) {}

  /**
   * Takes up a statistic, and gives a function that gives its result. The first call of any of these looks at all parts,
   * once for everything that was taken up before.
   */
  ask<T>(gathering: Gathering<T>): () => T {
    const asked = new Asked(gathering);
    this.waiting.push(asked);
    return () => {
      if (this.waiting.includes(asked)) this.look();
      return asked.result;
    };
  }

  private look(): void {
    const asked = this.waiting;
    this.waiting = [];
    new Evaluation(this.db).readTogether([
      ...new Set([...PLAYER_FACTS, ...asked.flatMap(({ facts }) => facts)]),
    ]);
    for (const part of this.parts()) for (const one of asked) one.look(part);
  }

  /** The study slice by slice, those in which no ending answers left out. Each is made when it is come to. */
  *parts(): Generator<StudyPart> {
    const excluded = exclusionsOf(this.db, this.leaveOut);
    for (const slice of columnStoreOf(this.db).slices()) {
      const evaluation = new Evaluation(this.db, slice);
      const answers = evaluation.endings(this.question);
      if (isEmpty(answers)) continue;
      const counted = Int32Array.from(answers.keys()).filter(
        (n) => answers[n] === 1 && excluded[slice.from + n] < 0,
      );
      yield new StudyPart(evaluation, this.rule, answers, counted);
    }
  }
}

// Exercises of one material: chosen among candidates or made of given positions, graded by how often people fail in
// such positions, and turned so that none is known by sight.

import type { Color } from "chessops";

import { placementFen, placementOf, readFen } from "../chess/fen.js";
import { fenFields } from "../chess/fen-text.js";
import { type Material, lettersOf } from "../chess/material.js";
import { placementHash } from "../chess/random.js";
import { SYMMETRIES, imageOf } from "../chess/squares.js";
import type { Ply } from "../chess/units.js";
import { LongsideError } from "../errors.js";
import { frameOf } from "../geometry/frame.js";
import type { Prober } from "../position/probe.js";
import type { Question } from "../query/language/ast.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { EndingReader } from "../query/engine/rows.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import type { Tables } from "../tablebase/tables.js";
import { type Candidate, type GivenPosition, candidatesFromGames } from "./candidates.js";
import { choose } from "./choice.js";
import { PeopleRecords, difficultyOf, gradeOf } from "./difficulty.js";
import type { Exercise, ExercisesAsked, PeopleRecord, Source } from "./exercise.js";
import type { Task } from "./tasks.js";
import { type Weighed, Weigher } from "./weighing.js";

/** A candidate with what people did in it, and the share of players expected to fail. */
interface Graded {
  readonly one: Weighed;
  readonly record: PeopleRecord | null;
  readonly difficulty: number;
}

/** How a placement is shown: which side is which colour, and from where it is seen. */
interface Shown {
  readonly fen: string;
  readonly attacker: Color;
}

export class ExerciseMaker {
  private readonly weigher: Weigher;
  private readonly people: PeopleRecords | undefined;
  private readonly equalSides: boolean;

  constructor(
    private readonly material: Material,
    tables: Tables,
    private readonly prober: Prober,
    catalogue: Catalogue,
    /** Games that show how often people failed; none where there is no database. */
    private readonly db: Connection | undefined,
    private readonly leaveOut: readonly Exclusion[],
  ) {
    this.weigher = new Weigher(material, tables, catalogue);
    this.people = db && new PeopleRecords(db, leaveOut);
    this.equalSides = lettersOf(material.attacker) === lettersOf(material.defender);
  }

  /** Positions of the database that a question fits. There must be a database. */
  candidatesFromGames(question: Question): Candidate[] {
    return candidatesFromGames(this.db!, this.material, question, this.leaveOut);
  }

  /** Chooses up to `size` exercises, in order of difficulty: see `choice.ts`. */
  choose(candidates: readonly Candidate[], asked: ExercisesAsked): Exercise[] {
    return choose(candidates, asked, this.material, this.weigher)
      .map((one) => this.graded(one))
      .sort((a, b) => a.difficulty - b.difficulty || a.one.key - b.one.key)
      .map((graded, n) => this.exercise(graded, asked.task, n + 1, this.shown(graded.one, asked.seed)));
  }

  /**
   * Exercises of positions as they were given, in their order; `idle` are those in which there is nothing to find: every
   * move keeps the verdict, or none can be made. Throws `bad-fen`, `outside-tables`, `other-target`.
   */
  given(positions: readonly GivenPosition[]): { exercises: Exercise[]; idle: string[] } {
    const exercises: Exercise[] = [];
    const idle: string[] = [];
    for (const { fen, ...from } of positions) {
      const placed = placementOf(readFen(fen));
      if (placed.material.id !== this.material.id)
        throw new LongsideError("other-target", {
          path: fen,
          found: placed.material.name,
          wanted: this.material.name,
        });
      const source = from.ending !== undefined && from.ply !== undefined && this.db;
      const candidate: Candidate = {
        placement: frameOf(placed, this.material),
        from: source ? { ending: from.ending!, ply: from.ply! } : undefined,
      };
      const weighed = this.weigher.weigh(candidate, { task: "find", answers: null });
      if (!weighed) {
        idle.push(fen);
        continue;
      }
      const task = weighed.verdict === 0 ? "hold" : "win";
      const shown = { fen, attacker: placed.attacker };
      exercises.push(this.exercise(this.graded(weighed), task, exercises.length + 1, shown));
    }
    return { exercises, idle };
  }

  private graded(one: Weighed): Graded {
    const record = this.people?.of(one.placement, one.verdict) ?? null;
    return { one, record, difficulty: difficultyOf(one.expected, record) };
  }

  /** One of the sixteen ways to show it, at random. */
  private shown({ placement }: Weighed, seed: number): Shown {
    const { squares, attackerToMove } = placement;
    const hash = placementHash([...squares, 64], attackerToMove, seed);
    const symmetry = SYMMETRIES[hash % SYMMETRIES.length];
    // with equal pieces White is always called the attacker
    const attacker: Color = this.equalSides || (hash >>> 8) % 2 === 0 ? "white" : "black";
    const turned = squares.map((square) => imageOf(symmetry, square));
    return { fen: placementFen({ squares: turned, attackerToMove }, this.material, attacker), attacker };
  }

  private exercise(
    { one, record, difficulty: expected }: Graded,
    task: Task,
    number: number,
    { fen, attacker }: Shown,
  ): Exercise {
    const probe = this.prober.probe(fen);
    // the expectation is of finding a move
    const difficulty = task === "judge" ? null : expected;
    const answers = probe.moves.filter((move) => move.verdict === probe.verdict).map(({ san }) => san);
    return {
      number,
      task,
      fen,
      attacker,
      sideToMove: probe.sideToMove,
      verdict: probe.verdict,
      dtm: probe.dtm,
      legal: probe.legal,
      answers,
      solution: this.prober.solution(fen, answers[0]),
      refutations: probe.explanation.tempting,
      difficulty,
      grade: difficulty === null ? null : gradeOf(difficulty),
      record,
      setUps: probe.setUps,
      source: one.from && this.db ? this.sourceOf(this.db, one.from) : null,
    };
  }

  private sourceOf(db: Connection, { ending, ply }: { ending: number; ply: Ply }): Source {
    const stored = new EndingReader(db, this.material).read(ending);
    if (!stored) throw new LongsideError("no-such-ending", { id: ending });
    const { white, black, event, date, file, game } = stored.answer();
    const { error, fen } = stored.position(ply);
    return {
      white,
      black,
      event,
      date,
      file,
      game,
      ending,
      ply,
      move: fenFields(fen).fullmove,
      kept: error === null ? null : error === "none",
    };
  }
}

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
import { oneStepFrom } from "../position/contrast.js";
import type { Prober } from "../position/probe.js";
import type { Question } from "../query/language/ast.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { EndingReader } from "../query/engine/rows.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import type { Tables } from "../tablebase/tables.js";
import { type GivenPosition, candidatesFromGames } from "./candidates.js";
import { type ChosenOne, choose } from "./choice.js";
import { difficultyOf, gradeOf, recordsOf } from "./difficulty.js";
import type { Exercise, ExercisesAsked, PeopleRecord, Source } from "./exercise.js";
import { hintsOf, reasonOf } from "./hints.js";
import type { Candidate, Pool } from "./pool.js";
import type { NotTaken, Refused } from "./refusals.js";
import type { Task } from "./tasks.js";
import { ThemeReader } from "./theme-reader.js";
import { THEMES, type Theme } from "./themes/theme.js";
import { type Weighed, Weigher } from "./weighing.js";

/** A candidate with what people did in it, and the share of players expected to fail. */
interface Graded extends ChosenOne {
  readonly record: PeopleRecord | null;
  readonly difficulty: number;
}

/** How a placement is shown: which side is which colour, and from where it is seen. */
interface Shown {
  readonly fen: string;
  readonly attacker: Color;
}

/** Exercises, and why other candidates are none. */
export interface Made {
  readonly exercises: readonly Exercise[];
  readonly refused: Refused;
}

/** The symmetry that brings a frame's first rank to the top. */
const UPRIGHT = 2;
export class ExerciseMaker {
  private readonly weigher: Weigher;
  private readonly themes: ThemeReader;
  private readonly equalSides: boolean;

  constructor(
    private readonly material: Material,
    private readonly tables: Tables,
    private readonly prober: Prober,
    catalogue: Catalogue,
    /** Games that show how often people failed; none where there is no database. */
    private readonly db: Connection | undefined,
    private readonly leaveOut: readonly Exclusion[],
  ) {
    this.weigher = new Weigher(material, tables, catalogue);
    this.themes = new ThemeReader(material, prober, catalogue);
    this.equalSides = lettersOf(material.attacker) === lettersOf(material.defender);
  }

  /** Positions of the database that a question fits. There must be a database. */
  candidatesFromGames(question: Question): Pool {
    return candidatesFromGames(this.db!, this.material, question, this.leaveOut);
  }

  /**
   * Chooses up to `size` exercises of some pools (see `choice.ts`), in order of difficulty, theme after theme where that is
   * asked for; where a verdict is asked for, in an order that tells nothing.
   */
  choose(pools: readonly Pool[], asked: ExercisesAsked): Made {
    const { task, seed, pairs = false, byTheme = false } = asked;
    const themeOrder: readonly Theme[] = asked.themes ?? THEMES.map(({ name }) => name);
    const look = (one: Weighed) => {
      if (task !== "judge") return this.themes.of(one.placement);
      return pairs && !this.contrastOf(this.shown(one, asked, 0)) ? "no contrast near by" : [];
    };
    const singles = pairs ? { ...asked, size: Math.ceil(asked.size / 2) } : asked;
    const choice = choose(pools, singles, this.weigher, look);
    const graded = this.graded(choice.chosen);
    const turnOf = ({ themes: [first] }: Graded): number =>
      first === undefined ? themeOrder.length : themeOrder.indexOf(first);
    const order =
      task === "judge"
        ? (a: Graded, b: Graded) => this.orderToJudge(a.one, seed) - this.orderToJudge(b.one, seed)
        : (a: Graded, b: Graded) =>
            (byTheme ? turnOf(a) - turnOf(b) : 0) || a.difficulty - b.difficulty || a.one.key - b.one.key;
    graded.sort(order);
    if (task === "judge" && pairs) return this.paired(graded, asked, choice.refused);
    const exercises = graded.map((one, n) => this.exercise(one, task, n + 1, this.shown(one.one, asked, n)));
    return { exercises, refused: choice.refused };
  }

  private orderToJudge({ placement: { squares, attackerToMove } }: Weighed, seed: number): number {
    return placementHash([...squares, 65], attackerToMove, seed);
  }

  /** Each position with the nearest that looks alike and comes out otherwise, the two in either order. */
  private paired(graded: readonly Graded[], asked: ExercisesAsked, refused: Refused): Made {
    const pairs = graded.flatMap((one, n) => {
      const shown = this.shown(one.one, asked, n);
      const other = this.contrastOf(shown);
      return other ? [{ one, shown, other, place: n }] : [];
    });
    const others = this.graded(pairs.map(({ other }) => ({ one: other, themes: [] })));
    const drawn = pairs.map(({ one }) => this.orderToJudge(one.one, asked.seed));
    const isReversed = drawn.map((number) => number % 2 === 1);
    const firsts = pairs.map(({ one }, n) => (isReversed[n] ? others[n] : one).one.verdict);
    // where all begin alike, what holds of one pair would give the others away
    if (firsts.length > 1 && new Set(firsts).size === 1) {
      const turned = drawn.indexOf(Math.min(...drawn));
      isReversed[turned] = !isReversed[turned];
    }
    const exercises = pairs.flatMap(({ one, shown, other, place }, n) => {
      const both = [
        { graded: one, shown },
        { graded: others[n], shown: { ...shown, fen: other.fen } },
      ];
      if (isReversed[n]) both.reverse();
      return both.map((each, m) => ({
        ...this.exercise(each.graded, "judge", 2 * place + m + 1, each.shown),
        pair: place + 1,
      }));
    });
    return { exercises, refused };
  }

  /** The nearest position with the same side to move and another verdict: one file over where there is one. */
  private contrastOf({ fen, attacker }: Shown): (Weighed & { readonly fen: string }) | undefined {
    const placed = placementOf(readFen(fen));
    const { attackerToMove } = placed;
    const own = this.tables.verdict(placed.squares, attackerToMove);
    for (const squares of oneStepFrom(placed.squares)) {
      if (this.weigher.isIllegal(squares, attackerToMove)) continue;
      if (this.tables.verdict(squares, attackerToMove) === own) continue;
      const placement = frameOf({ squares, attackerToMove }, this.material);
      const weighed = this.weigher.weigh({ placement }, { task: "judge", answers: null }, false);
      if (typeof weighed === "string") continue;
      return { ...weighed, fen: placementFen({ squares, attackerToMove }, this.material, attacker) };
    }
    return undefined;
  }

  /**
   * Exercises of positions as they were given, in their order, and those that were not taken, each with its reason. Throws
   * `bad-fen`, `outside-tables`.
   */
  given(positions: readonly GivenPosition[]): {
    exercises: Exercise[];
    notTaken: readonly NotTaken[];
  } {
    const taken: ChosenOne[] = [];
    const shown: Shown[] = [];
    const notTaken: NotTaken[] = [];
    for (const { fen, ...from } of positions) {
      const placed = placementOf(readFen(fen));
      if (placed.material.id !== this.material.id) {
        notTaken.push({ fen, reason: "another ending" });
        continue;
      }
      const source = from.ending !== undefined && from.ply !== undefined && this.db;
      const candidate: Candidate = {
        placement: frameOf(placed, this.material),
        from: source ? { ending: from.ending!, ply: from.ply! } : undefined,
      };
      const weighed = this.weigher.weigh(candidate, { task: "find", answers: null }, false);
      if (typeof weighed === "string") {
        notTaken.push({ fen, reason: weighed });
        continue;
      }
      taken.push({ one: weighed, themes: this.themes.of(weighed.placement) });
      shown.push({ fen, attacker: placed.attacker });
    }
    const exercises = this.graded(taken).map((graded, n) => {
      const task = graded.one.verdict === 0 ? "hold" : "win";
      return this.exercise(graded, task, n + 1, shown[n]);
    });
    return { exercises, notTaken };
  }

  private graded(chosen: readonly ChosenOne[]): Graded[] {
    const met = chosen.map(({ one: { placement, verdict } }) => ({ placement, verdict }));
    const records = this.db && recordsOf(this.db, this.leaveOut, met);
    return chosen.map((one, n) => {
      const record = records?.[n] ?? null;
      return { ...one, record, difficulty: difficultyOf(one.one.expected, record) };
    });
  }

  /** One of the sixteen ways to show it, at random, colours in turn; or all the same way. */
  private shown({ placement }: Weighed, { seed, upright = false }: ExercisesAsked, place: number): Shown {
    const { squares, attackerToMove } = placement;
    const hash = placementHash([...squares, 64], attackerToMove, seed);
    const symmetry = upright ? UPRIGHT : SYMMETRIES[hash % SYMMETRIES.length];
    // with equal pieces White is always called the attacker
    const white = upright || this.equalSides || (place + seed) % 2 === 0;
    const attacker: Color = white ? "white" : "black";
    const turned = squares.map((square) => imageOf(symmetry, square));
    return { fen: placementFen({ squares: turned, attackerToMove }, this.material, attacker), attacker };
  }

  private exercise(
    { one, themes, record, difficulty: expected }: Graded,
    task: Task,
    number: number,
    { fen, attacker }: Shown,
  ): Exercise {
    const probe = this.prober.probe(fen);
    // the expectation is of finding a move
    const difficulty = task === "judge" ? null : expected;
    const keeping = probe.moves.filter((move) => move.verdict === probe.verdict);
    const answers = keeping.map(({ san }) => san);
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
      themes,
      hints: task === "judge" ? [] : hintsOf(themes, answers),
      beyondFifty: probe.beyondFifty,
      reason: task === "judge" ? null : reasonOf(probe),
      pair: null,
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

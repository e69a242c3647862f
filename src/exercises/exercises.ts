// Exercises: positions with one answer (or as many as asked for), graded by how often people fail in such positions,
// no two alike, spread over set-ups and squares, and turned so that none is known by sight.

import type { Color } from "chessops";

import { placementFen, placementOf, readFen } from "../chess/fen.js";
import { type Material, lettersOf } from "../chess/material.js";
import { MoveList, Movement } from "../chess/moves.js";
import { type Placement, placementAt, placementNumber } from "../chess/placement.js";
import { SYMMETRIES, fileOf, imageOf } from "../chess/squares.js";
import type { Moves } from "../chess/units.js";
import { scoreOf } from "../endings/ending.js";
import { LongsideError } from "../errors.js";
import { Geometer } from "../geometry/facts.js";
import { frameOf } from "../geometry/frame.js";
import { MoveKinds, kindBit } from "../geometry/move-kinds.js";
import { Likeness } from "../geometry/likeness.js";
import type { Connection } from "../store/connection.js";
import type { Exclusion } from "../store/exclusions.js";
import { columnStoreOf } from "../store/column-store.js";
import { type Question, formatQuestion, isEverything, levelOf } from "../query/language/ast.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { Evaluation } from "../query/engine/evaluate.js";
import { parseQuestion } from "../query/language/parse.js";
import { aboutGames } from "../query/engine/placement-test.js";
import { type Tables, type Verdict, unpack } from "../tablebase/tables.js";
import { reasonsToLeave } from "../statistics/cases.js";
import { type Prober, placementReader } from "../position/probe.js";
import type { Tempting } from "../position/explain.js";
import type { ShownLine } from "../position/variations.js";
import { EndingReader } from "../query/engine/rows.js";
import { lotOf, samplePlacements } from "../survey/sample.js";
import { type Task, taskQuestion } from "./tasks.js";

export interface ExercisesAsked {
  readonly task: Task;
  /** Moves that keep the verdict; null for any number of them. */
  readonly answers: number | null;
  readonly size: number;
  readonly seed: number;
}

/** Where a position may come from: a game of the database, or nowhere. */
export interface Candidate {
  readonly placement: Placement;
  readonly from?: { readonly ending: number; readonly ply: number };
}

/** Endings that held the placement or its kin (at most two steps away, same turn and verdict), and how many failed there. */
export interface PeopleRecord {
  readonly met: number;
  readonly failed: number;
}

export interface Source {
  readonly white: string | null;
  readonly black: string | null;
  readonly event: string | null;
  readonly date: string | null;
  readonly file: string;
  readonly game: number;
  readonly ending: number;
  readonly ply: number;
  /** Number of the move in the game, and whether it kept the verdict; null without a move. */
  readonly move: number;
  readonly kept: boolean | null;
}

export interface Exercise {
  /** From 1, easy to hard. */
  readonly number: number;
  readonly task: Task;
  readonly fen: string;
  readonly attacker: Color;
  readonly sideToMove: "attacker" | "defender";
  readonly verdict: Verdict;
  readonly dtm: Moves | null;
  readonly legal: number;
  /** Every move that keeps the verdict, in SAN; the first is the solution's. */
  readonly answers: readonly string[];
  readonly solution: ShownLine;
  readonly refutations: readonly Tempting[];
  /** Expected share of players who fail, 0 to 1, and the grade that follows from it, 1 to 5; of moves, not of judging. */
  readonly difficulty: number | null;
  readonly grade: number | null;
  readonly record: PeopleRecord | null;
  readonly setUps: readonly string[];
  readonly source: Source | null;
}

/** Least difficulty of the grades from 2 to 5. */
const GRADES = [0.05, 0.12, 0.22, 0.35];
export const gradeOf = (difficulty: number): number =>
  1 + GRADES.filter((least) => difficulty >= least).length;

/** Cases that the expectation counts for, beside what people did. */
const EXPECTED_WEIGHT = 10;
const KIN_STEPS = 2;
/** Placements this near are one exercise. */
const ALIKE_STEPS = 1;
/** Candidates looked at for each exercise wanted, and placements drawn from a table for each of these, since most have
 * more than one answer. */
const POOL = 30;
const DRAWN = 8;
/** Fewer other moves make no choice. */
const LEAST_FAILING = 2;

const CHECK = kindBit("check");

/**
 * The share of players expected to fail: a logistic model of how good players erred in some 5,800 positions of real
 * games with something to lose (own fit by maximum likelihood): harder with more moves that fail for each that keeps,
 * easier where every answer is a check, and for wins harder with the way to go.
 */
export function expectedFailure(
  legal: number,
  keeping: number,
  checks: boolean,
  winsIn: Moves | null,
): number {
  const odds = Math.log((legal - keeping + 0.5) / (keeping + 0.5));
  const logit =
    winsIn === null
      ? -4.65 + 1.62 * odds - (checks ? 1.14 : 0)
      : -3.93 + 0.77 * odds - (checks ? 0.79 : 0) + 0.59 * Math.log(1 + winsIn);
  return 1 / (1 + Math.exp(-logit));
}

/**
 * The question that positions for a task answer. Throws `bad-option` for one that positions out of the table, or any
 * position, cannot answer.
 */
export function exerciseQuestion(question: Question, task: Task, fromTable: boolean): Question {
  const fail = (cause: string) =>
    new LongsideError("bad-option", { option: "question", cause, command: "exercises" });
  const foreign = fromTable ? aboutGames(question) : undefined;
  if (foreign)
    throw fail(
      `"${formatQuestion(foreign)}" is about games; positions out of the table have none (--among games)`,
    );
  if (levelOf(question) === "ending" && fromTable && !isEverything(question))
    throw fail("it must be about a position");
  return questionFor(question, task);
}

/** The question that positions for a task answer. */
export function questionFor(asked: Question, task: Task): Question {
  const condition = parseQuestion(taskQuestion(task));
  return { kind: "and", parts: [...(asked.kind === "and" ? asked.parts : [asked]), condition] };
}

/** Candidates out of a material's whole table: the same for the same seed. `setUps` is a file of the user's own. */
export async function candidatesFromTable(
  material: Material,
  question: Question,
  { seed, size }: Pick<ExercisesAsked, "seed" | "size">,
  options: { readonly setUps: string | null; readonly threads: number },
): Promise<Candidate[]> {
  const { setUps, threads } = options;
  const asked = { question: formatQuestion(question), setUps, seed, size: DRAWN * POOL * size };
  return (await samplePlacements(material, asked, threads)).map((placement) => ({ placement }));
}

/** A candidate, seen in its frame, with what is needed to choose among them. */
interface Weighed extends Candidate {
  /** Number of the placement. */
  readonly key: number;
  readonly verdict: number;
  readonly expected: number;
  readonly stratum: string;
}

/** A position as somebody put it by, with the place in a game it came from. */
export interface GivenPosition {
  readonly fen: string;
  readonly ending?: number;
  readonly ply?: number;
}

interface Graded {
  readonly one: Weighed;
  readonly record: PeopleRecord | null;
  /** Share of players expected to fail, with what is known of people. */
  readonly difficulty: number;
}

/** Rows of candidates in an order in which verdicts alternate. */
function interleaved(rows: readonly Weighed[][]): Weighed[][] {
  const byVerdict = new Map<number, Weighed[][]>();
  for (const row of rows) {
    const { verdict } = row[0];
    byVerdict.set(verdict, [...(byVerdict.get(verdict) ?? []), row]);
  }
  const groups = [...byVerdict.values()];
  const most = Math.max(0, ...groups.map(({ length }) => length));
  return Array.from({ length: most }, (_, n) => groups.flatMap((group) => group.slice(n, n + 1))).flat();
}

/** Moves of people, by place in the lists: the ending, the placement's number, whether it gave something away. */
interface PeopleMoves {
  readonly endings: number[];
  readonly numbers: number[];
  readonly failed: boolean[];
}

/** Chooses exercises of one material. */
export class ExerciseMaker {
  private readonly movement: Movement;
  private readonly geometer: Geometer;
  private readonly kinds: MoveKinds;
  private readonly equalSides: boolean;
  private readonly list = new MoveList();
  private readonly replies = new MoveList();
  private people: Map<string, PeopleMoves> | undefined;

  constructor(
    private readonly material: Material,
    private readonly tables: Tables,
    private readonly prober: Prober,
    private readonly catalogue: Catalogue,
    /** Games to tell how often people failed; none where there is no database. */
    private readonly db: Connection | undefined,
    private readonly leaveOut: readonly Exclusion[],
  ) {
    this.movement = new Movement(material);
    this.geometer = new Geometer(material);
    this.kinds = new MoveKinds(this.geometer);
    this.equalSides = lettersOf(material.attacker) === lettersOf(material.defender);
  }

  /** Positions of the database that a question and the task fit. */
  candidatesFromGames(question: Question): Candidate[] {
    const db = this.db!;
    const store = columnStoreOf(db);
    const evaluation = new Evaluation(db);
    const mask = evaluation.positions(question);
    const reasons = reasonsToLeave(db, this.leaveOut);
    const numbers = store.column("placement").values;
    const found: Candidate[] = [];
    for (let n = 0; n < store.endings; ++n) {
      if (reasons[n] >= 0) continue;
      for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) {
        if (!mask[p]) continue;
        const from = { ending: store.ids[n], ply: store.firstPlies[n] + p - store.starts[n] };
        found.push({ placement: placementAt(numbers[p], this.material.men), from });
      }
    }
    return found;
  }

  /** Moves of a placement that keep its verdict, as places in the list of legal moves. */
  private keeping(squares: number[], attackerToMove: boolean, score: number, list: MoveList): number[] {
    this.movement.legalMoves(squares, attackerToMove, list);
    const kept: number[] = [];
    for (let n = 0; n < list.count; ++n)
      if (this.tables.verdictAfter(squares, list.piece[n], list.to[n], attackerToMove) === score)
        kept.push(n);
    return kept;
  }

  private keyOf(placement: Placement): number {
    return placementNumber(frameOf(placement, this.material));
  }

  /**
   * Weighs a candidate that is seen in its frame. Undefined where it is no exercise: no move, another number of answers, hardly a choice, or, to be judged, a position
   * whose verdict neither a move nor the turn can change.
   */
  private weigh(
    candidate: Candidate,
    { task, answers }: Pick<ExercisesAsked, "task" | "answers">,
  ): Weighed | undefined {
    const { placement } = candidate;
    const squares = [...placement.squares];
    const { attackerToMove } = placement;
    const packed = this.tables.probe(squares, attackerToMove);
    const verdict = scoreOf(packed);
    const value = unpack(packed);
    const { list } = this;
    const kept = this.keeping(squares, attackerToMove, verdict, list);
    const legal = list.count;
    if (legal === 0) return undefined;
    const enough = answers === null ? kept.length < legal : legal - kept.length >= LEAST_FAILING;
    if (task !== "judge" && !(enough && (answers === null || kept.length === answers))) return undefined;
    if (task === "judge" && kept.length === legal && !this.turnMatters(squares, attackerToMove, verdict))
      return undefined;
    const kinds = new Int32Array(legal);
    this.kinds.of(this.geometer.view(placement), list, kinds);
    const checks = kept.length > 0 && kept.every((n) => kinds[n] & CHECK);
    const winsIn = verdict === (attackerToMove ? 1 : -1) ? value.dtc : null;
    const expected = expectedFailure(legal, kept.length, checks, winsIn);
    const read = placementReader(this.geometer.facts(placement), value, attackerToMove);
    const setUp = this.catalogue.fitting(read, this.material)[0] ?? "";
    const stratum = [setUp, fileOf(squares[1]), attackerToMove, verdict, gradeOf(expected)].join("|");
    return { ...candidate, key: placementNumber(placement), verdict, expected, stratum };
  }

  /** Whether the verdict would be another with the other side to move: then it takes judgement to tell. */
  private turnMatters(squares: number[], attackerToMove: boolean, verdict: number): boolean {
    if (this.movement.inCheck(squares, attackerToMove ? 0 : 1)) return false;
    return scoreOf(this.tables.probe(squares, !attackerToMove)) !== verdict;
  }

  /** Frames that a placement comes to when each side makes a move that changes nothing. */
  private wasted({ placement, verdict }: Weighed): Set<number> {
    const { list, replies } = this;
    const squares = [...placement.squares];
    const found = new Set<number>();
    const quiet = this.keeping(squares, placement.attackerToMove, verdict, list)
      .filter((n) => list.captured[n] < 0)
      .map((n) => [list.piece[n], list.to[n]] as const);
    for (const [piece, to] of quiet) {
      const from = squares[piece];
      squares[piece] = to;
      for (const n of this.keeping(squares, !placement.attackerToMove, verdict, replies)) {
        if (replies.captured[n] >= 0) continue;
        const back = squares[replies.piece[n]];
        squares[replies.piece[n]] = replies.to[n];
        found.add(this.keyOf({ squares, attackerToMove: placement.attackerToMove }));
        squares[replies.piece[n]] = back;
      }
      squares[piece] = from;
    }
    return found;
  }

  /**
   * Chooses up to `size` exercises, in order of difficulty. Two are alike, and never both chosen, if one is a twin of
   * the other under the symmetries, or at most one king's step from it, or comes from it by a wasted move of each side,
   * or if both come from the same game.
   */
  choose(candidates: readonly Candidate[], asked: ExercisesAsked): Exercise[] {
    const lots = candidates
      .map(({ placement, from }) => {
        const frame = frameOf(placement, this.material);
        const candidate: Candidate = { placement: frame, from };
        return { candidate, lot: lotOf(frame.squares, frame.attackerToMove, asked.seed) };
      })
      .sort(
        (a, b) =>
          Number(!a.candidate.from) - Number(!b.candidate.from) ||
          a.lot - b.lot ||
          (a.candidate.from?.ending ?? 0) - (b.candidate.from?.ending ?? 0) ||
          (a.candidate.from?.ply ?? 0) - (b.candidate.from?.ply ?? 0),
      );
    // positions of games first; the table's are for what is wanting
    const waves = [new Map<string, Weighed[]>(), new Map<string, Weighed[]>()];
    let pool = 0;
    let last = NaN;
    for (const { candidate, lot } of lots) {
      // twins have the same lot
      if (lot === last) continue;
      last = lot;
      const weighed = this.weigh(candidate, asked);
      if (!weighed) continue;
      const strata = waves[weighed.from ? 0 : 1];
      const stratum = strata.get(weighed.stratum);
      if (stratum) stratum.push(weighed);
      else strata.set(weighed.stratum, [weighed]);
      if (++pool >= POOL * asked.size) break;
    }
    const chosen: Weighed[] = [];
    const likenesses: Likeness[] = [];
    const wasted = new Set<number>();
    const endings = new Set<number>();
    const isNew = (one: Weighed) =>
      !(one.from && endings.has(one.from.ending)) &&
      !wasted.has(one.key) &&
      !likenesses.some(
        (likeness) =>
          likeness.placement.attackerToMove === one.placement.attackerToMove &&
          likeness.of(one.key, ALIKE_STEPS) <= ALIKE_STEPS,
      );
    const take = (row: Weighed[]) => {
      while (row.length > 0) {
        const one = row.shift()!;
        if (!isNew(one)) continue;
        const after = this.wasted(one);
        if (chosen.some(({ key }) => after.has(key))) continue;
        chosen.push(one);
        for (const key of after) wasted.add(key);
        likenesses.push(new Likeness(one.placement, false));
        if (one.from) endings.add(one.from.ending);
        return;
      }
    };
    for (const strata of waves) {
      const rows = interleaved([...strata.values()]);
      while (chosen.length < asked.size && rows.some((row) => row.length > 0))
        for (const row of rows) if (chosen.length < asked.size) take(row);
    }
    return this.graded(chosen)
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
      const weighed = this.weigh(candidate, { task: "find", answers: null });
      if (!weighed) {
        idle.push(fen);
        continue;
      }
      const task = weighed.verdict === 0 ? "hold" : "win";
      const [graded] = this.graded([weighed]);
      const shown = { fen, attacker: placed.attacker };
      exercises.push(this.exercise(graded, task, exercises.length + 1, shown));
    }
    return { exercises, idle };
  }

  /** Candidates with what people made of them, and the share of players expected to fail. */
  private graded(chosen: readonly Weighed[]): Graded[] {
    return chosen.map((one) => {
      const record = this.recordOf(one);
      const failed = record?.failed ?? 0;
      const difficulty = (EXPECTED_WEIGHT * one.expected + failed) / (EXPECTED_WEIGHT + (record?.met ?? 0));
      return { one, record, difficulty };
    });
  }

  /** Placements that people moved in, with whether they gave something away, by turn and verdict. */
  private peopleBy(db: Connection): Map<string, PeopleMoves> {
    if (this.people) return this.people;
    const store = columnStoreOf(db);
    const numbers = store.column("placement").values;
    const verdicts = store.column("verdict").values;
    const { values: errors, none } = store.column("error");
    const turns = store.column("attacker-to-move").values;
    const reasons = reasonsToLeave(db, this.leaveOut);
    const people = new Map<string, PeopleMoves>();
    for (let n = 0; n < store.endings; ++n) {
      if (reasons[n] >= 0) continue;
      for (let p = store.starts[n]; p < store.starts[n + 1]; ++p) {
        if (errors[p] === none) continue;
        const key = `${turns[p]} ${verdicts[p]}`;
        let group = people.get(key);
        if (!group) people.set(key, (group = { endings: [], numbers: [], failed: [] }));
        group.endings.push(n);
        group.numbers.push(numbers[p]);
        group.failed.push(errors[p] > 0);
      }
    }
    return (this.people = people);
  }

  /** How often people met the placement or its kin, and gave something away. */
  private recordOf({ placement, verdict }: Weighed): PeopleRecord | null {
    if (!this.db) return null;
    const group = this.peopleBy(this.db).get(`${placement.attackerToMove ? 1 : 0} ${verdict}`);
    const likeness = new Likeness(placement, false);
    // a game that goes to and fro is one case
    const met = new Set<number>();
    const failed = new Set<number>();
    group?.numbers.forEach((number, n) => {
      if (likeness.of(number, KIN_STEPS) > KIN_STEPS) return;
      met.add(group.endings[n]);
      if (group.failed[n]) failed.add(group.endings[n]);
    });
    return { met: met.size, failed: failed.size };
  }

  /** One of the sixteen ways to show it, by lot. */
  private shown(one: Weighed, seed: number): { fen: string; attacker: Color } {
    const lot = lotOf([...one.placement.squares, 64], one.placement.attackerToMove, seed);
    const symmetry = SYMMETRIES[lot % SYMMETRIES.length];
    // with equal pieces White is always called the attacker
    const attacker: Color = this.equalSides || (lot >>> 8) % 2 === 0 ? "white" : "black";
    const { attackerToMove } = one.placement;
    const squares = one.placement.squares.map((square) => imageOf(symmetry, square));
    return { fen: placementFen({ squares, attackerToMove }, this.material, attacker), attacker };
  }

  private exercise(
    { one, record, difficulty: expected }: Graded,
    task: Task,
    number: number,
    { fen, attacker }: { readonly fen: string; readonly attacker: Color },
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
      source: one.from && this.db ? this.sourceOf(one.from) : null,
    };
  }

  private sourceOf({ ending, ply }: { ending: number; ply: number }): Source {
    const stored = new EndingReader(this.db!, this.material).read(ending);
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
      move: Number(fen.split(" ")[5]),
      kept: error === null ? null : error === "none",
    };
  }
}

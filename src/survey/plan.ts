// A win told in stages: which stations the attacker can force one after another so that no stage is long, and a line that
// shows it against the longest resistance.

import type { Chess } from "chessops/chess";
import { makeFen } from "chessops/fen";
import { parseSan } from "chessops/san";

import { fenFields } from "../chess/fen-text.js";
import { numbered } from "../chess/move-numbers.js";
import type { Moves, Square } from "../chess/units.js";
import { LongsideError } from "../errors.js";
import { capital, counted } from "../position/wording.js";
import { type Prober, placementReader } from "../position/probe.js";
import type { ProbedMove } from "../position/valued.js";
import type { Catalogue } from "../query/language/catalogue.js";
import { unpack } from "../tablebase/tables.js";
import { type Stages, costOf } from "./stages.js";

export interface PlannedMove {
  readonly san: string;
  readonly attacker: boolean;
  /** The only move that keeps the win. */
  readonly only: boolean;
}

export interface Stage {
  /** The station that it leads to; null for the win itself: mate, or a piece for nothing. */
  readonly station: string | null;
  /** Moves that it takes at most, whatever the defender does; he may also lose sooner. */
  readonly moves: Moves;
  /** Moves to conversion that are left behind it, at most. */
  readonly left: Moves;
  /** The attacker's shortest way to it against the longest resistance. */
  readonly line: readonly PlannedMove[];
  /** The position at the end of the line. */
  readonly fen: string;
}

export interface Plan {
  readonly fen: string;
  readonly dtm: Moves;
  readonly dtc: Moves;
  readonly stages: readonly Stage[];
}

/** What a stage leads to, and how long it takes. */
export const stageInWords = ({ station, moves, left }: Pick<Stage, "station" | "moves" | "left">): string =>
  station === null
    ? `The win, in at most ${counted(moves, "move")}`
    : `${capital(station)}, in at most ${counted(moves, "move")}; from there at most ${left} more`;

/** A stage's line from where it begins, with move numbers; □ marks the only move that wins. */
export function stageLine(fen: string, line: readonly PlannedMove[]): string {
  const { turn, fullmove } = fenFields(fen);
  return numbered(
    turn,
    fullmove,
    line.map(({ san, only }) => `${san}${only ? "□" : ""}`),
  ).join(" ");
}

/** Stages that a plan has at most; each leads nearer to the win, so that there are few. */
const MOST_STAGES = 6;

/** A position on the way, with its moves. */
class Here {
  readonly placed;
  readonly moves: readonly ProbedMove[];
  readonly dtc: Moves;
  readonly dtm: Moves;
  readonly won: boolean;

  constructor(
    readonly position: Chess,
    private readonly prober: Prober,
  ) {
    const { placed, packed, moves } = prober.values(position);
    const value = unpack(packed);
    this.placed = placed;
    this.won = value.verdict === "won";
    this.dtc = value.dtc ?? 0;
    this.dtm = value.dtm ?? 0;
    this.moves = this.attackerToMove ? moves.filter(({ verdict }) => verdict === "won") : moves;
  }

  get attackerToMove(): boolean {
    return this.placed.attackerToMove;
  }

  /** Whether it is in a set-up. */
  fits(name: string, catalogue: Catalogue): boolean {
    const value = { verdict: "won", dtm: this.dtm, dtc: this.dtc } as const;
    const read = placementReader(this.prober.geometerFor(this.placed), this.placed, value);
    return catalogue.fitting(read, this.placed.material).includes(name);
  }

  /** The squares after a move; undefined where it takes something. */
  after({ from, to }: ProbedMove): Square[] | undefined {
    const { squares } = this.placed;
    return squares.includes(to) ? undefined : squares.map((square) => (square === from ? to : square));
  }

  positionAfter({ san }: ProbedMove): Chess {
    const next = this.position.clone();
    next.play(parseSan(next, san)!);
    return next;
  }

  /** The position after a move that takes nothing. */
  play(move: ProbedMove): Here {
    return new Here(this.positionAfter(move), this.prober);
  }
}

/**
 * The plan of a position that the attacker wins. Of all ways over stations the one with the least sum of the squares of the
 * stages' lengths is taken: few stages, none of them long. Throws `bad-usage` where nothing is won.
 */
export function planOf(position: Chess, prober: Prober, stages: Stages, catalogue: Catalogue): Plan {
  const start = new Here(position, prober);
  if (!start.won)
    throw new LongsideError("bad-usage", {
      message: "the attacker does not win this position, so there is no plan to tell",
      hint: "see what it is and which moves hold: longside probe",
    });
  const found: Stage[] = [];
  for (let here = start; ;) {
    const passed = stages.found.stations.map(
      ({ name }) => here.fits(name, catalogue) || found.some((stage) => stage.station === name),
    );
    const goal = found.length < MOST_STAGES ? nextGoal(here, stages, passed) : undefined;
    const walked = goal === undefined ? toTheWin(here) : toGoal(here, goal, stages, catalogue);
    found.push({
      station: goal === undefined || walked.decided ? null : nameOf(stages, goal),
      moves: goal === undefined ? here.dtc : distanceTo(here, goal, stages)!,
      left: goal === undefined ? 0 : stages.found.goals[goal].within,
      line: walked.line,
      fen: makeFen(walked.end.toSetup()),
    });
    if (walked.decided)
      return { fen: makeFen(position.toSetup()), dtm: start.dtm, dtc: start.dtc, stages: found };
    here = new Here(walked.end, prober);
  }
}

const nameOf = ({ found }: Stages, goal: number): string => found.stations[found.goals[goal].station].name;

/** Moves at most from a position to a goal, or to a win before it. */
function distanceTo(here: Here, goal: number, stages: Stages): Moves | undefined {
  if (!here.attackerToMove) return stages.movesTo(goal, here.placed.squares);
  const distances = here.moves.flatMap((move) => distanceAfter(here, move, goal, stages) ?? []);
  return distances.length === 0 ? undefined : 1 + Math.min(...distances);
}

/** The same behind one of the attacker's moves; a capture that wins ends it. */
function distanceAfter(here: Here, move: ProbedMove, goal: number, stages: Stages): Moves | undefined {
  const after = here.after(move);
  return after === undefined ? 0 : stages.movesTo(goal, after);
}

/**
 * The goal that the cheapest way leads to first; undefined where the straight way to the win is cheapest. `passed` says which
 * stations are behind.
 */
function nextGoal(here: Here, stages: Stages, passed: readonly boolean[]): number | undefined {
  let best: number | undefined;
  let least = costOf(here.dtc);
  stages.found.goals.forEach(({ station, within }, goal) => {
    if (passed[station] || within >= here.dtc) return;
    const distance = distanceTo(here, goal, stages);
    // a station that is reached already, or that is no nearer than the win
    if (distance === undefined || distance === 0 || distance >= here.dtc) return;
    const cost = costOf(distance) + stages.costBehind(goal);
    if (cost < least) [best, least] = [goal, cost];
  });
  return best;
}

interface Walked {
  readonly line: readonly PlannedMove[];
  readonly end: Chess;
  /** It ended with mate or the gain of a piece. */
  readonly decided: boolean;
}

const planned = (here: Here, { san }: ProbedMove): PlannedMove => ({
  san,
  attacker: here.attackerToMove,
  only: here.attackerToMove && here.moves.length === 1,
});

/** The least of some values by several keys, the first that differs deciding. */
function leastBy<T>(all: readonly T[], keys: (one: T) => readonly number[]): T {
  return all.reduce((best, one) => {
    const [a, b] = [keys(one), keys(best)];
    const n = a.findIndex((value, m) => value !== b[m]);
    return n >= 0 && a[n] < b[n] ? one : best;
  });
}

/** Plays on until a move ends it; the moves are chosen by keys, the least first. */
function walk(
  start: Here,
  keysOf: (here: Here, move: ProbedMove) => readonly number[],
  isThere: (here: Here) => boolean,
): Walked {
  const line: PlannedMove[] = [];
  for (let here = start; ;) {
    const move = leastBy(here.moves, (one) => keysOf(here, one));
    line.push(planned(here, move));
    if (here.after(move) === undefined) return { line, end: here.positionAfter(move), decided: true };
    here = here.play(move);
    if (here.moves.length === 0) return { line, end: here.position, decided: true };
    if (isThere(here)) return { line, end: here.position, decided: false };
  }
}

/** Walks to a goal: the attacker as fast as can be; the defender chooses what puts the win off longest. */
function toGoal(start: Here, goal: number, stages: Stages, catalogue: Catalogue): Walked {
  const { within } = stages.found.goals[goal];
  const name = nameOf(stages, goal);
  const keysOf = (here: Here, move: ProbedMove) => {
    if (here.attackerToMove) return [distanceAfter(here, move, goal, stages) ?? Infinity, left(here, move)];
    if (here.after(move) === undefined) return [0, 0];
    const next = here.play(move);
    return [-next.dtc, -(distanceTo(next, goal, stages) ?? Infinity)];
  };
  return walk(start, keysOf, (here) => here.dtc <= within && here.fits(name, catalogue));
}

/** Moves to conversion after a move; less than none after a capture. */
const left = (here: Here, move: ProbedMove): number =>
  here.after(move) === undefined ? -1 : (move.dtc ?? 0);

/** Walks to mate or the gain of a piece, the shortest way against the longest resistance. */
const toTheWin = (start: Here): Walked =>
  walk(
    start,
    (here, move) => [(here.attackerToMove ? 1 : -1) * left(here, move)],
    () => false,
  );

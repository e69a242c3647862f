// What one slice of a database holds of a question's answers: numbers that can be sent from thread to thread.

import { type Like, type Question, partsOf } from "../language/ast.js";
import { growingInts } from "../../growing.js";
import type { Evaluation, Unit } from "./evaluate.js";
import { coveredPositions } from "./shown.js";
import type { SliceWork } from "./slice-threads.js";

/** What is asked of a slice. */
export interface AnswersAsked {
  readonly question: Question;
  readonly unit: Unit;
  /** Whether to say how many positions of each ending the question covers. */
  readonly covers: boolean;
  /** Whether to say how near answers are to the placement that the question asks about. */
  readonly near: boolean;
}

/** A position that answers a question about likeness. */
export interface Near {
  /** Place of its ending among all, and of the position in its ending. */
  readonly ending: number;
  readonly at: number;
  readonly steps: number;
  /** Number of its placement. */
  readonly number: number;
}

/** The endings that answer, or have positions that do, in their order: column by column. */
export interface SliceAnswers {
  /** Their places among all, and how many answers each holds. */
  readonly places: Int32Array;
  readonly counts: Int32Array;
  /** How many of their positions the question covers; 0 where nobody asks. */
  readonly covered: Int32Array;
  /** The nearest position of each, or all that answer; none where nobody asks. */
  readonly near: readonly Near[];
}

/** The likeness that a question asks about, if it does: its answers come nearest first. */
export function likenessIn(node: Question): Like | undefined {
  switch (node.kind) {
    case "like":
      return node;
    case "and":
      return node.parts.map(likenessIn).find((part) => part !== undefined);
    case "scoped":
      return node.quantifier === "somewhere" ? likenessIn(node.part) : undefined;
    default:
      return undefined;
  }
}

/** What a slice holds of the answers. */
export function answersIn(
  evaluation: Evaluation,
  { question, unit, covers, near }: AnswersAsked,
): SliceAnswers {
  const { store } = evaluation;
  const parts = covers ? partsOf(question) : [];
  const mask = unit === "ending" ? evaluation.endings(question) : evaluation.positions(question);
  const nearIn = near ? nearestIn(evaluation, likenessIn(question)!, unit, mask) : () => [];
  const [places, counts, covered] = [growingInts(), growingInts(), growingInts()];
  const nearest: Near[] = [];
  for (let n = 0; n < store.endings; ++n) {
    let count = 0;
    if (unit === "ending") count = mask[n];
    else for (let p = store.starts[n], end = store.starts[n + 1]; p < end; ++p) count += mask[p];
    if (count === 0) continue;
    places.push(store.from + n);
    counts.push(count);
    covered.push(Math.max(0, ...parts.map((part) => coveredPositions(evaluation, part, n))));
    nearest.push(...nearIn(n));
  }
  // sent to another thread, values would take the room behind them along
  const [all, of, by] = [places, counts, covered].map((numbers) => numbers.values.slice());
  return { places: all, counts: of, covered: by, near: nearest };
}

/** Gives the nearest position of an ending, or each that answers, by the ending's place in the slice. */
function nearestIn(evaluation: Evaluation, like: Like, unit: Unit, mask: Uint8Array) {
  const { store } = evaluation;
  const steps = evaluation.steps(like);
  const { values: numbers } = store.column("placement");
  return (n: number): Near[] => {
    const [start, end] = [store.starts[n], store.starts[n + 1]];
    const nearAt = (p: number): Near => ({
      ending: store.from + n,
      at: p - start,
      steps: steps[p],
      number: numbers[p],
    });
    if (unit === "position") {
      const near: Near[] = [];
      for (let p = start; p < end; ++p) if (mask[p]) near.push(nearAt(p));
      return near;
    }
    let nearest = start;
    for (let p = start; p < end; ++p) if (steps[p] < steps[nearest]) nearest = p;
    return [nearAt(nearest)];
  };
}

/** `answersIn` for every slice. */
export const ANSWERS_IN: SliceWork<AnswersAsked, SliceAnswers> = {
  module: "query/engine/slice-answers",
  name: "answersIn",
  run: answersIn,
};

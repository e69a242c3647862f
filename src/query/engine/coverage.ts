// How much of an ending the conditions of a question cover, and which condition leaves out little or everything.

import { type Question, type Scoped, formatQuestion, levelOf, partsOf } from "../language/ast.js";
import { clauseInWords, inOneSentence } from "../language/describe.js";
import type { Evaluation } from "./evaluate.js";
import { coveredPositions } from "./shown.js";

/** A condition that is met in part of an ending. */
export interface Covered {
  /** In canonical form. */
  readonly condition: string;
  /** Whole moves of the ending in which it is met, or, of a stay, how long the stay is; and the ending's moves. */
  readonly moves: number;
  readonly of: number;
}

/** Conditions that hold for a part of an ending, long or short. */
const isCovering = (part: Question): boolean =>
  part.kind === "run" || (part.kind === "scoped" && !["never", "entry", "end"].includes(part.quantifier));

/** How much of the ending at a place each condition covers. */
export function coverageOf(evaluation: Evaluation, question: Question, place: number): Covered[] {
  return partsOf(question)
    .filter(isCovering)
    .map((part) => {
      const { part: of } = part as Scoped;
      const positions = coveredPositions(evaluation, part, place);
      const all = evaluation.positionsOf(place);
      return {
        condition: formatQuestion(of),
        moves: Math.max(1, Math.ceil(positions / 2)),
        of: Math.max(1, Math.ceil(all / 2)),
      };
    });
}

/** A condition about some moment of an ending that nearly every ending meets anyway. */
export interface IdleCondition {
  readonly part: Scoped;
  /** Endings that meet the rest of the question, and how many of these meet it too. */
  readonly met: number;
  readonly of: number;
}

/** From this share on a condition says next to nothing. */
const IDLE = 0.9;
/** Of fewer endings nothing can be said. */
const LEAST = 10;

/** Conditions on some position of an ending that leave out less than a tenth of the endings that meet the rest. */
export function idleConditions(question: Question, countOf: (question: Question) => number): IdleCondition[] {
  const parts = partsOf(question);
  const met = countOf(question);
  if (met === 0) return [];
  return parts.flatMap((part) => {
    if (part.kind !== "scoped" || part.quantifier !== "somewhere") return [];
    const of = countOf({ kind: "and", parts: parts.filter((other) => other !== part) });
    return of >= LEAST && met >= IDLE * of ? [{ part, met, of }] : [];
  });
}

/** Of a question that nothing answers: without which single condition something would, and what comes one after the other. */
export interface Nothing {
  /** What is asked without one condition, that condition in words, and how many endings answer that; the most first. */
  readonly without: readonly {
    readonly condition: string;
    readonly said: string;
    readonly answers: number;
  }[];
  /** Set-ups that no position shows at once, one after the other, with the number of endings. */
  readonly instead: readonly { readonly question: string; readonly said: string; readonly answers: number }[];
}

/** Why nothing answers a question. */
export function whyNothing(question: Question, countOf: (question: Question) => number): Nothing {
  const flat = partsOf(question).flatMap((part): Question[] =>
    part.kind === "scoped" && part.quantifier === "somewhere" && part.part.kind === "and"
      ? [...part.part.parts]
      : [part],
  );
  const joined = (parts: readonly Question[]): Question => ({ kind: "and", parts });
  const without =
    flat.length < 2
      ? []
      : flat
          .map((part) => ({
            condition: formatQuestion(part),
            said: clauseInWords(part),
            answers: countOf(joined(flat.filter((other) => other !== part))),
          }))
          .filter(({ answers }) => answers > 0)
          .sort((a, b) => b.answers - a.answers);
  const setUps = flat.filter(({ kind }) => kind === "set-up");
  const rest = flat.filter((part) => part.kind !== "set-up" && levelOf(part) === "ending");
  const instead = setUps
    .flatMap((first) => setUps.filter((then) => then !== first).map((then) => [first, then] as const))
    .map(([first, then]): Question => ({ kind: "sequence", first, then: [{ part: then, within: null }] }))
    .map((sequence) => {
      const asked = rest.length > 0 ? joined([...rest, sequence]) : sequence;
      return {
        question: formatQuestion(asked),
        said: inOneSentence(asked, "ending"),
        answers: countOf(asked),
      };
    })
    .filter(({ answers }) => answers > 0);
  return { without, instead };
}

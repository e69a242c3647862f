// Finding as it is asked for: how the question was understood and what else it could mean, its answers in order, and what
// to try where there are none.

import { readFen } from "../chess/fen.js";
import { LongsideError } from "../errors.js";
import { type IdleCondition, type Nothing, idleConditions, whyNothing } from "../query/engine/coverage.js";
import { type Unit, understood } from "../query/engine/evaluate.js";
import { Answers } from "../query/engine/find.js";
import { DEFAULT_ORDER, type Order } from "../query/language/orders.js";
import type { EndingAnswer } from "../query/engine/rows.js";
import { type Question, aboutEndings, formatQuestion, sameness } from "../query/language/ast.js";
import { inOneSentence } from "../query/language/describe.js";
import type { Mended } from "../query/language/mending.js";
import { type LeftOut, exclusionsOf, leftOutBy, usualExclusions } from "../statistics/exclusions.js";
import type { Exclusion } from "../store/exclusions.js";
import type { Workspace } from "./workspace.js";

/** How a question was understood. */
export interface Understanding {
  /** One English sentence, without a full stop. */
  readonly sentence: string;
  /** Canonical form, with its scopes. */
  readonly canonical: string;
  /** What the words could mean instead: the reading's number, from 2 on, what rests on a guess, and the sentence. */
  readonly others: readonly OtherReading[];
  /** Words that were passed over, since they say nothing that could be looked up. */
  readonly passed: readonly string[];
  /** Words that were read as others: slips, and what a verb before it is said of too. */
  readonly mended: readonly Mended[];
}
export interface OtherReading {
  readonly reading: number;
  /** The words that rest on a guess, and what they would be about; null where the whole is read differently. */
  readonly words: string | null;
  readonly about: string | null;
  readonly sentence: string;
  readonly canonical: string;
}

/** A question with all its readings. */
export interface ReadQuestion extends Understanding {
  readonly question: Question;
  /** The order of the answers that the words ask for. */
  readonly order: Order | undefined;
}

/**
 * Reads a question, or another of its readings (from 1), for a command. Throws `QueryError`, and `bad-option` for a reading
 * that there is not.
 */
export function readAsked(
  workspace: Workspace,
  text: string,
  unit: Unit,
  reading = 1,
  command = "find",
): ReadQuestion {
  const readings = workspace.readings(text);
  const said = (question: Question) => sameness(unit === "ending" ? aboutEndings(question) : question);
  const [first, ...rest] = readings;
  const all = [
    { question: first.question, words: null, about: null },
    ...first.guesses.map(({ words, about, other }) => ({ question: other, words, about })),
    ...rest.map(({ question }) => ({ question, words: null, about: null })),
  ].filter(({ question }, n, list) => list.findIndex((one) => said(one.question) === said(question)) === n);
  const chosen = all[reading - 1];
  if (chosen === undefined)
    throw new LongsideError("bad-option", {
      option: "--reading",
      cause:
        all.length === 1
          ? "the question has one reading only"
          : `the question has readings 1 to ${all.length}`,
      command,
    });
  const tell = (question: Question) => ({
    sentence: inOneSentence(question, unit),
    canonical: understood(question, unit),
  });
  const others = all
    .map(({ question, words, about }, n) => ({ reading: n + 1, words, about, ...tell(question) }))
    .filter((_, n) => n !== reading - 1);
  const { order, passed = [], mended = [] } = first;
  return { question: chosen.question, order, passed, mended, ...tell(chosen.question), others };
}

export interface FindAsked {
  readonly question: string;
  readonly each: Unit;
  readonly order?: Order;
  readonly leaveOut?: readonly Exclusion[];
  /** Whether every copy of a game is an answer, whatever else is left out. */
  readonly duplicates?: boolean;
  readonly reading?: number;
}

/** A condition that leaves out next to nothing, and how it is written. */
export type SaidIdle = IdleCondition & { readonly said: string };

/** Conditions of a question that leave out next to nothing; `countOf` counts the endings that answer a question. */
export const idleOf = (question: Question, countOf: (question: Question) => number): SaidIdle[] =>
  idleConditions(question, countOf).map((idle) => ({ ...idle, said: formatQuestion(idle.part.part) }));

/** Answers and what is to be said of them. */
export interface Found extends ReadQuestion {
  /** The order of the answers. */
  readonly order: Order;
  readonly answers: Answers;
  /** Answers before any limit, without what is left out; and what of the answers is left out, by reason. */
  readonly count: number;
  readonly leftOut: LeftOut;
  /** Conditions that leave out next to nothing; asked for endings only. */
  readonly idle: () => readonly SaidIdle[];
  readonly nothing: () => Nothing;
}

/** Finds. Throws `QueryError`, `no-database`, `bad-option`. */
export function findAsked(workspace: Workspace, asked: FindAsked): Found {
  const { each } = asked;
  const read = readAsked(workspace, asked.question, each, asked.reading);
  const { question } = read;
  const order = asked.order ?? read.order ?? DEFAULT_ORDER;
  const leaveOut = (asked.leaveOut ?? usualExclusions(question)).filter(
    (name) => name !== "duplicates" || !asked.duplicates,
  );
  const db = workspace.db();
  const excluded = exclusionsOf(db, leaveOut);
  const answers = new Answers(db, question, { order, leftOut: excluded });
  return {
    ...read,
    order,
    answers,
    count: answers.tally(each),
    leftOut: leftOutBy(answers.without(each), leaveOut),
    idle: () => (each === "position" ? [] : idleOf(question, answers.countOf)),
    nothing: () => whyNothing(question, answers.countOf),
  };
}

/** Moves of a position that would have kept the verdict; undefined without tables, or where none is needed. */
export function heldMoves(
  workspace: Workspace,
  at: Pick<EndingAnswer["look"], "error" | "verdict" | "fen">,
): readonly string[] | undefined {
  if (at.error === null || at.error === "none" || at.verdict === null) return undefined;
  try {
    const { moves } = workspace.prober.values(readFen(at.fen));
    return moves.filter(({ verdict }) => verdict === at.verdict).map(({ san }) => san);
  } catch (thrown) {
    if (thrown instanceof LongsideError && thrown.code === "tables-missing") return undefined;
    throw thrown;
  }
}

// Counts as they are asked for: how many answer, split by facts, and in what share something else is true.

import { LongsideError } from "../errors.js";
import { type Split, readSplits } from "../query/engine/splits.js";
import type { Question } from "../query/language/ast.js";
import { type Count, count, unitFor } from "../statistics/count.js";
import { usualExclusions } from "../statistics/exclusions.js";
import type { Exclusion } from "../store/exclusions.js";
import { type ReadQuestion, type SaidIdle, idleOf, readAsked } from "./find.js";
import type { Workspace } from "./workspace.js";

export interface CountAsked {
  readonly question: string;
  /** Facts, with bands as in "year:5". */
  readonly by: readonly string[];
  readonly share?: string;
  /** What is counted; what the facts are of, where it is left out. */
  readonly each?: "ending" | "position";
  readonly leaveOut?: readonly Exclusion[];
  /** Which meaning of the question, from 1. */
  readonly reading?: number;
}

export interface Counted extends Count, ReadQuestion {
  readonly by: readonly Split[];
  readonly sharing: ReadQuestion | undefined;
  /** Conditions that leave out next to nothing. */
  readonly idle: () => readonly SaidIdle[];
}

/** Counts. Throws `QueryError`, `no-database`, `bad-option`. */
export function countAsked(workspace: Workspace, asked: CountAsked): Counted {
  const db = workspace.db();
  const by = readSplits(asked.by, workspace.catalogue.tests(workspace.target()));
  const unit = asked.each ?? unitFor(by);
  if (unit === "ending" && unitFor(by) === "position")
    throw new LongsideError("bad-option", {
      option: "--each ending",
      cause: "it is split by a fact of positions",
      command: "count",
    });
  const read = readAsked(workspace, asked.question, unit, asked.reading, "count");
  const sharing = asked.share === undefined ? undefined : readAsked(workspace, asked.share, unit);
  const leaveOut = asked.leaveOut ?? usualExclusions(read.question, by);
  const counted = count(db, read.question, { by, unit, leaveOut, share: sharing?.question });
  const countOf = (question: Question) => count(db, question, { by: [], unit: "ending", leaveOut }).matching;
  const idle = () => (unit === "position" ? [] : idleOf(read.question, countOf));
  return { ...counted, ...read, by, sharing, idle };
}

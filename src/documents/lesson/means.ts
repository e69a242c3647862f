// What the blocks of a lesson are filled with, and the values that a block gives, read with their checks.

import type { Material } from "../../chess/material.js";
import { LongsideError } from "../../errors.js";
import type { Prober } from "../../position/probe.js";
import type { Question } from "../../query/language/ast.js";
import type { Catalogue } from "../../query/language/catalogue.js";
import { parseQuestion } from "../../query/language/parse.js";
import type { Connection } from "../../store/connection.js";
import type { Exclusion } from "../../store/exclusions.js";
import type { Tables } from "../../tablebase/tables.js";
import type { Block } from "./outline.js";

/** What a lesson is made with. */
export interface LessonMeans {
  /** None where there is no database: what needs games then fails with a hint. */
  readonly db: Connection | undefined;
  readonly target: Material;
  readonly tables: Tables;
  readonly prober: Prober;
  readonly catalogue: Catalogue;
  /** A file of the user's own set-ups. */
  readonly setUps: string | null;
  readonly leaveOut: readonly Exclusion[];
  readonly threads: number;
  readonly seed: number;
}

/** What is wrong with a block. */
export const badBlock = ({ name }: Block, cause: string): LongsideError =>
  new LongsideError("bad-block", { block: name, cause });

/** The value of a field that a block must have. Throws `bad-block`. */
export function needed(block: Block, field: string): string {
  const value = block.values[field];
  if (value === undefined) throw badBlock(block, `it needs a line "${field}: …"`);
  return value;
}

/** A whole number from 1 to `most`; `usual` where the block does not say. Throws `bad-block`. */
export function wholeNumber(block: Block, field: string, usual: number, most = 200): number {
  const value = block.values[field];
  if (value === undefined) return usual;
  const number = Number(value);
  if (!Number.isInteger(number) || number < 1 || number > most)
    throw badBlock(block, `"${field}" is a whole number from 1 to ${most}`);
  return number;
}

/** The database, for a block that needs games. Throws `bad-block`. */
export function gamesFor({ db }: LessonMeans, block: Block): Connection {
  if (!db) throw badBlock(block, "there is no database to take games from");
  return db;
}

/** The question of a block; everything where it has none. Throws `QueryError`. */
export const questionOf = ({ catalogue }: LessonMeans, { values }: Block): Question =>
  parseQuestion(values.question ?? "", catalogue.known);

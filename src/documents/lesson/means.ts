// What the blocks of a lesson are filled with, and the values that a block gives, read with their checks.

import type { Material } from "../../chess/material.js";
import { LongsideError } from "../../errors.js";
import type { Prober } from "../../position/probe.js";
import type { Placement } from "../../chess/placement.js";
import { type Question, formatQuestion } from "../../query/language/ast.js";
import type { Catalogue } from "../../query/language/catalogue.js";
import { parseQuestion } from "../../query/language/parse.js";
import type { Connection } from "../../store/connection.js";
import type { Exclusion } from "../../store/exclusions.js";
import { samplePlacements } from "../../survey/sample.js";
import type { Tables } from "../../tablebase/tables.js";
import type { EndingAt } from "./game-story.js";
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
  /** Placements drawn for questions, once for all the blocks that look at the same. */
  readonly drawn: Map<string, Promise<readonly Placement[]>>;
  /** The games that blocks have shown, in order. */
  readonly games: EndingAt[];
}

/** Placements drawn for each question. */
const DRAWN = 4000;

/** Placements of the whole table that fit the question of a block, in no order, the same for the same seed. */
export function placementsFor(means: LessonMeans, block: Block): Promise<readonly Placement[]> {
  const { target, setUps, threads, seed, drawn } = means;
  const question = formatQuestion(questionOf(means, block));
  let found = drawn.get(question);
  if (!found)
    drawn.set(question, (found = samplePlacements(target, { question, setUps, seed, size: DRAWN }, threads)));
  return found;
}

/** Those with the attacker to move that it does not win. */
export async function heldFor(means: LessonMeans, block: Block): Promise<readonly Placement[]> {
  return (await placementsFor(means, block)).filter(
    ({ squares, attackerToMove }) => attackerToMove && means.tables.verdict(squares, true) === 0,
  );
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

/** Whether a field of a block says "true"; it may be left out. Throws `bad-block`. */
export function isTrue(block: Block, field: string): boolean {
  const value = block.values[field];
  if (value !== undefined && value !== "true" && value !== "false")
    throw badBlock(block, `"${field}" is true or false`);
  return value === "true";
}

/** The database, for a block that needs games. Throws `bad-block`. */
export function gamesFor({ db }: LessonMeans, block: Block): Connection {
  if (!db) throw badBlock(block, "there is no database to take games from");
  return db;
}

/** The question of a block; everything where it has none. Throws `QueryError`. */
export const questionOf = ({ catalogue }: LessonMeans, { values }: Block): Question =>
  parseQuestion(values.question ?? "", catalogue.known);

// Finding examples: the endings, or the single positions, that a question is about.

import type { Question } from "../questions/ast.js";
import { compileFirstPly, compileQuestion } from "../questions/sql.js";
import type { Connection } from "../index/connection.js";
import { targetOf } from "../index/database.js";
import {
  ENDINGS_FROM,
  ENDING_COLUMNS,
  type EndingAnswer,
  EndingReader,
  POSITIONS_FROM,
  POSITION_COLUMNS,
  type PositionAnswer,
  type Row,
  positionAnswer,
  prepareForQuestions,
} from "./rows.js";

/**
 * Endings that answer a question, in the order they were indexed, duplicates included and marked. At most
 * `limit` of them; rows are read as they are asked for.
 */
export function* findEndings(db: Connection, question: Question, limit = Infinity): Generator<EndingAnswer> {
  prepareForQuestions(db);
  const look = compileFirstPly(question);
  const where = compileQuestion(question, "ending");
  const reader = new EndingReader(db, targetOf(db));
  const rows = db
    .prepare(
      `SELECT ${ENDING_COLUMNS}, ${look.text} AS look FROM ${ENDINGS_FROM} WHERE ${where.text} ORDER BY e.id LIMIT ?`,
    )
    .iterate(...look.values, ...where.values, Number.isFinite(limit) ? limit : -1);
  for (const row of rows) yield reader.answer(row as Row);
}

/** Positions that answer a question, ending by ending. */
export function* findPositions(
  db: Connection,
  question: Question,
  limit = Infinity,
): Generator<PositionAnswer> {
  prepareForQuestions(db);
  const target = targetOf(db);
  const where = compileQuestion(question, "position");
  const rows = db
    .prepare(
      `SELECT ${POSITION_COLUMNS} FROM ${POSITIONS_FROM} WHERE ${where.text} ORDER BY p.ending_id, p.ply LIMIT ?`,
    )
    .iterate(...where.values, Number.isFinite(limit) ? limit : -1);
  for (const row of rows) yield positionAnswer(row as Row, target);
}

export interface Tally {
  readonly endings: number;
  /** Of these: endings whose game stands in the database before. */
  readonly duplicates: number;
  readonly passing: number;
}

/** How many endings answer a question, before any limit. */
export function tallyEndings(db: Connection, question: Question): Tally {
  prepareForQuestions(db);
  const where = compileQuestion(question, "ending");
  return db
    .prepare(
      `SELECT count(*) AS endings, count(g.duplicate_of) AS duplicates, coalesce(sum(e.passing), 0) AS passing
       FROM ${ENDINGS_FROM} WHERE ${where.text}`,
    )
    .get(...where.values) as Tally;
}

/** How many positions answer a question, before any limit. */
export function tallyPositions(db: Connection, question: Question): number {
  prepareForQuestions(db);
  const where = compileQuestion(question, "position");
  return db
    .prepare(`SELECT count(*) FROM ${POSITIONS_FROM} WHERE ${where.text}`)
    .pluck()
    .get(...where.values) as number;
}

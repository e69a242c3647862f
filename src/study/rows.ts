// Reading answers out of the database: the rows that find, count and show are made of, in the names that other
// programs rely on.

import type { Color } from "chessops";

import { placementFen } from "../chess/fen.js";
import type { Material } from "../chess/material.js";
import { placementAt } from "../chess/placement.js";
import type { Moves, Ply } from "../chess/units.js";
import type { EndedBy, Outcome, Score } from "../endings/ending.js";
import { GEOMETRY } from "../geometry/facts.js";
import type { Connection } from "../index/connection.js";
import { columnOf } from "../index/schema.js";
import { fold } from "../questions/sql.js";
import type { Verdict } from "../solver/tables.js";

export const verdictOf = (score: Score): Verdict => (score === 0 ? "drawn" : score > 0 ? "won" : "lost");
export const maybeVerdict = (score: Score | null): Verdict | null =>
  score === null ? null : verdictOf(score);

/** A stretch of an ending over which the verdict stays the same. */
export interface Chapter {
  readonly ply: Ply;
  readonly verdict: Verdict;
}

export interface EndingAnswer {
  readonly id: number;
  readonly file: string;
  readonly game: number;
  /** Above 1 for a game recovered from inside a comment; see DEVELOPERS.md. */
  readonly part: number;
  readonly white: string | null;
  readonly black: string | null;
  readonly whiteRating: number | null;
  readonly blackRating: number | null;
  readonly event: string | null;
  readonly date: string | null;
  readonly result: string;
  readonly attacker: Color;
  readonly firstPly: Ply;
  readonly lastPly: Ply;
  readonly positions: number;
  readonly outcome: Outcome;
  readonly endedBy: EndedBy;
  readonly captured: string | null;
  readonly entryVerdict: Verdict | null;
  readonly finalVerdict: Verdict | null;
  readonly attackerErrors: number;
  readonly defenderErrors: number;
  readonly passing: boolean;
  readonly contradicts: boolean;
  /** The same game stands before in the database: its file and number. */
  readonly duplicateOf: { readonly file: string; readonly game: number } | null;
  /** Where reading the game stopped short. */
  readonly stoppedAt: Ply | null;
  readonly story: readonly Chapter[];
  /** The position to look at: where the question is met, else where the verdict first changes, else the entry. */
  readonly look: { readonly ply: Ply; readonly fen: string; readonly move: string | null };
}

export interface PositionAnswer {
  readonly id: number;
  readonly file: string;
  readonly game: number;
  readonly part: number;
  readonly white: string | null;
  readonly black: string | null;
  readonly result: string;
  readonly attacker: Color;
  readonly ply: Ply;
  readonly fen: string;
  readonly move: string | null;
  readonly sideToMove: "attacker" | "defender";
  readonly verdict: Verdict | null;
  readonly dtm: Moves | null;
  readonly dtc: Moves | null;
  readonly keeping: number | null;
  readonly legal: number;
  readonly error: "none" | "half" | "full" | null;
  readonly clock: number | null;
  readonly beyondFifty: boolean;
  readonly facts: Readonly<Record<string, number | string | boolean | null>>;
}

/** Joins of every answer: `s` sources, `g` games, `e` endings, `d` the game that a duplicate repeats. */
export const ENDINGS_FROM = `endings e JOIN games g ON g.id = e.game_id JOIN sources s ON s.id = g.source_id`;
export const POSITIONS_FROM = `positions p JOIN endings e ON e.id = p.ending_id JOIN games g ON g.id = e.game_id JOIN sources s ON s.id = g.source_id`;

export const ENDING_COLUMNS = `e.*, s.name AS file, g.number, g.part, g.white, g.black, g.white_rating, g.black_rating,
  g.event, g.date, g.result, g.stopped_at, g.duplicate_of,
  (SELECT ds.name || char(10) || d.number FROM games d JOIN sources ds ON ds.id = d.source_id WHERE d.id = g.duplicate_of) AS original`;
export const POSITION_COLUMNS = `p.*, e.id AS id, e.attacker, s.name AS file, g.number, g.part, g.white, g.black, g.result`;

export type Row = Record<string, unknown>;

export const fenOf = (row: Row, target: Material): string =>
  placementFen(
    placementAt(row.placement as number, target.men),
    target,
    row.attacker as Color,
    row.halfmoves as number,
    row.fullmove as number,
  );

/** The value of a geometry fact as a reader sees it: a number, one of its words, or true or false. */
export function shownFact(
  fact: (typeof GEOMETRY)[number],
  value: number | null,
): number | string | boolean | null {
  if (value === null) return null;
  if (fact.type === "word") return fact.values![value];
  return fact.type === "flag" ? value === 1 : value;
}

const ERRORS_OF_MOVES = ["none", "half", "full"] as const;

export function positionAnswer(row: Row, target: Material): PositionAnswer {
  const error = row.error as number | null;
  return {
    id: row.id as number,
    file: row.file as string,
    game: row.number as number,
    part: row.part as number,
    white: row.white as string | null,
    black: row.black as string | null,
    result: row.result as string,
    attacker: row.attacker as Color,
    ply: row.ply as Ply,
    fen: fenOf(row, target),
    move: row.san as string | null,
    sideToMove: row.attacker_to_move === 1 ? "attacker" : "defender",
    verdict: maybeVerdict(row.verdict as Score | null),
    dtm: row.dtm as Moves | null,
    dtc: row.dtc as Moves | null,
    keeping: row.keeping as number | null,
    legal: row.legal as number,
    error: error === null ? null : ERRORS_OF_MOVES[error],
    clock: row.clock as number | null,
    beyondFifty: row.beyond_fifty === 1,
    facts: Object.fromEntries(
      GEOMETRY.map((fact) => [fact.name, shownFact(fact, row[columnOf(fact.name)] as number | null)]),
    ),
  };
}

/** Reads the details of endings: their story and the position to look at. */
export class EndingReader {
  private readonly verdicts;
  private readonly position;

  constructor(
    db: Connection,
    private readonly target: Material,
  ) {
    this.verdicts = db.prepare("SELECT ply, verdict, error FROM positions WHERE ending_id = ? ORDER BY ply");
    this.position = db.prepare(
      "SELECT p.*, e.attacker FROM positions p JOIN endings e ON e.id = p.ending_id WHERE p.ending_id = ? AND p.ply = ?",
    );
  }

  answer(row: Row): EndingAnswer {
    const story: Chapter[] = [];
    let firstError: number | undefined;
    const plies = this.verdicts.all(row.id) as { ply: number; verdict: Score | null; error: number | null }[];
    for (const { ply, verdict, error } of plies) {
      if (error && firstError === undefined) firstError = ply;
      if (verdict === null) continue;
      const now = verdictOf(verdict);
      if (story.at(-1)?.verdict !== now) story.push({ ply, verdict: now });
    }
    const ply = (row.look as number | null) ?? firstError ?? (row.first_ply as number);
    const look = this.position.get(row.id, ply) as Row;
    const original = (row.original as string | null)?.split("\n");
    return {
      id: row.id as number,
      file: row.file as string,
      game: row.number as number,
      part: row.part as number,
      white: row.white as string | null,
      black: row.black as string | null,
      whiteRating: row.white_rating as number | null,
      blackRating: row.black_rating as number | null,
      event: row.event as string | null,
      date: row.date as string | null,
      result: row.result as string,
      attacker: row.attacker as Color,
      firstPly: row.first_ply as number,
      lastPly: row.last_ply as number,
      positions: row.positions as number,
      outcome: row.outcome as Outcome,
      endedBy: row.ended_by as EndedBy,
      captured: row.captured as string | null,
      entryVerdict: maybeVerdict(row.entry_verdict as Score | null),
      finalVerdict: maybeVerdict(row.final_verdict as Score | null),
      attackerErrors: (row.attacker_half_errors as number) + (row.attacker_full_errors as number),
      defenderErrors: (row.defender_half_errors as number) + (row.defender_full_errors as number),
      passing: row.passing === 1,
      contradicts: row.contradicts === 1,
      duplicateOf: original ? { file: original[0], game: Number(original[1]) } : null,
      stoppedAt: row.stopped_at as number | null,
      story,
      look: { ply, fen: fenOf(look, this.target), move: look.san as string | null },
    };
  }
}

/** Gives a connection the SQL functions that compiled questions use. */
export function prepareForQuestions(db: Connection): void {
  db.function("fold", { deterministic: true }, (text: unknown) =>
    typeof text === "string" ? fold(text) : text,
  );
}

// Reading answers out of the database: the rows that find, count and show are made of, in the names that other
// programs rely on.

import type { Color } from "chessops";

import { placementFen } from "../../chess/fen.js";
import { sanText } from "../../chess/san.js";
import type { Material } from "../../chess/material.js";
import type { Moves, Ply } from "../../chess/units.js";
import type { EndedBy, Outcome } from "../../endings/ending.js";
import {
  ATTACKER_TO_MOVE,
  BEYOND_FIFTY,
  DTM,
  ERROR,
  HOLDING,
  KIND,
  NEEDED,
  POSSIBLE,
  SAN,
  type PositionReader,
  VERDICT,
} from "../../endings/position-columns.js";
import { GEOMETRY, Geometer } from "../../geometry/facts.js";
import { kindNames } from "../../geometry/move-kinds.js";
import { columnStoreOf } from "../../store/column-store.js";
import type { Connection } from "../../store/connection.js";
import { fullmoveAt } from "../../chess/move-numbers.js";
import { type Score, type Verdict, verdictOf } from "../../chess/verdict.js";

const maybeVerdict = (score: Score | null): Verdict | null => (score === null ? null : verdictOf(score));

/** A stretch of an ending over which the verdict stays the same, on paper and under the fifty-move rule. */
export interface Chapter {
  readonly ply: Ply;
  readonly verdict: Verdict;
  /** The win comes too late for the fifty-move rule. */
  readonly onPaper: boolean;
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
  /** Plies of the positions that show how the ending answers the question; none where it is about the whole. */
  readonly shows: readonly Ply[];
  /** Games of the database that are this one, itself among them. */
  readonly copies: number;
  /** The position to look at: where the question is met, else the decisive mistake, else the entry. */
  readonly look: {
    readonly ply: Ply;
    readonly fen: string;
    readonly move: string | null;
    readonly sideToMove: "attacker" | "defender";
    readonly verdict: Verdict | null;
    /** The win comes too late for the fifty-move rule. */
    readonly onPaper: boolean;
    readonly error: "none" | "half" | "full" | null;
    /** The verdict after the move, and the winner's moves to mate; null at the end. */
    readonly then: {
      readonly verdict: Verdict | null;
      readonly dtm: Moves | null;
      readonly onPaper: boolean;
    } | null;
  };
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
  /** Kinds of the move played, of the legal moves, of those that keep the verdict, and what all of these share. */
  readonly kinds: readonly string[];
  readonly possible: readonly string[];
  readonly holding: readonly string[];
  readonly needed: readonly string[];
  /** Seconds left to the mover after the move and before it, and what it took. */
  readonly clock: number | null;
  readonly clockBefore: number | null;
  readonly spent: number | null;
  readonly beyondFifty: boolean;
  /** What the move gave away under the fifty-move rule, and how many moves give nothing away. */
  readonly fiftyError: "none" | "half" | "full" | null;
  readonly fiftyKeeping: number | null;
  readonly facts: Readonly<Record<string, number | string | boolean | null>>;
}

/** Joins of every answer: `s` sources, `g` games, `e` endings. */
const ANSWERS_FROM = `endings e JOIN games g ON g.id = e.game_id JOIN sources s ON s.id = g.source_id`;
const ANSWER_COLUMNS = `e.*, s.name AS file, g.number, g.part, g.white, g.black, g.white_rating, g.black_rating,
  g.event, g.date, g.result, g.stopped_at, g.duplicate_of,
  (SELECT ds.name || char(10) || d.number FROM games d JOIN sources ds ON ds.id = d.source_id WHERE d.id = g.duplicate_of) AS original,
  (SELECT count(*) FROM games c WHERE c.duplicate_of = coalesce(g.duplicate_of, g.id)) + 1 AS copies`;

type Row = Record<string, unknown>;

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

/** Reads endings and their positions by number. */
export class EndingReader {
  private readonly row;
  /** Facts are worked out for the few positions that are shown: that is done sooner than their columns are unpacked. */
  private readonly geometer: Geometer;

  constructor(
    private readonly db: Connection,
    private readonly target: Material,
  ) {
    this.geometer = new Geometer(target);
    this.row = db.prepare(`SELECT ${ANSWER_COLUMNS} FROM ${ANSWERS_FROM} WHERE e.id = ?`);
  }

  /** An ending with its positions; undefined if there is none of this number. */
  read(id: number): StoredEnding | undefined {
    const row = this.row.get(id) as Row | undefined;
    const store = columnStoreOf(this.db);
    const place = store.placeOf(id);
    if (!row || place === undefined) return undefined;
    return new StoredEnding(row, store.positionsAt(place), this.target, this.geometer);
  }
}

/** One ending of the database. */
export class StoredEnding {
  readonly firstPly: Ply;

  constructor(
    private readonly row: Row,
    private readonly plies: PositionReader,
    private readonly target: Material,
    private readonly geometer: Geometer,
  ) {
    this.firstPly = row.first_ply as Ply;
  }

  /** Which ending of which game it is. */
  private game(): Pick<EndingAnswer, "id" | "file" | "game" | "part" | "white" | "black"> {
    const { row } = this;
    return {
      id: row.id as number,
      file: row.file as string,
      game: row.number as number,
      part: row.part as number,
      white: row.white as string | null,
      black: row.black as string | null,
    };
  }

  /** The FEN of position `n` of the ending. */
  fenAt(n: number): string {
    const { row, target, plies } = this;
    const attacker = row.attacker as Color;
    const attackerBegins = plies.column(ATTACKER_TO_MOVE)[0] === 1;
    return placementFen(
      plies.placement(n, target.men),
      target,
      attacker,
      (row.first_halfmoves as number) + n,
      fullmoveAt(row.first_fullmove as number, attackerBegins === (attacker === "white"), n),
    );
  }

  /** The position at a ply of the ending. */
  position(ply: Ply): PositionAnswer {
    const { row, plies } = this;
    const n = ply - this.firstPly;
    const record = plies.record(n);
    const facts = this.geometer.facts(plies.placement(n, this.target.men));
    return {
      ...this.game(),
      result: row.result as string,
      attacker: row.attacker as Color,
      ply,
      fen: this.fenAt(n),
      move: record.san,
      sideToMove: record.attackerToMove ? "attacker" : "defender",
      verdict: maybeVerdict(record.verdict),
      dtm: record.dtm,
      dtc: record.dtc,
      keeping: record.keeping,
      legal: record.legal,
      error: record.error === null ? null : ERRORS_OF_MOVES[record.error],
      kinds: kindNames(plies.get(KIND, n) ?? 0),
      possible: kindNames(plies.get(POSSIBLE, n) ?? 0),
      holding: kindNames(plies.get(HOLDING, n) ?? 0),
      needed: kindNames(plies.get(NEEDED, n) ?? 0),
      clock: record.clock,
      clockBefore: record.clockBefore,
      spent: record.spent,
      beyondFifty: record.beyondFifty,
      fiftyError: record.fiftyError === null ? null : ERRORS_OF_MOVES[record.fiftyError],
      fiftyKeeping: record.fiftyKeeping,
      facts: Object.fromEntries(GEOMETRY.map((fact, m) => [fact.name, shownFact(fact, facts[m])])),
    };
  }

  private lookAt(ply: Ply): EndingAnswer["look"] {
    const n = ply - this.firstPly;
    const { plies } = this;
    // a whole record would have every column of the chunk unpacked
    const san = plies.get(SAN, n);
    const error = plies.get(ERROR, n);
    const standing = (at: number) => ({
      verdict: maybeVerdict(plies.get(VERDICT, at) as Score | null),
      onPaper: plies.column(BEYOND_FIFTY)[at] === 1,
    });
    return {
      ply,
      fen: this.fenAt(n),
      move: san === null ? null : sanText(san),
      sideToMove: plies.column(ATTACKER_TO_MOVE)[n] === 1 ? "attacker" : "defender",
      ...standing(n),
      error: error === null ? null : ERRORS_OF_MOVES[error],
      then: n + 1 < plies.count ? { ...standing(n + 1), dtm: plies.get(DTM, n + 1) as Moves | null } : null,
    };
  }

  positions(): PositionAnswer[] {
    return Array.from({ length: this.plies.count }, (_, n) => this.position(this.firstPly + n));
  }

  /** The ending as an answer; `shows` are the plies that show how it answers a question. */
  answer(shows: readonly Ply[] = []): EndingAnswer {
    const { row, plies } = this;
    const story: Chapter[] = [];
    let lastError: Ply | undefined;
    for (let n = 0; n < plies.count; ++n) {
      const ply = this.firstPly + n;
      if (plies.column(ERROR)[n] > 0) lastError = ply;
      const verdict = maybeVerdict(plies.get(VERDICT, n) as Score | null);
      const onPaper = plies.column(BEYOND_FIFTY)[n] === 1;
      const last = story.at(-1);
      if (verdict !== null && (last?.verdict !== verdict || last.onPaper !== onPaper))
        story.push({ ply, verdict, onPaper });
    }
    const look = shows[0] ?? lastError ?? this.firstPly;
    const original = (row.original as string | null)?.split("\n");
    return {
      ...this.game(),
      whiteRating: row.white_rating as number | null,
      blackRating: row.black_rating as number | null,
      event: row.event as string | null,
      date: row.date as string | null,
      result: row.result as string,
      attacker: row.attacker as Color,
      firstPly: this.firstPly,
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
      shows,
      copies: row.copies as number,
      look: this.lookAt(look),
    };
  }
}

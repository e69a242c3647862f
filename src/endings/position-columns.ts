// The positions of an ending, column by column in one buffer: what threads send, the database stores and
// questions read, with no object for each position.
//
// A column is an array of whole numbers of one width. The widest columns come first, so that every one of them is
// aligned. The least number of a width means that there is no value.

import { type Placement, placementAt } from "../chess/placement.js";
import { sanText } from "../chess/san.js";
import type { Moves } from "../chess/units.js";
import type { Score } from "../chess/verdict.js";
import { GEOMETRY, NO_FACT } from "../geometry/facts.js";

export type ColumnArray = Int8Array | Int16Array | Int32Array;
export type Width = 1 | 2 | 4;

interface PositionColumn {
  readonly name: string;
  readonly width: Width;
}

const of = (width: Width, ...names: string[]): PositionColumn[] => names.map((name) => ({ name, width }));

/**
 * Every column: `placement` its number; `san` the move played (see chess/san.ts); `clock` milliseconds left on the
 * mover's clock after it, `clock-before` before it, `spent` what it took; `kind`, `possible`, `holding` and `needed` sets of kinds of move (see geometry/move-kinds.ts);
 * `dtm` and `dtc` moves; `verdict` a score; `legal` and `keeping` counts; `error` half-points given away; `other-turn`
 * the score if it were the other side's turn, none in check; `fifty-keeping` and `fifty-error` as `keeping` and `error`, under
 * the fifty-move rule; then the facts of the geometry.
 */
export const POSITION_COLUMNS: readonly PositionColumn[] = [
  ...of(4, "placement", "san", "clock", "clock-before", "spent", "kind", "possible", "holding", "needed"),
  ...of(2, "dtm", "dtc"),
  ...of(
    1,
    "verdict",
    "attacker-to-move",
    "legal",
    "keeping",
    "error",
    "beyond-fifty",
    "other-turn",
    "fifty-keeping",
    "fifty-error",
  ),
  ...of(1, ...GEOMETRY.map((fact) => fact.name)),
];

/** Bytes of one position. */
export const POSITION_BYTES = POSITION_COLUMNS.reduce((sum, { width }) => sum + width, 0);

const COLUMN_OF = new Map(POSITION_COLUMNS.map(({ name }, n) => [name, n]));
/** Place of a column in `POSITION_COLUMNS`. Throws for a name that is none. */
export function positionColumn(name: string): number {
  const n = COLUMN_OF.get(name);
  if (n === undefined) throw new Error(`no column ${name}`);
  return n;
}
/** The first fact of the geometry; the others follow it in the order of `GEOMETRY`. */
export const FIRST_FACT = positionColumn(GEOMETRY[0].name);

const NONE: Readonly<Record<Width, number>> = { 1: -128, 2: -32768, 4: -2147483648 };
/** The number that means "no value" in a column of a width: the least of it. */
export const noneOf = (width: Width): number => NONE[width];

/** An array of a column's width over bytes that begin at `offset`, a multiple of the width. */
export function columnArray(
  width: Width,
  buffer: ArrayBufferLike,
  offset: number,
  count: number,
): ColumnArray {
  switch (width) {
    case 1:
      return new Int8Array(buffer, offset, count);
    case 2:
      return new Int16Array(buffer, offset, count);
    case 4:
      return new Int32Array(buffer, offset, count);
  }
}

/** A fact as the geometry gives it, as it is stored. */
export const storedFact = (value: number): number => (value === NO_FACT ? noneOf(1) : value);

/** One position of an ending. Values are null where a king could still castle (outside the tables). */
export interface PositionRecord {
  readonly placement: number;
  readonly attackerToMove: boolean;
  readonly verdict: Score | null;
  readonly dtm: Moves | null;
  readonly dtc: Moves | null;
  /** Legal moves, and those of them that keep the verdict. */
  readonly legal: number;
  readonly keeping: number | null;
  readonly san: string | null;
  /** Seconds left to the mover after the move and before it, and seconds it took. */
  readonly clock: number | null;
  readonly clockBefore: number | null;
  readonly spent: number | null;
  /** Half-points the move played gave away: 0, 1 or 2; null without a move. */
  readonly error: number | null;
  /** Won or lost on paper, but the conversion outlasts the fifty-move count. */
  readonly beyondFifty: boolean;
  /** `keeping` and `error` under the fifty-move rule. */
  readonly fiftyKeeping: number | null;
  readonly fiftyError: number | null;
}

/** Positions that follow each other, to be read: their columns are got when they are first asked for. */
export class PositionReader {
  private readonly known: (ColumnArray | undefined)[] = [];

  /** `columnOf` gives a column by its place in `POSITION_COLUMNS`. */
  constructor(
    readonly count: number,
    private readonly columnOf: (column: number) => ColumnArray,
  ) {}

  /** The values of a column. */
  column(column: number): ColumnArray {
    return (this.known[column] ??= this.columnOf(column));
  }

  /** A value; null where there is none. */
  get(column: number, n: number): number | null {
    const value = this.column(column)[n];
    return value === noneOf(POSITION_COLUMNS[column].width) ? null : value;
  }

  placement(n: number, pieces: number): Placement {
    return placementAt(this.column(PLACEMENT)[n], pieces);
  }

  /** Position `n` as an object, for readers of few positions. */
  record(n: number): PositionRecord {
    const san = this.get(SAN, n);
    const seconds = (column: number) => {
      const milliseconds = this.get(column, n);
      return milliseconds === null ? null : milliseconds / 1000;
    };
    return {
      placement: this.column(PLACEMENT)[n],
      attackerToMove: this.column(ATTACKER_TO_MOVE)[n] === 1,
      verdict: this.get(VERDICT, n) as Score | null,
      dtm: this.get(DTM, n) as Moves | null,
      dtc: this.get(DTC, n) as Moves | null,
      legal: this.column(LEGAL)[n],
      keeping: this.get(KEEPING, n),
      san: san === null ? null : sanText(san),
      clock: seconds(CLOCK),
      clockBefore: seconds(CLOCK_BEFORE),
      spent: seconds(SPENT),
      error: this.get(ERROR, n),
      beyondFifty: this.column(BEYOND_FIFTY)[n] === 1,
      fiftyKeeping: this.get(FIFTY_KEEPING, n),
      fiftyError: this.get(FIFTY_ERROR, n),
    };
  }

  /** The facts of position `n`, in the order of `GEOMETRY`. */
  facts(n: number): (number | null)[] {
    return GEOMETRY.map((_, m) => this.get(FIRST_FACT + m, n));
  }

  records(): PositionRecord[] {
    return Array.from({ length: this.count }, (_, n) => this.record(n));
  }
}

/** Positions with their columns in one buffer, to be filled, sent and stored. */
export class PositionColumns extends PositionReader {
  /** In the order of `POSITION_COLUMNS`. */
  private readonly columns: readonly ColumnArray[];
  /** The columns of the geometry's facts, one behind the other. */
  private readonly geometry: Int8Array;

  private constructor(
    readonly bytes: Uint8Array<ArrayBuffer>,
    count: number,
  ) {
    let offset = bytes.byteOffset;
    const columns = POSITION_COLUMNS.map(({ width }) => {
      const column = columnArray(width, bytes.buffer, offset, count);
      offset += width * count;
      return column;
    });
    super(count, (column) => columns[column]);
    this.columns = columns;
    this.geometry = new Int8Array(bytes.buffer, columns[FIRST_FACT].byteOffset, GEOMETRY.length * count);
  }

  /** Columns to be filled; every value is absent. */
  static empty(count: number): PositionColumns {
    const positions = new PositionColumns(new Uint8Array(count * POSITION_BYTES), count);
    POSITION_COLUMNS.forEach(({ width }, n) => positions.columns[n].fill(noneOf(width)));
    return positions;
  }

  /** The columns whose bytes these are, which begin where the widest values may. */
  static from(bytes: Uint8Array<ArrayBuffer>): PositionColumns {
    return new PositionColumns(bytes, bytes.length / POSITION_BYTES);
  }

  /** A copy of positions, all of their columns. */
  static copyOf(positions: PositionReader): PositionColumns {
    const copy = new PositionColumns(new Uint8Array(positions.count * POSITION_BYTES), positions.count);
    copy.columns.forEach((column, n) => column.set(positions.column(n)));
    return copy;
  }

  set(column: number, n: number, value: number | null): void {
    if (value !== null) this.columns[column][n] = value;
  }

  /** The facts of the geometry as the kernel gives them. */
  setFacts(n: number, facts: ArrayLike<number>): void {
    const { geometry, count } = this;
    // columns of all widths together would be slower to write to
    for (let m = 0, at = n; m < GEOMETRY.length; ++m, at += count) geometry[at] = storedFact(facts[m]);
  }
}

export const PLACEMENT = positionColumn("placement");
export const SAN = positionColumn("san");
export const CLOCK = positionColumn("clock");
export const CLOCK_BEFORE = positionColumn("clock-before");
export const SPENT = positionColumn("spent");
export const KIND = positionColumn("kind");
export const POSSIBLE = positionColumn("possible");
export const HOLDING = positionColumn("holding");
export const NEEDED = positionColumn("needed");
export const DTM = positionColumn("dtm");
export const DTC = positionColumn("dtc");
export const VERDICT = positionColumn("verdict");
export const ATTACKER_TO_MOVE = positionColumn("attacker-to-move");
export const LEGAL = positionColumn("legal");
export const KEEPING = positionColumn("keeping");
export const ERROR = positionColumn("error");
export const FIFTY_KEEPING = positionColumn("fifty-keeping");
export const FIFTY_ERROR = positionColumn("fifty-error");
export const BEYOND_FIFTY = positionColumn("beyond-fifty");
export const OTHER_TURN = positionColumn("other-turn");
export const KING_RANK = positionColumn("king-rank");
export const KING_FILE = positionColumn("king-file");
export const IN_CHECK = positionColumn("in-check");

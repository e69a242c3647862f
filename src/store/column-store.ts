// Every ending and position of a database, as arrays: what questions are answered from. A column is read when it is
// first asked for, and kept as long as the database does not change.

import {
  POSITION_COLUMNS,
  PositionColumns,
  noneOf,
  columnArray,
  positionColumn,
} from "../endings/position-columns.js";
import { chunksOf } from "./chunks.js";
import { type StoredBlob, wholeBlob } from "./checksums.js";
import type { Connection } from "./connection.js";
import { EXCLUSIONS, type Exclusion } from "./exclusions.js";

/** Values by position or by ending, and the number that stands for none of them. */
export interface Values {
  readonly values: Int32Array | Float64Array;
  readonly none: number;
}

export class ColumnStore {
  /** Numbers of the endings, rising. */
  readonly ids: Int32Array;
  /** Place of each ending's first position; one more than there are endings, the last being all positions. */
  readonly starts: Int32Array;
  readonly firstPlies: Int32Array;
  readonly firstHalfmoves: Int32Array;
  private readonly columns = new Map<string, Values>();
  private readonly endingFlags = new Map<string, Uint8Array>();
  private endingPlaces: Int32Array | undefined;
  /** Arrays that others have worked out of these, by a name of theirs. */
  readonly derived = new Map<string, unknown>();

  constructor(private readonly db: Connection) {
    const rows = db
      .prepare("SELECT id, positions, first_ply, first_halfmoves FROM endings ORDER BY id")
      .raw()
      .all() as [number, number, number, number][];
    this.ids = Int32Array.from(rows, ([id]) => id);
    this.firstPlies = Int32Array.from(rows, (row) => row[2]);
    this.firstHalfmoves = Int32Array.from(rows, (row) => row[3]);
    this.starts = new Int32Array(rows.length + 1);
    rows.forEach(([, positions], n) => (this.starts[n + 1] = this.starts[n] + positions));
  }

  get endings(): number {
    return this.ids.length;
  }
  get positions(): number {
    return this.starts[this.endings];
  }

  /** Place of the ending with a number, or of the first with a greater one. */
  placeOf(id: number): number {
    let low = 0;
    let high = this.endings;
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.ids[middle] < id) low = middle + 1;
      else high = middle;
    }
    return low;
  }

  /** Place of the ending of each position; worked out once, not to be changed. */
  endingOf(): Int32Array {
    if (this.endingPlaces) return this.endingPlaces;
    const of = new Int32Array(this.positions);
    for (let n = 0; n < this.endings; ++n) of.fill(n, this.starts[n], this.starts[n + 1]);
    return (this.endingPlaces = of);
  }

  /** A column of `POSITION_COLUMNS` over all positions. */
  column(name: string): Values {
    let column = this.columns.get(name);
    if (!column) this.columns.set(name, (column = this.read(name)));
    return column;
  }

  private read(name: string): Values {
    const n = positionColumn(name);
    const { width } = POSITION_COLUMNS[n];
    // one type of array whatever the width: loops over it are compiled once, and stay fast
    const values = new Int32Array(this.positions);
    const chunk = this.db.prepare("SELECT data, checksum FROM columns WHERE chunk_id = ? AND name = ?");
    let next = 0;
    for (const { id, first_ending, last_ending, positions } of chunksOf(this.db)) {
      next = this.readOutside(values, n, next, this.placeOf(first_ending));
      const bytes = wholeBlob(chunk.get(id, name) as StoredBlob, this.db, `a chunk of the column ${name}`);
      values.set(columnArray(width, bytes.buffer, 0, positions), this.starts[next]);
      next = this.placeOf(last_ending + 1);
    }
    this.readOutside(values, n, next, this.endings);
    return { values, none: noneOf(width) };
  }

  /** Reads the endings from place `from` up to and without `to`, which no chunk holds. */
  private readOutside(values: Int32Array, column: number, from: number, to: number): number {
    const read = this.db.prepare("SELECT data, checksum FROM plies WHERE ending_id = ?");
    for (let n = from; n < to; ++n) {
      const blob = wholeBlob(read.get(this.ids[n]) as StoredBlob, this.db, `ending ${this.ids[n]}`);
      values.set(PositionColumns.from(blob).columns[column], this.starts[n]);
    }
    return to;
  }

  /** Whether each ending is of a sort that numbers may leave out: 0 or 1. */
  endingFlag(name: Exclusion): Uint8Array {
    let flags = this.endingFlags.get(name);
    if (!flags) {
      const { sql } = EXCLUSIONS.find((one) => one.name === name)!;
      const rows = this.db.prepare(
        `SELECT ${sql} FROM endings e JOIN games g ON g.id = e.game_id ORDER BY e.id`,
      );
      flags = Uint8Array.from(rows.pluck().all() as number[]);
      this.endingFlags.set(name, flags);
    }
    return flags;
  }
}

const stores = new WeakMap<Connection, { readonly version: string; readonly columns: ColumnStore }>();

/** The columns of a database as it is now. */
export function columnStoreOf(db: Connection): ColumnStore {
  // changes by others, and by this connection itself
  const version = `${String(db.setting("data_version"))} ${String(db.prepare("SELECT total_changes()").pluck().get())}`;
  let known = stores.get(db);
  if (known?.version !== version) stores.set(db, (known = { version, columns: new ColumnStore(db) }));
  return known!.columns;
}

// Every ending and position of a database, as arrays: what questions are answered from, all at once or slice by slice. A
// column is read when it is first asked for.

import type { Material } from "../chess/material.js";
import {
  POSITION_COLUMNS,
  PositionReader,
  type Width,
  noneOf,
  positionColumn,
} from "../endings/position-columns.js";
import type { Connection } from "./connection.js";
import { EXCLUSIONS, type Exclusion } from "./exclusions.js";
import { Layout, type Slice } from "./layout.js";
import { type Bounds, type ColumnValues, roomForColumn } from "./packing.js";
import { lowerBound, marked } from "./rising.js";

/** Things worked out of all endings that are kept. */
const REMEMBERED = 64;

/** Values by position or by ending, and the number that stands for none of them. */
export interface Values {
  readonly values: ColumnValues | Float64Array;
  readonly none: number;
}

/** The endings between two places and their positions; both are counted from the first of them. */
export class ColumnStore {
  /** Numbers of the endings, rising. */
  readonly ids: Int32Array;
  /** Place of each ending's first position; one more than there are endings, the last being all positions. */
  readonly starts: Int32Array;
  readonly firstPlies: Int32Array;
  readonly firstHalfmoves: Int32Array;
  /** Arrays that others have worked out of these, by a name of theirs. */
  readonly derived = new Map<string, unknown>();
  private readonly columns = new Map<string, Values>();
  private readonly otherEdge = new Map<number, ColumnValues>();
  private rowsOfTwoEdges: Int32Array | undefined;
  private endingPlaces: Int32Array | undefined;

  /** `from` and `to` are the places of its first ending and of the one behind its last, among all endings. */
  constructor(
    private readonly layout: Layout,
    readonly from: number,
    readonly to: number,
  ) {
    const { ids, starts, firstPlies, firstHalfmoves } = layout;
    this.ids = ids.subarray(from, to);
    this.firstPlies = firstPlies.subarray(from, to);
    this.firstHalfmoves = firstHalfmoves.subarray(from, to);
    this.starts = from === 0 ? starts.subarray(0, to + 1) : starts.slice(from, to + 1);
    if (from > 0) {
      const first = starts[from];
      for (let n = 0; n < this.starts.length; ++n) this.starts[n] -= first;
    }
  }

  /** The material whose endings these are. */
  get target(): Material {
    return this.layout.target;
  }
  get endings(): number {
    return this.ids.length;
  }
  get positions(): number {
    return this.starts[this.endings];
  }

  /**
   * The same endings in parts of a size that fits into a processor's cache, in their order. Each is made when it is
   * come to: with it goes what was read and worked out of the one before.
   */
  *slices(): Generator<ColumnStore> {
    for (let n = 0; n < this.sliceCount; ++n) yield this.slice(n);
  }
  get sliceCount(): number {
    return this.layout.slicesBetween(this.from, this.to).length;
  }
  slice(n: number): ColumnStore {
    const { from, to } = this.layout.slicesBetween(this.from, this.to)[n];
    return new ColumnStore(this.layout, Math.max(from, this.from), Math.min(to, this.to));
  }

  /** Says which endings there are and where they lie: equal for two connections that see the same. */
  get state(): string {
    return this.layout.state;
  }

  /** The slice that holds the ending at a place. */
  sliceOf(place: number): ColumnStore {
    const at = this.from + place;
    const [{ from, to }] = this.layout.slicesBetween(at, at + 1);
    return new ColumnStore(this.layout, from, to);
  }

  /** The ending at a place, and nothing else. */
  only(place: number): ColumnStore {
    return new ColumnStore(this.layout, this.from + place, this.from + place + 1);
  }

  /** Place of the ending with a number; undefined if there is none. */
  placeOf(id: number): number | undefined {
    const place = lowerBound(this.ids, id);
    return this.ids[place] === id ? place : undefined;
  }

  /** The positions of the ending at a place; a column is read when it is asked for. */
  positionsAt(place: number): PositionReader {
    const { layout } = this;
    const at = this.from + place;
    const [slice] = layout.slicesBetween(at, at + 1);
    const first = layout.starts[slice.from];
    const [from, to] = [layout.starts[at] - first, layout.starts[at + 1] - first];
    return new PositionReader(to - from, (column) => layout.column(slice, column).subarray(from, to));
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
    return {
      values: this.joined(POSITION_COLUMNS[n].width, (slice) => this.layout.column(slice, n)),
      none: noneOf(POSITION_COLUMNS[n].width),
    };
  }

  /** Values of all positions, from those of the slices that they lie in. */
  private joined(width: Width, of: (slice: Slice) => ColumnValues): ColumnValues {
    const { layout } = this;
    const [only, ...others] = layout.slicesBetween(this.from, this.to);
    if (only?.from === this.from && only.to === this.to) return of(only);
    const values = roomForColumn(width, this.positions);
    for (const slice of only ? [only, ...others] : []) {
      const start = layout.starts[slice.from];
      const [from, to] = [Math.max(slice.from, this.from), Math.min(slice.to, this.to)];
      values.set(
        of(slice).subarray(layout.starts[from] - start, layout.starts[to] - start),
        layout.starts[from] - layout.starts[this.from],
      );
    }
    return values;
  }

  /** The slices that this lies in, and which of their positions with two edges belong to it. */
  private overlapping(): { readonly slice: Slice; readonly from: number; readonly to: number }[] {
    const { layout } = this;
    return layout.slicesBetween(this.from, this.to).map((slice) => {
      const rows = layout.twoEdges(slice);
      const start = layout.starts[slice.from];
      const within = (place: number) => lowerBound(rows, layout.starts[place] - start);
      return {
        slice,
        from: within(Math.max(slice.from, this.from)),
        to: within(Math.min(slice.to, this.to)),
      };
    });
  }

  /** Places of the positions in which the defender's king is as near to two edges; not to be changed. */
  twoEdges(): Int32Array {
    if (this.rowsOfTwoEdges) return this.rowsOfTwoEdges;
    const { layout } = this;
    const origin = layout.starts[this.from];
    const parts = this.overlapping().map(({ slice, from, to }) => {
      const shift = layout.starts[slice.from] - origin;
      return layout
        .twoEdges(slice)
        .subarray(from, to)
        .map((at) => at + shift);
    });
    return (this.rowsOfTwoEdges = concatenated(parts, (length) => new Int32Array(length)));
  }

  /**
   * A fact of the geometry, by its place in `GEOMETRY`, in the positions of `twoEdges`: seen from the other edge. Like all
   * columns of one byte it has its own number for no value.
   */
  fromOtherEdge(fact: number): ColumnValues {
    let values = this.otherEdge.get(fact);
    if (!values) {
      const parts = this.overlapping().map(({ slice, from, to }) =>
        this.layout.fromOtherEdge(slice, fact).subarray(from, to),
      );
      this.otherEdge.set(fact, (values = concatenated(parts, (length) => new Int8Array(length))));
    }
    return values;
  }

  /** What a column holds at least and at most, where that is known without reading it. */
  boundsOf(name: string): Bounds | undefined {
    const [slice, ...others] = this.layout.slicesBetween(this.from, this.to);
    return slice && others.length === 0 ? this.layout.boundsOf(slice, name) : undefined;
  }

  /** What others have worked out of all endings of the database, by a name of theirs; `make` works it out, for all. */
  ofAllEndings<T>(name: string, make: (ids: Int32Array) => T): T {
    const { derived, ids } = this.layout;
    const known = derived.has(name) ? (derived.get(name) as T) : make(ids);
    // the one that was asked for last stands at the end
    derived.delete(name);
    derived.set(name, known);
    if (derived.size > REMEMBERED) derived.delete(derived.keys().next().value!);
    return known;
  }

  /** Whether something has been worked out of all endings, and is still remembered. */
  isKnown(name: string): boolean {
    return this.layout.derived.has(name);
  }

  /** Whether each ending is of a sort that numbers may leave out: 0 or 1. */
  endingFlag(name: Exclusion): Uint8Array {
    const flags = this.ofAllEndings(`flag ${name}`, (ids) => {
      const { sql } = EXCLUSIONS.find((one) => one.name === name)!;
      const found = this.layout.db
        .prepare(`SELECT e.id FROM endings e JOIN games g ON g.id = e.game_id WHERE ${sql} ORDER BY e.id`)
        .pluck()
        .all() as number[];
      return marked(ids, found);
    });
    return flags.subarray(this.from, this.to);
  }
}

/** Values one behind the other; `into` gives room for all. */
function concatenated<V extends ColumnValues>(parts: readonly V[], into: (length: number) => V): V {
  if (parts.length === 1) return parts[0];
  const all = into(parts.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const part of parts) {
    all.set(part, at);
    at += part.length;
  }
  return all;
}

interface Known {
  readonly version: string;
  readonly store: ColumnStore;
}
const stores = new WeakMap<Connection, Known>();

/** The columns of a database as it is now. */
export function columnStoreOf(db: Connection): ColumnStore {
  // changes by others, and by this connection itself
  const version = `${String(db.setting("data_version"))} ${String(db.prepare("SELECT total_changes()").pluck().get())}`;
  let known = stores.get(db);
  if (known?.version !== version) {
    // one look at a database that others may be writing to
    const layout = db.transaction(() => new Layout(db))();
    stores.set(db, (known = { version, store: new ColumnStore(layout, 0, layout.ids.length) }));
  }
  return known!.store;
}

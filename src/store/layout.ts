// Where everything lies in one state of a database: which endings there are, in which chunk each is, and the columns of
// chunks that have been read, as many of them as fit into some megabytes.

import {
  FIRST_FACT,
  KING_FILE,
  KING_RANK,
  PLACEMENT,
  POSITION_COLUMNS,
  storedFact,
} from "../endings/position-columns.js";
import type { Material } from "../chess/material.js";
import { placementAt } from "../chess/placement.js";
import { LongsideError } from "../errors.js";
import { Geometer } from "../geometry/facts.js";
import { CHUNK } from "./chunk-writing.js";
import {
  AS_FROM_THE_FIRST,
  type Chunk,
  type LooseEnding,
  boundsByChunk,
  chunksOf,
  looseEndings,
  positionsOf,
  readColumn,
  readFromOtherEdge,
  twoEdgesIn,
} from "./chunks.js";
import { blobChecksum } from "./checksums.js";
import type { Connection } from "./connection.js";
import { targetOf } from "./database.js";
import { lowerBound } from "./rising.js";
import { type Bounds, type ColumnValues, roomForColumn } from "./packing.js";

/** Bytes of columns that are kept for slices, by all threads that share them. */
const KEPT = 96 << 20;

/** Endings that follow each other, by their places, and the chunk that holds them all; none where they are loose. */
export interface Slice {
  readonly from: number;
  readonly to: number;
  readonly chunk: Chunk | undefined;
}

const bytesOf = ({ buffer, byteOffset, byteLength }: Int32Array) =>
  new Uint8Array(buffer, byteOffset, byteLength);

/** Where everything lies in one state of a database. */
export class Layout {
  /** See `ColumnStore`, over all endings. */
  readonly ids: Int32Array;
  readonly starts: Int32Array;
  readonly firstPlies: Int32Array;
  readonly firstHalfmoves: Int32Array;
  readonly slices: readonly Slice[];
  /** Places behind the last ending of each slice. */
  private readonly ends: Int32Array;
  /** The material whose endings these are. */
  readonly target: Material;
  /** Arrays over all endings that others have worked out, by a name of theirs. */
  readonly derived = new Map<string, unknown>();
  private readonly bounds = new Map<string, Map<number, Bounds>>();
  /** Columns of slices, the one that was asked for last at the end. */
  private readonly kept = new Map<string, ColumnValues>();
  private keptBytes = 0;
  private knownState: string | undefined;

  constructor(readonly db: Connection) {
    this.target = targetOf(db);
    const slices: Slice[] = [];
    const parts: Pick<Chunk, "ids" | "counts" | "firstPlies" | "firstHalfmoves">[] = [];
    let endings = 0;
    const add = (part: (typeof parts)[number], chunk: Chunk | undefined) => {
      parts.push(part);
      slices.push({ from: endings, to: (endings += part.ids.length), chunk });
    };
    const loose = looseEndings(db);
    let next = 0;
    const addLoose = (before: number) => {
      let some: LooseEnding[] = [];
      let positions = 0;
      const flush = () => {
        const of = (value: (one: LooseEnding) => number) => Int32Array.from(some, value);
        if (some.length > 0)
          add(
            {
              ids: of(({ id }) => id),
              counts: of((one) => one.positions),
              firstPlies: of(({ firstPly }) => firstPly),
              firstHalfmoves: of(({ firstHalfmoves }) => firstHalfmoves),
            },
            undefined,
          );
        some = [];
        positions = 0;
      };
      for (; next < loose.length && loose[next].id < before; ++next) {
        some.push(loose[next]);
        positions += loose[next].positions;
        if (positions >= CHUNK) flush();
      }
      flush();
    };
    for (const chunk of chunksOf(db)) {
      addLoose(chunk.firstEnding);
      add(chunk, chunk);
    }
    addLoose(Infinity);
    const joined = (of: (part: (typeof parts)[number]) => Int32Array) => {
      const all = new Int32Array(endings);
      parts.forEach((part, n) => all.set(of(part), slices[n].from));
      return all;
    };
    this.ids = joined(({ ids }) => ids);
    this.firstPlies = joined(({ firstPlies }) => firstPlies);
    this.firstHalfmoves = joined(({ firstHalfmoves }) => firstHalfmoves);
    const counts = joined((part) => part.counts);
    this.starts = new Int32Array(endings + 1);
    for (let n = 0; n < endings; ++n) this.starts[n + 1] = this.starts[n] + counts[n];
    this.slices = slices;
    this.ends = Int32Array.from(slices, ({ to }) => to);
    // what is lost is told, not left out of answers
    if (db.prepare("SELECT count(*) FROM endings").pluck().get() !== endings)
      throw new LongsideError("database-damaged", { path: db.name, what: "the list of positions" });
  }

  /** Says which endings there are and where they lie: equal for two connections that see the same. */
  get state(): string {
    const places = () => this.slices.map(({ chunk }) => chunk?.id ?? "loose").join(" ");
    return (this.knownState ??= `${blobChecksum(bytesOf(this.ids))} ${blobChecksum(bytesOf(this.starts))} ${places()}`);
  }

  /** The slices in which endings from one place up to and without another lie. */
  slicesBetween(from: number, to: number): readonly Slice[] {
    const first = lowerBound(this.ends, from + 1);
    return from < to ? this.slices.slice(first, lowerBound(this.ends, to) + 1) : [];
  }

  /** What is worked out of a slice, by a name; kept while there is room. */
  private keep<V extends ColumnValues>(slice: Slice, name: string | number, make: () => V): V {
    const key = `${slice.from} ${name}`;
    let values = this.kept.get(key) as V | undefined;
    if (values) this.kept.delete(key);
    else this.keptBytes += (values = make()).byteLength;
    this.kept.set(key, values);
    for (const [oldest, { byteLength }] of this.kept) {
      if (this.keptBytes <= KEPT / this.db.sharedBy) break;
      this.kept.delete(oldest);
      this.keptBytes -= byteLength;
    }
    return values;
  }

  /** A column of a slice, by its place in `POSITION_COLUMNS`; not to be changed. */
  column(slice: Slice, column: number): ColumnValues {
    return this.keep(
      slice,
      column,
      () => (slice.chunk && readColumn(this.db, slice.chunk, column)) ?? this.gathered(slice, column),
    );
  }

  /** Places of a slice's positions with two equally near edges; not to be changed. */
  twoEdges(slice: Slice): Int32Array {
    return this.keep(slice, "two edges", () =>
      twoEdgesIn(this.column(slice, KING_RANK), this.column(slice, KING_FILE)),
    );
  }

  /** A fact from the other edge, in those places; not to be changed. */
  fromOtherEdge(slice: Slice, fact: number): ColumnValues {
    return this.keep(slice, `other ${fact}`, () => {
      const rows = this.twoEdges(slice);
      const stored = slice.chunk && readFromOtherEdge(this.db, slice.chunk, fact, rows.length);
      if (stored === AS_FROM_THE_FIRST) {
        const own = this.column(slice, FIRST_FACT + fact);
        return Int8Array.from(rows, (at) => own[at]);
      }
      if (stored) return stored;
      const numbers = this.column(slice, PLACEMENT);
      const { target } = this;
      const geometer = new Geometer(target);
      return Int8Array.from(rows, (at) =>
        storedFact(geometer.factFromOtherEdge(fact, placementAt(numbers[at], target.men))),
      );
    });
  }

  /** A column of endings that are loose, or that a run has moved. */
  private gathered({ from, to }: Slice, column: number): ColumnValues {
    const { ids, starts } = this;
    const values = roomForColumn(POSITION_COLUMNS[column].width, starts[to] - starts[from]);
    for (let n = from; n < to; ++n)
      values.set(positionsOf(this.db, ids[n]).column(column), starts[n] - starts[from]);
    return values;
  }

  /** What a column of a slice holds at least and at most; undefined where that is not known. */
  boundsOf({ chunk }: Slice, name: string): Bounds | undefined {
    if (!chunk) return undefined;
    let bounds = this.bounds.get(name);
    if (!bounds) this.bounds.set(name, (bounds = boundsByChunk(this.db, name)));
    return bounds.get(chunk.id);
  }
}

import fc from "fast-check";
import { parquetReadObjects } from "hyparquet";
import { readParquet } from "parquet-wasm/node";
import { expect, it } from "vitest";

import { ParquetParts } from "../../src/documents/parquet.js";
import { type CodedColumn, type DataColumn, cellOf } from "../../src/statistics/data-columns.js";
import { ZSTD } from "../parquet-readers.js";

const NONE = -(2 ** 31);
const WORDS = ["", "Szén", "rook", "a text that is longer than what statistics keep of it", "zero\0"];

/** Runs of values, so that every way to pack them is met. */
const runs = (value: fc.Arbitrary<number>) =>
  fc
    .array(fc.tuple(value, fc.oneof(fc.integer({ min: 1, max: 5 }), fc.integer({ min: 7, max: 40 }))), {
      minLength: 40,
      maxLength: 40,
    })
    .map((some) => some.flatMap(([one, times]) => new Array<number>(times).fill(one)).slice(0, 40));

const orNone = (value: fc.Arbitrary<number>, none: number) =>
  fc.oneof({ weight: 3, arbitrary: value }, { weight: 1, arbitrary: fc.constant(none) });

const whole = (name: string, value: fc.Arbitrary<number>) =>
  runs(orNone(value, NONE)).map((values): CodedColumn => ({
    name,
    type: "INT32",
    values: Int32Array.from(values),
    none: NONE,
  }));

const place = fc.integer({ min: 0, max: WORDS.length - 1 });
const columns: fc.Arbitrary<DataColumn[]> = fc.tuple(
  whole("few", fc.integer({ min: -3, max: 300 })),
  whole("any", fc.integer({ min: NONE + 1, max: 2 ** 31 - 1 })),
  whole("nothing", fc.constant(NONE)),
  runs(orNone(fc.integer({ min: -127, max: 127 }), -128)).map((values) => ({
    name: "bytes",
    type: "INT32" as const,
    values: Int8Array.from(values),
    none: -128,
  })),
  runs(orNone(fc.oneof(fc.double({ noNaN: true }), fc.constant(-0)), NaN)).map((values) => ({
    name: "parts",
    type: "DOUBLE" as const,
    values: Float64Array.from(values),
    none: NaN,
  })),
  runs(orNone(fc.integer({ min: 0, max: 1 }), -1)).map((values) => ({
    name: "truths",
    type: "BOOLEAN" as const,
    values: Int32Array.from(values),
    none: -1,
  })),
  runs(orNone(place, -1)).map((values) => ({
    name: "words",
    type: "STRING" as const,
    values: Int32Array.from(values),
    none: -1,
    wordOf: (n: number) => WORDS[n],
  })),
  fc.array(orNone(place, -1), { minLength: 7, maxLength: 7 }).chain((values) =>
    runs(fc.integer({ min: 0, max: 6 })).map((of) => ({
      name: "shared",
      type: "STRING" as const,
      values: Int32Array.from(values),
      of: Int32Array.from(of),
      none: -1,
      wordOf: (n: number) => WORDS[n],
    })),
  ),
  fc.array(fc.string(), { minLength: 40, maxLength: 40 }).map((texts) => ({
    name: "texts",
    type: "STRING" as const,
    bytes: Buffer.from(texts.join("")),
    ends: Int32Array.from(texts, (_, n) => Buffer.byteLength(texts.slice(0, n + 1).join(""))),
  })),
);

/** A cell as it is read back: a zero has no sign. */
const unsigned = <T>(cell: T) => (cell === 0 ? 0 : cell);

it("any columns are read back as they were, group by group", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(columns, { minLength: 1, maxLength: 3 }), async (groups) => {
      const parts = new ParquetParts(groups[0], { about: "a test" });
      const bytes = Buffer.concat([...groups.map((group) => parts.rowGroup(group, 40)), parts.end()]);
      const wanted = groups.flatMap((group) =>
        Array.from({ length: 40 }, (_, row) =>
          Object.fromEntries(group.map((column) => [column.name, unsigned(cellOf(column)(row))])),
        ),
      );
      const file = new Uint8Array(bytes).buffer;
      expect(await parquetReadObjects({ file, compressors: ZSTD })).toEqual(wanted);
      // another reader only looks whether it can
      expect(readParquet(new Uint8Array(bytes)).recordBatches()[0].numColumns).toBe(groups[0].length);
    }),
    { numRuns: 40 },
  );
});

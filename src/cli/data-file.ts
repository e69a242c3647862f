// Positions as a table for programs of statistics: Parquet or CSV, with a codebook beside it.

import { ByteWriter, ParquetWriter, schemaFromColumnData } from "hyparquet-writer";

import type { Manifest } from "../statistics/manifest.js";
import { csvText } from "../documents/csv.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { type DataColumn, codebook, positionColumns } from "../statistics/position-export.js";
import type { Connection } from "../store/connection.js";

/** Positions in a row group of a Parquet file, and written at a time. */
const ROW_GROUP = 1 << 16;

/** A file's bytes and how many positions they hold. */
export interface DataFile {
  readonly bytes: Uint8Array;
  readonly rows: number;
}

/** The columns' meanings as CSV. */
export const codebookCsv = (raw?: boolean): string => csvText(codebook(), { raw });

/** The positions that answer a question, as Parquet with manifest and codebook in its metadata, row group by row group. */
export function positionsParquet(
  db: Connection,
  question: Question,
  setUps: readonly NamedSetUp[],
  manifest: Manifest,
): DataFile {
  const writer = new ByteWriter();
  const kvMetadata = [
    { key: "manifest", value: JSON.stringify(manifest) },
    { key: "codebook", value: JSON.stringify(codebook()) },
  ];
  let parquet: ParquetWriter | undefined;
  let rows = 0;
  for (const columns of positionColumns(db, question, setUps, ROW_GROUP)) {
    const columnData = columns.map((column) => ({ ...column, nullable: true }));
    parquet ??= new ParquetWriter({ writer, schema: schemaFromColumnData({ columnData }), kvMetadata });
    void parquet.write({ columnData, rowGroupSize: ROW_GROUP });
    rows += columns[0].data.length;
  }
  void parquet!.finish();
  return { bytes: writer.getBytes(), rows };
}

/** The same as CSV; texts that a spreadsheet would run are left as they are with `raw`. */
export function positionsCsv(
  db: Connection,
  question: Question,
  setUps: readonly NamedSetUp[],
  raw?: boolean,
): DataFile {
  const parts: Buffer[] = [];
  let rows = 0;
  for (const columns of positionColumns(db, question, setUps, ROW_GROUP)) {
    const count = columns[0].data.length;
    const cells = Array.from({ length: count }, (_, n) => rowOf(columns, n));
    parts.push(Buffer.from(csvText(cells, { header: rows === 0, raw })));
    rows += count;
  }
  return { bytes: Buffer.concat(parts), rows };
}

const rowOf = (columns: readonly DataColumn[], n: number) =>
  Object.fromEntries(columns.map(({ name, data }) => [name, data[n]]));

// Positions as a Parquet file, for other programs of statistics.

import { ByteWriter, ParquetWriter, schemaFromColumnData } from "hyparquet-writer";

import type { Question } from "../query/language/ast.js";
import { positionColumns } from "../statistics/position-export.js";
import type { Connection } from "../store/connection.js";

/** Positions in a row group of a Parquet file. */
const ROW_GROUP = 20_000;

/** The positions that answer a question, as Parquet, row group by row group. */
export function positionsParquet(db: Connection, question: Question): { bytes: Uint8Array; rows: number } {
  const writer = new ByteWriter();
  let parquet: ParquetWriter | undefined;
  let rows = 0;
  for (const columns of positionColumns(db, question, ROW_GROUP)) {
    const columnData = columns.map((column) => ({ ...column, nullable: true }));
    parquet ??= new ParquetWriter({ writer, schema: schemaFromColumnData({ columnData }) });
    void parquet.write({ columnData, rowGroupSize: ROW_GROUP });
    rows += columns[0].data.length;
  }
  void parquet!.finish();
  return { bytes: writer.getBytes(), rows };
}

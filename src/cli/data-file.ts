// Positions as a table for programs of statistics: Parquet or CSV, with a codebook beside it.

import { csvText } from "../documents/csv.js";
import { ParquetParts } from "../documents/parquet.js";
import type { Question } from "../query/language/ast.js";
import type { NamedSetUp } from "../query/language/catalogue.js";
import { cellOf } from "../statistics/data-columns.js";
import type { Manifest } from "../statistics/manifest.js";
import { codebook, positionColumns } from "../statistics/position-export.js";
import type { Connection } from "../store/connection.js";
import type { FilePart } from "./written-in-parts.js";

/** Positions in a row group of a Parquet file, and written at a time. */
const ROW_GROUP = 1 << 16;

/** The folder of positions whose year is not known: what programs that read such folders take for none. */
const NO_YEAR = "__HIVE_DEFAULT_PARTITION__";

/** What is to be written. */
export interface DataAsked {
  readonly question: Question;
  readonly setUps: readonly NamedSetUp[];
}

/** The columns' meanings as CSV. */
export const codebookCsv = (raw?: boolean): string => csvText(codebook(), { raw });

/**
 * The positions that answer a question, as Parquet with manifest and codebook in its metadata, row group by row group: one
 * file, or one for each year, in a folder of its name that stands for the column.
 */
export function* positionsParquet(
  db: Connection,
  asked: DataAsked,
  manifest: Manifest,
  byYear: boolean,
): Generator<FilePart> {
  const columns = codebook().filter(({ name }) => !byYear || name !== "year");
  const texts = { manifest: JSON.stringify(manifest), codebook: JSON.stringify(codebook()) };
  const files = new Map<string, ParquetParts>();
  for (const { year, rows, columns: data } of positionColumns(db, { ...asked, rows: ROW_GROUP, byYear })) {
    const file = byYear ? `year=${year ?? NO_YEAR}/positions.parquet` : "";
    let parts = files.get(file);
    if (!parts) files.set(file, (parts = new ParquetParts(columns, texts)));
    yield { file, bytes: parts.rowGroup(data, rows), rows };
  }
  for (const [file, parts] of files) yield { file, bytes: parts.end(), rows: 0 };
}

/** The same as CSV; texts that a spreadsheet would run are left as they are with `raw`. */
export function* positionsCsv(db: Connection, asked: DataAsked, raw?: boolean): Generator<FilePart> {
  let header = true;
  for (const { rows, columns } of positionColumns(db, { ...asked, rows: ROW_GROUP, byYear: false })) {
    const cells = [...columns].map((column) => [column.name, cellOf(column)] as const);
    const lines = Array.from({ length: rows }, (_, row) =>
      Object.fromEntries(cells.map(([name, cell]) => [name, cell(row)])),
    );
    yield { file: "", bytes: Buffer.from(csvText(lines, { header, raw })), rows };
    header = false;
  }
}

// Readers of Parquet that tests look at files with.

import { DuckDBInstance } from "@duckdb/node-api";
import type { Compressors } from "hyparquet";
import { decompress } from "zstd-napi";

/** What hyparquet unpacks zstd with. */
export const ZSTD: Compressors = { ZSTD: (input) => decompress(input) };

/** The rows of a question in SQL, by an engine of its own; numbers of 64 bits as texts. */
export async function askDuckDb(sql: string): Promise<unknown[]> {
  const instance = await DuckDBInstance.create(":memory:");
  const connection = await instance.connect();
  try {
    return (await connection.runAndReadAll(sql)).getRowObjectsJson();
  } finally {
    connection.closeSync();
    instance.closeSync();
  }
}

// Values known from elsewhere, by which tables are checked: tables among the fixtures, each row with its source.

import { readFileSync } from "node:fs";
import { join } from "node:path";

import { parse as parseCsv } from "csv-parse/sync";

import { PACKAGE } from "../places.js";

/** The rows of a table of known values among the fixtures, by the names of its columns. */
export const knownValues = (name: string) =>
  parseCsv(readFileSync(join(PACKAGE, "fixtures", name), "utf8"), { columns: true }) as Record<
    string,
    string
  >[];

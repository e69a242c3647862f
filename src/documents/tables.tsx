// Tables of results: one description, shown on a page and written as CSV and JSON Lines.

import { safeJson } from "../plain-text.js";
import { limitsText, percentText } from "../statistics/percent.js";
import { csvText } from "./csv.js";

export type Cell = string | number | boolean | null;

/** `share` shows a proportion with its interval: the row's `share`, `low` and `high`. */
export interface TableColumn {
  readonly name: string;
  readonly head: string;
  readonly kind: "text" | "count" | "decimal" | "factor" | "percent" | "share";
}

export interface Table {
  /** File name of its CSV, and name in JSON. */
  readonly id: string;
  readonly caption: string;
  readonly columns: readonly TableColumn[];
  readonly rows: readonly Readonly<Record<string, Cell>>[];
  readonly note?: string;
  /** Rows that a page shows at most; files have all. */
  readonly most?: number;
}

/** "62.5 % (48.4–74.8)"; a dash where there is nothing to take a share of. */
export function shareText(row: Readonly<Record<string, Cell>>): string {
  const { share, low, high } = row as Record<string, number | null>;
  if (share === null || low === null || high === null) return "–";
  return `${percentText(share)} (${limitsText({ low, high })})`;
}

function cellText({ name, kind }: TableColumn, row: Table["rows"][number]): string {
  if (kind === "share") return shareText(row);
  const value = row[name];
  if (value === null) return "–";
  if (typeof value === "number" && kind === "percent") return percentText(value);
  if (typeof value === "number" && kind !== "text")
    return kind === "decimal"
      ? value.toFixed(1)
      : kind === "factor"
        ? value.toPrecision(3)
        : value.toLocaleString("en", { maximumFractionDigits: 2 });
  return String(value);
}

export const TableView = ({ id, caption, columns, rows, note, most = Infinity }: Table) => (
  <div class="wide" tabIndex={0} role="region" aria-label={caption}>
    <table>
      <caption>{caption}</caption>
      <thead>
        <tr>
          {columns.map((column) => (
            <th scope="col" class={column.kind === "text" ? undefined : "number"}>
              {column.head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {rows.slice(0, most).map((row) => (
          <tr>
            {columns.map((column, n) => {
              const text = `${cellText(column, row)}${column.kind === "share" && row.small ? " *" : ""}`;
              if (n === 0) return <th scope="row">{text}</th>;
              return <td class={column.kind === "text" ? undefined : "number"}>{text}</td>;
            })}
          </tr>
        ))}
      </tbody>
    </table>
    {rows.length > most && (
      <p class="note">
        {rows.length - most} more rows stand in {id}.csv, written with --tables.
      </p>
    )}
    {note && <p class="note">{note}</p>}
  </div>
);

/** Every value of every row, a column each; of an empty table its head. */
export const tableCsv = ({ rows, columns }: Table, raw = false): string =>
  rows.length > 0 ? csvText(rows, { raw }) : `${columns.map(({ name }) => name).join(",")}\n`;

export const tableJsonLines = ({ id, rows }: Table): string =>
  rows.map((row) => `${safeJson({ table: id, ...row })}\n`).join("");

// What a report is made of: sections of paragraphs, tables and charts; the columns that many tables share.

import type { Exclusion } from "../../store/exclusions.js";
import type { Question } from "../../query/language/ast.js";
import type { NamedSetUp } from "../../query/language/catalogue.js";
import type { Split } from "../../query/engine/splits.js";
import { SMALL } from "../../statistics/estimators.js";
import type { Theory } from "../../survey/theory.js";
import type { Table } from "../tables.js";

export interface ReportAsked {
  readonly question: Question;
  readonly leaveOut: readonly Exclusion[];
  /** Outcomes are split by each of these, facts of endings. */
  readonly by: readonly Split[];
  readonly setUps: readonly NamedSetUp[];
  /** Where survival starts; the entry where it is left out. */
  readonly from?: NamedSetUp;
  /** One for each set-up. */
  readonly theory: readonly Theory[];
}

export interface Chart {
  /** File name of its SVG. */
  readonly id: string;
  readonly svg: string;
  readonly caption: string;
}

export type Part = { readonly table: Table } | { readonly chart: Chart };

export interface Section {
  readonly title: string;
  readonly paragraphs: readonly string[];
  readonly parts: readonly Part[];
}

export const SMALL_NOTE = `* fewer than ${SMALL}: trust the interval, not the share. Intervals: Wilson 1927, 95 %.`;

/** Columns of text, of counts, and of a share with its interval. */
export const text = (name: string, head: string) => ({ name, head, kind: "text" }) as const;
export const whole = (name: string, head: string) => ({ name, head, kind: "count" }) as const;
export const shareColumn = (head: string) => ({ name: "share", head, kind: "share" }) as const;
